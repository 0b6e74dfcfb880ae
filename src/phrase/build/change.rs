//! Names, recipes, taught words and taking back.

use super::clause::{Clause, meaning_of, value_of};
use super::made::{Made, Note};
use super::record::clarify;
use crate::phrase::endings::singular;
use crate::phrase::item::{Item, WordKind};
use crate::phrase::lexicon::sense::Meaning;
use crate::phrase::value::Value;
use crate::quantity::{Mass, Number};
use crate::statement::{Named, Recipe, Statement, Teach};
use crate::vocabulary::{Jar, Kind, Missing, Taught};

/// `call the sauce big red`, `rename batch 2 to hot stuff`, `this batch is called hot mama`.
pub(super) fn named(clause: &Clause<'_>) -> Option<Made> {
    let classes = clause.classes();
    let household = clause.scene.household;
    let mut used = clause.used_by_trigger();
    let verb = clause.position(classes.deed_name)?;
    let mut batch = None;
    let mut name_from = None;
    let mut n = 0;
    while let Some(item) = clause.item(n).filter(|_| batch.is_none()) {
        let mut end = n + 1;
        if let Some(own) = item.own(classes.household_batch) {
            batch = household.batch(own).map(str::to_owned);
        } else if item.is(classes.batch) {
            let next = clause.item(end).and_then(|next| value_of!(next, Value::Number(figure) => figure.number));
            batch = next.and_then(Number::as_count).map(|number| number.to_string());
            end += usize::from(batch.is_some());
        } else if let Some(product) = meaning_of!(item, classes.product, clause.words(), Product)
            && name_from.is_none()
        {
            batch = Some(household.batch_named(product.as_str()).unwrap_or_else(|| product.as_str().to_owned()));
        } else {
            if item.is(classes.pronoun) && n > verb {
                name_from = name_from.or(Some(end));
            }
            n = end;
            continue;
        }
        used.add_all(n..end);
        name_from = Some(end);
        n = end;
    }
    let leads = [classes.prep_to, classes.article, classes.aux, classes.batch];
    let leads = |n: usize| clause.at(n, |item| item.mark.is_some() || item.is_any(&leads));
    let from = clause.end_of(name_from.unwrap_or(0).max(verb + 1), clause.len(), leads);
    let to =
        clause.end_of(from, 6, |n| clause.at(n, |item| item.mark.is_none() && !(item.is(classes.filler) && n > from)));
    let name = clause.said(from, to)?;
    used.add_all(from..to);
    Some(Made::one(Statement::Named(Named { name, batch }), used, [Note::Name]))
}

/// What a recipe takes and makes.
#[derive(Default)]
struct Amounts {
    mass: Option<Mass>,
    jars: Option<u32>,
    jar: Option<Jar>,
    /// The items that say it.
    items: Vec<usize>,
}

impl Amounts {
    /// The first weight, and the first jars if none were taken back.
    fn of(clause: &Clause<'_>) -> Self {
        let mut said = Self::default();
        for (n, item) in clause.items().iter().enumerate() {
            for value in &item.values {
                match value {
                    Value::Weight(weight) if said.mass.is_none() => said.mass = Some(weight.mass),
                    Value::Jars(jars) if jars.count.is_some() && (said.jars.is_none() || clause.is_corrected(n)) => {
                        (said.jars, said.jar) = (jars.count.and_then(Number::as_count), jars.jar);
                    }
                    _ => continue,
                }
                said.items.push(n);
            }
        }
        said
    }
}

/// `recipe fire salsa takes 6 lb makes 4 pints`.
pub(super) fn recipe(clause: &Clause<'_>) -> Option<Made> {
    let classes = clause.classes();
    let Amounts { mass, jars, jar, items } = Amounts::of(clause);
    let mut used = clause.used_by_trigger();
    items.iter().for_each(|n| used.add(*n));
    let takes =
        |item: &Item| item.is(classes.recipe_takes) && !item.is(classes.prep_for) || item.is(classes.recipe_makes);
    let end = clause.items().iter().position(takes).into_iter().chain(items.first().copied()).min()?;
    let name = recipe_name(clause, end)?;
    used.add_all(0..end);
    let parts = [classes.recipe_takes, classes.recipe_makes, classes.crop];
    (end..clause.len()).filter(|n| clause.at(*n, |item| item.is_any(&parts))).for_each(|n| used.add(n));
    if mass.is_none() && jars.is_none() {
        return None;
    }
    let recipe = Statement::Recipe(Recipe { name, mass, jars, jar });
    // `takes 6, makes 4 pints`: six of what?
    let bare = (end.max(1)..clause.len()).filter(|n| clause.is(n - 1, classes.recipe_takes)).find_map(|n| {
        let number = value_of!(clause.item(n)?, Value::Number(figure) => figure.number)?;
        Some((n, number))
    });
    match bare.filter(|_| mass.is_none()) {
        None => Some(Made::one(recipe, used, [Note::Name])),
        Some((n, number)) => {
            used.add(n);
            let asked = clarify(Kind::Recipe, Missing::Unit, Some(number), Some(recipe));
            Some(Made::one(asked, used, [Note::Name, Note::AskUnit]))
        }
    }
}

