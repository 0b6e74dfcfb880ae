//! How close the freezer is to a canner load.

use super::{choose_bags, own_for_loads};
use crate::ledger::crop_of;
use crate::ledger::state::{Bag, State};
use crate::processes;
use crate::quantity::{Mass, Number, Volume};
use crate::vocabulary::{Crop, Jar, Product};

/// What a load is.
#[derive(Clone, PartialEq, Debug)]
pub struct Target {
    /// Of what.
    pub product: Product,
    /// In which jars.
    pub jar: Jar,
    /// How many jars it fills.
    pub jars: u32,
    /// Raw weight.
    pub mass: Mass,
    /// The crop that counts towards it.
    pub crop: Crop,
    /// The table, or the household's own recipe.
    pub source: String,
    /// Whether the weight is scaled by volume from another jar or another number of jars.
    pub scaled: bool,
}

/// How close it is.
#[derive(Clone, PartialEq, Debug)]
pub struct LoadState {
    /// What a load is.
    pub target: Target,
    /// What the freezer holds of its crop.
    pub freezer: Mass,
    /// In how many bags.
    pub bags: u32,
    /// What is missing; nothing once there is enough.
    pub short: Mass,
    /// How many usual bags that is.
    pub bags_to_go: u32,
    /// The bags to thaw, oldest first, once there is enough.
    pub chosen: Vec<Bag>,
}

/// What a load of a product is in a household; of the usual one where none is named. `None` where no weight is
/// published or told.
///
/// A jar that is not named is the usual one for the usual product, else the largest that the tables have a load for.
pub fn target(state: &State, product: Option<&Product>, jar: Option<Jar>) -> Option<Target> {
    let product = product.unwrap_or(&state.settings.product);
    if let Some(recipe) = state.recipes.get(product.as_str()) {
        let jar = jar.or(recipe.jar).unwrap_or(state.settings.jar);
        let told = recipe.jar.unwrap_or(jar);
        let scale = jar.volume().ratio(told.volume());
        let mass = recipe.mass.and_then(|mass| Mass::from_grams(mass.as_grams() * scale))?;
        let source = format!("the household's own recipe '{}'", recipe.name);
        let jars = recipe.jars.unwrap_or(1);
        let scaled = jar != told;
        return Some(Target { product: product.clone(), jar, jars, mass, crop: Crop::Tomato, source, scaled });
    }
    let info = match processes::resolve(product) {
        processes::Resolved::Tested(info) => info,
        processes::Resolved::Family(members) => members.into_iter().find(|member| {
            member.id == state.settings.product.as_str()
                || member.jars().iter().any(|jar| processes::load(member, *jar, None).is_some())
        })?,
        processes::Resolved::Unknown => return None,
    };
    let usual = (info.id == state.settings.product.as_str()).then_some(state.settings.jar);
    let largest = || {
        let printed = |jar: &Jar| processes::load(info, *jar, None).is_some_and(|load| !load.scaled);
        info.jars().into_iter().filter(printed).max_by_key(|jar| jar.volume())
    };
    let jar = jar.or(usual).or_else(largest)?;
    let capacity = state.settings.capacity(state.settings.usual_canner(), jar);
    let load = processes::load(info, jar, capacity);
    if let Some(own) = own_for_loads(state, &info.product()) {
        let holds = || state.canner_holds(&info.product(), state.settings.usual_canner(), jar);
        let jars = load.map_or_else(holds, |load| load.jars);
        let mass = own.for_jars(jars, jar)?;
        let source = format!("your own yield, the median of your last {} batches", own.of);
        let crop = crop_of(&info.product());
        return Some(Target { product: info.product(), jar, jars, mass, crop, source, scaled: false });
    }
    let load = load?;
    Some(Target {
        product: info.product(),
        jar,
        jars: load.jars,
        mass: load.mass,
        crop: crop_of(&info.product()),
        source: load.source.to_owned(),
        scaled: load.scaled,
    })
}

/// How close the freezer is to a load.
pub fn load_state(state: &State, target: Target) -> LoadState {
    let bags = state.freezer.bags(target.crop);
    let freezer: Mass = bags.iter().map(|bag| bag.mass).sum();
    let short = target.mass.less(freezer);
    let usual = state.settings.usual_bag();
    LoadState {
        freezer,
        bags: bags.len() as u32,
        short,
        bags_to_go: short.ratio(usual).ceil() as u32,
        chosen: if short.is_zero() { choose_bags(bags, target.mass) } else { Vec::new() },
        target,
    }
}

impl LoadState {
    /// Whether one more usual bag would reach the target.
    pub fn is_near(&self, usual_bag: Mass) -> bool {
        !self.short.is_zero() && self.short <= usual_bag
    }

    /// Whether the target is reached.
    pub fn is_ready(&self) -> bool {
        self.short.is_zero() && !self.target.mass.is_zero()
    }

    /// The weight of the bags to thaw.
    pub fn chosen_mass(&self) -> Mass {
        self.chosen.iter().map(|bag| bag.mass).sum()
    }
}

impl Target {
    /// Raw weight for a quart.
    pub fn per_quart(&self) -> Option<Mass> {
        let quarts = self.jar.volume().ratio(Volume::QUART) * f64::from(self.jars);
        (quarts > 0.0).then(|| Mass::from_grams(self.mass.as_grams() / quarts)).flatten()
    }

    /// So many usual bags are a load.
    pub fn in_bags(&self, usual: Mass) -> u32 {
        let whole = self.mass.ratio(usual).ceil() as u32;
        let enough = usual.times(Number::whole(i64::from(whole))).is_some_and(|sum| sum >= self.mass);
        if enough { whole } else { whole + 1 }
    }
}
