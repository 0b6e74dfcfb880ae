//! What the canner is and holds, and whose yield a load goes by.

use super::position;
use crate::phrase::{
    build::{self, Carry},
    facts::{Facts, has},
    scan::{Chunk, Item},
    token::{Mark, one_of, says},
    words::{Verb, Word},
};
use crate::{
    statement::{Set, Statement},
    vocabulary::{CannerKind, Kind, SettingKey},
};

/// `use our own yield for sauce`, `go by the handbook's yield`, `yes, use ours`.
pub(super) fn yields(f: &Facts<'_>, carry: &Carry<'_, '_>) -> Option<Statement> {
    let named = says!(f, "yield" | "yields" | "numbers" | "figures" | "figure" | "weights");
    let goes =
        says!(f, "use" | "using" | "go" | "going" | "switch" | "set" | "stick" | "back" | "take" | "trust" | "keep");
    let book =
        says!(f, "handbook" | "handbooks" | "book" | "books" | "published" | "tables" | "usda" | "guide" | "standard");
    let own = says!(f, "own" | "our" | "ours" | "my" | "mine");
    let word = if book {
        "handbook"
    } else if own {
        "own"
    } else {
        return None;
    };
    // `use ours` alone accepts what was offered.
    let accepts =
        says!(f, "ours" | "mine" | "handbook" | "handbooks" | "own") && f.chunks.len() <= 8 && f.product.is_none();
    let plain = f.chunks.iter().all(|c| {
        matches!(
            c.item,
            Item::Word(Word::Filler | Word::Link | Word::Is | Word::First | Word::And | Word::Modal | Word::Aux)
                | Item::Mark(_)
                | Item::Product(_)
                | Item::Crop(_)
                | Item::Verb(Verb::Use | Verb::Go | Verb::Set | Verb::Turn | Verb::Put | Verb::Take | Verb::Yield, _)
        ) || matches!(c.item, Item::Amount(a) if a.uncounted)
            || one_of!(
                c.key,
                "yield"
                    | "yields"
                    | "numbers"
                    | "figures"
                    | "figure"
                    | "weights"
                    | "handbook"
                    | "handbooks"
                    | "book"
                    | "books"
                    | "published"
                    | "tables"
                    | "usda"
                    | "guide"
                    | "standard"
                    | "back"
                    | "trust"
                    | "keep"
                    | "stick"
                    | "numbers"
            )
    });
    let quest = f.has(has::NOT) || says!(f, "what" | "how");
    (plain && !quest && goes && (named || accepts)).then(|| {
        Statement::Set(Set {
            word: Some(word.to_owned()),
            product: f
                .product
                .or(None)
                .and_then(|_| build::product(f, carry))
                .or_else(|| f.crop.and_then(|_| build::product(f, carry))),
            ..Set::of(SettingKey::Yield)
        })
    })
}

/// A canner described from the first word on: `pressure canner with dial gauge, holds 7 quarts or 9 pints`.
pub(in crate::phrase) fn described(f: &Facts<'_>) -> Vec<Statement> {
    let holds = |c: &Chunk| one_of!(c.key, "holds" | "fits" | "takes");
    let plain = |c: &Chunk| {
        matches!(c.item, Item::Canner(_) | Item::Mark(Mark::Comma | Mark::Dash) | Item::Word(Word::Filler | Word::And))
            || matches!(c.item, Item::Amount(a) if a.is_jars())
            || one_of!(c.key, "a" | "the" | "our" | "my" | "it" | "or" | "with" | "w")
            || holds(c)
    };
    let small = |c: &&Chunk| matches!(c.item, Item::Word(Word::Filler)) || one_of!(c.key, "a" | "the" | "our" | "my");
    let mut head = f.chunks.iter().skip_while(small);
    let leads = head.next().is_some_and(|c| matches!(c.item, Item::Canner(_)))
        && head.next().is_some_and(|c| matches!(c.item, Item::Mark(_)));
    let Some(kind) = f.canner.filter(|_| leads && f.chunks.len() <= 16 && f.chunks.iter().all(plain)) else {
        return Vec::new();
    };
    let sizes: Vec<_> = f.amounts.iter().filter(|a| a.jar.is_some() && !a.uncounted).collect();
    if sizes.is_empty() || !f.chunks.iter().any(holds) {
        return Vec::new();
    }
    let set = |canner, jars, jar, key| Statement::Set(Set { canner, jars, jar, ..Set::of(key) });
    let capacities = sizes.iter().map(|a| set(None, a.count(), a.jar, SettingKey::Capacity));
    std::iter::once(set(Some(kind), None, None, SettingKey::Canner)).chain(capacities).collect()
}

