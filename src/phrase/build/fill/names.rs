//! Names of the lists and of the household: food, supplies, what was dried, batches, stores, canners.

use super::filling::{Filling, Food, Role};
use crate::phrase::build::clause::{meaning_of, value_of};
use crate::phrase::build::made::Note;
use crate::phrase::frame::{Group, Slots};
use crate::phrase::item::{Item, WordKind};
use crate::phrase::lex::Mark;
use crate::phrase::lexicon::sense::Meaning;
use crate::phrase::value::Value;
use crate::statement::Teach;
use crate::vocabulary::{Crop, Kind, Product, Subject, Taught, Whole};

impl Filling<'_, '_> {
    /// Takes the name that an item is, where the frame takes one.
    pub(super) fn assign_name(&mut self, n: usize, item: &Item) {
        if item.senses.is_empty() && item.parts.is_none() {
            return;
        }
        let role = self
            .own_name(n, item)
            .or_else(|| self.supply(item))
            .or_else(|| self.dried(n, item))
            .or_else(|| self.food(n, item))
            .or_else(|| self.batch_by_product(n, item))
            .or_else(|| self.closed_word(item));
        if let Some(role) = role {
            self.take(n, role);
        }
    }

    /// A name that is the household's own: of a recipe or a batch.
    fn own_name(&mut self, n: usize, item: &Item) -> Option<Role> {
        let classes = self.clause.classes();
        let household = self.clause.scene.household;
        if self.takes(Slots::Batch)
            && let Some(own) = item.own(classes.household_batch)
        {
            self.note(Note::Batch);
            return Some(Role::Batch(household.batch(own)?.to_owned()));
        }
        if self.takes(Slots::Product)
            && let Some(own) = item.own(classes.household_recipe)
        {
            self.note(Note::Product);
            return Some(Role::product(Product::named(household.recipe(own)?)));
        }
        if let Some(taught) = item.own(classes.household_word).and_then(|own| household.taught(own)) {
            return self.taught(taught);
        }
        if !self.takes(Slots::Batch) || !item.is(classes.batch) {
            return None;
        }
        // `the second round`: of seals, for a step is of the round that stands at it.
        let of_seals = self.clause.frame.group == Group::Seal && item.is(classes.round);
        if of_seals
            && let Some(Meaning::Number(nth)) = self
                .clause
                .item(n.wrapping_sub(1))
                .and_then(|before| before.meaning(classes.ordinal, self.clause.words()))
        {
            self.used.add(n - 1);
            self.note(Note::Batch);
            return Some(Role::Round(u32::try_from(*nth).ok()?));
        }
        // `batch 2`
        let next = self.clause.item(n + 1).filter(|next| next.is_single())?;
        let number = value_of!(next, Value::Number(figure) => figure.number)?.as_count().filter(|n| *n < 1000)?;
        self.used.add(n + 1);
        self.note(Note::Batch);
        if of_seals { Some(Role::Round(number)) } else { Some(Role::Batch(number.to_string())) }
    }

    /// A thing that no list has, by the word that the household taught for it.
    fn taught(&mut self, taught: &Teach) -> Option<Role> {
        let name = taught.name.clone().unwrap_or_else(|| taught.word.clone());
        match taught.means {
            Taught::Variety if self.takes(Slots::Variety) => {
                Some(Role::Food(Food { variety: Some(name), ..Food::default() }))
            }
            Taught::Crop if self.takes(Slots::Crop) => {
                Some(Role::Food(Food { crop: Some(Crop::of(&name)), ..Food::default() }))
            }
            Taught::Product if self.takes(Slots::Product) => Some(Role::product(Product::named(&name))),
            _ => None,
        }
    }

    fn supply(&mut self, item: &Item) -> Option<Role> {
        let classes = self.clause.classes();
        let supply =
            *meaning_of!(item, classes.supply, self.clause.words(), Supply).filter(|_| self.takes(Slots::Supply))?;
        self.note(Note::Supply);
        Some(Role::Supply(supply))
    }

