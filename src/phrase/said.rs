//! What some words of an earlier message said: their unit, their only weight, the word for a crop.

use super::context::LONGEST;
use super::household::Household;
use super::item::{Item, items};
use super::language::language;
use super::lexicon::sense::{Meaning, Unit};
use super::value::Value;
use super::value::kinds::Weight;
use crate::quantity::Mass;
use crate::vocabulary::Crop;

/// The unit of mass last used in some words.
pub(super) fn last_mass_unit(words: &str) -> Option<Mass> {
    if words.len() > LONGEST {
        return None;
    }
    let language = language();
    let text = items(words, &language.words, &Household::default());
    text.items.iter().rev().find_map(|item| {
        let said = item.values.iter().find_map(|value| match value {
            Value::Weight(weight) => Some(weight.unit),
            Value::Portions(portions) => Some(if portions.metric { Mass::KILOGRAM } else { Mass::POUND }),
            _ => None,
        });
        said.or_else(|| match item.meaning(language.words.classes.unit_mass, &language.words) {
            Some(Meaning::Unit(Unit::Mass(mass, _))) => Some(*mass),
            Some(Meaning::Unit(Unit::Ounce)) => Some(Mass::OUNCE),
            _ => None,
        })
    })
}

/// The one weight in some words; nothing where there are several.
pub(super) fn only_weight(words: &str) -> Option<Weight> {
    if words.len() > LONGEST {
        return None;
    }
    let language = language();
    let text = items(words, &language.words, &Household::default());
    let mut weights = text.items.iter().flat_map(|item| &item.values).filter_map(|value| match value {
        Value::Weight(weight) => Some(*weight),
        _ => None,
    });
    weights.next().filter(|_| weights.next().is_none())
}

/// The speaker's own word for a crop in a message, as written.
pub(super) fn crop_said(words: &str, crop: Crop) -> Option<&str> {
    let language = language();
    let text = items(words, &language.words, &Household::default());
    let classes = &language.words.classes;
    let is_crop = |item: &Item| {
        let meaning = |class| item.meaning(class, &language.words);
        matches!(meaning(classes.crop), Some(Meaning::Crop(found)) if *found == crop)
            || matches!(meaning(classes.variety), Some(Meaning::Variety(_, Some(of))) if *of == crop)
    };
    let n = text.items.iter().position(is_crop)?;
    let (from, to) = text.span(n, n + 1);
    words.get(from as usize..to as usize)
}
