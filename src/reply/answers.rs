//! Answers to questions.

use super::garden::closeness;
use super::{Facts, Reply, Scene, Words, handbook, stocks};
use crate::batch::{Batch, Stage};
use crate::enclosure::Enclosure;
use crate::ledger::{Ledger, Refusal, made};
use crate::planning::{load_state, target};
use crate::statement::Ask;
use crate::vocabulary::{Stock, Subject};

/// The answer to a question.
///
/// # Errors
/// When what is asked has no answer for a reason that is said as a problem: no tested process, a name that means
/// several products.
pub fn answer(scene: Scene<'_>, ledger: &Ledger, ask: &Ask) -> Result<Reply, Refusal> {
    Ok(match ask.about {
        Subject::Freezer => stocks::freezer(scene, ask.crop),
        Subject::Counter => stocks::counter(scene, ask.crop),
        Subject::Pantry => stocks::shelf_of(scene, Stock::Pantry, ask.product.as_ref()),
        Subject::Fridge => stocks::shelf_of(scene, Stock::Fridge, ask.product.as_ref()),
        Subject::Supplies => stocks::supplies(scene),
        Subject::Totals => super::log::totals(scene, ledger, ask),
        Subject::Log | Subject::Next if ask.batch.is_some() => super::batches::account(scene, ask),
        Subject::Log => super::log::log(scene, ledger, ask),
        Subject::Load => load(scene, ask)?,
        Subject::Forecast => forecast(scene, ask)?,
        Subject::Timer => timer(scene, ask),
        Subject::Next => next(scene),
        Subject::Process => handbook::process(scene, ask)?,
        Subject::Acid => handbook::acid(scene, ask)?,
        Subject::AcidIn => super::acid::whether_in(scene, meant(scene, ask).first().copied()),
        Subject::Chart | Subject::Labels | Subject::Calendar | Subject::Table => answer_with(scene, ledger, ask)?.0,
        Subject::Day if scene.state.open_batches().next().is_some() => super::day::day(scene),
        Subject::Day => super::plans::still_set(scene).unwrap_or_else(|| next(scene)),
        Subject::Yield => super::yields::answer(scene, ask)?,
        Subject::Planting => super::planting::planting(scene),
        Subject::Help => super::help::help(),
        Subject::Thawing => super::thawing::thawing(scene, ask.crop),
        Subject::Ill => super::safety::ill(),
        Subject::Safety => super::safety::answer(scene, ask),
    })
}

/// The answer to a question, with what goes with it as files.
///
/// # Errors
/// As [`answer`].
pub fn answer_with(scene: Scene<'_>, ledger: &Ledger, ask: &Ask) -> Result<(Reply, Vec<Enclosure>), Refusal> {
    match ask.about {
        Subject::Chart => Ok(super::pictures::chart(scene, ledger, ask)),
        Subject::Labels => super::papers::labels(scene, ledger, ask),
        Subject::Calendar => Ok(super::papers::calendar(scene)),
        Subject::Table => Ok(super::papers::table(ask)),
        _ => answer(scene, ledger, ask).map(|answer| (answer, Vec::new())),
    }
}

fn load(scene: Scene<'_>, ask: &Ask) -> Result<Reply, Refusal> {
    let (state, words) = (scene.state, Words::of(&scene.state.settings));
    let mut facts = Facts::default();
    let Some(target) = target(state, ask.product.as_ref(), ask.jar) else {
        // A name that means nothing, or several things, is said so; otherwise it is the weight that is missing.
        let product = made(state, ask.product.as_ref())?.product();
        let text =
            format!("No load weight is published for {}; 'recipe' lets you tell me yours.", words.product(&product));
        return Ok(Reply { text, facts });
    };
    let load = load_state(state, target);
    facts.load(&load);
    let freezer = super::garden::freezer_holds(scene, load.target.crop);
    let mut text = format!("Freezer {freezer}. {}", closeness(scene, &load));
    if load.target.scaled {
        text.push_str(" (Scaled by volume from the published load.)");
    }
    Ok(Reply { text, facts })
}

/// How close it is, and the days on which it may be there.
fn forecast(scene: Scene<'_>, ask: &Ask) -> Result<Reply, Refusal> {
    let mut reply = load(scene, ask)?;
    if let Some(target) = target(scene.state, ask.product.as_ref(), ask.jar) {
        let outlook = super::forecast::outlook(scene, &load_state(scene.state, target));
        if !outlook.text.is_empty() {
            reply.text.push('\n');
            reply.text.push_str(outlook.text.trim_start());
        }
        reply.facts.merge(outlook.facts);
    }
    Ok(reply)
}

