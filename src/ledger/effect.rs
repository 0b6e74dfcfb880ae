//! What applying an entry did, and why it may be refused: values that become replies.

use super::state::{Bag, Drying, Lot, PlannedDay, SupplyKey};
use crate::batch::{Bearing, Misfit, Stage};
use crate::processes;
use crate::quantity::Mass;
use crate::statement::When;
use crate::vocabulary::{CannerKind, Crop, Jar, Product, Stock};
use chrono::NaiveDate;

/// What an entry did to the state, for the reply.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Effect {
    /// Why nothing changed.
    pub refusal: Option<Refusal>,
    /// Less was taken than was said, because an earlier entry was changed.
    pub cut: Option<Shortage>,
    /// Fruit that left the counter without ever having been entered: counted as picked that day.
    pub implied: Mass,
    /// Weight that moved.
    pub moved: Mass,
    /// Bags that moved.
    pub bags: Vec<Bag>,
    /// Jars that moved, with what is in them.
    pub jars: Vec<(Product, Jar, u32)>,
    /// The batch it belongs to.
    pub batch: Option<u32>,
    /// The heat went off, or the jars came out, before the minutes were up.
    pub too_soon: bool,
    /// The gauge fell short while the clock ran: the full time starts again.
    pub too_low: bool,
    /// The batch had been set aside and goes on.
    pub resumed: bool,
    /// The clock ran, and is lost: the batch was set aside.
    pub lost_heat: bool,
    /// The gauge was told while the clock ran, and is high enough.
    pub steady: bool,
    /// What a mishap means for the jars of the batch.
    pub bearing: Option<Bearing>,
    /// Jars that must be acidified are not, as far as is known: they are held, or what went in was not enough.
    pub acid_lacks: bool,
    /// The fate of the batch's last jar is known with it.
    pub closed: bool,
    /// What powder was made of.
    pub what: Option<String>,
    /// What came out of the dryer, as it went in.
    pub dried: Option<Drying>,
    /// Where the jars that moved came from.
    pub from: Option<Stock>,
    /// Other jars of what was put up with them, which may be as they are: what, how many, and since when.
    pub look_at: Vec<Lot>,
    /// Supplies that it used.
    pub used: Vec<SupplyKey>,
    /// Running batches whose process time followed a setting.
    pub retimed: Vec<u32>,
    /// What was to be stopped is not running.
    pub not_running: bool,
    /// The canning day that it set or called off.
    pub planned: Option<PlannedDay>,
    /// The day on which that had been before.
    pub moved_from: Option<NaiveDate>,
    /// The bags' weight was not said and is the usual one.
    pub usual_bag: bool,
}

impl Effect {
    /// Nothing changed, and this is why.
    pub fn refused(refusal: Refusal) -> Self {
        Self { refusal: Some(refusal), ..Self::default() }
    }
}

/// How much was wanted and how much there was.
#[derive(Clone, PartialEq, Debug)]
pub struct Shortage {
    /// From where: `freezer`, `pantry`, `fridge`, `dryer`, `dried`.
    pub place: &'static str,
    /// What was wanted.
    pub wanted: Amount,
    /// What was there.
    pub there: Amount,
}

/// An amount as people count it.
#[derive(Clone, PartialEq, Debug)]
pub enum Amount {
    /// By weight.
    Mass(Mass, Crop),
    /// In bags.
    Bags(u32, Crop),
    /// In jars.
    Jars(u32, Option<Jar>, Option<Product>),
}

/// Why an entry is not taken in. Nothing has changed.
#[derive(Clone, PartialEq, Debug)]
pub enum Refusal {
    /// More was to be taken out than is there.
    NotEnough(Shortage),
    /// No batch is open, or none of this product.
    NoBatch(Option<Product>),
    /// No batch of this name is open; these are.
    NoSuchBatch(String, Vec<String>),
    /// Another open batch goes by that name.
    NameTaken(String),
    /// A recipe of the household's own: no tested process, so no batch is timed.
    OwnRecipe(Product),
    /// It could mean any of these batches.
    WhichBatch(Vec<String>),
    /// It does not fit where the batch stands.
    Misfit {
        /// The batch.
        batch: String,
        /// Its stage.
        stage: Stage,
        /// Whether it is in a pressure canner.
        pressure: bool,
        /// Why.
        misfit: Misfit,
    },
    /// The gauge is lower than the process needs.
    LowPressure {
        /// The batch.
        batch: String,
        /// In psi, as the table has it.
        needed: f64,
    },
    /// The process tables refuse.
    Process {
        /// What was to be made.
        product: Product,
        /// In which jar.
        jar: Jar,
        /// In which canner.
        canner: CannerKind,
        /// Why not.
        why: processes::Refusal,
    },
    /// Neither a tested product nor a recipe of the household.
    UnknownProduct(Product),
    /// Several tested products go by that name.
    WhichProduct(Product, Vec<Product>),
    /// The product is tested in several jars, and none was said.
    WhichJar(Product, Vec<Jar>),
    /// A pressure canner of which nobody said whether its gauge is a dial or a weight.
    WhichGauge,
    /// It has not happened yet.
    Future(When),
    /// Zero, or more than a household can mean.
    Absurd(String),
}
