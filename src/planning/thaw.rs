//! How long a bag of tomatoes takes to thaw: a published equation, tomatoes' own properties, and never less than the
//! published rule.
//!
//! ```
//! use rackful::planning::thaw::in_refrigerator;
//! use rackful::quantity::Mass;
//! let seven = Mass::from_pounds(7.0).and_then(in_refrigerator).ok_or("too much to thaw")?;
//! assert_eq!(seven.time.num_hours(), 59);
//! assert!(seven.time > seven.rule, "the rule for large items alone would be 33");
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```
//!
//! The equation is Pham's extension of Plank's (International Journal of Refrigeration 7:377-383, 1984, with its
//! erratum): the time to warm the frozen food, to melt it, and to warm it through, each from the heat it takes, the
//! mean difference of temperature, and the resistance on the way in. Heat that comes in through a bag's edges shortens
//! it. [`Thawing::estimate`] is the equation's, to which a margin is added for refrigerators that are colder than they
//! may be and for bags that touch.

use crate::processes::facts;
use crate::quantity::{Mass, Temperature};
use chrono::TimeDelta;

/// What heat does in a food.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Food {
    /// Where it begins to freeze, °C.
    pub freezes: f64,
    /// Specific heat of the frozen food, J/(kg K).
    pub heat_frozen: f64,
    /// Specific heat of the thawed food, J/(kg K).
    pub heat_thawed: f64,
    /// Latent heat, J/kg.
    pub latent: f64,
    /// Conductivity of the frozen food, W/(m K).
    pub conducts_frozen: f64,
    /// Conductivity of the thawed food, W/(m K).
    pub conducts_thawed: f64,
    /// Density, kg/m³.
    pub density: f64,
}

/// Tomatoes: 95 % water, freezing at -1 °C (Earle, Unit Operations in Food Processing, appendix 7, as are its formulas
/// for the conductivities). The density is that of fruit with some air between (a choice of this program).
pub const TOMATOES: Food = Food {
    freezes: -1.0,
    heat_frozen: 2_010.0,
    heat_thawed: 3_980.0,
    latent: 310_000.0,
    conducts_frozen: 2.4 * 0.95 + 0.26 * 0.05,
    conducts_thawed: 0.55 * 0.95 + 0.26 * 0.05,
    density: 950.0,
};

/// A block of food and what it lies in.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Block {
    /// Its thickness, m.
    pub thickness: f64,
    /// Its thickness over that of a slab as thick with nothing coming in at the edges: 1 for a wide slab, 3 for a ball.
    pub ways_in: f64,
    /// The temperature around it, °C.
    pub around: f64,
    /// Heat that passes its surface, W/(m² K).
    pub surface: f64,
}

/// The seconds in which a block goes from one temperature to another at its centre, through the freezing point, either
/// way.
pub fn seconds(food: &Food, block: &Block, from: f64, to: f64) -> f64 {
    let thaws = block.around > food.freezes;
    let (before, after) = if thaws {
        ((food.heat_frozen, food.conducts_frozen), (food.heat_thawed, food.conducts_thawed))
    } else {
        ((food.heat_thawed, food.conducts_thawed), (food.heat_frozen, food.conducts_frozen))
    };
    let biot = |conducts: f64| block.surface * block.thickness / conducts;
    let (early, late) = ((biot(before.1) + biot(after.1)) / 2.0, biot(after.1));
    let mean_end = to - (to - block.around) / (2.0 + 4.0 / late);
    let phases = [
        (before.0 * (food.freezes - from).abs(), log_mean(block.around, from, food.freezes), 1.0 + early / 6.0),
        (food.latent, (block.around - food.freezes).abs(), 1.0 + late / 4.0),
        (after.0 * (mean_end - food.freezes).abs(), log_mean(block.around, food.freezes, mean_end), 1.0 + late / 6.0),
    ];
    let lane = food.density * block.thickness / (2.0 * block.ways_in * block.surface);
    phases
        .iter()
        .filter(|(heat, ..)| *heat > 0.0)
        .map(|(heat, difference, resists)| lane * heat / difference * resists)
        .sum()
}

/// The mean difference to the surroundings between two temperatures.
pub fn log_mean(around: f64, from: f64, to: f64) -> f64 {
    let (first, last) = ((around - from).abs(), (around - to).abs());
    if (first - last).abs() < 1e-9 { first } else { (first - last) / (first / last).ln() }
}

/// How long a bag takes.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Thawing {
    /// What to plan with: the estimate and its margin, or the rule where that is longer.
    pub time: TimeDelta,
    /// The equation's.
    pub estimate: TimeDelta,
    /// The published rule's.
    pub rule: TimeDelta,
}

/// A bag lies flat, as wide as it is long, and so many times as wide as thick (a choice of this program).
const WIDTHS: f64 = 4.0;
/// A household freezer, °C: 0 °F (university extension pages on freezing).
const FREEZER: f64 = -17.8;
/// Still air in a refrigerator, with what is radiated and what condenses on a cold bag, W/(m² K); handbooks give 5 to
/// 10 for still air, from memory.
const STILL_AIR: f64 = 10.0;
/// Water that is stirred now and then, W/(m² K); from memory.
const WATER: f64 = 150.0;
/// The centre is thawed at this, °C.
const THAWED: f64 = 0.0;
/// A fifth on top (a choice of this program).
const MARGIN: f64 = 1.2;

/// How long a bag of this weight takes in a refrigerator as warm as a refrigerator may be, in whole hours. `None` only
/// if the published figures were missing.
pub fn in_refrigerator(bag: Mass) -> Option<Thawing> {
    let air = facts::refrigerator_limit()?;
    let estimate = thawing_seconds(bag, air, STILL_AIR);
    let days = bag.ratio(facts::thaw_per_day()?);
    let rule = seconds_of(days * 86_400.0).max(facts::THAW_AT_LEAST.value);
    // In whole hours: nobody's refrigerator knows it closer.
    let time = TimeDelta::hours((estimate * MARGIN / 3600.0).ceil() as i64).max(rule);
    Some(Thawing { time, estimate: seconds_of(estimate), rule })
}

/// The heaviest bag that thaws in cold water within the time that is allowed there.
pub fn heaviest_in_cold_water() -> Option<Mass> {
    let water = facts::cold_water_limit()?;
    let allowed = facts::THAW_IN_WATER_AT_MOST.value.num_seconds() as f64;
    let thaws = |pounds: f64| Mass::from_pounds(pounds).filter(|bag| thawing_seconds(*bag, water, WATER) <= allowed);
    // In tenths of a pound: nobody weighs closer.
    (1..200).map(|tenths| f64::from(tenths) / 10.0).map_while(thaws).last()
}

fn thawing_seconds(bag: Mass, around: Temperature, surface: f64) -> f64 {
    let volume = bag.as_kilograms() / TOMATOES.density;
    let thickness = (volume * WIDTHS).cbrt() / WIDTHS;
    let biot = surface * thickness / TOMATOES.conducts_thawed;
    let around = around.as_celsius();
    let block = Block { thickness, ways_in: ways_in(biot), around, surface };
    seconds(&TOMATOES, &block, FREEZER, THAWED)
}

/// How much the edges of a bag help: the equivalent dimension of heat transfer (ASHRAE Handbook, Refrigeration, Cooling
/// and freezing times of foods; its limit for small blocks is that of a brick there, the rest from memory).
fn ways_in(biot: f64) -> f64 {
    let one_edge = (1.0 + 2.0 / biot) / (WIDTHS * WIDTHS + 2.0 * WIDTHS / biot);
    1.0 + 2.0 * one_edge
}

fn seconds_of(seconds: f64) -> TimeDelta {
    TimeDelta::seconds(seconds.round() as i64)
}
