//! Problems: one sentence that says what was wrong, and the safe way out.

use super::{Facts, Reply, Scene, Words, capitalised};
use crate::batch::Misfit;
use crate::ledger::{Amount, Refusal, Shortage};
use crate::processes::{self, Untested};
use crate::statement::When;
use crate::vocabulary::{CannerKind, Crop, Jar, Product, Stage};

/// The topic of a refusal, as the contract names it, and its words.
pub fn refusal(scene: Scene<'_>, refusal: &Refusal) -> (&'static str, Reply) {
    let words = Words::of(&scene.state.settings);
    match refusal {
        Refusal::NotEnough(short) => ("not-enough", not_enough(scene, short)),
        Refusal::NoBatch(None) => ("no-batch", text("No batch is open. Start one, as 'starting sauce in quarts'.")),
        Refusal::NoBatch(Some(product)) => {
            let name = words.product(product);
            ("no-batch", text(format!("No batch of {name} is open. Start one, as 'starting {name} in quarts'.")))
        }
        Refusal::NoSuchBatch(name, open) => {
            ("no-batch", text(format!("No batch called '{}' is open; open is {}.", words.quote(name), quoted(open))))
        }
        Refusal::NameTaken(name) => (
            "clarify",
            text(format!("Another open batch answers to '{}'; what else is it to be called?", words.quote(name))),
        ),
        Refusal::OwnRecipe(product) => {
            let mut facts = Facts::default();
            facts.set("tested", false);
            let text = format!(
                "'{}' is your own recipe and has no tested process, so I give no time and open no batch: \
                 freeze or refrigerate it, or can a tested recipe ('put up 4 pints of {}' keeps count of it).",
                product, product
            );
            ("not-tested", Reply { text, facts })
        }
        Refusal::WhichBatch(names) => ("clarify", text(format!("Which batch: {}?", or_list(names)))),
        Refusal::Misfit { batch, stage, pressure, misfit } => misfits(scene, batch, *stage, *pressure, *misfit),
        Refusal::LowPressure { batch, needed } => {
            let mut low = text(format!(
                "'{batch}' needs at least {} psi here, so no clock was started. Say so when it is there.",
                super::words::plain(*needed, 1)
            ));
            low.facts.set("psi", *needed);
            ("out-of-range", low)
        }
        Refusal::Process { product, jar, canner, why } => process(scene, product, *jar, *canner, why),
        Refusal::UnknownProduct(product) => (
            "unknown-product",
            text(format!(
                "I know no tested process for '{}', so I give no time: freeze or refrigerate it, \
                 or tell me your own recipe to keep count of, as 'recipe {} takes 6 lb makes 4 pints'.",
                words.quote(product.as_str()),
                words.quote(product.as_str())
            )),
        ),
        Refusal::WhichProduct(name, products) => {
            let names: Vec<_> = products.iter().map(|product| words.product(product)).collect();
            let question = match processes::family_question(name.as_str()) {
                Some(question) => question.to_owned(),
                None => format!("Which {name}: {}, or a recipe of your own?", names.join(", ")),
            };
            ("clarify", text(question))
        }
        Refusal::WhichJar(product, jars) => {
            let sizes: Vec<_> = jars.iter().map(|jar| jar.spoken(2).to_owned()).collect();
            ("clarify", text(format!("{} in which jars: {}?", capitalised(&words.product(product)), or_list(&sizes))))
        }
        Refusal::WhichGauge => {
            ("clarify", text("Has the pressure canner a dial gauge or a weighted gauge, as the pressures differ?"))
        }
        Refusal::Future(when) => {
            let when = match when {
                When::Day(day) => words.day(*day),
                When::At(at) => words.moment(at.to_utc(), scene.now),
            };
            ("out-of-range", text(format!("{when} hasn't come yet. When was it?")))
        }
        Refusal::Absurd(sentence) => ("out-of-range", text(capitalised(sentence))),
    }
}