/// `canner is pressure`: of which gauge is asked then.
fn unspecified(f: &Facts<'_>) -> Option<CannerKind> {
    let canner = f.chunks.first().is_some_and(|c| one_of!(c.key, "canner" | "the" | "our" | "my"))
        && f.chunks.iter().any(|c| one_of!(c.key, "canner"));
    let plain = f.chunks.iter().all(|c| {
        matches!(c.item, Item::Word(Word::Is | Word::Aux) | Item::Mark(Mark::Colon | Mark::Equals))
            || one_of!(c.key, "canner" | "the" | "our" | "my" | "a" | "pressure" | "one" | "type" | "kind")
            || matches!(c.item, Item::Amount(a) if a.article)
    });
    let says = f
        .chunks
        .iter()
        .any(|c| matches!(c.item, Item::Word(Word::Is | Word::Aux) | Item::Mark(Mark::Colon | Mark::Equals)));
    let ends = f.chunks.last().is_some_and(|c| one_of!(c.key, "pressure" | "one" | "type" | "kind"));
    (f.canner.is_none() && canner && plain && says && ends && f.has(has::PRESSURE) && f.chunks.len() <= 6)
        .then_some(CannerKind::Pressure)
}

pub(super) fn canner(f: &Facts<'_>, carry: &Carry<'_, '_>) -> Vec<Statement> {
    let holds = position(f, |k| one_of!(k, "holds" | "hold" | "fits" | "takes" | "capacity" | "fit" | "take"));
    let mut out = Vec::new();
    if let Some(kind) = unspecified(f) {
        return vec![Statement::Set(Set { canner: Some(kind), ..Set::of(SettingKey::Canner) })];
    }
    if f.has(has::TEMP | has::HEAT | has::AT) {
        return out;
    }
    if f.has(has::NOT | has::MODAL | has::AUX) && f.any_verb(&[Verb::Begin])
        || f.product.is_some()
        || f.crop.is_some()
        || f.mass().is_some()
    {
        return out;
    }
    let before = matches!(carry.kind, Some(Kind::Set));
    let named = f.has(has::CANNER);
    let kind_at = f.chunks.iter().position(|c| matches!(c.item, Item::Canner(_)));
    let it = f.chunks.iter().take(2).any(|c| one_of!(c.key, "it" | "mine" | "ours"));
    let fits = holds.filter(|_| {
        (named || it || before || says!(f, "capacity")) && f.jars().is_some() && f.unknown == 0 && f.alien == 0
    });
    // `the water bath canner holds 9 pints` sets what that canner holds; `canner steam holds 7` also which it is.
    let itself = fits.is_some()
        && kind_at.is_some_and(|at| at <= 2 && !f.chunks.iter().take(at).any(|c| one_of!(c.key, "canner")));
    let says = f
        .chunks
        .iter()
        .any(|c| matches!(c.item, Item::Word(Word::Aux | Word::Is) | Item::Mark(Mark::Equals | Mark::Colon)))
        || f.any_verb(&[Verb::Use, Verb::Get, Verb::Set, Verb::Change])
        || f.chunks.first().is_some_and(|c| one_of!(c.key, "canner"))
        || f.chunks.get(1).is_some_and(|c| one_of!(c.key, "canner"));
    let gear_only = f.clean()
        && !f.any_verb(&[
            Verb::Begin,
            Verb::Fill,
            Verb::Lift,
            Verb::Boil,
            Verb::Come,
            Verb::Reach,
            Verb::Put,
            Verb::Buy,
            Verb::Can,
        ])
        && !f.has(has::UP | has::OUT | has::OFF | has::YOU | has::THEY | has::NOT)
        && f.when.is_none();
    let word_canner = says!(f, "canner")
        || f.tokens
            .iter()
            .skip(f.chunks.first().map_or(0, |c| c.from as usize))
            .take(f.chunks.last().map_or(0, |c| c.to as usize) - f.chunks.first().map_or(0, |c| c.from as usize))
            .any(|t| one_of!(t.key, "canner"));
    if let Some(kind) =
        f.canner.filter(|_| says && gear_only && word_canner && !itself && (f.jars().is_none() || fits.is_some()))
    {
        out.push(Statement::Set(Set { canner: Some(kind), ..Set::of(SettingKey::Canner) }));
    }
    if fits.is_some() {
        let canner = f.canner.filter(|_| itself);
        let jars = f.amounts.iter().filter(|a| a.is_jars() && !a.uncounted).take(6);
        out.extend(jars.map(|amount| {
            Statement::Set(Set {
                jars: amount.count(),
                jar: amount.jar.or(f.jar()),
                canner,
                ..Set::of(SettingKey::Capacity)
            })
        }));
    }
    out
}
