//! The choice of bags against a plain restatement of the rule, on random freezers.

use chrono::{Days, NaiveDate};
use proptest::prelude::*;
use rackful::ledger::state::Bag;
use rackful::planning::choose_bags;
use rackful::quantity::Mass;

/// "The oldest until the target is reached; then, of those, what turns out not to be needed goes back, the heaviest
/// that can be spared first, the newest among equals." Weights in grams; the places of the bags that stay.
fn restated(bags: &[u32], target: u32) -> Vec<usize> {
    let mut chosen: Vec<usize> = Vec::new();
    while chosen.iter().map(|place| bags[*place]).sum::<u32>() < target {
        if chosen.len() == bags.len() {
            return Vec::new();
        }
        chosen.push(chosen.len());
    }
    loop {
        let sum: u32 = chosen.iter().map(|place| bags[*place]).sum();
        let mut spared: Option<usize> = None;
        for (at, place) in chosen.iter().enumerate() {
            let heavier_or_newer = spared.is_none_or(|other| bags[*place] >= bags[chosen[other]]);
            if sum - bags[*place] >= target && heavier_or_newer {
                spared = Some(at);
            }
        }
        match spared {
            Some(at) => chosen.remove(at),
            None => return chosen,
        };
    }
}

proptest! {
    #[test]
    fn the_choice_is_the_rules(
        bags in prop::collection::vec(prop_oneof![Just(3000u32), Just(3175), 1u32..6000], 0..25),
        target in 1u32..40_000,
    ) {
        let first = NaiveDate::from_ymd_opt(2026, 7, 1).unwrap();
        let bag = |(day, grams): (usize, &u32)| Bag {
            mass: Mass::from_grams(f64::from(*grams)).unwrap(),
            on: first + Days::new(day as u64),
        };
        let all: Vec<Bag> = bags.iter().enumerate().map(bag).collect();
        let chosen = choose_bags(&all, Mass::from_grams(f64::from(target)).unwrap());
        let expected: Vec<Bag> = restated(&bags, target).into_iter().map(|place| all[place]).collect();
        prop_assert_eq!(chosen, expected);
    }
}
