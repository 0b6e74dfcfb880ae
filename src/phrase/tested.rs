//! What a clause names of which a tested process may be looked up, and what the tables say of it.

use crate::processes::{ProductInfo, Resolved, dose, resolve};
use crate::quantity::Volume;
use crate::statement::Statement;
use crate::vocabulary::{Acid, Crop, Jar, Product, SettingKey};

/// A word that is at least so long, its last letter apart, stands for its other forms too.
const STEM: usize = 5;

/// What the statements of a clause name.
#[derive(Debug, Default)]
pub(super) struct Tested {
    pub(super) products: Vec<Product>,
    pub(super) infos: Vec<&'static ProductInfo>,
    pub(super) jars: Vec<Jar>,
    /// A product that no table has: it gets no time, whatever else is said of it.
    pub(super) names_other: bool,
    /// It sets how high the kitchen is, which no canner beside it changes.
    pub(super) is_height: bool,
}

impl Tested {
    pub(super) fn of(statements: &[Statement]) -> Self {
        let height = |said: &Statement| matches!(said, Statement::Set(set) if set.key == SettingKey::Altitude);
        let is_height = !statements.is_empty() && statements.iter().all(height);
        let mut tested = Self { is_height, ..Self::default() };
        for statement in statements {
            let said = match statement {
                Statement::Clarify(asked) => asked.partial.as_deref().unwrap_or(statement),
                said => said,
            };
            if let Some(product) = said.product() {
                match resolve(product) {
                    Resolved::Tested(info) => tested.infos.push(info),
                    Resolved::Family(members) => tested.infos.extend(members),
                    Resolved::Unknown => tested.names_other = true,
                }
                tested.products.push(product.clone());
            }
            tested.jars.extend(jar_of(said));
        }
        tested
    }

    pub(super) fn is_crop(&self, crop: Crop) -> bool {
        match self.infos.as_slice() {
            // Without a product a start is asked for one, and fruit that is canned by itself is tomatoes.
            [] => crop == Crop::Tomato,
            infos => infos.iter().any(|info| info.crop == Some(crop)),
        }
    }

    /// Whether it is so of every product that may be meant.
    pub(super) fn all(&self, is: impl Fn(&ProductInfo) -> bool) -> bool {
        !self.infos.is_empty() && self.infos.iter().all(|info| is(info))
    }

    /// Whether it is what goes into a jar of the product as acid.
    pub(super) fn is_dose(&self, volume: Volume) -> bool {
        let jars: &[Jar] = if self.jars.is_empty() { &[Jar::Pint, Jar::Quart] } else { &self.jars };
        let dose = |info: &'static ProductInfo, jar: Jar| {
            let acids = [Acid::LemonJuice, Acid::CitricAcid];
            acids.into_iter().filter_map(move |acid| dose(info, jar, acid)).any(|dose| dose.amount == volume)
        };
        self.infos.iter().any(|info| jars.iter().any(|jar| dose(info, *jar)))
    }

    /// Whether the tables say it of the product: `peaches, halved or sliced`.
    pub(super) fn says(&self, word: &str) -> bool {
        // `halves` are what the table calls `halved`.
        let stem = word.get(..word.len().saturating_sub(1)).filter(|stem| stem.len() >= STEM).unwrap_or(word);
        let is_word = |part: &str| part.get(..stem.len()).is_some_and(|start| start.eq_ignore_ascii_case(stem));
        let is_said = |name: &str| name.split(|c: char| !c.is_alphanumeric()).any(is_word);
        self.infos.iter().any(|info| is_said(info.name) || is_said(info.spoken))
    }
}

const fn jar_of(statement: &Statement) -> Option<Jar> {
    match statement {
        Statement::Began(said) => said.jar,
        Statement::Filled(said) => said.jar,
        Statement::PutUp(said) => said.jar,
        Statement::Ask(said) => said.jar,
        _ => None,
    }
}
