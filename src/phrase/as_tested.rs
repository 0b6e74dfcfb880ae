//! Words beside a product that leave it as it was tested: what the tables' own directions put in or leave out, how they
//! make the food ready, and what is said not to be there.

use super::directions::Stretch;
use super::held::Veto;
use super::item::{Item, WordKind};
use super::lex::Mark;
use super::lexicon::sense::Meaning;
use super::value::Value;
use super::value::measure::Share;
use crate::processes::{Category, ProductInfo};
use std::ops::Range;

/// The strength of the vinegar that the tables ask for (USDA AIB 539, 2015, Guide 6: 5 percent acetic acid).
const VINEGAR: f64 = 0.05;

/// Where pictures of food and drink stand in Unicode (blocks 'Miscellaneous Symbols and Pictographs', 'Supplemental
/// Symbols and Pictographs', 'Symbols and Pictographs Extended-A').
const FOOD: [(char, char); 4] =
    [('\u{1f32d}', '\u{1f330}'), ('\u{1f344}', '\u{1f37f}'), ('\u{1f950}', '\u{1f96f}'), ('\u{1fad0}', '\u{1fad8}')];

impl Veto<'_> {
    /// Whether a share is the strength that vinegar must have.
    pub(super) fn is_full_strength(share: Share) -> bool {
        matches!(share, Share::Part(part) if part.as_f64() == VINEGAR)
    }

    /// A picture beside the words: of the product's own crop, or of nothing that could be in a jar.
    pub(super) fn is_picture(&self, item: &Item) -> bool {
        self.is_mark_of_picture(item) && !self.is_picture_of_other_food(item)
    }

    /// A picture of food that the product is not.
    pub(super) fn is_picture_of_other_food(&self, item: &Item) -> bool {
        let c = self.classes();
        let token = self.text.lexed.tokens.get(item.from as usize);
        let sign = token.and_then(|token| self.text.text.get(token.from as usize..)?.chars().next());
        let of_food = item.is_any(&[c.food, c.product, c.crop, c.dish])
            || sign.is_some_and(|sign| FOOD.iter().any(|(from, to)| (*from..=*to).contains(&sign)));
        let own = match item.meaning(c.crop, self.text.words) {
            Some(Meaning::Crop(crop)) => self.tested.all(|info| info.crop == Some(*crop)),
            _ => self.tested.all(ProductInfo::is_flesh),
        };
        self.is_mark_of_picture(item) && of_food && !own
    }

    fn is_mark_of_picture(&self, item: &Item) -> bool {
        let token = self.text.lexed.tokens.get(item.from as usize);
        item.is_single() && token.is_some_and(|token| token.is(Mark::Other))
    }

    /// `at my sister's in Leadville`: a place at another height, perhaps, than the one that is set.
    pub(super) fn is_elsewhere(&self, n: usize) -> bool {
        let c = self.classes();
        let named = |item: &Item| item.capital && matches!(item.kind, WordKind::Strange | WordKind::Alien);
        self.strict
            && self.text.items.get(n).is_some_and(named)
            && self.text.before(n).is_some_and(|before| before.is(c.prep_in))
    }

    /// `peaches from Vineland`, `off the stand by Silverton`: the name of where it is from, which is not where it is
    /// canned. (`Here in Vineland` may be at another height than the one that is set.)
    pub(super) fn is_where_from(&self, n: usize, item: &Item) -> bool {
        let c = self.classes();
        let named = |item: &Item| item.capital && item.kind == WordKind::Strange;
        let before = self.text.items.get(..n).unwrap_or_default().iter().rev();
        let mut part = before.take_while(|item| item.mark.is_none());
        named(item) && part.any(|item| item.is(c.prep_from))
    }

    /// Whether the directions of its products say it too. What is said not to be so (`not peeled`, `less salt`) is not
    /// as they say; what is put in counts only where no word makes less of it.
    pub(super) fn is_directed(&self, n: usize) -> bool {
        let Some(Some(Stretch { items, put_in })) = self.said.get(n) else { return false };
        let c = self.classes();
        // `ground meat with venison`: what is added is none of what it is.
        let added = || {
            let food = self.text.items.get(items.start).is_some_and(|item| item.is_any(&[c.crop, c.food, c.product]));
            let joins = |item: &Item| item.is_any(&[c.prep_with, c.and]) || item.mark == Some(Mark::Slash);
            food && self.text.before(items.start).is_some_and(joins)
        };
        if *put_in { !self.is_weakened_in(items) } else { !self.is_denied(items.start) && !added() }
    }

    /// `not store bought`, `not the recipe as printed`: what the directions say is said not to be so.
    pub(super) fn is_not_as_directed(&self, n: usize) -> bool {
        matches!(self.said.get(n), Some(Some(said)) if !said.put_in && self.is_denied(said.items.start))
    }

    fn is_denied(&self, from: usize) -> bool {
        let c = self.classes();
        let passed = |item: &&Item| item.is(c.article);
        let before = self.text.items.get(..from).unwrap_or_default().iter().rev().find(|item| !passed(item));
        before.is_some_and(|before| before.is_any(&[c.without, c.not, c.more_of]))
    }

    /// `not mashed`, `no flour`: what is said not to be there. Acid is not passed over, and neither is how it is
    /// heated.
    pub(super) fn is_absent(&self, n: usize, item: &Item) -> bool {
        let c = self.classes();
        let counted = [c.acid, c.acid_lemon, c.acid_citric, c.vinegar, c.method, c.jar_word, c.canner, c.pack, c.water];
        // What ferments, ferments in its salt.
        if item.is(c.salt) && self.tested.infos.iter().any(|info| info.is_fermented()) {
            return false;
        }
        if item.is_any(&counted) || item.is(c.form) && !item.is(c.prep) || !item.is_content() {
            return false;
        }
        let passed = |item: &&Item| item.is(c.article) || item.kind == WordKind::Harmless;
        let before = self.text.items.get(..n).unwrap_or_default().iter().rev().find(|item| !passed(item));
        before.is_some_and(|item| item.is(c.without) || item.is(c.not))
    }

    /// `not peeled`, `not soaked`: the tables' food is.
    pub(super) fn is_not_cleaned(&self, n: usize, item: &Item) -> bool {
        let c = self.classes();
        let before = self.text.before(n);
        item.is_any(&[c.beside_cleaned, c.beside_cooked, c.beside_recipe])
            && before.is_some_and(|item| item.is(c.without) || item.is(c.not))
    }

    /// Salt is for taste except in pickles, and may be there or not; bottled lemon juice or citric acid is what
    /// tomatoes are made safe with, where it is said to be in (USDA AIB 539, 2015, Guide 3, 'Acidification', and Guide
    /// 1 on salt).
    pub(super) fn is_as_the_tables_add(&self, n: usize, item: &Item) -> bool {
        let c = self.classes();
        let infos = &self.tested.infos;
        let salt = item.is(c.salt) && !infos.is_empty() && infos.iter().all(|info| info.category != Category::Pickle);
        let with = || self.text.before(n).is_some_and(|before| before.is(c.prep_with));
        let bottled = item.is_any(&[c.acid_lemon, c.acid_citric]) && !item.is(c.acid) && !infos.is_empty();
        let as_tested = self.tested.all(ProductInfo::takes_lemon) && !self.is_weakened(n);
        let vinegar = item.is(c.vinegar) && self.tested.all(ProductInfo::has_vinegar) && !self.is_weakened(n);
        let water = item.is(c.water) && self.tested.all(ProductInfo::takes_water) && !self.is_weakened(n);
        let broth = item.is(c.broth) && self.tested.all(ProductInfo::takes_broth);
        let fermented = item.is(c.fermented) && self.tested.all(ProductInfo::is_fermented);
        let starch = item.is(c.starch) && self.tested.all(ProductInfo::takes_starch);
        let sugar = item.is(c.sugar) && self.tested.all(ProductInfo::takes_sugar) && !self.is_weakened(n);
        salt || bottled && (with() && !self.is_weakened(n) || as_tested)
            || vinegar
            || water
            || broth
            || starch
            || sugar
            || fermented
            || self.is_named(n)
    }

    /// A word of the table's own name of it: the meat of `spaghetti sauce with meat`.
    pub(super) fn is_named(&self, n: usize) -> bool {
        self.text.said(n, n + 1).is_some_and(|word| self.tested.all(|info| info.names(&word)))
    }

    /// Whether a word beside it makes less of it, or a figure that is not the published one stands with it.
    pub(super) fn is_weakened(&self, n: usize) -> bool {
        self.is_weakened_in(&(n..n + 1))
    }

    /// The same of a stretch of words.
    fn is_weakened_in(&self, stretch: &Range<usize>) -> bool {
        let c = self.classes();
        let Range { start: from, end: to } = *stretch;
        let items = self.text.items.len();
        let near = (from.saturating_sub(3)..from).chain(to..(to + 3).min(items));
        let weak = |item: &Item| item.is_any(&[c.weakened, c.more_of, c.not, c.without, c.vague]);
        let before = self.text.items.get(..from).unwrap_or_default().iter().rev();
        let behind = self.text.items.get(to..).unwrap_or_default().iter().take(5);
        let behind = behind.take_while(|item| item.mark.is_none());
        let figures =
            near.filter_map(|n| Some((n, self.text.items.get(n)?))).any(|(n, item)| self.is_other_figure(n, item));
        // `all the vinegar we had`
        let next = |n: usize| self.text.items.get(to + n);
        let all_there_was = next(0).is_some_and(|who| who.is(c.subject)) && next(1).is_some_and(|had| had.is(c.aux));
        before.take_while(|item| item.mark.is_none()).chain(behind).any(weak) || figures || all_there_was
    }

    /// `4 %`, `1 : 4`: a figure that is neither how many jars, nor the 5 % that the tables ask of vinegar (USDA AIB
    /// 539, 2015, Guide 6), nor the published dose.
    pub(super) fn is_other_figure(&self, n: usize, item: &Item) -> bool {
        let jars = item.values.iter().any(|value| matches!(value, Value::Jars(_)));
        !jars
            && item.values.iter().any(|value| match value {
                Value::Share(share) => !Self::is_full_strength(*share),
                Value::Number(_) => {
                    !self.text.items.get(n + 1).is_some_and(|next| next.is(self.classes().unit_percent))
                }
                Value::Volume(volume, _) => !self.tested.is_dose(*volume),
                _ => false,
            })
    }

    /// Fruit is packed in syrup of any strength, in juice or in water for the same time (USDA AIB 539, 2015, Guide 2).
    pub(super) fn is_syrup(&self, item: &Item) -> bool {
        let infos = &self.tested.infos;
        item.is(self.classes().syrup) && !infos.is_empty() && infos.iter().all(|info| info.category == Category::Fruit)
    }

    /// Cut as the table's name of the product says, or in a way that leaves how it lies in the jar as it was
    /// (`peeled`).
    pub(super) fn is_cut_as_tested(&self, n: usize, item: &Item) -> bool {
        let c = self.classes();
        let said = || self.text.said(n, n + 1).is_some_and(|word| self.tested.says(&word));
        item.is(c.prep) && !item.is_any(&[c.form, c.method, c.food]) && (item.is(c.beside) || said())
    }

    /// Vinegar on a cloth for the rims is outside of the jar: in a sentence about rims it is no ingredient.
    pub(super) fn is_of_rim(&self, n: usize, item: &Item) -> bool {
        let c = self.classes();
        let ends = |n: &usize| {
            !self.text.items.get(*n).is_some_and(|item| matches!(item.mark, Some(Mark::Dot | Mark::Line | Mark::Bang)))
        };
        let rim = |n: usize| self.text.items.get(n).is_some_and(|item| item.is(c.rim));
        item.is_any(&[c.supply, c.acid])
            && ((0..n).rev().take_while(ends).any(rim) || (n..self.text.items.len()).take_while(ends).any(rim))
    }

    /// `boiled 5 min`: for how long it was made ready.
    pub(super) fn is_of_cooking(&self, n: usize, value: &Value) -> bool {
        let cooked = || self.text.before(n).is_some_and(|before| before.is(self.classes().beside_cooked));
        // How long dried beans soak and boil is what makes them ready: their directions say how long.
        let soaked = self.tested.infos.iter().any(|info| info.is_soaked());
        matches!(value, Value::Duration(_) | Value::Number(_)) && !soaked && cooked()
    }

    /// The crop that the product is made of, named once more in another sentence: `Apples are from my cousin`. `Extra
    /// apples` are not as tested.
    pub(super) fn is_named_crop(&self, n: usize, item: &Item) -> bool {
        let c = self.classes();
        let own = item.is(c.crop)
            && matches!(
                item.meaning(c.crop, self.text.words),
                Some(Meaning::Crop(crop)) if self.tested.all(|info| info.crop == Some(*crop))
            );
        let more = |item: &Item| item.is(c.more_of) || item.is(c.prep_with);
        own && !self.text.before(n).is_some_and(more)
    }
}
