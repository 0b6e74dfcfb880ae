//! Words of a start, or of a question about a process, that were passed over and on which a time would depend: then none is given. A phrase is
//! read loosely, as talk is; a time is not given loosely.

use super::accounting::unexplained;
use crate::phrase::Reading;
use crate::processes;
use crate::reply::{self, Reply, Scene};
use crate::statement::Statement;
use crate::vocabulary::{Product, Subject};

/// Why nothing is made of a message, with the topic of the problem; `None` where it may be entered.
pub(super) fn held_back(scene: Scene<'_>, words: &str, reading: &Reading) -> Option<(&'static str, Reply)> {
    if let Some(food) = food(reading) {
        return Some(("clarify", reply::passed_over(&food)));
    }
    if let Some(height) = altitude(words, reading) {
        return Some(("clarify", reply::passed_over_altitude(&height)));
    }
    let (form, product) = other_form(words, reading)?;
    Some(("not-tested", reply::passed_over_form(scene, form, product)))
}

/// What is timed: the product of a start, or of a question about a process; the inner `None` where it has no name.
fn timed(reading: &Reading) -> Option<Option<&Product>> {
    reading.statements.iter().find_map(|statement| match statement {
        Statement::Began(began) => Some(began.product.as_ref()),
        Statement::Ask(ask) if ask.about == Subject::Process => Some(ask.product.as_ref()),
        _ => None,
    })
}

/// Food of another form than was tested: heat goes through a mash more slowly than through pieces in water (USDA AIB 539, Guide 4, Pumpkins and winter
/// squash, in two reprints: "do not mash or puree").
fn other_form<'a>(words: &str, reading: &'a Reading) -> Option<(&'static str, &'a Product)> {
    const FORMS: [&str; 5] = ["pureed", "puréed", "mashed", "stuffed", "refried"];
    let product = timed(reading)??;
    let whole = processes::product(product.as_str()).is_some_and(|info| info.id != "fruit-puree");
    let words = words.to_lowercase();
    let mut said = words.split(|c: char| !c.is_alphanumeric()).filter(|_| whole);
    said.find_map(|word| FORMS.iter().find(|form| **form == word)).map(|form| (*form, product))
}

/// A height that a start gives and that was not taken for the altitude: the time of another one must not be given.
fn altitude(words: &str, reading: &Reading) -> Option<String> {
    if !reading.statements.iter().any(|statement| matches!(statement, Statement::Began(_))) {
        return None;
    }
    unexplained(words, &reading.statements).iter().find_map(|figure| {
        let (_, after) = words.split_once(figure.as_str())?;
        let unit = after.trim_start().split(|c: char| !c.is_alphabetic()).next()?;
        let is_length = matches!(
            unit.to_lowercase().as_str(),
            "ft" | "feet" | "foot" | "m" | "metre" | "metres" | "meter" | "meters"
        );
        is_length.then(|| format!("{figure} {unit}"))
    })
}

/// Words that a start or a process question passed over and that may be food: a time holds only for the recipe as tested, so
/// "sauce with meat" must not become sauce, nor a food that was not understood the usual product.
fn food(reading: &Reading) -> Option<String> {
    const NO_FOOD: [&str; 14] = [
        "the", "now", "today", "please", "thanks", "this", "that", "some", "our", "okay", "batch", "here", "time",
        "canner",
    ];
    let nameless = timed(reading)?.is_none();
    let unread = reading.unread.to_lowercase();
    let words: Vec<&str> = unread.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty()).collect();
    // "peas and carrots" are no peas.
    let joined = words.first() == Some(&"and") && words.len() <= 3;
    let adds = joined || words.iter().any(|word| matches!(*word, "with" | "w" | "plus"));
    let may_be_food = words.iter().any(|word| word.len() >= 3 && !NO_FOOD.contains(word));
    (may_be_food && (adds || (nameless && words.len() <= 3))).then(|| reading.unread.trim().to_owned())
}
