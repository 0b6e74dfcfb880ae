//! Replies about acid: what goes into each jar, what was not enough, and jars that are held because of it.

use super::canning::title;
use super::{Facts, Reply, Scene, Words};
use crate::batch::Batch;
use crate::ledger::is_as_published;
use crate::processes::{self, Dose, facts as figures};
use crate::statement::{AcidAdded, AcidMissing};
use crate::vocabulary::{Acid, Stage};

/// Who prints what becomes of jars whose acid was forgotten (`acid_forgotten_noticed_after_processing_within_h`).
const FORGOTTEN_BY: &str = "Iowa State University extension, AnswerLine";
/// Who prints that fresh juice does not count (`acid_fresh_lemon_juice_allowed`).
const FRESH_BY: &str = "Colorado State University extension, 2014";

fn dose(batch: &Batch, acid: Acid) -> Option<Dose> {
    processes::dose(processes::product(batch.product.as_str())?, batch.jar, acid)
}

/// `1 tablespoon bottled lemon juice or 1/4 teaspoon citric acid in each pint (source)`, the acid that was spoken of
/// first.
fn dose_in_each(batch: &Batch, first: Option<Acid>) -> Option<String> {
    let first = first.filter(|acid| dose(batch, *acid).is_some()).unwrap_or(Acid::LemonJuice);
    let other = if first == Acid::CitricAcid { Acid::LemonJuice } else { Acid::CitricAcid };
    let part = |acid: Acid| Some(format!("{} {}", dose(batch, acid)?.text, super::words::supply(acid.supply())));
    let doses: Vec<String> = [first, other].into_iter().filter_map(part).collect();
    let source = dose(batch, first).or_else(|| dose(batch, other))?.source;
    Some(format!("{} in each {} ({source})", doses.join(" or "), batch.jar.spoken(1)))
}

/// How it is told to be in, in the words of the kitchen.
pub(super) fn say(scene: Scene<'_>, batch: &Batch) -> &'static str {
    say_of(batch.acid.unwrap_or_else(|| scene.state.acid_for(&batch.product, batch.jar)))
}

const fn say_of(acid: Acid) -> &'static str {
    match acid {
        Acid::LemonJuice => "lemon juice is in",
        Acid::CitricAcid => "citric acid is in",
        Acid::Vinegar => "vinegar is in",
    }
}

fn facts_of(batch: &Batch, acid: Option<Acid>) -> Facts {
    let mut facts = Facts::default();
    facts.set("acidified", batch.is_acidified());
    if let Some(missing) = batch.acid_missing {
        facts.set("acid_missing_jars", missing);
    }
    if batch.fates.held > 0 {
        facts.set("held", batch.fates.held);
    }
    if let Some(acid) = acid.or(batch.acid) {
        facts.set("acid", acid.as_str());
        if let Some(dose) = dose(batch, acid) {
            match dose.mass {
                Some(mass) => facts.mass("acid_g", mass),
                None => facts.volume("acid_ml", dose.amount),
            };
        }
    }
    facts
}

/// Acid is told to be in: noted, or what it lacks.
pub(super) fn added(scene: Scene<'_>, batch: &Batch, said: &AcidAdded, lost_clock: bool) -> Reply {
    let facts = facts_of(batch, said.supply);
    let which = said.supply.or(batch.acid).map_or("acid", |acid| super::words::supply(acid.supply()));
    if !is_as_published(batch, said) {
        let text =
            format!("{}: {} {}", title(batch), why_not_enough(scene, batch, said), then(scene, batch, said.supply));
        return Reply { text, facts };
    }
    let mut text = format!("{}: {which} is in. Noted.", title(batch));
    if lost_clock {
        text.push_str(&format!(
            " The jars were opened for it, so the full {} counts from when it is at heat again: say so then.",
            super::canning::process(scene, batch)
        ));
    } else if batch.fates.sealed() > 0 && !batch.outs.is_empty() {
        text = format!("{text} {}", super::seals::seals(scene, batch).text);
    }
    Reply { text, facts }
}

/// Why what was told is not enough.
fn why_not_enough(scene: Scene<'_>, batch: &Batch, said: &AcidAdded) -> String {
    let words = Words::of(&scene.state.settings);
    if said.fresh == Some(true) {
        return format!("fresh juice does not count, for its strength varies: bottled only ({FRESH_BY}).");
    }
    let jar = said.jar.unwrap_or(batch.jar);
    let which = said.supply.map_or("acid", |acid| super::words::supply(acid.supply()));
    match (said.each, said.volume) {
        (Some(each), _) => format!("{} {which} a {} is not the published dose.", words.volume(each), jar.spoken(1)),
        (None, Some(all)) => format!(
            "{} {which} is not enough for {}; if it went into each jar, say so ('… in each jar').",
            words.volume(all),
            words.jars(batch.jars(), batch.jar)
        ),
        (None, None) => format!("no dose of {which} is published for {} of it.", batch.jar.spoken(2)),
    }
}

/// Jars are without.
pub(super) fn missing(scene: Scene<'_>, batch: &Batch, said: &AcidMissing) -> Reply {
    let words = Words::of(&scene.state.settings);
    let facts = facts_of(batch, said.supply);
    if !batch.needs_acid {
        let text = format!(
            "{}: no acid goes into each jar of it beyond its recipe. If what the recipe asks for was left out, \
             it is not what was tested: refrigerate or freeze it.",
            title(batch)
        );
        return Reply { text, facts };
    }
    let jars = batch.acid_missing.unwrap_or_else(|| batch.jars());
    let which = match jars == batch.jars() {
        true => words.jars(jars, batch.jar),
        false => format!("{jars} of {}", words.jars(batch.jars(), batch.jar)),
    };
    let text = format!("{}: {which} without acid. {}", title(batch), then(scene, batch, said.supply));
    Reply { text, facts }
}