/// The name of a recipe, before what it takes: `my bruschetta recipe needs 5 lb`, `recipe fire salsa takes 6 lb`.
fn recipe_name(clause: &Clause<'_>, end: usize) -> Option<String> {
    let classes = clause.classes();
    let word = clause.position(classes.recipe);
    let leads = [classes.article, classes.prep_for, classes.deed_name];
    let leads = |n: usize| clause.at(n, |item| item.mark.is_some() || item.is_any(&leads));
    let from = clause.end_of(word.map_or(0, |n| n + 1), clause.len(), leads);
    let ends = [classes.preposition, classes.aux, classes.and, classes.article];
    let ends = |item: &Item| item.mark.is_some() || item.kind == WordKind::Small && item.is_any(&ends);
    let to = clause.start_of(end, end.saturating_sub(from), |n| clause.at(n, ends));
    clause.said(from, to).filter(|_| from < to).or_else(|| {
        let word = from.checked_sub(1)?;
        let content = |item: &Item| item.is_content() && !item.is_any(&[classes.own, classes.filler]);
        clause.said((0..word).find(|n| clause.at(*n, content))?, word)
    })
}

/// `undo`.
pub(super) fn undo(clause: &Clause<'_>) -> Option<Made> {
    // A figure beside it is about something else: `scratch that, 5 bags`.
    let figure =
        |value: &Value| matches!(value, Value::Weight(_) | Value::Count(_) | Value::Jars(_) | Value::Portions(_));
    let alone = !clause.items().iter().flat_map(|item| &item.values).any(figure);
    alone.then(|| Made::one(Statement::Undo, clause.used_by_trigger(), []))
}

/// What a word of a list teaches.
fn taught(meaning: &Meaning) -> Option<(Taught, String)> {
    let (means, name) = match meaning {
        Meaning::Crop(crop) => (Taught::Crop, crop.as_str()),
        Meaning::Variety(name, _) => (Taught::Variety, *name),
        Meaning::Product(product) => (Taught::Product, product.as_str()),
        Meaning::Store(stock) => (Taught::Store, stock.as_str()),
        Meaning::Supply(supply) => (Taught::Supply, supply.as_str()),
        _ => return None,
    };
    Some((means, name.to_owned()))
}

/// What a taught word means, by the words behind the verb, and the item that says it.
fn lesson(clause: &Clause<'_>, verb: usize) -> Option<(usize, Taught, Option<String>)> {
    let classes = clause.classes();
    let names = [classes.crop, classes.variety, classes.product, classes.store, classes.supply];
    let sorts = [
        (classes.teach_place, Taught::Place),
        (classes.teach_variety, Taught::Variety),
        (classes.teach_crop, Taught::Crop),
    ];
    let known = |n: usize| {
        let item = clause.item(n)?;
        let name = names.into_iter().filter_map(|class| item.meaning(class, clause.words())).find_map(taught);
        if let Some((means, name)) = name.filter(|_| n > verb) {
            return Some((n, means, Some(name)));
        }
        let place = value_of!(item, Value::Place => Taught::Place).filter(|_| n > verb);
        let sort = sorts.into_iter().find(|(class, _)| item.is(*class)).map(|(_, means)| means);
        sort.filter(|means| n > verb || *means == Taught::Place).or(place).map(|means| (n, means, None))
    };
    // `toons means saskatoons`: of a word that no list has the program learns that it grows.
    let unknown = || {
        let strange = |item: &Item| matches!(item.kind, WordKind::Ordinary | WordKind::Strange);
        let at = (verb + 1..clause.len()).find(|n| clause.at(*n, strange))?;
        let name = clause.said(at, at + 1).filter(|_| clause.is(verb, classes.teach_means))?;
        Some((at, Taught::Crop, Some(singular(&name))))
    };
    (verb..clause.len()).find_map(known).or_else(unknown)
}

/// `maters means tomatoes`, `the long bed is a place`.
pub(super) fn teach(clause: &Clause<'_>) -> Option<Made> {
    let classes = clause.classes();
    let mut used = clause.used_by_trigger();
    let means = [classes.teach_means, classes.teach_is];
    let verb = (1..clause.len()).find(|n| clause.at(*n, |item| item.is_any(&means)))?;
    let from = (0..verb).rev().find(|n| clause.is(*n, classes.teach_lead)).unwrap_or(0);
    let leads = |n: usize| {
        let filler = || clause.is(n, classes.filler) && clause.at(n + 1, |next| next.mark.is_some());
        clause.at(n, |item| item.mark.is_some() || item.is_any(&[classes.article, classes.teach_lead])) || filler()
    };
    let from = clause.end_of(from, verb - from, leads);
    let word = clause.said(from, verb).filter(|word| word.split(' ').count() <= 4)?;
    let (at, means, name) = lesson(clause, verb)?;
    used.add_all(from..verb);
    used.add(at);
    let name = name.or_else(|| (means != Taught::Place).then(|| singular(&word)));
    Some(Made::one(Statement::Teach(Teach { word, means, name }), used, []))
}
