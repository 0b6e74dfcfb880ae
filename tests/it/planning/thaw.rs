//! Thawing against worked examples of handbooks, against a numerical solution, and against the published rule.

use crate::support::lb;
use chrono::TimeDelta;
use rackful::planning::thaw::{Block, Food, TOMATOES, heaviest_in_cold_water, in_refrigerator, log_mean, seconds};

/// Only melting: what Plank's equation is about.
fn plank(conducts: f64, latent: f64, density: f64, freezes: f64) -> Food {
    let (heat_frozen, heat_thawed) = (0.0, 0.0);
    Food { freezes, heat_frozen, heat_thawed, latent, conducts_frozen: conducts, conducts_thawed: conducts, density }
}

/// Earle, Unit Operations in Food Processing, chapter 6, the slab of meat 10 cm thick between plates at -34 °C: 4.1 h
/// wrapped in cardboard 1 mm thick, 2.1 h without (the figures of the example from memory; its continuation, with the
/// heat above and below freezing, has been seen).
#[test]
fn a_slab_of_meat_between_plates_freezes_as_in_the_textbook() {
    let meat = plank(1.6, 2.56e5, 1090.0, -2.0);
    let hours = |surface: f64| {
        let slab = Block { thickness: 0.1, ways_in: 1.0, around: -34.0, surface };
        seconds(&meat, &slab, -2.0, -2.0) / 3600.0
    };
    let cardboard = 1.0 / (1.0 / 600.0 + 0.001 / 0.06);
    assert!((hours(cardboard) - 4.1).abs() < 0.05, "{}", hours(cardboard));
    assert!((hours(600.0) - 2.1).abs() < 0.05, "{}", hours(600.0));
}

/// Singh and Heldman, Introduction to Food Engineering, example 7.1: a ball of 7 cm in air at -40 °C freezes in 0.72 h
/// (a course's slide with the example's figures has been seen; its 50 W/(m² K) and its answer are from memory).
#[test]
fn a_ball_in_a_wind_tunnel_freezes_as_in_the_textbook() {
    let food = plank(1.2, 2.5e5, 1000.0, -1.25);
    let ball = Block { thickness: 0.07, ways_in: 3.0, around: -40.0, surface: 50.0 };
    let hours = seconds(&food, &ball, -1.25, -1.25) / 3600.0;
    assert!((hours - 0.72).abs() < 0.01, "{hours}");
}

/// Pham (1984), International Journal of Refrigeration 7:377-383, the appendix as its erratum prints it: the mean
/// differences of temperature of its worked example are 31.7, 18.8 and 12.1 K.
#[test]
fn the_differences_of_temperature_are_those_of_the_papers_example() {
    for (from, to, printed) in [(28.5, -2.1, 31.7), (-2.1, -13.7, 12.1)] {
        let difference = log_mean(-20.9, from, to);
        assert!((difference - printed).abs() < 0.05, "{from} to {to}: {difference}");
    }
}

/// The same slab by finite differences on enthalpy: an independent solution of the same physics. Simple formulas are
/// within about a tenth of measurements (Cleland and others, 1986, for thawing).
#[test]
fn a_thawing_slab_agrees_with_a_numerical_solution() {
    for (thickness, surface, around) in [(0.04, 8.0, 4.4), (0.06, 10.0, 4.4), (0.08, 12.0, 7.0), (0.05, 150.0, 20.0)] {
        let slab = Block { thickness, ways_in: 1.0, around, surface };
        let (formula, numeric) = (seconds(&TOMATOES, &slab, -17.8, 0.0), numeric(&slab));
        let ratio = formula / numeric;
        assert!((0.88..1.12).contains(&ratio), "{slab:?}: {formula} s, by finite differences {numeric} s");
    }
}

/// Half a slab in twenty layers, stepped until the centre is thawed.
fn numeric(slab: &Block) -> f64 {
    const LAYERS: usize = 20;
    let food = &TOMATOES;
    let width = slab.thickness / 2.0 / LAYERS as f64;
    // Joules per kilogram, nothing at the freezing point while frozen.
    let temperature = |heat: f64| match heat {
        heat if heat < 0.0 => food.freezes + heat / food.heat_frozen,
        heat if heat > food.latent => food.freezes + (heat - food.latent) / food.heat_thawed,
        _ => food.freezes,
    };
    let conducts = |heat: f64| {
        let thawed = (heat / food.latent).clamp(0.0, 1.0);
        food.conducts_frozen + thawed * (food.conducts_thawed - food.conducts_frozen)
    };
    let mut heat = [food.heat_frozen * (-17.8 - food.freezes); LAYERS];
    let step = 0.2 * width * width * food.density * food.heat_frozen / food.conducts_frozen;
    let mut time = 0.0;
    while temperature(heat[LAYERS - 1]) < 0.0 {
        let flow = |n: usize| {
            let (a, b) = (heat[n], heat[n + 1]);
            let between = 2.0 / (1.0 / conducts(a) + 1.0 / conducts(b));
            between * (temperature(a) - temperature(b)) / width
        };
        let way_in = 1.0 / slab.surface + width / 2.0 / conducts(heat[0]);
        let mut flows = [0.0; LAYERS + 1];
        flows[0] = (slab.around - temperature(heat[0])) / way_in;
        (1..LAYERS).for_each(|n| flows[n] = flow(n - 1));
        for n in 0..LAYERS {
            heat[n] += step * (flows[n] - flows[n + 1]) / (width * food.density);
        }
        time += step;
    }
    time
}

/// University of Georgia extension: 24 hours for every 5 lb of a large item, and a day even for a pound.
#[test]
fn no_bag_is_planned_for_less_than_the_published_rule() {
    for tenths in 1..400 {
        let pounds = f64::from(tenths) / 10.0;
        let bag = in_refrigerator(lb(pounds)).unwrap();
        let rule = TimeDelta::seconds((pounds / 5.0 * 86_400.0) as i64).max(TimeDelta::hours(24));
        assert!(bag.time >= rule && bag.time >= bag.estimate, "{pounds} lb: {bag:?}");
    }
    assert_eq!(in_refrigerator(lb(0.2)).unwrap().time, TimeDelta::hours(24));
}

#[test]
fn a_heavier_bag_takes_longer() {
    let hours = |pounds: f64| in_refrigerator(lb(pounds)).unwrap().time.num_hours();
    assert_eq!([1.0, 3.0, 7.0, 14.0].map(hours), [27, 42, 59, 80]);
}

/// Two hours are the most that is allowed in cold water (University of Georgia extension).
#[test]
fn only_small_bags_thaw_in_cold_water_in_time() {
    let heaviest = heaviest_in_cold_water().unwrap().as_pounds();
    assert!((1.0..3.0).contains(&heaviest), "{heaviest}");
}
