//! What people of an invented household say, each with the kinds of statement that are meant.

use crate::store::sample::Lots;

/// Words, and what they mean.
#[derive(Clone, Debug)]
pub(super) struct Said {
    pub(super) words: String,
    pub(super) meant: Vec<&'static str>,
}

fn said(words: String, kind: &'static str) -> Said {
    Said { words, meant: vec![kind] }
}

fn one<T: Copy>(lots: &mut Lots, of: &[T]) -> T {
    of[lots.below(of.len() as u64) as usize]
}

/// An amount up to some pounds, as somebody writes it.
fn weight(lots: &mut Lots, most: u64) -> String {
    let n = 1 + lots.below(most);
    match lots.below(6) {
        0 => format!("{n}.5 lb"),
        1 => format!("{n} lb {} oz", 1 + lots.below(15)),
        2 => format!("{n} pounds"),
        3 => format!("{} kg", n.div_ceil(2)),
        _ => format!("{n} lb"),
    }
}

fn day(lots: &mut Lots) -> &'static str {
    one(lots, &["", "", "", "", " yesterday", " this morning", " on monday"])
}

pub(super) fn picked(lots: &mut Lots) -> Said {
    let (mass, day) = (weight(lots, 24), day(lots));
    let ripeness = one(lots, &["", "", "red ", "pink ", "light red ", "turning ", "breaker "]);
    let variety = one(lots, &["romas", "brandywine", "san marzanos", "tomatoes"]);
    let place = one(lots, &["", "", " from the tunnel", " from bed 3"]);
    let words = match lots.below(4) {
        0 => format!("brought in {mass}{day}"),
        1 => format!("harvested {mass} of peppers{day}"),
        _ => format!("picked {mass} {ripeness}{variety}{place}{day}"),
    };
    said(words, "picked")
}

pub(super) fn froze(lots: &mut Lots, bags: u64) -> Said {
    let each = one(lots, &["6", "6.5", "7", "7.5"]);
    let day = day(lots);
    let words = match (lots.below(3), bags) {
        (0, 1) => format!("froze {each} lb quartered{day}"),
        (1, _) => format!("froze {} lb in {bags} {}", 7 * bags, if bags == 1 { "bag" } else { "bags" }),
        _ => format!("froze {bags} {} at {each} lb{day}", if bags == 1 { "bag" } else { "bags" }),
    };
    said(words, "froze")
}

pub(super) fn used(lots: &mut Lots) -> Said {
    let mass = weight(lots, 3);
    match lots.below(6) {
        0 => said(format!("gave the neighbors {mass}"), "gave"),
        1 => said(format!("composted {mass}"), "tossed"),
        2 => said("ate a bag from the freezer".into(), "ate"),
        3 => said("tossed a bag".into(), "tossed"),
        _ => said(format!("ate {mass}{}", day(lots)), "ate"),
    }
}

pub(super) fn thawed(lots: &mut Lots, bags: u64) -> Said {
    match lots.below(2) {
        0 => said(format!("thawing {bags} {}", if bags == 1 { "bag" } else { "bags" }), "thawed"),
        _ => said(format!("pulled {} lb to thaw", 6 * bags), "thawed"),
    }
}

pub(super) fn counted(lots: &mut Lots, bags: u64) -> Said {
    match lots.below(3) {
        0 => said(format!("I count {} quarts of sauce", 3 + lots.below(12)), "counted"),
        1 => said(format!("lids: {}", lots.below(60)), "counted"),
        _ => said(format!("freezer count: {bags} bags, {} lb", 7 * bags), "counted"),
    }
}

pub(super) fn opened(lots: &mut Lots) -> Said {
    match lots.below(4) {
        0 => said("gave away 2 quarts of sauce".into(), "gave"),
        1 => said("used 2 quarts of sauce".into(), "opened"),
        _ => said(format!("opened a quart of sauce{}", day(lots)), "opened"),
    }
}

pub(super) fn put_up(lots: &mut Lots) -> Said {
    let jars = 4 + lots.below(4);
    match lots.below(3) {
        0 => said(format!("canned {jars} quarts of sauce yesterday"), "put_up"),
        _ => said(format!("put up {jars} quarts of sauce"), "put_up"),
    }
}

pub(super) fn dried(lots: &mut Lots) -> Said {
    match lots.below(4) {
        0 => said("skins are brittle, 6 oz".into(), "dry"),
        1 => said("got 4 oz of powder".into(), "powdered"),
        2 => said(format!("drying {} trays of skins", 1 + lots.below(5)), "dried"),
        _ => said(format!("{} lb of halves in the dryer", 1 + lots.below(4)), "dried"),
    }
}

pub(super) fn bought(lots: &mut Lots) -> Said {
    match lots.below(3) {
        0 => said("bought a quart of lemon juice".into(), "bought"),
        1 => said("got a pound of citric acid".into(), "bought"),
        _ => said(format!("bought {} lids", 12 * (1 + lots.below(4))), "bought"),
    }
}

pub(super) fn set(lots: &mut Lots) -> Said {
    let words = [
        "quiet hours 9pm to 7am",
        "units metric",
        "units us",
        "bags are 7 lb",
        "bags are 6 lb",
        "low lids 24",
        "room is 72 F",
        "room is 68 F",
        "send the digest on Sundays at 6 pm",
        "season ends October 10",
        "timezone America/Denver",
        "timezone America/Chicago",
        "usual is thick sauce in pints",
        "usual is thick sauce in quarts",
        "altitude 5200 ft",
        "altitude 900 ft",
        "keep it brief",
    ];
    said(one(lots, &words).into(), "set")
}

pub(super) fn timer(lots: &mut Lots) -> Said {
    match lots.below(4) {
        0 => said("cancel the timer".into(), "timer_stop"),
        _ => said(format!("timer {} min for the roast", 5 + lots.below(300)), "timer_start"),
    }
}

pub(super) fn planned(lots: &mut Lots) -> Said {
    match lots.below(4) {
        0 => said(format!("planted {} romas in the tunnel", 6 + lots.below(30)), "planted"),
        1 => said("canning is off".into(), "called_off"),
        _ => said("canning sauce saturday, done by 6 pm".into(), "planned"),
    }
}

pub(super) fn asked(lots: &mut Lots) -> Said {
    let words = [
        "what's in the freezer?",
        "how close to a load?",
        "what's next?",
        "how much have we picked this year?",
        "pantry?",
        "when will we have a load?",
        "what's ripe?",
        "chart season",
        "send me the calendar",
        "time left?",
    ];
    said(one(lots, &words).into(), "ask")
}

pub(super) fn talk(lots: &mut Lots) -> Said {
    let words = ["nice weather", "my hands are frozen", "dinner at seven?", "so tired of tomatoes", "ok!", "lol"];
    Said { words: one(lots, &words).into(), meant: Vec::new() }
}

/// The same said with another first figure.
pub(super) fn other_amount(before: &Said, lots: &mut Lots) -> Said {
    let from = before.words.find(|c: char| c.is_ascii_digit());
    let Some(from) = from.filter(|_| !before.meant.is_empty() && before.meant != ["set"]) else { return picked(lots) };
    let rest = before.words[from..].trim_start_matches(|c: char| c.is_ascii_digit());
    Said { words: format!("{}{}{rest}", &before.words[..from], 6 + lots.below(4)), meant: before.meant.clone() }
}
