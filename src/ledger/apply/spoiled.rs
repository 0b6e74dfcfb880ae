//! Jars that are spoiled leave the shelf as thrown away.

use super::Apply;
use super::shelf::on_shelf;
use crate::ledger::effect::Effect;
use crate::ledger::state::{Lot, Way};
use crate::statement::Spoiled;
use crate::vocabulary::Stock;

impl Apply<'_> {
    /// Takes them off the shelf where it is known which and how many they are, and names the others of their batch.
    /// It is never refused: what is to be done with the jar must be said even where no such jar is known.
    pub(super) fn spoiled(&mut self, spoiled: &Spoiled) -> Effect {
        let (jar, jars) = (spoiled.jar, spoiled.jars.unwrap_or(0));
        for place in [Stock::Pantry, Stock::Fridge] {
            let shelf = self.state.shelf(place);
            let product = match &spoiled.product {
                Some(name) => on_shelf(shelf, name, jar),
                // Not said of what: clear where the shelf has but one thing in such jars.
                None => {
                    let mut sums = shelf.sums().into_iter().filter(|(_, size, _)| jar.is_none_or(|jar| jar == *size));
                    match (sums.next(), sums.next()) {
                        (Some((only, ..)), None) => only,
                        _ => continue,
                    }
                }
            };
            let meant: Vec<Lot> = shelf.lots().iter().filter(|lot| lot.is(Some(&product), jar)).cloned().collect();
            if meant.is_empty() {
                continue;
            }
            let taken = if jars == 0 { None } else { self.off_shelf(place, Some(&product), jar, jars, Way::Tossed) };
            let mut effect = taken.unwrap_or_default();
            effect.look_at = self.of_the_same(place, &meant);
            return effect;
        }
        Effect::default()
    }

    /// What is left of the lots of which one may have been: those of the oldest that could be meant first.
    fn of_the_same(&self, place: Stock, meant: &[Lot]) -> Vec<Lot> {
        let same = |lot: &&Lot| {
            meant.iter().any(|of| of.on == lot.on && of.batch == lot.batch && lot.is(Some(&of.product), Some(of.jar)))
        };
        self.state.shelf(place).lots().iter().filter(same).cloned().collect()
    }
}
