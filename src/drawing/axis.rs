//! Round figures and round times for the lines behind the marks.

use chrono::{Datelike, Days, Months, NaiveDate, NaiveDateTime, NaiveTime, TimeDelta};

/// Round steps from nothing to at least `most`, at most `count` of them: 0, 10, 20, 30.
pub(super) fn figures(most: f64, count: u32) -> Vec<f64> {
    let rough = (most.max(1e-3)) / f64::from(count.max(1));
    let power = 10f64.powf(rough.log10().floor());
    let step = [1.0, 2.0, 2.5, 5.0, 10.0].into_iter().map(|step| step * power).find(|step| *step >= rough * 0.999);
    let step = step.unwrap_or(10.0 * power);
    let steps = (most / step * 0.999).ceil() as u32;
    (0..=steps).map(|n| f64::from(n) * step).collect()
}

/// A figure as written at a mark: one decimal where it says something.
pub(super) fn figure(value: f64) -> String {
    let text = format!("{value:.1}");
    text.strip_suffix(".0").map(str::to_owned).unwrap_or(text)
}

/// A line at a day.
#[derive(Clone, PartialEq, Debug)]
pub(super) struct DayMark {
    pub(super) on: NaiveDate,
    /// Whether it is the first of a month, and named so.
    pub(super) month: bool,
}

/// Round days between two, at most `count` of them: every day, every Monday, every month, every quarter.
pub(super) fn days(from: NaiveDate, to: NaiveDate, count: usize) -> Vec<DayMark> {
    let of_days = |step: u64| -> Vec<DayMark> {
        let mut on = from;
        if step >= 7 {
            while on.weekday() != chrono::Weekday::Mon {
                on = on + Days::new(1);
            }
        }
        std::iter::successors(Some(on), |on| on.checked_add_days(Days::new(step)))
            .take_while(|on| *on <= to)
            .map(|on| DayMark { on, month: false })
            .collect()
    };
    let of_months = |step: u32| -> Vec<DayMark> {
        let first = from.with_day(1).unwrap_or(from);
        std::iter::successors(Some(first), |on| on.checked_add_months(Months::new(step)))
            .take_while(|on| *on <= to)
            .filter(|on| *on >= from)
            .map(|on| DayMark { on, month: true })
            .collect()
    };
    let choices = [of_days(1), of_days(2), of_days(7), of_days(14)];
    let months = [of_months(1), of_months(2), of_months(3), of_months(6)];
    let fits = |marks: &Vec<DayMark>| marks.len() <= count.max(2);
    // Months from nine weeks on: nobody remembers August by its Mondays.
    let long = (to - from).num_days() > 63;
    let chosen = if long { None } else { choices.into_iter().find(fits) };
    chosen.or_else(|| months.into_iter().find(fits)).unwrap_or_default()
}

/// Full hours between two instants, at most `count` of them.
pub(super) fn hours(from: NaiveDateTime, to: NaiveDateTime, count: usize) -> Vec<NaiveDateTime> {
    let midnight = from.date().and_time(NaiveTime::MIN);
    let every = |minutes: i64| -> Vec<NaiveDateTime> {
        std::iter::successors(Some(midnight), |at| at.checked_add_signed(TimeDelta::minutes(minutes)))
            .skip_while(|at| *at < from)
            .take_while(|at| *at <= to)
            .collect()
    };
    [15, 30, 60, 120, 180, 240, 360, 720, 1440]
        .into_iter()
        .map(every)
        .find(|marks| marks.len() <= count.max(2))
        .unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn steps_are_round_and_reach_the_top() {
        assert_eq!(figures(35.0, 4), [0.0, 10.0, 20.0, 30.0, 40.0]);
        assert_eq!(figures(1.3, 4), [0.0, 0.5, 1.0, 1.5]);
        assert_eq!(figures(100.0, 4), [0.0, 25.0, 50.0, 75.0, 100.0]);
        assert_eq!([0.0, 7.0, 24.5, 312.4].map(figure), ["0", "7", "24.5", "312.4"]);
    }

    #[test]
    fn days_are_mondays_or_firsts_of_months() -> anyhow::Result<()> {
        let on = |from: &str, to: &str| -> anyhow::Result<Vec<String>> {
            Ok(days(from.parse()?, to.parse()?, 6).iter().map(|mark| mark.on.format("%m-%d").to_string()).collect())
        };
        assert_eq!(on("2026-08-14", "2026-08-18")?, ["08-14", "08-15", "08-16", "08-17", "08-18"]);
        assert_eq!(on("2026-08-14", "2026-09-10")?, ["08-17", "08-24", "08-31", "09-07"]);
        assert_eq!(on("2026-07-05", "2026-10-20")?, ["08-01", "09-01", "10-01"]);
        assert_eq!(on("2025-10-01", "2026-10-20")?.len(), 5);
        Ok(())
    }
}
