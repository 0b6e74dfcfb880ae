//! Looking back: the last entries, and sums over a stretch of days.

use super::{Facts, Reply, Scene, Words, stocks};
use crate::ledger::{Entry, Ledger, Mode, apply, state::State};
use crate::quantity::Mass;
use crate::statement::{Ask, Statement, When};

/// How many entries a log shows at most: what fits a phone.
const SHOWN: usize = 10;

/// The entries of the days asked about, the latest first. Entries are in order of time, so this stops where they begin.
fn within<'a>(scene: Scene<'a>, ledger: &'a Ledger, ask: &'a Ask) -> impl Iterator<Item = (&'a Entry, Mass)> {
    let day = move |entry: &Entry| scene.state.settings.zone.day(entry.happened);
    ledger
        .logged()
        .rev()
        .skip_while(move |(entry, _)| ask.until.is_some_and(|until| day(entry) > until))
        .take_while(move |(entry, _)| ask.since.is_none_or(|since| day(entry) >= since))
}

/// The latest entries, the latest last.
pub(super) fn log(scene: Scene<'_>, ledger: &Ledger, ask: &Ask) -> Reply {
    let words = Words::of(&scene.state.settings);
    let mut entries: Vec<(&Entry, Mass)> = within(scene, ledger, ask).take(SHOWN + 1).collect();
    let more = entries.len() > SHOWN;
    entries.truncate(SHOWN);
    let line = |(entry, implied): &(&Entry, Mass)| {
        let unlogged = if implied.is_zero() {
            String::new()
        } else {
            format!(", {} of it counted as picked that day", words.mass(*implied))
        };
        let when = when(scene, entry);
        format!("{when}: {} ({}{unlogged})", words.quote(&entry.words), speaker(&entry.who))
    };
    // Statements of one message share its words.
    let mut lines: Vec<String> = entries.iter().rev().map(line).collect();
    lines.dedup();
    if more {
        lines.insert(0, "(and earlier ones)".to_owned());
    }
    let text = if lines.is_empty() { "Nothing entered then.".to_owned() } else { lines.join("\n") };
    Reply { text, facts: Facts::default() }
}

/// When it happened: to the minute, but for a day of which no time was said.
fn when(scene: Scene<'_>, entry: &Entry) -> String {
    let (words, zone) = (Words::of(&scene.state.settings), scene.state.settings.zone);
    match entry.statement.on() {
        Some(When::Day(day)) if day != zone.day(entry.said) => words.day_from(day, zone.day(scene.now)),
        _ => words.moment(entry.happened, scene.now),
    }
}

/// A person as the room calls them: the local part of a Matrix id.
fn speaker(who: &str) -> &str {
    who.strip_prefix('@').and_then(|id| id.split(':').next()).unwrap_or(who)
}

/// The sums of the year, or of the stretch of days that was asked for.
pub(super) fn totals(scene: Scene<'_>, ledger: &Ledger, ask: &Ask) -> Reply {
    let (None, None, None) = (ask.since, ask.until, ask.crop) else {
        return stretch(scene, ledger, ask);
    };
    stocks::totals(scene)
}

fn stretch(scene: Scene<'_>, ledger: &Ledger, ask: &Ask) -> Reply {
    let words = Words::of(&scene.state.settings);
    let mut sums = Sums::default();
    for (entry, implied) in within(scene, ledger, ask) {
        sums.picked += if ask.crop.is_none() { implied } else { Mass::ZERO };
        sums.add(entry, ask);
    }
    let span = match (ask.since, ask.until) {
        (Some(since), Some(until)) if since == until => words.day(since),
        (Some(since), Some(until)) => format!("{} to {}", words.day(since), words.day(until)),
        (Some(since), None) => format!("Since {}", words.day(since)),
        (None, Some(until)) => format!("Until {}", words.day(until)),
        (None, None) => "So far".to_owned(),
    };
    let crop = ask.crop.map(|crop| format!(" of {}", super::words::plural(crop))).unwrap_or_default();
    let text = format!(
        "{span}{crop}: picked {}, frozen {}, {} jars put up.",
        words.mass(sums.picked),
        words.mass(sums.frozen),
        sums.jars
    );
    let mut facts = Facts::default();
    facts.mass("picked_g", sums.picked).set("jars", sums.jars);
    Reply { text, facts }
}

#[derive(Default)]
struct Sums {
    picked: Mass,
    frozen: Mass,
    jars: u32,
}

impl Sums {
    fn add(&mut self, entry: &Entry, ask: &Ask) {
        let is_meant = |crop: Option<crate::vocabulary::Crop>| {
            ask.crop.is_none_or(|asked| crop.unwrap_or(crate::vocabulary::Crop::Tomato) == asked)
        };
        match &entry.statement {
            Statement::Picked(said) if is_meant(said.crop) => self.picked += said.mass.unwrap_or_default(),
            Statement::Froze(said) if is_meant(said.crop) => self.frozen += frozen(entry),
            Statement::Sealed(said) => self.jars += said.jars.unwrap_or(0),
            Statement::PutUp(said) => self.jars += said.jars.unwrap_or(0),
            _ => {}
        }
    }
}

/// What an entry put into the freezer, by the rules of the ledger itself.
fn frozen(entry: &Entry) -> Mass {
    apply(&mut State::default(), entry, Mode::Fold).moved
}
