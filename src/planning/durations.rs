//! How long the steps of a canning day take, each with whose word that is: for planning backwards from an hour, and for
//! saying when the last round will be done.
//!
//! The process itself is the tables' and is given to [`round`]; venting and resting are published; what no page prints
//! is common practice, a choice of this program, and is said so. A household's own figure, once it has one, takes the
//! place of either with [`Takes::or_own`].

use crate::processes::facts;
use crate::vocabulary::{CannerKind, Jar, Product};
use chrono::TimeDelta;

/// Whose word a duration is.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Basis {
    /// Printed, on this page.
    Published(&'static str),
    /// Printed, as far as is remembered; no page was seen.
    FromMemory(&'static str),
    /// What kitchens usually need; a choice of this program.
    CommonPractice,
    /// Computed by a published equation, with a margin.
    Computed,
    /// The household's own earlier batches.
    Own,
}

/// A step of the day.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Part {
    /// Bags lie in the refrigerator.
    Thaw,
    /// Thawed fruit gives off its juice.
    Drain,
    /// Fruit is heated, and boiled down where the product is.
    CookDown,
    /// The canner's water, and the jars, get hot.
    HeatCanner,
    /// Jars are filled and lidded.
    Fill,
    /// Jars go into the canner.
    LoadCanner,
    /// The canner, jars in it, comes to the boil, or to steam at the vent.
    ComeUp,
    /// Steam flows from a pressure canner's vent.
    Vent,
    /// The pressure rises to the gauge's mark.
    Pressurise,
    /// The tested time.
    Process,
    /// The pressure falls by itself.
    Depressurise,
    /// Jars wait in the canner.
    Rest,
    /// Jars come out.
    Unload,
}

/// A step and how long it takes.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Takes {
    /// Which step.
    pub part: Part,
    /// How long.
    pub time: TimeDelta,
    /// Who says so.
    pub basis: Basis,
}

impl Takes {
    const fn practice(part: Part, minutes: i64) -> Self {
        Self { part, time: TimeDelta::minutes(minutes), basis: Basis::CommonPractice }
    }

    /// A time that was computed.
    pub const fn computed(part: Part, time: TimeDelta) -> Self {
        Self { part, time, basis: Basis::Computed }
    }

    fn published(part: Part, figure: facts::Figure<TimeDelta>) -> Self {
        let source = figure.source();
        let basis = if figure.is_confirmed() { Basis::Published(source) } else { Basis::FromMemory(source) };
        Self { part, time: figure.value, basis }
    }

    /// The household's own figure, where it has one.
    pub fn or_own(self, own: Option<TimeDelta>) -> Self {
        own.map_or(self, |time| Self { time, basis: Basis::Own, ..self })
    }
}

/// One round of the canner, from loading the hot jars to lifting them out, with the tested time for these jars here.
pub fn round(canner: CannerKind, jar: Jar, process: TimeDelta, table: &'static str) -> Vec<Takes> {
    let process = Takes { part: Part::Process, time: process, basis: Basis::Published(table) };
    let (load, unload) = (Takes::practice(Part::LoadCanner, 5), Takes::practice(Part::Unload, 5));
    match canner {
        CannerKind::Steam => vec![
            load,
            Takes::published(Part::ComeUp, facts::STEAM_COME_UP),
            process,
            Takes::published(Part::Rest, facts::BOILING_WATER_REST),
            unload,
        ],
        CannerKind::BoilingWater => vec![
            load,
            // A full pot of water just under the boil, with hot jars in it.
            Takes::practice(Part::ComeUp, 20),
            process,
            Takes::published(Part::Rest, facts::BOILING_WATER_REST),
            unload,
        ],
        CannerKind::PressureDial | CannerKind::PressureWeighted | CannerKind::Pressure => vec![
            load,
            Takes::practice(Part::ComeUp, 10),
            Takes::published(Part::Vent, facts::PRESSURE_VENT),
            Takes { part: Part::Pressurise, time: TimeDelta::minutes(10), basis: Basis::FromMemory(PRESSURISES) },
            process,
            Takes { part: Part::Depressurise, time: falls(jar), basis: Basis::Published(FALLS) },
            Takes::published(Part::Rest, facts::PRESSURE_REST),
            unload,
        ],
    }
}

