//! Which bags to thaw for a load.

use crate::ledger::state::Bag;
use crate::quantity::Mass;

/// The bags for a load, from bags that are oldest first: the oldest until the target is reached; then, of those, what
/// turns out not to be needed goes back, the heaviest that can be spared first, the newest among equals. Empty when all
/// together are not enough. The order of the bags is kept.
pub fn choose_bags(bags: &[Bag], target: Mass) -> Vec<Bag> {
    let mut chosen = Vec::new();
    let mut sum = Mass::ZERO;
    for bag in bags {
        if sum >= target {
            break;
        }
        sum += bag.mass;
        chosen.push(*bag);
    }
    if sum < target || target.is_zero() {
        return Vec::new();
    }
    loop {
        let spare = sum.less(target);
        let heaviest = chosen
            .iter()
            .enumerate()
            .filter(|(_, bag)| bag.mass <= spare)
            .max_by_key(|(place, bag)| (bag.mass, *place))
            .map(|(place, bag)| (place, bag.mass));
        match heaviest {
            Some((place, mass)) => {
                chosen.remove(place);
                sum -= mass;
            }
            None => return chosen,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Number;
    use chrono::NaiveDate;
    use proptest::prelude::*;

    fn mass(grams: u32) -> Mass {
        Mass::GRAM.times(Number::whole(grams.into())).unwrap_or_default()
    }

    fn bags(grams: &[u32]) -> Vec<Bag> {
        let days = NaiveDate::from_ymd_opt(2026, 7, 1).into_iter().flat_map(|day| day.iter_days());
        grams.iter().zip(days).map(|(grams, on)| Bag { mass: mass(*grams), on }).collect()
    }

    fn grams(bags: &[Bag]) -> Vec<u32> {
        bags.iter().map(|bag| bag.mass.as_grams() as u32).collect()
    }

    #[test]
    fn the_heaviest_that_can_be_spared_goes_back_first() {
        assert_eq!(grams(&choose_bags(&bags(&[3, 5, 4, 9]), mass(12))), [3, 5, 4]);
        assert_eq!(grams(&choose_bags(&bags(&[3, 5, 1, 9]), mass(10))), [1, 9]);
        assert_eq!(grams(&choose_bags(&bags(&[2, 2, 9]), mass(11))), [2, 9]);
        assert_eq!(choose_bags(&bags(&[2, 2]), mass(11)), []);
    }

    proptest! {
        #[test]
        fn a_choice_reaches_the_target_and_can_spare_nothing(
            weights in prop::collection::vec(1u32..5000, 0..20),
            target in 1u32..20_000,
        ) {
            let all = bags(&weights);
            let target = mass(target);
            let total: Mass = all.iter().map(|bag| bag.mass).sum();
            let chosen = choose_bags(&all, target);
            let sum: Mass = chosen.iter().map(|bag| bag.mass).sum();
            if total < target {
                prop_assert!(chosen.is_empty());
            } else {
                prop_assert!(sum >= target);
                prop_assert!(chosen.iter().all(|bag| sum - bag.mass < target));
            }
        }
    }
}