/// The batches a question is about, the most recent first.
pub(super) fn meant<'a>(scene: Scene<'a>, ask: &Ask) -> Vec<&'a Batch> {
    let named = |batch: &&Batch| {
        ask.batch.as_ref().is_none_or(|name| batch.is_called(name))
            && ask.product.as_ref().is_none_or(|product| batch.is_called(product.as_str()))
    };
    let all: Vec<_> = scene.state.open_batches().rev().collect();
    let some: Vec<_> = all.iter().copied().filter(named).collect();
    if some.is_empty() { all } else { some }
}

fn timer(scene: Scene<'_>, ask: &Ask) -> Reply {
    let (state, words, now) = (scene.state, Words::of(&scene.state.settings), scene.now);
    let mut facts = Facts::default();
    let mut lines = Vec::new();
    let mut batches = meant(scene, ask);
    // What runs comes before what waits.
    batches.sort_by_key(|batch| batch.ends_at(now).is_none_or(|ends| ends <= now));
    let running: Vec<_> = state.timers.iter().filter(|timer| timer.ends > now).collect();
    if let Some(first) = batches.first() {
        facts.timing(&first.timing).stage(first, state, now).jars(first.jars(), first.jar);
    } else if let Some(first) = running.iter().min_by_key(|timer| timer.ends) {
        facts.time("ends_at", first.ends, state).set("left_s", (first.ends - now).num_seconds());
        facts.set("label", first.label.clone().unwrap_or_default());
    }
    lines.extend(batches.iter().map(|batch| clock_line(scene, batch)));
    for timer in running {
        let label = timer.label.as_ref().map(|label| format!(" '{label}'")).unwrap_or_default();
        let left = words.stretch(timer.ends - now);
        lines.push(format!("Timer{label}: {left} left, until {}.", words.moment(timer.ends, now)));
    }
    if lines.is_empty() {
        lines.push("No clock is running and no batch is open.".to_owned());
    }
    Reply { text: lines.join("\n"), facts }
}

/// What is left of a batch's clock, and what comes next.
pub(super) fn clock_line(scene: Scene<'_>, batch: &Batch) -> String {
    let (words, now) = (Words::of(&scene.state.settings), scene.now);
    let stage = batch.stage(now);
    let next = super::canning::next_step(words, batch, stage, scene.now);
    let name = &batch.name;
    match (stage, batch.ends_at(now)) {
        (Stage::Processing, Some(ends)) => {
            format!(
                "'{name}': {} left, until {}. Then {}.",
                words.stretch(ends - now),
                words.moment(ends, now),
                Stage::Done.next_step(false)
            )
        }
        (Stage::Done, Some(ends)) => {
            let over = words.stretch(now - ends);
            format!("'{name}': the minutes were up at {}, {over} ago. Next: {next}.", words.moment(ends, now))
        }
        (Stage::Resting, Some(ends)) => {
            format!(
                "'{name}': {} of rest left, until {}. Then {next}.",
                words.stretch(ends - now),
                words.moment(ends, now)
            )
        }
        (Stage::Cooling, _) => {
            let clocks = batch.clocks(scene.state.settings.zone);
            let due = clocks
                .iter()
                .find(|(_, at)| *at > now)
                .map(|(_, at)| format!(" I'll ask about the seals at {}.", words.moment(*at, now)));
            format!("'{name}': cooling; {next}.{}", due.unwrap_or_default())
        }
        (Stage::Filled, _) if batch.restarted => {
            format!("'{name}': heat lost, and the full time counts when it is back. Next: {next}.")
        }
        // How long it will be is what is asked, and it is known.
        (Stage::Begun | Stage::Filled | Stage::Venting, _) if batch.timing.minutes.is_some() => {
            let once = if batch.canner.is_pressure() { "pressure" } else { "heat" };
            let time = super::canning::process(scene, batch);
            format!("'{name}': {stage}. It takes {time}, counted from {once}. Next: {next}.")
        }
        (stage, _) => format!("'{name}': {stage}. Next: {next}."),
    }
}

fn next(scene: Scene<'_>) -> Reply {
    let (state, now) = (scene.state, scene.now);
    if let Some(batch) = state.open_batches().next_back() {
        let mut facts = Facts::default();
        facts.timing(&batch.timing).stage(batch, state, now);
        let lines: Vec<_> = state.open_batches().rev().map(|batch| clock_line(scene, batch)).collect();
        return Reply { text: lines.join("\n"), facts };
    }
    super::digest::next(scene)
}