fn text(text: impl Into<String>) -> Reply {
    Reply { text: text.into(), facts: Facts::default() }
}

/// `'a' and 'b'`.
fn quoted(names: &[String]) -> String {
    names.iter().map(|name| format!("'{name}'")).collect::<Vec<_>>().join(" and ")
}

/// `a, b or c`.
fn or_list(names: &[String]) -> String {
    match names {
        [] => String::new(),
        [one] => one.clone(),
        [first @ .., last] => format!("{} or {last}", first.join(", ")),
    }
}

fn not_enough(scene: Scene<'_>, short: &Shortage) -> Reply {
    let (state, words) = (scene.state, Words::of(&scene.state.settings));
    let mut facts = Facts::default();
    match short.place {
        "freezer" => facts.freezer(state, Crop::Tomato),
        "pantry" => facts.pantry(state),
        "fridge" => facts.set("fridge_jars", state.fridge.jars(None, None)),
        _ => &mut facts,
    };
    if short.place == "dryer" && matches!(short.there, Amount::Mass(there, _) if there.is_zero()) {
        return text(
            "There is nothing of that in the dryer by my count; nothing changed. \
             Say 'drying 6 lb of slices' when it goes in.",
        );
    }
    let place = match short.place {
        "fridge" => "refrigerator",
        "thawing" => "thawed fruit",
        place => place,
    };
    let text = format!(
        "There isn't that much: the {place} has {}, not {}. Nothing changed; if I'm wrong, tell me what you count.",
        words.amount(&short.there),
        words.amount(&short.wanted)
    );
    Reply { text, facts }
}

