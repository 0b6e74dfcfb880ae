//! Questions for something to look at or to take along: pictures, tables, labels, a calendar; and what is ripe, what to plant.

use super::Words;
use crate::phrase::{
    facts::{Facts, has},
    scan::{Chunk, Item},
    token::{Mark, one_of, says},
    words::{Form, Verb, Word},
};
use crate::vocabulary::{Stock, Subject};

/// Words of such questions that the tables know only as ordinary ones.
pub(super) fn is_paper(key: u64) -> bool {
    one_of!(
        key,
        "picture"
            | "pictures"
            | "draw"
            | "plot"
            | "photo"
            | "calendar"
            | "ics"
            | "ical"
            | "icalendar"
            | "file"
            | "due"
            | "spreadsheet"
            | "csv"
            | "excel"
            | "json"
            | "table"
            | "export"
            | "sheet"
            | "label"
            | "labels"
            | "print"
            | "printed"
            | "grow"
            | "planted"
            | "planting"
            | "spring"
            | "ripening"
            | "ripens"
            | "digest"
            | "light"
            | "dark"
            | "theme"
            | "whole"
            | "download"
            | "pdf"
            | "order"
            | "seedlings"
            | "sow"
            | "image"
            | "deadlines"
            | "look"
            | "data"
            | "harvests"
            | "pickings"
            | "stickers"
            | "lines"
            | "including"
            | "include"
            | "looks"
            | "ledger"
            | "dates"
            | "date"
            | "included"
            | "reach"
            | "thing"
            | "also"
            | "numbers"
            | "coming"
    )
}

/// What is sent as a file: a picture, labels, a calendar, a table.
pub(super) fn papers(w: &Words<'_, '_>, asks: bool, short: bool) -> Option<Subject> {
    let f = w.f;
    let sends = asks
        || f.has(has::PLEASE)
        || f.any_verb(&[Verb::Send, Verb::Show, Verb::Give, Verb::Make, Verb::Get])
        || says!(f, "print" | "draw" | "plot" | "export" | "want" | "need");
    if !sends || f.has(has::NOT) {
        return None;
    }
    let named = says!(f, "chart" | "graph" | "charts" | "graphs" | "diagram" | "plot");
    let drawn = (says!(f, "draw") || says!(f, "picture" | "pictures" | "image") && says!(f, "of" | "as"))
        && picture(f).is_some();
    let shown = f.verb_is(Verb::Show) && says!(f, "season") && !f.has(has::YOU);
    if named || drawn || shown {
        return Some(Subject::Chart);
    }
    if says!(f, "label" | "labels")
        && f.amounts.iter().all(|a| a.article || a.uncounted)
        && (says!(f, "print" | "for" | "pdf" | "sheet" | "send" | "make" | "need" | "want" | "get") || short)
    {
        return Some(Subject::Labels);
    }
    let calendar = says!(f, "calendar" | "ics" | "ical" | "icalendar");
    if calendar && !f.has_quantity() && f.stock.is_none() && f.dest.is_none() {
        return Some(Subject::Calendar);
    }
    let sheet = says!(f, "spreadsheet" | "csv" | "excel" | "json" | "export")
        || says!(f, "table" | "sheet") && says!(f, "as" | "send" | "of");
    let bare = says!(f, "export") && table(f).is_none() && !says!(f, "spreadsheet" | "csv" | "excel" | "json");
    (sheet && !bare && !f.has_quantity()).then_some(Subject::Table)
}

