//! Single figures of the guide, each with its source: waiting, venting, seals, storing, thawing.

use super::tables::fact;
use crate::quantity::{Length, Mass, Temperature};
use chrono::TimeDelta;

/// A published figure.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Figure<T> {
    /// The figure, in its own type.
    pub value: T,
    key: &'static str,
}

impl<T> Figure<T> {
    /// Where it is printed.
    pub fn source(&self) -> &'static str {
        fact(self.key).map_or("", |fact| &fact.source)
    }

    /// Whether a page was seen that prints it, or it is from memory.
    pub fn is_confirmed(&self) -> bool {
        fact(self.key).is_some_and(|fact| fact.confirmed_by > 0)
    }
}

const fn minutes(key: &'static str, minutes: i64) -> Figure<TimeDelta> {
    Figure { value: TimeDelta::minutes(minutes), key }
}

const fn hours(key: &'static str, hours: i64) -> Figure<TimeDelta> {
    Figure { value: TimeDelta::hours(hours), key }
}

const fn months(key: &'static str, months: u32) -> Figure<u32> {
    Figure { value: months, key }
}

/// The longest process in a steam canner, the altitude's addition included; beyond it the canner boils dry.
pub const STEAM_MAX_PROCESS: Figure<TimeDelta> = minutes("steam_max_process_min", 45);
/// Boiling water and steam: heat off, lid off, then this wait before the jars come out.
pub const BOILING_WATER_REST: Figure<TimeDelta> = minutes("boiling_water_rest_min", 5);
/// Pressure: steam must flow from the open vent this long before the weight goes on.
pub const PRESSURE_VENT: Figure<TimeDelta> = minutes("pressure_vent_min", 10);
/// Pressure: the wait after the weight is taken off at zero. From memory; the longer of two printed figures.
pub const PRESSURE_REST: Figure<TimeDelta> = minutes("pressure_wait_after_weight_removed_min", 10);
/// A steam canner comes to heat from cold water in at most this: what one test of several canners measured.
pub const STEAM_COME_UP: Figure<TimeDelta> = Figure { value: TimeDelta::seconds(972), key: "steam_come_up_min_high" };
/// Jars for a process shorter than this must be sterilised first.
pub const STERILISE_BELOW: Figure<TimeDelta> = minutes("sterilise_jars_if_process_under_min", 10);
/// Seals are looked at this long after the jars came out.
pub const SEAL_CHECK_FROM: Figure<TimeDelta> = hours("seal_check_after_h_low", 12);
/// Seals are looked at by this long after the jars came out.
pub const SEAL_CHECK_UNTIL: Figure<TimeDelta> = hours("seal_check_after_h_high", 24);
/// A jar that did not seal can be processed again within this time.
pub const REPROCESS_WITHIN: Figure<TimeDelta> = hours("reprocess_within_h", 24);
/// A process that went wrong can be made good within this time of it.
pub const REDO_WITHIN: Figure<TimeDelta> = hours("deviation_redo_within_h", 2);
/// Food that spoils stands warm for at most this long; for filled jars no page gives minutes.
pub const MAY_STAND_WARM: Figure<TimeDelta> = hours("perishable_room_temperature_max_h", 2);
/// Jars that were processed without their acid can be made good, refrigerated or frozen within this time; later the
/// food is thrown away.
pub const ACID_FORGOTTEN_WITHIN: Figure<TimeDelta> = hours("acid_forgotten_noticed_after_processing_within_h", 2);
/// Jars taste best this many months.
pub const BEST_WITHIN_MONTHS: Figure<u32> = months("best_quality_within_months", 12);
/// Frozen tomatoes are best for at least this many months.
pub const FROZEN_BEST_MONTHS_LOW: Figure<u32> = months("frozen_tomato_best_months_low", 8);
/// Frozen tomatoes are best for at most this many months.
pub const FROZEN_BEST_MONTHS_HIGH: Figure<u32> = months("frozen_tomato_best_months_high", 12);
/// In the refrigerator nothing thaws in less, however small.
pub const THAW_AT_LEAST: Figure<TimeDelta> = hours("thaw_refrigerator_min_h_even_for_1_lb", 24);
/// In cold water, food thaws at most this long.
pub const THAW_IN_WATER_AT_MOST: Figure<TimeDelta> = hours("thaw_cold_water_max_h", 2);
/// How long an unsealed jar keeps in the refrigerator: printed in words, as other pages print two days to a week.
pub const UNSEALED_KEEPS: Figure<&str> = Figure { value: "several days", key: "unsealed_refrigerate_use_within" };

