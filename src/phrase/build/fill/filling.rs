//! A clause while its slots are filled: what its items were taken for so far, and the choices that are open.

use crate::phrase::build::clause::Clause;
use crate::phrase::build::made::{Note, Used};
use crate::phrase::build::when::Moment;
use crate::phrase::frame::{Slots, Types};
use crate::phrase::item::{Item, WordKind};
use crate::phrase::listed::listed;
use crate::phrase::value::Value;
use crate::phrase::value::day::Dated;
use crate::vocabulary::{CannerKind, Crop, Kind, Pack, Prep, Product, Ripeness, Stock, Supply, Whole};
use smallvec::SmallVec;
use std::ops::Range;

/// Fruit or food, by all that its name may be.
#[derive(Clone, Debug, Default)]
pub(super) struct Food {
    pub(super) crop: Option<Crop>,
    pub(super) variety: Option<String>,
    pub(super) product: Option<Product>,
    pub(super) prep: Option<Prep>,
    pub(super) ripe: Option<Ripeness>,
}

/// What an item is taken for.
#[derive(Clone, Debug)]
pub(super) enum Role {
    /// An amount.
    Amount(Value),
    Food(Food),
    Prep(Prep),
    Ripe(Ripeness),
    Place(String),
    From(Stock, Option<Whole>),
    Supply(Supply),
    Canner(CannerKind),
    Pack(Pack),
    Batch(String),
    Round(u32),
    What(String),
    Kept(bool),
    Vague,
    /// A word between thing and amount that belongs to the thing.
    Modifier,
    /// The day of this group.
    When(Dated),
}

impl Role {
    /// A product.
    pub(super) fn product(product: Product) -> Self {
        Self::Food(Food { product: Some(product), ..Food::default() })
    }

    /// Whether it names fruit or food.
    pub(super) const fn is_food(&self) -> bool {
        matches!(self, Self::Food(_))
    }

    /// Whether it is an amount.
    pub(super) const fn is_amount(&self) -> bool {
        matches!(self, Self::Amount(_))
    }
}

listed! {
    /// Which of the open choices of a clause is made otherwise than at first.
    #[derive(Clone, Copy, PartialEq, Eq, Debug)]
    #[repr(u8)]
    pub(super) enum Way {
        /// None of them.
        First,
        /// A count and a loose weight: the weight is that of each.
        Each,
        /// A noun that no list has is a variety, not a crop.
        Variety,
        /// A noun that no list has is passed over.
        NoGuess,
        /// Jars are a volume.
        Volume,
        /// What is missing was said in the clause before: the unit, how many jars.
        Carry,
        /// How many sealed is another statement.
        Apart,
        /// An amount without a thing of its own takes the place of the one before it: `6 bags, 7 bags`.
        Later,
        /// The thing that is named last is that of every group: `5 kg on Wednesday and 4 kg yesterday, all plums`.
        Common,
        /// The size of the jars is asked for.
        Ask,
        /// Words with capitals are one name, whatever else they mean: `Candy Roaster`, `Aunt Ruby's German Green`.
        Capital,
        /// A name that no list has is where it grew, not its variety: `8 lb salsify, Widow Strip`.
        Place,
        /// The day was said before, in the same sentence: `Yesterday was wet, so I froze …`.
        Day,
    }
}

impl Way {
    /// The rivals of the first.
    pub(super) fn rivals() -> impl Iterator<Item = Self> {
        Self::ALL.iter().copied().skip(1)
    }
}

/// The choices that turned out to be open.
#[derive(Clone, Copy, Default, Debug)]
pub(super) struct Open(u16);

impl Open {
    /// Whether a choice is open.
    pub(super) const fn has(self, way: Way) -> bool {
        self.0 & (1 << way as u16) != 0
    }
}

/// A clause that is being filled.
pub(super) struct Filling<'c, 'a> {
    pub(super) clause: &'c Clause<'a>,
    way: Way,
    pub(super) open: Open,
    /// What items were taken for, by their places.
    pub(super) roles: Vec<(usize, Role)>,
    pub(super) used: Used,
    pub(super) notes: SmallVec<[Note; 8]>,
    pub(super) moment: Moment,
}

/// How many items before a clause are looked at for what it goes on with. What is further back was said some sentences
/// ago and is not meant by `them`; and without a bound a message of nothing but such clauses takes time that grows with
/// its square.
const LOOKED_BACK: usize = 64;