    /// What was dried: `apple slices`, `apple rings`; of tomato skins only the skins.
    fn dried(&self, n: usize, item: &Item) -> Option<Role> {
        let clause = self.clause;
        let classes = clause.classes();
        if !self.takes(Slots::Dryable) {
            return None;
        }
        let grown = |item: &Item| item.is(classes.crop) && !self.is_tomato(item);
        if item.parts.as_deref().is_some_and(|parts| parts.iter().any(grown)) {
            return clause.said(n, n + 1).map(Role::What);
        }
        let what = *meaning_of!(item, classes.dryable, clause.words(), Word)?;
        if item.is(classes.powder) {
            return Some(Role::Modifier);
        }
        let said = match n {
            1.. if clause.at(n - 1, grown) => clause.said(n - 1, n + 1),
            // `apples in rings`
            2.. if clause.is(n - 1, classes.prep_in) && clause.at(n - 2, grown) => clause.said(n - 2, n - 1),
            _ => None,
        };
        Some(Role::What(said.unwrap_or_else(|| what.to_owned())))
    }

    fn is_tomato(&self, item: &Item) -> bool {
        meaning_of!(item, self.clause.classes().crop, self.clause.words(), Crop) == Some(&Crop::Tomato)
    }

    /// Fruit or food by its name.
    fn food(&mut self, n: usize, item: &Item) -> Option<Role> {
        let takes = self.clause.frame.slots;
        if !takes.meets(Slots::Crop.with(Slots::Variety).with(Slots::Product)) || self.is_purpose(n, item) {
            return None;
        }
        // A picture of fruit beside its name says nothing more.
        if self.is_picture(item) && (0..self.clause.items().len()).any(|at| at != n && self.is_food_word(at)) {
            return Some(Role::Modifier);
        }
        let classes = self.clause.classes();
        let words = self.clause.words();
        let mut food = Food::default();
        if takes.has(Slots::Crop) {
            food.crop = meaning_of!(item, classes.crop, words, Crop).copied();
        }
        if takes.meets(Slots::Crop.with(Slots::Variety))
            && let Some(Meaning::Variety(name, of)) = item.meaning(classes.variety, words)
        {
            food.variety = Some((*name).to_owned());
            food.crop = food.crop.or(*of);
        }
        if takes.has(Slots::Product) {
            food.product = meaning_of!(item, classes.product, words, Product).cloned();
        }
        if food.product.is_none() && food.crop.is_none() && food.variety.is_none() {
            food = self.food_of_parts(item)?;
        }
        self.note_food(&food);
        food.variety = food.variety.filter(|_| takes.has(Slots::Variety));
        Some(Role::Food(food))
    }

    /// `crushed tomatoes` where no product is asked for: how they were cut, and what they are.
    fn food_of_parts(&self, item: &Item) -> Option<Food> {
        let classes = self.clause.classes();
        let words = self.clause.words();
        let mut food = Food::default();
        for part in item.parts.as_deref().filter(|_| self.takes(Slots::Crop))? {
            food.crop = food.crop.or(meaning_of!(part, classes.crop, words, Crop).copied());
            food.prep = meaning_of!(part, classes.prep, words, Prep).copied().or(food.prep);
            food.ripe = meaning_of!(part, classes.ripe, words, Ripe).copied().or(food.ripe);
        }
        food.crop.is_some().then_some(food)
    }

    fn note_food(&mut self, food: &Food) {
        let named = [
            (food.product.is_some(), Note::Product),
            (food.crop.is_some(), Note::Crop),
            (food.variety.is_some(), Note::Variety),
        ];
        named.into_iter().filter(|(named, _)| *named).for_each(|(_, note)| self.note(note));
    }

    /// `opened 3 pints for the soup`: a dish behind `for` is what it was used for.
    fn is_purpose(&self, n: usize, item: &Item) -> bool {
        let classes = self.clause.classes();
        let used_up = matches!(self.kind(), Kind::Opened | Kind::Gave | Kind::Ate | Kind::Tossed | Kind::Thawed);
        if !used_up || !item.is(classes.product) || item.is(classes.crop) {
            return false;
        }
        let passes = |item: &Item| {
            item.is_any(&[classes.article, classes.own]) || matches!(item.kind, WordKind::Ordinary | WordKind::Harmless)
        };
        let at = self.clause.start_of(n, n, |n| self.clause.at(n, passes));
        self.clause.before(at).is_some_and(|item| item.is(classes.prep_for))
    }