/// An unsealed jar keeps this long in the refrigerator.
pub const UNSEALED_KEEPS_AT_MOST: Figure<TimeDelta> =
    Figure { value: TimeDelta::days(7), key: "unsealed_refrigerate_max_days" };
/// The signs of botulism come at the latest this long after eating.
pub const BOTULISM_SHOWS_WITHIN: Figure<TimeDelta> =
    Figure { value: TimeDelta::days(10), key: "botulism_onset_latest_days" };

/// What is printed under a key, and where, if a page was seen that prints it.
pub fn printed(key: &str) -> Option<(&'static str, &'static str)> {
    let fact = fact(key).filter(|fact| fact.confirmed_by > 0)?;
    Some((&fact.value, &fact.source))
}

/// What the refrigerator thaws in a day, of a large item.
pub fn thaw_per_day() -> Option<Mass> {
    Mass::from_pounds(fact("thaw_refrigerator_lb_per_24_h")?.number()?)
}

/// Who published a rule, in few words: the first that its source names. Empty where no page confirms it.
pub fn publisher(key: &str) -> &'static str {
    let source = fact(key).filter(|fact| fact.confirmed_by > 0).map_or("", |fact| fact.source.as_str());
    let names = source.split_once(" | ").map_or(source, |(names, _)| names);
    names.split_once(';').map_or(names, |(first, _)| first).trim_end_matches(" (undated)")
}

/// By how many pounds a dial gauge may be off and still be used, corrected; none where no page confirms it.
pub fn gauge_may_be_off() -> f64 {
    fact("dial_gauge_replace_if_off_more_than_psi").and_then(|fact| fact.number()).unwrap_or_default()
}

/// The room to leave in an unsealed jar before it is frozen.
pub fn freezing_headspace() -> Option<Length> {
    Length::from_inches(fact("unsealed_freeze_headspace_in")?.number()?)
}

/// How deep the jars stand under the water of a boiling-water canner, at least and at most.
pub fn water_over_jars() -> Option<(Length, Length)> {
    let low = fact("boiling_water_cover_in_low").filter(|fact| fact.confirmed_by > 0)?;
    Some((Length::from_inches(low.number()?)?, Length::from_inches(fact("boiling_water_cover_in_high")?.number()?)?))
}

/// The same for a process of more than 30 minutes.
pub fn water_over_jars_for_long() -> Option<Length> {
    let fact = fact("boiling_water_cover_in_above_30_min").filter(|fact| fact.confirmed_by > 0)?;
    Length::from_inches(fact.number()?)
}

/// How many minutes empty jars are boiled to be sterile at this height, and where that is printed. A part of a thousand
/// feet counts as a whole one.
pub fn sterilise_minutes(altitude: Length) -> Option<(u32, &'static str)> {
    let low = fact("sterilise_jars_boil_min_below_1000_ft").filter(|fact| fact.confirmed_by > 0)?;
    let extra = fact("sterilise_jars_extra_min_per_1000_ft")?.number()?;
    let thousands = ((altitude.as_feet() - 1000.0) / 1000.0).ceil().max(0.0);
    Some(((low.number()? + extra * thousands) as u32, &low.source))
}

/// What so much fresh tomato is expected to weigh dry, with the ratio and where it comes from: a weighing that agrees
/// with the published water content, 94.5 percent, dried to about a tenth.
pub fn expected_dry_tomatoes(fresh: Mass) -> Option<(Mass, f64, &'static str)> {
    let fact = fact("fresh_lb_per_lb_dried_tomato").filter(|fact| fact.confirmed_by > 0)?;
    let ratio = fact.number().filter(|ratio| *ratio > 1.0)?;
    Some((Mass::from_grams(fresh.as_grams() / ratio)?, ratio, &fact.source))
}

/// Hours that half-inch slices of tomato take in a dryer, at least and at most, and where that is printed.
pub fn drying_hours() -> Option<(f64, f64, &'static str)> {
    let high = fact("dry_tomato_slices_h_high").filter(|fact| fact.confirmed_by > 0)?;
    Some((fact("dry_tomato_slices_h_low")?.number()?, high.number()?, &high.source))
}

/// How dried vegetables are when they are done, and where that is printed.
pub fn dry_until() -> (&'static str, &'static str) {
    fact("dry_vegetables_until").map_or(("brittle", ""), |fact| (&fact.value, &fact.source))
}

/// Where the room to leave in a jar that is frozen is printed.
pub fn freezing_headspace_source() -> &'static str {
    fact("unsealed_freeze_headspace_in").map_or("", |fact| &fact.source)
}

