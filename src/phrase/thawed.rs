//! What became of fruit that is out of the freezer: thrown away, used, put back, counted, asked about.

use super::item::Text;
use super::lexicon::sense::Meaning;
use super::value::Value;
use crate::quantity::{Mass, Number};
use crate::statement::{Ask, Counted, Froze, Statement, Taken};
use crate::vocabulary::{Crop, Kind, Stock, Subject, Whole};

/// The statement that a rule about thawed fruit makes: what was done, of how much.
pub(super) fn statement(kind: Kind, text: &Text<'_>) -> Option<Statement> {
    let (mass, bags) = (mass(text), bags(text));
    let crop = crop(text);
    // All of it, where no amount is told.
    let all = (mass.is_none() && bags.is_none()).then_some(Number::whole(1));
    let of = all.map(|_| Whole::Thawing);
    let from = Some(Stock::Thawing);
    let taken = Taken { mass, bags, crop, from, share: all, of, ..Taken::default() };
    Some(match kind {
        Kind::Ate => Statement::Ate(taken),
        Kind::Tossed => Statement::Tossed(taken),
        Kind::Froze => Statement::Froze(Froze { mass, bags, crop, from, share: all, of, ..Froze::default() }),
        Kind::Counted => Statement::Counted(Counted { mass: Some(mass?), crop, from, ..Counted::default() }),
        Kind::Ask => Statement::Ask(Ask { crop, ..Ask::about(Subject::Thawing) }),
        _ => return None,
    })
}

/// Everything in the freezer, thrown away: what is put to a household whose freezer was off.
pub(super) fn freezer_lost() -> Statement {
    let (share, of) = (Some(Number::whole(1)), Some(Whole::Freezer));
    Statement::Tossed(Taken { share, of, from: Some(Stock::Freezer), ..Taken::default() })
}

fn values<'a>(text: &'a Text<'_>) -> impl Iterator<Item = &'a Value> {
    text.items.iter().flat_map(|item| &item.values)
}

fn mass(text: &Text<'_>) -> Option<Mass> {
    values(text).find_map(|value| match value {
        Value::Weight(weight) => Some(weight.mass),
        Value::Portions(portions) => Some(portions.total),
        _ => None,
    })
}

fn bags(text: &Text<'_>) -> Option<u32> {
    values(text).find_map(|value| match value {
        Value::Count(count) => count.count.as_count(),
        Value::Portions(portions) => Some(portions.count),
        _ => None,
    })
}

fn crop(text: &Text<'_>) -> Option<Crop> {
    text.items.iter().find_map(|item| match item.meaning(text.words.classes.crop, text.words) {
        Some(Meaning::Crop(crop)) => Some(*crop),
        _ => None,
    })
}