    fn is_picture(&self, item: &Item) -> bool {
        self.clause.scene.text.lexed.tokens.get(item.from as usize).is_some_and(|token| token.is(Mark::Other))
    }

    fn is_food_word(&self, n: usize) -> bool {
        let classes = self.clause.classes();
        let food = [classes.crop, classes.variety, classes.product];
        self.clause.at(n, |item| item.is_any(&food) && !self.is_picture(item))
    }

    /// A batch by what is made in it: where one is open, or where only a batch can be meant.
    fn batch_by_product(&mut self, n: usize, item: &Item) -> Option<Role> {
        let clause = self.clause;
        let classes = clause.classes();
        let household = clause.scene.household;
        let product =
            meaning_of!(item, classes.product, clause.words(), Product).filter(|_| self.takes(Slots::Batch))?;
        // `drained 11 lb of juice` says what, not from which batch; `saved for soup` what for.
        let article = clause.before(n).is_some_and(|item| item.is(classes.article));
        let led = clause.before(n.saturating_sub(usize::from(article)));
        let from = led.is_some_and(|item| item.is(classes.prep_from) && !item.is(classes.of));
        let drained = self.kind() == Kind::Drained && (item.is(classes.liquid) || !from);
        let meant = matches!(self.kind(), Kind::Stopped | Kind::Resumed | Kind::Ask);
        if drained || !meant && !household.has_open_batch() {
            return Some(Role::Modifier);
        }
        self.note(Note::BatchProduct);
        let labels = clause.frame.about == Some(Subject::Labels);
        if labels && household.batch_named(product.as_str()).is_none() {
            return Some(Role::product(product.clone()));
        }
        Some(Role::Batch(product.as_str().to_owned()))
    }

    /// A word of a closed list: how fruit was cut, how ripe it was, where it is kept, what it is canned in, whether
    /// liquid was kept.
    fn closed_word(&mut self, item: &Item) -> Option<Role> {
        let classes = self.clause.classes();
        let slots = [
            (Slots::Prep, classes.prep),
            (Slots::Ripe, classes.ripe),
            (Slots::From.with(Slots::Store), classes.store),
            (Slots::Canner, classes.canner),
            (Slots::Pack, classes.pack),
            (Slots::Kept, classes.keep),
            (Slots::Kept, classes.away),
        ];
        let takes = self.clause.frame.slots;
        let named = slots.into_iter().filter(|(slot, class)| takes.meets(*slot) && item.is(*class));
        for (_, class) in named {
            if class == classes.store {
                self.note(Note::Store);
            }
            return Some(match item.meaning(class, self.clause.words()) {
                Some(Meaning::Prep(prep)) => Role::Prep(*prep),
                Some(Meaning::Ripe(ripe)) => Role::Ripe(*ripe),
                Some(Meaning::Store(stock)) => Role::From(*stock, self.part_of_store(item)),
                Some(Meaning::Canner(canner)) => Role::Canner(*canner),
                Some(Meaning::Pack(pack)) => Role::Pack(*pack),
                _ if class == classes.store => Role::Modifier,
                _ if class == classes.keep || class == classes.away => Role::Kept(class == classes.keep),
                _ => continue,
            });
        }
        let amounts = takes.meets(Slots::Mass.with(Slots::Count).with(Slots::Number));
        (amounts && item.is(classes.vague) && !item.is(classes.small)).then(|| {
            self.note(Note::Vague);
            Role::Vague
        })
    }

    /// What a part of a store is a part of.
    fn part_of_store(&self, item: &Item) -> Option<Whole> {
        let classes = self.clause.classes();
        let wholes =
            [(classes.thawing, Whole::Thawing), (classes.counter, Whole::Counter), (classes.freezer, Whole::Freezer)];
        wholes.into_iter().find(|(class, _)| item.is(*class)).map(|(_, whole)| whole)
    }
}