/// The range of temperatures to store sealed jars at.
pub fn storage_range() -> Option<(Temperature, Temperature)> {
    Some((fahrenheit("store_jars_f_low")?, fahrenheit("store_jars_f_high")?))
}

/// The temperature that sealed jars must never be stored above.
pub fn storage_limit() -> Option<Temperature> {
    fahrenheit("store_jars_never_above_f")
}

/// The temperature that a refrigerator must not exceed for thawing.
pub fn refrigerator_limit() -> Option<Temperature> {
    fahrenheit("thaw_refrigerator_max_f")
}

/// The temperature that water must not exceed for thawing.
pub fn cold_water_limit() -> Option<Temperature> {
    fahrenheit("thaw_cold_water_max_f")
}

fn fahrenheit(key: &str) -> Option<Temperature> {
    Temperature::from_fahrenheit(fact(key)?.number()?)
}

#[cfg(test)]
mod tests {
    use super::*;
    use anyhow::Context as _;

    #[test]
    fn each_figure_is_the_tables_own() -> anyhow::Result<()> {
        for (figure, unit, printed_unit) in [
            (STEAM_MAX_PROCESS, TimeDelta::minutes(1), "45"),
            (BOILING_WATER_REST, TimeDelta::minutes(1), "5"),
            (PRESSURE_VENT, TimeDelta::minutes(1), "10"),
            (PRESSURE_REST, TimeDelta::minutes(1), "10"),
            (STERILISE_BELOW, TimeDelta::minutes(1), "10"),
            (SEAL_CHECK_FROM, TimeDelta::hours(1), "12"),
            (SEAL_CHECK_UNTIL, TimeDelta::hours(1), "24"),
            (REPROCESS_WITHIN, TimeDelta::hours(1), "24"),
            (REDO_WITHIN, TimeDelta::hours(1), "2"),
            (MAY_STAND_WARM, TimeDelta::hours(1), "2"),
            (ACID_FORGOTTEN_WITHIN, TimeDelta::hours(1), "2"),
            (THAW_AT_LEAST, TimeDelta::hours(1), "24"),
            (THAW_IN_WATER_AT_MOST, TimeDelta::hours(1), "2"),
        ] {
            let fact = fact(figure.key).context(figure.key)?;
            assert_eq!(fact.value, printed_unit, "{}", figure.key);
            assert_eq!(fact.number(), Some((figure.value.num_seconds() / unit.num_seconds()) as f64), "{}", figure.key);
            assert_eq!(figure.source(), fact.source);
        }
        for months in [BEST_WITHIN_MONTHS, FROZEN_BEST_MONTHS_LOW, FROZEN_BEST_MONTHS_HIGH] {
            assert_eq!(fact(months.key).and_then(|fact| fact.number()), Some(f64::from(months.value)));
        }
        let come_up = fact(STEAM_COME_UP.key).and_then(|fact| fact.number());
        assert_eq!(come_up, Some(STEAM_COME_UP.value.num_seconds() as f64 / 60.0));
        assert_eq!(fact(UNSEALED_KEEPS.key).map(|fact| fact.value.as_str()), Some(UNSEALED_KEEPS.value));
        Ok(())
    }

    /// Michigan State University Extension, after USDA AIB 539 (2015), Guide 1: ten minutes, and one more for each
    /// thousand feet.
    #[test]
    fn jars_are_boiled_longer_higher_up() {
        let minutes =
            |feet: f64| Length::from_metres(feet * 0.3048).and_then(sterilise_minutes).map(|(minutes, _)| minutes);
        let printed = [10, 10, 10, 11, 12, 15].map(Some);
        assert_eq!([-500.0, 0.0, 999.0, 1500.0, 2400.0, 5999.0].map(minutes), printed);
    }

    #[test]
    fn only_the_wait_under_pressure_is_from_memory() {
        assert!(!PRESSURE_REST.is_confirmed());
        assert!(BOILING_WATER_REST.is_confirmed() && SEAL_CHECK_FROM.is_confirmed());
    }

    #[test]
    fn figures_with_other_units_are_read_as_printed() {
        assert_eq!(thaw_per_day(), Mass::from_pounds(5.0));
        assert_eq!(freezing_headspace(), Length::from_inches(1.5));
        let celsius = |temperature: Option<Temperature>| temperature.map(|t| t.as_celsius().round());
        assert_eq!(
            storage_range().map(|(low, high)| (low.as_celsius(), high.as_celsius().round())),
            Some((10.0, 21.0))
        );
        assert_eq!((celsius(storage_limit()), celsius(refrigerator_limit())), (Some(35.0), Some(4.0)));
    }
}