/// Which picture, and `dark` or `light` behind it where said.
pub(super) fn picture(f: &Facts<'_>) -> Option<String> {
    let stock = f.stock.or(f.dest).or(f.source);
    let what = match stock {
        Some(Stock::Freezer) => Some("freezer"),
        Some(Stock::Pantry | Stock::Fridge) => Some("pantry"),
        _ if says!(f, "season" | "year" | "summer" | "harvest" | "picked" | "pickings") => Some("season"),
        _ if says!(f, "day" | "today" | "batch" | "timeline")
            || f.any_token(|k| one_of!(k, "today" | "day"))
            || f.has(has::BATCH) =>
        {
            Some("day")
        }
        _ if says!(f, "jars" | "shelf") => Some("pantry"),
        _ if says!(f, "load" | "bags" | "forecast") => Some("freezer"),
        _ => None,
    };
    let theme = match (says!(f, "dark"), says!(f, "light")) {
        (true, false) => Some("dark"),
        (false, true) => Some("light"),
        _ => None,
    };
    match (what, theme) {
        (Some(what), Some(theme)) => Some(format!("{what} {theme}")),
        (Some(what), None) => Some(what.to_owned()),
        // The season is what a picture shows unless another is named.
        (None, Some(theme)) => Some(format!("season {theme}")),
        (None, None) => None,
    }
}

/// Which table, as `export` names it; `ledger` for everything, as JSON lines.
pub(super) fn table(f: &Facts<'_>) -> Option<String> {
    let stock = f.stock.or(f.dest).or(f.source);
    let what = match stock {
        Some(Stock::Freezer) => "freezer",
        Some(Stock::Pantry | Stock::Fridge) => "pantry",
        _ if says!(f, "everything" | "ledger" | "json" | "all" | "whole" | "backup") => "ledger",
        _ if says!(f, "bags" | "freezer") => "freezer",
        _ if says!(f, "jars" | "shelf" | "shelves") => "pantry",
        _ if says!(f, "batches" | "batch" | "canning") || f.has(has::BATCH) => "batches",
        _ if says!(f, "totals" | "sums" | "season" | "year" | "yearly") => "totals",
        _ if says!(f, "harvest" | "harvests" | "pickings" | "picked" | "log" | "entries" | "entry" | "haul") => "log",
        _ => return None,
    };
    Some(what.to_owned())
}

/// `how much should we plant next year?`, `how many romas next spring?`
pub(super) fn planting(w: &Words<'_, '_>) -> Option<Subject> {
    let f = w.f;
    let asks = w.how || w.what || w.quest;
    let plant = says!(f, "plant" | "planting" | "grow" | "sow") || f.verb_is(Verb::Plant);
    let next = f
        .chunks
        .windows(2)
        .any(|p| one_of!(p[0].key, "next") && one_of!(p[1].key, "year" | "spring" | "season" | "summer"))
        || f.any_token(|k| one_of!(k, "next")) && says!(f, "year" | "spring" | "season" | "summer" | "next");
    let plants = says!(f, "plants" | "seedlings" | "rows") || f.crop.is_some() || f.variety.is_some();
    let past = says!(f, "did" | "have" | "has" | "planted");
    // `how many plants do i need?`, `what should i plant?`, `how much did each plant give?`, `next year?`
    let own = f.has(has::FIRST) && f.clean() && !f.has(has::YOU | has::THEY) && f.place.is_none() && f.when.is_none();
    let bare = w.quest && f.clean() && f.chunks.len() <= 4;
    let needed = w.how_much
        && says!(f, "plants" | "seedlings")
        && (says!(f, "need" | "want") && own || bare)
        && !past
        && f.place.is_none();
    let which = w.what && plant && says!(f, "should" | "shall") && own && !past && !says!(f, "my" | "on");
    let each = w.how_much
        && says!(f, "plant" | "plants")
        && (f.has(has::EACH) || says!(f, "each" | "per" | "a"))
        && f.any_verb(&[Verb::Give, Verb::Yield, Verb::Make, Verb::Pick, Verb::Get, Verb::Bring])
        && f.place.is_none()
        && !f.has(has::YOU | has::THEY);
    let alone = w.quest
        && w.pair(|a, b| one_of!(a, "next") && one_of!(b, "year" | "spring" | "season" | "summer"))
        && f.chunks.len() == 2;
    if needed || which || each || alone {
        return Some(Subject::Planting);
    }
    (asks
        && !past
        && (plant && (w.how_much || w.what || w.quest) && (next || w.how_much && says!(f, "should" | "to" | "need"))
            || w.how_much && next && plants))
        .then_some(Subject::Planting)
}

