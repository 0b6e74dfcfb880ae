//! Jars onto the pantry shelf and off it.

use super::Apply;
use crate::ledger::effect::{Effect, Refusal};
use crate::ledger::state::{Finished, Lot, Shelf, Way};
use crate::processes::{self, Resolved};
use crate::statement::Jarred;
use crate::vocabulary::{Jar, Product, Stock};

/// Whether a name, perhaps a family word, means a product.
pub(crate) fn names(name: &Product, product: &Product) -> bool {
    name == product
        || match processes::resolve(name) {
            Resolved::Family(members) => members.iter().any(|member| member.id == product.as_str()),
            Resolved::Tested(_) | Resolved::Unknown => false,
        }
}

/// The product on a shelf that a name means: itself, else the first of its family that is there, else itself.
pub(super) fn on_shelf(shelf: &Shelf, name: &Product, jar: Option<Jar>) -> Product {
    let meant = |lot: &&Lot| jar.is_none_or(|jar| lot.jar == jar) && names(name, &lot.product);
    let exact = shelf.lots().iter().filter(meant).find(|lot| lot.product == *name);
    exact.or_else(|| shelf.lots().iter().find(meant)).map_or_else(|| name.clone(), |lot| lot.product.clone())
}

impl Apply<'_> {
    pub(super) fn put_up(&mut self, jarred: &Jarred) -> Effect {
        let product = match self.product_meant(jarred.product.as_ref()) {
            Ok(product) => product,
            // What is on the shelf is on the shelf, whatever it is called.
            Err(Refusal::WhichProduct(..) | Refusal::UnknownProduct(_)) => {
                jarred.product.clone().unwrap_or(Product::THICK_SAUCE)
            }
            Err(refusal) => return Effect::refused(refusal),
        };
        let jar = jarred.jar.unwrap_or_else(|| self.usual_jar(&product));
        let jars = jarred.jars.unwrap_or(0);
        let (fruit, implied) = self.fruit_into_jars(&product, None, jarred.mass);
        // A batch told in one go has filled its jars too, those that did not seal as well.
        let filled = jarred.of.unwrap_or(jars).max(jars);
        let (used, _) = self.use_supplies(&product, jar, filled, None);
        if jarred.mass.is_some() {
            self.state.history.add(Finished::told(&product, jar, (jars, filled), fruit.raw, self.at));
        }
        let on = self.day();
        self.state.pantry.put(Lot { product: product.clone(), jar, jars, on, batch: None });
        self.state.diary.note_put_up(on, &product, jar, jars);
        self.day_has_come(&product);
        self.state.totals_mut(self.at).jars_put_up += jars;
        Effect { implied, used, jars: vec![(product, jar, jars)], ..Effect::default() }
    }

    pub(super) fn opened(&mut self, jarred: &Jarred) -> Effect {
        let jars = jarred.jars.unwrap_or(1);
        let (product, jar) = (jarred.product.as_ref(), jarred.jar);
        for place in [Stock::Pantry, Stock::Fridge, Stock::Freezer] {
            if let Some(effect) = self.off_shelf(place, product, jar, jars, Way::Used) {
                return effect;
            }
        }
        self.short_of_jars(Stock::Pantry, product, jar, jars, Way::Used)
    }

    /// Takes jars off a shelf, oldest first; `None`, and nothing changed, when there are not that many.
    pub(super) fn off_shelf(
        &mut self,
        place: Stock,
        product: Option<&Product>,
        jar: Option<Jar>,
        jars: u32,
        way: Way,
    ) -> Option<Effect> {
        let shelf = self.state.shelf_mut(place);
        let product = product.map(|product| on_shelf(shelf, product, jar));
        if shelf.jars(product.as_ref(), jar) < jars {
            return None;
        }
        let lots = shelf.take(product.as_ref(), jar, jars);
        if place == Stock::Pantry {
            let on = self.day();
            for lot in &lots {
                self.state.diary.note_gone(on, &lot.product, lot.jar, lot.jars, way);
            }
        }
        let jars = lots.into_iter().map(|lot| (lot.product, lot.jar, lot.jars)).collect();
        Some(Effect { jars, from: Some(place), ..Effect::default() })
    }
}
