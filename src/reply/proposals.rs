//! What may have been meant, put to the household in one short line; what became of it; and words on which a process
//! time would depend.

use super::words::{plain, plural, supply};
use super::{Facts, Reply, Scene, Words, capitalised};
use crate::statement::{Statement, Taken, Teach, When};
use crate::vocabulary::{Crop, Jar, Kind, Product, Taught, Whole};

/// Asks whether something is to be entered.
pub fn proposal(scene: Scene<'_>, statements: &[Statement], said: &str) -> Reply {
    let told: Vec<String> = statements.iter().map(|statement| told(scene, statement)).collect();
    let line = told.join("; ");
    let words = Words::of(&scene.state.settings);
    let line = if line.is_empty() { words.quote(said) } else { capitalised(&line) };
    Reply { text: format!("{line}? ✅ or 'yes'."), facts: Facts::default() }
}

/// What was put to the household is not entered.
pub fn turned_down() -> Reply {
    Reply { text: "Not entered.".to_owned(), facts: Facts::default() }
}

/// A word that the household taught.
pub(super) fn taught(said: &Teach) -> Reply {
    let what = match (&said.name, said.means) {
        (Some(name), Taught::Product | Taught::Crop | Taught::Supply | Taught::Store) => name.replace('-', " "),
        (Some(name), means) => format!("the {means} {name}"),
        (None, means) => format!("a {means}"),
    };
    Reply { text: format!("Noted: '{}' is {what}.", said.word), facts: Facts::default() }
}

/// A word of a start, a question about a process, or of jars for the shelf, that was not understood.
pub fn not_understood_in(about: Kind, word: &str) -> (&'static str, Reply) {
    let short: String = word.split_whitespace().collect::<Vec<_>>().join(" ").chars().take(60).collect();
    let mut facts = Facts::default();
    let (topic, text) = match about {
        Kind::Began | Kind::Ask => {
            facts.set("tested", false);
            let text = format!(
                "I can't place '{short}', and a process holds only for the recipe as tested, so I give none. \
                 Name the tested product alone, as 'starting thick sauce in quarts'; \
                 for anything else ask your extension service."
            );
            ("not-tested", text)
        }
        Kind::PutUp | Kind::Filled => {
            let text = format!(
                "I can't place '{short}', so nothing is counted yet: is it another food? \
                 Say what is in the jars by its own name, and how many."
            );
            ("clarify", text)
        }
        _ => (
            "clarify",
            format!("I can't place '{short}', and times depend on this, so nothing is set: say it again without it."),
        ),
    };
    (topic, Reply { text, facts })
}

/// A statement in a few words, in the household's units: `9 lb of San Marzano picked`.
fn told(scene: Scene<'_>, statement: &Statement) -> String {
    let amount = amount(scene, statement);
    let thing = thing(scene, statement);
    let place = match statement {
        Statement::Picked(said) => said.place.as_ref().map(|place| format!("from {place}")),
        _ => None,
    };
    let day = statement.on().map(|when| day(scene, when));
    let amount = match (amount, thing) {
        (Some(amount), Some(thing)) => Some(format!("{amount} of {thing}")),
        (amount, thing) => amount.or(thing),
    };
    [amount, Some(done(statement).to_owned()), place, day].into_iter().flatten().collect::<Vec<_>>().join(" ")
}

fn day(scene: Scene<'_>, when: When) -> String {
    let words = Words::of(&scene.state.settings);
    let zone = scene.state.settings.zone;
    words.day_from(zone.day(scene.now).min(when.day()).max(when.day()), zone.day(scene.now))
}