/// `what's ripe?`, `what's ripening?`, `anything ripe?`
pub(super) fn ripe(w: &Words<'_, '_>, short: bool) -> Option<Subject> {
    let f = w.f;
    let ripe = says!(f, "ripe" | "ripening" | "ripens" | "ripen" | "overripe") && !says!(f, "freezer");
    let asks = w.what
        || w.when
        || w.quest && says!(f, "anything" | "any" | "something" | "is" | "are" | "much")
        || short && w.quest;
    let load = says!(f, "for") && f.crop.is_none() || says!(f, "enough" | "load" | "forecast" | "sauce" | "salsa");
    (ripe
        && asks
        && !load
        && !f.has_quantity()
        && f.place.is_none()
        && !f.any_verb(&[Verb::Pick, Verb::Freeze, Verb::Eat]))
    .then_some(Subject::Counter)
}

/// Whether a clause that is put as an order or a mere name asks for a file: `send me the calendar`, `picture of the pantry`.
pub(in crate::phrase) fn wants_file(f: &Facts<'_>) -> bool {
    let thing = says!(
        f,
        "label"
            | "labels"
            | "calendar"
            | "ics"
            | "ical"
            | "spreadsheet"
            | "csv"
            | "excel"
            | "json"
            | "digest"
            | "chart"
            | "graph"
            | "picture"
            | "plot"
            | "draw"
            | "table"
            | "export"
    );
    if !thing {
        return false;
    }
    let content = |c: &&Chunk| {
        !matches!(c.item, Item::Word(Word::Filler | Word::Link | Word::And | Word::First | Word::Modal) | Item::Mark(_))
    };
    let first = f.chunks.iter().find(content);
    let opens = first.is_some_and(|c| {
        matches!(c.item, Item::Verb(Verb::Send | Verb::Give | Verb::Make | Verb::Show | Verb::Get, Form::Base))
            || one_of!(
                c.key,
                "label"
                    | "labels"
                    | "calendar"
                    | "ics"
                    | "ical"
                    | "spreadsheet"
                    | "csv"
                    | "excel"
                    | "json"
                    | "digest"
                    | "chart"
                    | "graph"
                    | "picture"
                    | "plot"
                    | "draw"
                    | "table"
                    | "export"
                    | "print"
                    | "need"
                    | "want"
            )
    });
    let opens = opens || says!(f, "as") && thing;
    // `calendar's full`, `labels fell off` tell.
    let tells = f.has(has::AUX) && !f.has(has::FIRST)
        || f.any_verb(&[Verb::Fall, Verb::Come, Verb::Go, Verb::Lose, Verb::Buy])
        || f.chunks.iter().any(|c| c.is_mark(Mark::Colon));
    thing
        && opens
        && !tells
        && f.chunks.len() <= 10
        && !f.has_quantity()
        && !f.has(has::NOT | has::THEY | has::FOLK | has::KIN)
}

/// A clause that only says more of the question before: the colours of a picture, or that the counter counts too.
pub(in crate::phrase) fn adds_to(f: &Facts<'_>, next: &Facts<'_>) -> bool {
    let theme = says!(f, "chart" | "graph" | "picture" | "plot" | "draw" | "season" | "day")
        && says!(next, "dark" | "light")
        && next.chunks.len() <= 3;
    let counter = says!(f, "load" | "enough" | "when" | "forecast")
        && (next.stock == Some(Stock::Counter) || says!(next, "ripe"))
        && next.chunks.len() <= 7
        && next.unknown + next.alien == 0;
    theme || counter
}