/// The longer of the printed 3 to 10 minutes.
const PRESSURISES: &str = "USDA AIB 539 (2015), Guide 1: the canner pressurises in 3 to 10 minutes";
/// Newer, thin-walled canners are quicker.
const FALLS: &str =
    "Pacific Northwest Extension PNW 421: a heavy canner depressurises in 30 minutes with pints, 45 with quarts";

fn falls(jar: Jar) -> TimeDelta {
    TimeDelta::minutes(if jar.volume() <= Jar::Ml500.volume() { 30 } else { 45 })
}

/// Heating the canner's water and the jars, before the first round.
pub fn heat_canner(canner: CannerKind) -> Takes {
    match canner {
        CannerKind::BoilingWater => Takes::practice(Part::HeatCanner, 30),
        CannerKind::Steam | CannerKind::PressureDial | CannerKind::PressureWeighted | CannerKind::Pressure => {
            Takes::practice(Part::HeatCanner, 15)
        }
    }
}

/// Filling and lidding the jars of one round: two minutes each.
pub fn fill(jars: u32) -> Takes {
    Takes::practice(Part::Fill, 2 * i64::from(jars))
}

/// Letting thawed fruit drip in a colander.
pub fn drain() -> Takes {
    Takes::practice(Part::Drain, 60)
}

/// From the cold pot to food that is ready for the jars. The guide prints no time, only how far a sauce is boiled down:
/// by half for a thick one, by a third for a thin one (USDA AIB 539 (2015), Guide 3, Standard tomato sauce, from
/// memory).
pub fn cook_down(product: &Product) -> Takes {
    Takes::practice(
        Part::CookDown,
        match product.as_str() {
            "tomato-sauce-thick" | "tomato-ketchup" | "ketchup-blender" | "ketchup-country-western" => 180,
            "tomato-sauce-thin" | "spaghetti-sauce-no-meat" | "spaghetti-sauce-meat" | "tomato-sauce-mexican" => 120,
            _ => 60,
        },
    )
}

/// The sum of the steps.
pub fn sum(steps: &[Takes]) -> TimeDelta {
    steps.iter().fold(TimeDelta::zero(), |sum, step| sum + step.time)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn minutes(canner: CannerKind, jar: Jar, process: i64) -> i64 {
        sum(&round(canner, jar, TimeDelta::minutes(process), "a table")).num_minutes()
    }

    #[test]
    fn a_round_is_its_process_and_what_the_canner_needs_around_it() {
        assert_eq!(minutes(CannerKind::Steam, Jar::Quart, 45), 5 + 16 + 45 + 5 + 5);
        assert_eq!(minutes(CannerKind::BoilingWater, Jar::Quart, 45), 5 + 20 + 45 + 5 + 5);
        assert_eq!(minutes(CannerKind::PressureDial, Jar::Pint, 15), 5 + 10 + 10 + 10 + 15 + 30 + 10 + 5);
        assert_eq!(minutes(CannerKind::PressureWeighted, Jar::Quart, 15), 5 + 10 + 10 + 10 + 15 + 45 + 10 + 5);
    }

    #[test]
    fn what_no_page_prints_is_marked_and_the_own_figure_takes_its_place() {
        let own = cook_down(&Product::THICK_SAUCE).or_own(Some(TimeDelta::minutes(150)));
        assert_eq!((own.time, own.basis), (TimeDelta::minutes(150), Basis::Own));
        assert_eq!(cook_down(&Product::THICK_SAUCE).or_own(None).basis, Basis::CommonPractice);
        let vent = Takes::published(Part::Vent, facts::PRESSURE_VENT);
        assert!(matches!(vent.basis, Basis::Published(source) if source.contains("Guide 1")));
        assert!(matches!(Takes::published(Part::Rest, facts::PRESSURE_REST).basis, Basis::FromMemory(_)));
    }
}