fn misfits(scene: Scene<'_>, batch: &str, stage: Stage, pressure: bool, misfit: Misfit) -> (&'static str, Reply) {
    let words = Words::of(&scene.state.settings);
    let topic = if misfit.is_too_soon(stage) { "too-soon" } else { "out-of-range" };
    let known = scene.state.batches.iter().rfind(|known| known.name == batch);
    let next = known.map_or_else(
        || stage.next_step(pressure).to_owned(),
        |known| super::canning::next_step(words, known, known.stage(scene.now), scene.now),
    );
    let mut facts = Facts::default();
    facts.set("stage", stage.as_str()).set("label", batch);
    let lost = super::canner::lost(pressure);
    let text = match misfit {
        Misfit::TooSoon { ends } => {
            facts.time("ends_at", ends, scene.state).set("left_s", (ends - scene.now).num_seconds().max(0));
            let left = words.stretch(ends - scene.now);
            format!("'{batch}' still has {left} to go, until {}. Nothing changed.", words.moment(ends, scene.now))
        }
        Misfit::Unvented { until } => {
            facts.time("ends_at", until, scene.state).set("left_s", (until - scene.now).num_seconds().max(0));
            format!(
                "Steam must flow from the vent for 10 min before the weight goes on, at the earliest until {}, \
                 so '{batch}' has no clock yet. If the weight is on already, take it off with care, \
                 let steam flow for 10 min again, and say 'venting' when it does; then tell me the pressure.",
                words.moment(until, scene.now)
            )
        }
        Misfit::UnderPressure { until } => {
            let wait = match until {
                Some(until) => {
                    facts.time("ends_at", until, scene.state).set("left_s", (until - scene.now).num_seconds().max(0));
                    format!(
                        "Leave the lid on until {}, 10 min after the pressure was down",
                        words.moment(until, scene.now)
                    )
                }
                None => "Let the pressure come down by itself, say 'pressure's down' at zero, \
                     and leave the lid on for 10 min more"
                    .to_owned(),
            };
            format!(
                "Don't open the canner of '{batch}': under pressure, steam and boiling food burn you and jars burst. \
                 {wait}. Nothing changed."
            )
        }
        Misfit::NoSuchRound { said, out } => {
            let all = known.map_or(1, crate::batch::Batch::rounds);
            match out {
                _ if all == 1 => format!("'{batch}' has one round only, so there is no round {said}. Nothing changed."),
                0 => format!("No round of '{batch}' is out yet. Nothing changed."),
                1 => format!("Of '{batch}' round 1 alone is out, and not round {said}. Nothing changed."),
                _ => format!("Of '{batch}' {out} rounds are out, and not round {said}. Nothing changed."),
            }
        }
        Misfit::OutOfOrder(Stage::Processing) if known.is_some_and(|known| known.fill_untold) => format!(
            "'{batch}' is on the clock already, with its jars taken to be in the canner; \
             if they went in only now, say '{lost}', and start its clock again when it is at heat with them."
        ),
        Misfit::OutOfOrder(Stage::Done) => {
            format!("The minutes of '{batch}' are up already, so that changes nothing; next: {next}.")
        }
        Misfit::OutOfOrder(stage) => format!("'{batch}' stands at '{stage}', where that doesn't fit; next: {next}."),
        Misfit::Running { since } => format!(
            "The clock of '{batch}' has been running since {}. If the heat was lost, say '{lost}' first.",
            words.moment(since, scene.now)
        ),
        Misfit::TooMany { said, there } => format!("'{batch}' has {there} jars for that, not {said}. How many was it?"),
        Misfit::TooLate { until } => {
            facts.time("due_at", until, scene.state);
            format!(
                "The 24 hours of '{batch}' ended at {}: too late to reprocess, so {}.",
                words.moment(until, scene.now),
                super::seals::LATE
            )
        }
        Misfit::Filled { jars } => {
            facts.set("jars", jars);
            format!(
                "'{batch}' has {jars} jars filled already. If that is not right, say how many in all, \
                 as 'make that {}'.",
                jars - 1
            )
        }
        Misfit::Stopped { since } => {
            format!("'{batch}' was set aside at {} already; next: {next}.", words.moment(since, scene.now))
        }
        Misfit::NotStopped => format!("'{batch}' was not set aside; next: {next}."),
        Misfit::Again => format!(
            "That jar of '{batch}' went through twice already: \
             refrigerate it and use it within several days, or freeze it."
        ),
        Misfit::Stood { until, jars } => {
            facts.time("due_at", until, scene.state).set("jars", jars);
            known.map_or_else(String::new, |known| super::mishaps::stood(scene, known, until))
        }
        Misfit::Doubtful => known
            .map_or_else(String::new, |known| format!("Not shelved yet. {}", super::mishaps::question(scene, known))),
        Misfit::GaugeUnread => {
            let needed = known.and_then(|known| known.needed_on_gauge());
            let needed = needed.map_or_else(String::new, |needed| super::words::plain(needed.as_psi(), 1));
            format!(
                "What does the gauge of '{batch}' show? Boiling says nothing of pressure, so no clock was started: \
                 when it is there, say 'at {needed} pounds'."
            )
        }
        Misfit::VentFirst => format!(
            "'{batch}' has to vent first: take it down by itself, let steam flow from the vent for 10 min, and say \
             'venting' when it does. No clock was started."
        ),
        Misfit::GaugeOff => known.map_or_else(String::new, super::mishaps::gauge_off),
        Misfit::NotAcidified => {
            let say =
                known.map_or("lemon juice is in", |known| super::acid::say(scene, known)).replace(" is ", " was ");
            facts.set("acidified", false);
            format!(
                "Was the acid in the jars of '{batch}' that went through again? Nobody said so, and without it \
                 they are not for the shelf. If it was, say '{say}', and tell the seals again."
            )
        }
        Misfit::AcidTooLate { until } => {
            facts.time("due_at", until, scene.state).set("acidified", false);
            let untold = known.filter(|known| known.acid_missing.is_none()).map(|known| super::acid::say(scene, known));
            let asked = untold.map_or_else(String::new, |say| {
                let say = say.replace(" is ", " was ");
                format!("Was the acid in? If it was, say '{say}', and tell this again. If not: ")
            });
            format!(
                "{asked}The 2 hours in which jars of '{batch}' without acid can be done again ended at {}: \
                 throw the food away untasted, or use what was refrigerated before that \
                 (Iowa State University extension, AnswerLine).",
                words.moment(until, scene.now)
            )
        }
        Misfit::AcidDisputed => {
            facts.set("acidified", false);
            format!(
                "I was told before that acid was missing in '{batch}' when it was processed, so its jars stay off the \
                 shelf. If that was a mistake, take that message back ('undo' as a reply to it)."
            )
        }
        Misfit::Unprocessed => format!(
            "The jars of '{batch}' have not had their full time in the canner, \
             so they are not safe to shelve whatever their lids do; next: {next}."
        ),
        Misfit::NoPressure => format!("'{batch}' is not in a pressure canner. Next: {next}."),
    };
    (topic, Reply { text, facts })
}

