//! What is made, and the process that applies: names and settings in, a batch's timing out.

use super::Apply;
use crate::batch::Timing;
use crate::ledger::effect::Refusal;
use crate::ledger::state::State;
use crate::processes::{self, ProductInfo, Query, Resolved};
use crate::quantity::Pressure;
use crate::vocabulary::{CannerKind, Jar, Pack, Product};

/// What a name means to a household.
#[derive(Clone, PartialEq, Debug)]
pub enum Made {
    /// A product with tested processes.
    Tested(&'static ProductInfo),
    /// A recipe of its own: kept and counted, never timed.
    Own(Product),
}

impl Made {
    /// The product.
    pub fn product(&self) -> Product {
        match self {
            Self::Tested(info) => info.product(),
            Self::Own(product) => product.clone(),
        }
    }
}

/// What a name, or none, means here: the household's own recipes first, then the tables.
///
/// # Errors
/// When it means several products, or none.
pub fn made(state: &State, name: Option<&Product>) -> Result<Made, Refusal> {
    let name = name.unwrap_or(&state.settings.product);
    if state.recipes.contains_key(name.as_str()) {
        return Ok(Made::Own(name.clone()));
    }
    match processes::resolve(name) {
        Resolved::Tested(info) => Ok(Made::Tested(info)),
        // A family word means the usual product where that is of the family.
        Resolved::Family(members) => match members.iter().find(|member| member.id == state.settings.product.as_str()) {
            Some(usual) => Ok(Made::Tested(usual)),
            None => Err(Refusal::WhichProduct(name.clone(), members.iter().map(|member| member.product()).collect())),
        },
        Resolved::Unknown => Err(Refusal::UnknownProduct(name.clone())),
    }
}

impl State {
    /// The process for a product here, under the settings as they are.
    ///
    /// # Errors
    /// When the tables have none, or the altitude is not known.
    pub fn process(
        &self,
        product: &Product,
        jar: Jar,
        canner: CannerKind,
        pack: Option<Pack>,
        pressure: Option<Pressure>,
    ) -> Result<processes::Process, Refusal> {
        let query = Query { product, pack, jar, canner, altitude: self.settings.altitude, pressure };
        processes::lookup(&query).map_err(|why| Refusal::Process { product: product.clone(), jar, canner, why })
    }

    /// The canner that is meant: a pressure canner without its gauge is the one that the room has.
    ///
    /// # Errors
    /// [`Refusal::WhichGauge`] when nobody has said which gauge that has.
    pub fn canner_meant(&self, said: Option<CannerKind>) -> Result<CannerKind, Refusal> {
        match said {
            Some(CannerKind::Pressure) => self.settings.pressure_canner().ok_or(Refusal::WhichGauge),
            Some(said) => Ok(said),
            None => Ok(self.settings.usual_canner()),
        }
    }

    /// How many jars go into a canner at once: as set, else as the tables load it, else seven.
    pub fn canner_holds(&self, product: &Product, canner: CannerKind, jar: Jar) -> u32 {
        let table = || processes::product(product.as_str()).and_then(|info| processes::load(info, jar, None));
        let by_size = if jar.volume() < Jar::Ml750.volume() { 9 } else { 7 };
        self.settings
            .capacity(canner, jar)
            .or_else(|| table().map(|load| load.jars).filter(|_| !is_recipe_yield(product)))
            .unwrap_or(by_size)
            .max(1)
    }
}

/// Whether the tables' jars per load are what a recipe yields and not what a canner holds.
fn is_recipe_yield(product: &Product) -> bool {
    let canner_load = [7, 9];
    processes::product(product.as_str()).is_some_and(|info| {
        info.jars().iter().any(|jar| {
            processes::load(info, *jar, None).is_some_and(|load| !load.scaled && !canner_load.contains(&load.jars))
        })
    })
}

impl From<&processes::Process> for Timing {
    fn from(process: &processes::Process) -> Self {
        Self {
            minutes: Some(process.minutes),
            pressure: process.pressure,
            heat: Some(process.heat),
            headspace: process.headspace,
            timed_as: (process.jar != process.asked_jar).then_some(process.jar),
            source: Some(process.source.to_owned()),
        }
    }
}

impl Apply<'_> {
    pub(super) fn product_meant(&self, name: Option<&Product>) -> Result<Product, Refusal> {
        made(self.state, name).map(|made| made.product())
    }

    /// The jar when none is said: the recipe's, the usual one of the usual product, or the only one tested.
    pub(super) fn jar_meant(&self, made: &Made) -> Result<Jar, Refusal> {
        let settings = &self.state.settings;
        match made {
            Made::Own(product) => {
                Ok(self.state.recipes.get(product.as_str()).and_then(|recipe| recipe.jar).unwrap_or(settings.jar))
            }
            Made::Tested(info) if info.id == settings.product.as_str() => Ok(settings.jar),
            Made::Tested(info) => match (info.jars().as_slice(), info.unverified_jar()) {
                ([only], _) => Ok(*only),
                (_, Some(printed)) => Ok(printed),
                (several, None) => Err(Refusal::WhichJar(info.product(), several.to_vec())),
            },
        }
    }

    /// As [`Apply::jar_meant`], for what is told afterwards and must not be asked about.
    pub(super) fn usual_jar(&self, product: &Product) -> Jar {
        let meant = made(self.state, Some(product)).and_then(|made| self.jar_meant(&made));
        meant.unwrap_or(self.state.settings.jar)
    }
}