/// What is to be done with jars that lack acid, where they stand.
fn then(scene: Scene<'_>, batch: &Batch, acid: Option<Acid>) -> String {
    let Some(each) = dose_in_each(batch, acid) else {
        return "No dose is published for that jar: don't can it, refrigerate or freeze it.".to_owned();
    };
    let first = acid.filter(|acid| dose(batch, *acid).is_some()).unwrap_or(Acid::LemonJuice);
    let say = say_of(first);
    match batch.stage(scene.now) {
        Stage::Begun | Stage::Filled | Stage::Venting if batch.outs.is_empty() => format!(
            "Put {each} before the lid goes on, and say '{say}' then. \
             Without it don't can them: refrigerate or freeze."
        ),
        Stage::Processing | Stage::Done => format!(
            "Turn the heat off, open the jars and put {each}; with a clean rim and a new lid they need the full {} \
             again. Say '{say}' then. Without it these jars are not for the shelf.",
            super::canning::process(scene, batch)
        ),
        _ => make_good(scene, batch, &each),
    }
}

/// What becomes of jars that were processed without acid: within 2 hours they may be made good, later the food is
/// thrown away (Iowa State University extension, AnswerLine; `acid_forgotten_noticed_after_processing_within_h`).
fn make_good(scene: Scene<'_>, batch: &Batch, each: &str) -> String {
    let words = Words::of(&scene.state.settings);
    let hours = figures::ACID_FORGOTTEN_WITHIN.value.num_hours();
    match batch.acid_until() {
        Some(until) if scene.now > until => format!(
            "A seal proves nothing. The {hours} hours for doing it again ended at {}: throw the food away untasted; \
             only what was refrigerated before that may be used ({FORGOTTEN_BY}).",
            words.moment(until, scene.now)
        ),
        Some(until) => format!(
            "A seal proves nothing. Until {} refrigerate or use it, or empty, reheat and do it again: put {each}, \
             a new lid and the full time. Later it must be thrown away ({FORGOTTEN_BY}: {hours} hours).",
            words.moment(until, scene.now)
        ),
        None => format!("Put {each}, a new lid, and process for the full time again."),
    }
}

/// Sealed jars that are held: the question, and what to do where the answer is no.
pub(super) fn held(scene: Scene<'_>, batch: &Batch) -> String {
    let Some(each) = dose_in_each(batch, batch.acid) else { return String::new() };
    let say = say(scene, batch).replace(" is ", " was ");
    match batch.acid_missing {
        Some(missing) if missing < batch.jars() => format!(
            " I was told that {missing} of them lack acid, so none is on the shelf yet. {} \
             When those {missing} are out of the way ('put {missing} in the fridge'), say '{say}'.",
            make_good(scene, batch, &each)
        ),
        Some(_) => format!(" I was told that they lack acid. {}", make_good(scene, batch, &each)),
        None => format!(
            " Was the acid in? Nobody said so, and without it they are not for the shelf. \
             If it was, say '{say}'. If not: {}",
            lower(&make_good(scene, batch, &each))
        ),
    }
}

/// Jars that go through again without their acid having been told: what goes into them this time.
pub(super) fn again(scene: Scene<'_>, batch: &Batch) -> String {
    match dose_in_each(batch, batch.acid).filter(|_| !batch.is_acidified()) {
        Some(each) => format!(" First put {each}, and say '{}' then.", say(scene, batch)),
        None => String::new(),
    }
}

/// A sentence that goes on behind a colon.
fn lower(sentence: &str) -> String {
    let mut letters = sentence.chars();
    letters.next().map_or_else(String::new, |first| first.to_lowercase().chain(letters).collect())
}

/// Whether it is in, from what was told.
pub(super) fn whether_in(scene: Scene<'_>, batch: Option<&Batch>) -> Reply {
    let Some(batch) = batch else {
        return Reply { text: "No batch is open, so I know of no acid.".to_owned(), facts: Facts::default() };
    };
    let facts = facts_of(batch, batch.acid);
    let name = title(batch);
    if !batch.needs_acid {
        return Reply { text: format!("{name}: no acid goes into each jar of it beyond its recipe."), facts };
    }
    let text = match (batch.acid_in, batch.acid_missing) {
        (true, _) => {
            let which = batch.acid.map_or("acid", |acid| super::words::supply(acid.supply()));
            format!("{name}: yes, {which} was told to be in.")
        }
        (false, Some(missing)) => {
            format!("{name}: no, {missing} jars were said to be without. {}", then(scene, batch, batch.acid))
        }
        (false, None) => format!(
            "{name}: not that I know; nobody said so. {} Say '{}' when it is.",
            dose_in_each(batch, batch.acid).map_or_else(String::new, |each| format!("It takes {each}.")),
            say(scene, batch)
        ),
    };
    Reply { text, facts }
}

#[cfg(test)]
mod tests {
    use crate::processes::facts;

    /// The publishers named are those of the rows.
    #[test]
    fn who_is_named_printed_it() {
        assert!(facts::ACID_FORGOTTEN_WITHIN.source().starts_with("Iowa State extension AnswerLine"));
    }
}