/// The gauge fell short while the clock ran: the entry stands, and this is what it means.
pub(crate) fn too_low(scene: Scene<'_>, batch: &crate::batch::Batch) -> Reply {
    let mut facts = Facts::default();
    facts.timing(&batch.timing).stage(batch, scene.state, scene.now);
    let needed = batch.needed_on_gauge().map(|needed| super::words::plain(needed.as_psi(), 1)).unwrap_or_default();
    let text = format!(
        "That is too little for '{}': it needs at least {needed} psi for the whole time, so its clock is stopped. \
         Bring it back to {needed} psi, with steam from the vent for 10 minutes first if it fell to zero, and say so; \
         the full {} counts from then{}.",
        batch.name,
        super::canning::process(scene, batch),
        super::mishaps::by(scene, batch, &mut facts)
    );
    Reply { text, facts }
}

/// The heat went off before the minutes were up: the entry stands, and this is what it means.
pub(crate) fn too_soon(scene: Scene<'_>, batch: &crate::batch::Batch) -> Reply {
    let mut facts = Facts::default();
    facts.timing(&batch.timing).stage(batch, scene.state, scene.now);
    let text = match batch.timing.minutes {
        Some(minutes) => format!(
            "That was too soon for '{}': the {minutes} minutes were not up, so the jars are not safe to shelve. \
             Bring the canner back to heat and process them again for the full {minutes} minutes; \
             say so when it is there{}.",
            batch.name,
            super::mishaps::by(scene, batch, &mut facts)
        ),
        None => format!(
            "'{}' has no process time any more since a setting was changed, so its jars are not safe to shelve. \
             Set it right, bring the canner back to heat, and say so; the full time counts from then.",
            batch.name
        ),
    };
    Reply { text, facts }
}

