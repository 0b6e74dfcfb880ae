//! What a bushel of something weighs: the measures that a harvest is bought and carried in.

use super::tables::fact;
use crate::{
    quantity::{Mass, Number},
    vocabulary::Crop,
};

/// A measure of a harvest whose weight depends on the crop.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum Measure {
    /// A US bushel, 2150.42 cubic inches.
    Bushel,
    /// Half of it.
    HalfBushel,
    /// A quarter of it.
    Peck,
    /// A flat shallow box.
    Lug,
    /// A crate of 24 quarts, for berries.
    Crate,
    /// A large bag as potatoes are sold in; not a freezer bag.
    Bag,
}

/// What one measure of a crop weighs.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct HarvestWeight {
    /// The weight of one.
    pub mass: Mass,
    /// Where it is printed.
    pub source: &'static str,
    /// Whether a page was seen that prints it; a lug of tomatoes is from memory.
    pub confirmed: bool,
}

/// The published weight of one `measure` of `crop`; `None` where none is published.
///
/// Half bushels and pecks are a half and a quarter of the crop's bushel.
pub fn harvest_measure(crop: Crop, measure: Measure) -> Option<HarvestWeight> {
    let (key, share) = match measure {
        Measure::Bushel => (bushel(crop)?, Number::whole(1)),
        Measure::HalfBushel => (bushel(crop)?, Number::new(1, 2)?),
        Measure::Peck => (bushel(crop)?, Number::new(1, 4)?),
        Measure::Lug => (lug(crop)?, Number::whole(1)),
        Measure::Crate => (is_crated_berry(crop).then_some("crate_lb_berries_24_qt")?, Number::whole(1)),
        Measure::Bag => ((crop == Crop::Potato).then_some("bag_lb_potatoes_white")?, Number::whole(1)),
    };
    let fact = fact(key)?;
    let mass = Mass::from_pounds(fact.number()?)?.times(share)?;
    Some(HarvestWeight { mass, source: &fact.source, confirmed: fact.confirmed_by > 0 })
}

fn bushel(crop: Crop) -> Option<&'static str> {
    Some(match crop {
        Crop::Tomato => "bushel_lb_tomatoes",
        Crop::Tomatillo => "bushel_lb_tomatillos",
        Crop::Apple => "bushel_lb_apples",
        Crop::Apricot => "bushel_lb_apricots",
        Crop::Peach => "bushel_lb_peaches",
        Crop::Pear => "bushel_lb_pears",
        Crop::Plum => "bushel_lb_plums",
        Crop::Bean => "bushel_lb_beans_snap",
        Crop::Beet => "bushel_lb_beets",
        Crop::Carrot => "bushel_lb_carrots",
        Crop::Corn => "bushel_lb_corn_in_husk",
        Crop::Cucumber => "bushel_lb_cucumbers",
        // The guide's table is headed spinach and other greens.
        Crop::Spinach | Crop::Chard | Crop::Kale => "bushel_lb_greens",
        Crop::Okra => "bushel_lb_okra",
        Crop::Pea => "bushel_lb_peas",
        Crop::Pepper => "bushel_lb_peppers",
        _ => return None,
    })
}

fn lug(crop: Crop) -> Option<&'static str> {
    Some(match crop {
        Crop::Tomato => "lug_lb_tomatoes",
        Crop::Cherry => "lug_lb_cherries",
        Crop::Grape => "lug_lb_grapes",
        Crop::Rhubarb => "lug_lb_rhubarb",
        _ => return None,
    })
}

// The guide's line for whole berries does not name strawberries.
fn is_crated_berry(crop: Crop) -> bool {
    matches!(crop, Crop::Berry | Crop::Raspberry | Crop::Blackberry | Crop::Blueberry)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn pounds(crop: Crop, measure: Measure) -> Option<f64> {
        harvest_measure(crop, measure).map(|weight| (weight.mass.as_pounds() * 1000.0).round() / 1000.0)
    }

    /// Weights as Guides 2, 3, 4 and 6 of USDA AIB 539 (2015) print them under "quantity".
    #[test]
    fn a_bushel_weighs_what_the_guide_prints() {
        for (crop, lb) in [
            (Crop::Tomato, 53.0),
            (Crop::Tomatillo, 32.0),
            (Crop::Apple, 48.0),
            (Crop::Peach, 48.0),
            (Crop::Corn, 35.0),
            (Crop::Bean, 30.0),
            (Crop::Cucumber, 48.0),
        ] {
            assert_eq!(pounds(crop, Measure::Bushel), Some(lb), "{crop}");
        }
        assert_eq!(pounds(Crop::Tomato, Measure::HalfBushel), Some(26.5));
        assert_eq!(pounds(Crop::Tomato, Measure::Peck), Some(13.25));
        assert_eq!(pounds(Crop::Potato, Measure::Bag), Some(50.0));
        assert_eq!(pounds(Crop::Blackberry, Measure::Crate), Some(36.0));
    }

    #[test]
    fn a_lug_of_tomatoes_is_from_memory_and_says_so() {
        assert_eq!(pounds(Crop::Tomato, Measure::Lug), Some(32.0));
        let confirmed = |crop| harvest_measure(crop, Measure::Lug).map(|weight| weight.confirmed);
        assert_eq!((confirmed(Crop::Tomato), confirmed(Crop::Cherry)), (Some(false), Some(true)));
    }

    #[test]
    fn what_is_not_published_has_no_weight() {
        for (crop, measure) in [
            (Crop::Zucchini, Measure::Bushel),
            (Crop::Strawberry, Measure::Crate),
            (Crop::Tomato, Measure::Bag),
            (Crop::Grape, Measure::Peck),
        ] {
            assert_eq!(harvest_measure(crop, measure), None);
        }
    }
}