impl<'c, 'a> Filling<'c, 'a> {
    /// The items before the clause, as far as it may go on with them.
    pub(super) fn before(&self) -> &'a [Item] {
        let from = self.clause.from;
        self.clause.scene.text.items.get(from.saturating_sub(LOOKED_BACK)..from).unwrap_or_default()
    }

    /// Nothing but the trigger is taken.
    pub(super) fn new(clause: &'c Clause<'a>, way: Way) -> Self {
        Self {
            clause,
            way,
            open: Open::default(),
            roles: Vec::with_capacity(8),
            used: clause.used_by_trigger(),
            notes: SmallVec::new(),
            moment: Moment { metric: clause.scene.text.metric, ..Moment::default() },
        }
    }

    /// The kind of the frame.
    pub(super) const fn kind(&self) -> Kind {
        self.clause.frame.kind
    }

    /// Whether the frame has a slot.
    pub(super) fn takes(&self, slot: Slots) -> bool {
        self.clause.takes(slot)
    }

    /// Notes something, once.
    pub(super) fn note(&mut self, note: Note) {
        if !self.notes.contains(&note) {
            self.notes.push(note);
        }
    }

    /// Opens a choice, and says whether it is made.
    pub(super) fn choose(&mut self, way: Way) -> bool {
        self.open.0 |= 1 << way as u16;
        self.way == way
    }

    /// Opens a choice where a condition holds, and says whether it is made, open or not.
    pub(super) fn choose_if(&mut self, condition: bool, way: Way) -> bool {
        self.open.0 |= u16::from(condition) << way as u16;
        self.way == way
    }

    /// Whether a choice is made.
    pub(super) fn is_way(&self, way: Way) -> bool {
        self.way == way
    }

    /// Takes an item for something.
    pub(super) fn take(&mut self, n: usize, role: Role) {
        self.used.add(n);
        self.roles.push((n, role));
    }

    /// Takes a stretch of items as one name; nothing where it has no words.
    pub(super) fn take_name(&mut self, items: Range<usize>, note: Note, role: impl FnOnce(String) -> Role) {
        let Some(name) = self.clause.said(items.start, items.end) else { return };
        let first = items.start;
        self.used.add_all(items);
        self.note(note);
        self.roles.push((first, role(name)));
    }

    /// Whether something was taken for what passes a test.
    pub(super) fn has_role(&self, test: impl Fn(&Role) -> bool) -> bool {
        self.roles.iter().any(|(_, role)| test(role))
    }

    /// Whether the item at a place was taken for what passes a test.
    pub(super) fn is_role(&self, n: usize, test: impl Fn(&Role) -> bool) -> bool {
        self.roles.iter().any(|(at, role)| *at == n && test(role))
    }

    /// The places of what passes a test.
    pub(super) fn places_of(&self, test: impl Fn(&Role) -> bool) -> SmallVec<[usize; 4]> {
        self.roles.iter().filter(|(_, role)| test(role)).map(|(n, _)| *n).collect()
    }

    /// Whether another item of the clause is an amount.
    pub(super) fn has_other_amount(&self, n: usize) -> bool {
        let amount =
            Types::Mass.with(Types::Count).with(Types::Jars).with(Types::Number).with(Types::Of).with(Types::Volume);
        (0..self.clause.items().len()).any(|at| at != n && self.clause.types(at).meets(amount))
    }

    /// Whether an item has no place of its own: a word of no list, or one that means nothing to this frame.
    pub(super) fn is_free(&self, n: usize) -> bool {
        use WordKind::{Harmless, Ordinary, Strange, Trade};
        !self.used.has(n) && self.clause.at(n, |item| matches!(item.kind, Ordinary | Strange | Harmless | Trade))
    }

    /// Whether an item is the `'s` behind a name.
    pub(super) fn is_possessive(&self, item: &Item) -> bool {
        let glued = self.clause.scene.text.lexed.tokens.get(item.from as usize).is_some_and(|token| token.glued);
        glued && item.kind == WordKind::Small && item.mark.is_none()
    }

    /// Whether a word with a capital is inside a name: `Polar Baby`, `Mémé de Beauce`.
    pub(super) fn is_capital_name(&self, n: usize) -> bool {
        let capital = |n: usize| {
            self.clause.at(n, |item| {
                item.capital && item.mark.is_none() && item.values.is_empty() && item.kind != WordKind::Voice
            }) && !self.used.has(n)
        };
        let joins = |item: &Item| {
            let small = item.kind == WordKind::Small && item.mark.is_none() && item.is_single();
            small && (!item.is(self.clause.classes().preposition) || self.is_possessive(item))
        };
        capital(n) || self.clause.at(n, joins) && capital(n + 1)
    }

    /// Whether a word may be a name by its looks: it is in no list, or has a capital that no sentence begins with.
    pub(super) fn looks_like_name(&self, n: usize) -> bool {
        self.clause.at(n, |item| item.kind == WordKind::Strange || item.capital && n + self.clause.from > 0)
    }

    /// Names the variety of the fruit at a place, where it has none.
    pub(super) fn name_variety(&mut self, n: usize, name: Option<String>) {
        let food = self.roles.iter_mut().find(|(at, _)| *at == n);
        if let (Some((_, Role::Food(Food { variety: variety @ None, .. }))), Some(name)) = (food, name) {
            *variety = Some(name);
        }
    }
}