fn process(
    scene: Scene<'_>,
    product: &Product,
    jar: Jar,
    canner: CannerKind,
    why: &processes::Refusal,
) -> (&'static str, Reply) {
    let words = Words::of(&scene.state.settings);
    let (name, jars) = (words.product(product), jar.spoken(2));
    let mut facts = Facts::default();
    facts.set("tested", false).set("jar", jar.as_str());
    let (topic, text) = match why {
        processes::Refusal::UnknownProduct => (
            "not-tested",
            format!(
                "'{name}' has no tested process, so I give no time: freeze or refrigerate it, or can a tested recipe."
            ),
        ),
        processes::Refusal::WhichProduct(several) => {
            let names: Vec<_> = several.iter().map(|info| info.spoken.to_owned()).collect();
            ("clarify", format!("Which {name}: {}?", or_list(&names)))
        }
        processes::Refusal::NotTested(untested) => {
            let mut text = not_tested(&name, jars, canner, untested);
            if jar == Jar::L1 && matches!(untested, Untested::Jar { .. }) {
                text = text.trim_end_matches('.').to_owned()
                    + " (a litre is larger than a quart, and nothing is published for it).";
            }
            ("not-tested", text)
        }
        processes::Refusal::Unverified { source } => {
            facts.set("source", *source);
            (
                "not-tested",
                format!(
                    "The table for {name} in {jars} isn't verified here, so I give no time: \
                     look in {source}, or freeze or refrigerate it."
                ),
            )
        }
        processes::Refusal::WrongCanner => (
            "wrong-canner",
            format!(
                "{}: low-acid food is not safe in a {}, so use a pressure canner, or freeze it.",
                capitalised(&name),
                canner.spoken()
            ),
        ),
        processes::Refusal::WhichPack { hot, raw } => {
            let pack = |name: &str, minutes: &Option<u32>| minutes.map(|minutes| format!("{name} ({minutes} min)"));
            let none =
                |minutes: &Option<u32>, name| minutes.is_none().then(|| format!("{name} pack has no tested time"));
            let packs: Vec<_> = [pack("hot pack", hot), pack("raw pack", raw)].into_iter().flatten().collect();
            let without = none(hot, "hot").or_else(|| none(raw, "raw"));
            let why = without.unwrap_or_else(|| "the times differ".to_owned());
            ("clarify", format!("{} in which pack, as {why}: {}?", capitalised(&name), or_list(&packs)))
        }
        processes::Refusal::TooLongForSteam { minutes, smaller_jar } => {
            facts.0.remove("tested");
            facts.set("minutes", *minutes);
            let smaller = smaller_jar.map(|jar| format!("use {}, or ", jar.spoken(2))).unwrap_or_default();
            (
                "too-long-for-steam",
                format!(
                    "{} in {jars} takes {minutes} min here, and a steam canner may run no more than 45: \
                     {smaller}use a boiling-water canner.",
                    capitalised(&name)
                ),
            )
        }
        processes::Refusal::AltitudeUnknown => {
            facts.0.remove("tested");
            ("clarify", "What is your altitude, on which process times depend ('2400 ft' or '730 m')?".to_owned())
        }
        processes::Refusal::AltitudeOutOfRange => (
            "out-of-range",
            "Your altitude is outside what the tables know; set it again, as 'altitude 2400 ft'.".to_owned(),
        ),
        processes::Refusal::PressureTooLow { need } => {
            ("out-of-range", format!("That needs at least {} psi here.", super::words::plain(need.as_psi(), 1)))
        }
    };
    (topic, Reply { text, facts })
}

fn not_tested(name: &str, jars: &str, canner: CannerKind, untested: &Untested) -> String {
    let spoken = |list: &[Jar]| or_list(&list.iter().map(|jar| jar.spoken(2).to_owned()).collect::<Vec<_>>());
    let instead = match untested {
        Untested::Canner { tested } if !tested.is_empty() => {
            format!(
                "tested is the {}",
                or_list(&tested.iter().map(|canner| canner.spoken().to_owned()).collect::<Vec<_>>())
            )
        }
        Untested::Jar { tested } if !tested.is_empty() => format!("tested are {}", spoken(tested)),
        Untested::Pack { tested } if !tested.is_empty() => {
            format!("tested is {} pack", or_list(&tested.iter().map(|pack| pack.to_string()).collect::<Vec<_>>()))
        }
        Untested::JarForSteam => "use a boiling-water canner, or quarts".to_owned(),
        Untested::Altitude if canner == CannerKind::PressureDial => {
            "a dial gauge is tested up to 8,000 ft only; use a weighted gauge".to_owned()
        }
        Untested::Altitude => "its table does not reach your altitude".to_owned(),
        _ => {
            return format!(
                "There is no tested process for {name} in {jars} in a {}, so I give no time: freeze or refrigerate it.",
                canner.spoken()
            );
        }
    };
    format!(
        "There is no tested process for {name} in {jars} in a {}, so I give no time: {instead}; \
         otherwise freeze or refrigerate it.",
        canner.spoken()
    )
}