fn amount(scene: Scene<'_>, statement: &Statement) -> Option<String> {
    let words = Words::of(&scene.state.settings);
    let bags = |bags: Option<u32>, mass: Option<crate::quantity::Mass>| match (bags, mass) {
        (Some(bags), Some(mass)) => Some(format!("{}, {}", words.mass(mass), words.bags(bags))),
        (bags, mass) => mass.map(|mass| words.mass(mass)).or_else(|| bags.map(|bags| words.bags(bags))),
    };
    let jars = |jars: Option<u32>, jar: Option<Jar>| match (jars, jar) {
        (Some(jars), Some(jar)) => Some(words.jars(jars, jar)),
        (Some(jars), None) => Some(format!("{jars} {}", if jars == 1 { "jar" } else { "jars" })),
        (None, _) => None,
    };
    let part =
        |share: Option<crate::quantity::Number>| share.map(|share| format!("{} %", plain(share.as_f64() * 100.0, 0)));
    match statement {
        Statement::Picked(said) => said.mass.map(|mass| words.mass(mass)),
        Statement::Froze(said) => {
            bags(said.bags, said.mass).or_else(|| jars(said.jars, None)).or_else(|| part(said.share))
        }
        Statement::Thawed(said) => bags(said.bags, said.mass).or_else(|| part(said.share)),
        Statement::Ate(said) | Statement::Gave(said) | Statement::Tossed(said) => {
            if said.of == Some(Whole::Freezer) && said.mass.is_none() {
                return Some("all tomatoes in the freezer".to_owned());
            }
            let Taken { mass, bags: count, jars: glasses, jar, share, .. } = said;
            bags(*count, *mass).or_else(|| jars(*glasses, *jar)).or_else(|| part(*share))
        }
        Statement::Counted(said) => bags(said.bags, said.mass)
            .or_else(|| jars(said.jars, said.jar))
            .or_else(|| said.count.map(|count| count.to_string()))
            .or_else(|| said.volume.map(|volume| words.volume(volume))),
        Statement::Began(said) => jars(said.jars, said.jar).or_else(|| said.mass.map(|mass| words.mass(mass))),
        Statement::Filled(said) => jars(said.jars, said.jar),
        Statement::PutUp(said) | Statement::Opened(said) => jars(said.jars, said.jar),
        Statement::Drained(said) => {
            said.mass.map(|mass| words.mass(mass)).or_else(|| said.volume.map(|volume| words.volume(volume)))
        }
        Statement::CookedDown(said) => {
            said.mass.map(|mass| words.mass(mass)).or_else(|| said.volume.map(|volume| words.volume(volume)))
        }
        Statement::Sealed(said) => said.jars.map(|jars| jars.to_string()),
        Statement::Unsealed(said)
        | Statement::Reprocessed(said)
        | Statement::Refrigerated(said)
        | Statement::Broke(said)
        | Statement::Siphoned(said) => said.jars.map(|jars| jars.to_string()),
        Statement::Lifted(said) => said.jars.map(|jars| jars.to_string()),
        Statement::Dried(said) => said
            .mass
            .map(|mass| words.mass(mass))
            .or_else(|| said.trays.map(|trays| format!("{trays} {}", if trays == 1 { "tray" } else { "trays" }))),
        Statement::Dry(said) => said.mass.map(|mass| words.mass(mass)),
        Statement::Powdered(said) => said.mass.map(|mass| words.mass(mass)),
        Statement::Bought(said) => said
            .count
            .map(|count| count.to_string())
            .or_else(|| said.mass.map(|mass| words.mass(mass)))
            .or_else(|| said.volume.map(|volume| words.volume(volume))),
        Statement::Planted(said) => said.count.map(|count| count.to_string()),
        Statement::TimerStart(said) => {
            said.seconds.map(|seconds| words.stretch(chrono::TimeDelta::seconds(seconds.into())))
        }
        Statement::Correct(said) => said
            .amount
            .map(|amount| plain(amount.as_f64(), 2))
            .or_else(|| bags(said.bags, said.mass))
            .or_else(|| jars(said.jars, said.jar)),
        _ => None,
    }
}

fn thing(scene: Scene<'_>, statement: &Statement) -> Option<String> {
    let words = Words::of(&scene.state.settings);
    let crop = |crop: Option<Crop>| crop.filter(|crop| *crop != Crop::Tomato).map(plural);
    let product = |product: Option<&Product>| product.map(|product| words.product(product));
    match statement {
        Statement::Picked(said) => {
            said.variety.clone().map(|variety| capitalised(&variety)).or_else(|| crop(said.crop))
        }
        Statement::Froze(said) => crop(said.crop),
        Statement::Thawed(said) => crop(said.crop),
        Statement::Counted(said) => said
            .supply
            .map(|known| supply(known).to_owned())
            .or_else(|| product(said.product.as_ref()))
            .or_else(|| crop(said.crop)),
        Statement::Bought(said) => said.supply.map(|known| supply(known).to_owned()),
        Statement::Dried(said) => said.what.clone(),
        Statement::AcidAdded(said) => said.supply.map(|known| supply(known.supply()).to_owned()),
        Statement::Teach(said) => Some(format!("'{}'", said.word)),
        Statement::Ate(said) | Statement::Gave(said) | Statement::Tossed(said) => {
            product(said.product.as_ref()).or_else(|| crop(said.crop))
        }
        other => product(other.product()),
    }
}

/// What was done, as it stands behind the amount.
fn done(statement: &Statement) -> &'static str {
    match statement.kind() {
        Kind::Picked => "picked",
        Kind::Froze => "frozen",
        Kind::Thawed => "taken out to thaw",
        Kind::Ate => "eaten",
        Kind::Gave => "given away",
        Kind::Tossed => "thrown away",
        Kind::Counted => "counted",
        Kind::Began => "begun",
        Kind::Drained => "poured off",
        Kind::CookedDown => "left when cooked down",
        Kind::Filled => "filled",
        Kind::AcidAdded => "added",
        Kind::AcidMissing => "acid missing",
        Kind::Venting => "steam from the vent",
        Kind::AtHeat => "up to heat",
        Kind::LostHeat => "heat lost",
        Kind::Mishap => "something wrong at the canner",
        Kind::HeatOff => "heat off",
        Kind::PressureDown => "pressure down",
        Kind::Lifted => "taken out of the canner",
        Kind::Sealed => "sealed",
        Kind::Unsealed => "not sealed",
        Kind::Reprocessed => "processed again",
        Kind::Refrigerated => "into the refrigerator",
        Kind::Broke => "broken",
        Kind::Siphoned => "siphoned",
        Kind::Stopped => "stopped",
        Kind::Resumed => "gone on with",
        Kind::Named => "a name for the batch",
        Kind::PutUp => "put up",
        Kind::Opened => "opened",
        Kind::Dried => "into the dryer",
        Kind::Powdered => "of powder",
        Kind::Dry => "dry",
        Kind::Bought => "bought",
        Kind::Planted => "planted",
        Kind::Planned => "a canning day planned",
        Kind::CalledOff => "the canning day called off",
        Kind::Recipe => "a recipe of yours",
        Kind::TimerStart => "on a timer",
        Kind::TimerStop => "the timer stopped",
        Kind::Set => "a setting changed",
        Kind::Undo => "the last entry taken back",
        Kind::Correct => "as a correction",
        Kind::Teach => "a word of yours",
        Kind::Spoiled => "spoiled",
        Kind::Ask | Kind::Propose | Kind::Clarify => "meant",
    }
}
