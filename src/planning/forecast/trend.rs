//! The course of a season: how much comes in on a day, and whether it grows or falls.

/// What was frozen on one day, in any unit of weight.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(super) struct Event {
    /// The day, counted from anywhere.
    pub(super) day: i64,
    /// How much.
    pub(super) amount: f64,
}

/// What is known of the daily rate at the last day looked at: `exp(level + growth × days)`, with the lower triangle of
/// the root of their covariance, so that they can be drawn together.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(super) struct Trend {
    pub(super) level: f64,
    pub(super) growth: f64,
    pub(super) root: [f64; 3],
}

/// How far back is looked, in days.
const WINDOW: i64 = 60;
/// A day counts e times less for being so many days older.
const FADES: f64 = 15.0;
/// Growth a day before anything is known of it: nought, give or take this. A season that rises or falls by half in two
/// weeks does so by 3 percent a day.
const GROWTH_PRIOR: f64 = 0.03;
/// Amounts scatter with their size: this much of a typical freezing, for fruit that is spread over the days before.
const SCATTER: f64 = 0.3;

/// Fits the course to freezings in order of days, at least two: a quasi-Poisson regression of the daily amounts, each
/// freezing spread evenly over the days since the one before, days faded by age, growth held back by a prior. Days
/// since the last freezing are left out: what ripens in them is not in yet.
pub(super) fn fit(events: &[Event], today: i64) -> Trend {
    let days = spread(events, today);
    let weighed: f64 = events.iter().map(|event| event.amount).sum::<f64>().max(f64::MIN_POSITIVE);
    let typical = events.iter().map(|event| event.amount * event.amount).sum::<f64>() / weighed;
    let scatter = (typical * SCATTER).max(f64::MIN_POSITIVE);
    let mean = days.iter().map(|day| day.amount).sum::<f64>() / days.len().max(1) as f64;
    let (mut level, mut growth) = (mean.max(f64::MIN_POSITIVE).ln(), 0.0);
    let mut bend = Bend::default();
    // Newton's method; the steps are held so that an odd season cannot make it leap.
    for _ in 0..10 {
        bend = Bend { growth: 1.0 / (GROWTH_PRIOR * GROWTH_PRIOR), ..Bend::default() };
        let (mut up, mut tilt) = (0.0, -growth * bend.growth);
        for day in &days {
            let ago = (day.day - today) as f64;
            let expected = (level + growth * ago).exp();
            let weight = (ago / FADES).exp() / scatter;
            up += weight * (day.amount - expected);
            tilt += weight * (day.amount - expected) * ago;
            bend.level += weight * expected;
            bend.both += weight * expected * ago;
            bend.growth += weight * expected * ago * ago;
        }
        let [a, b, c] = bend.inverse();
        level += (a * up + b * tilt).clamp(-1.0, 1.0);
        growth += (b * up + c * tilt).clamp(-0.05, 0.05);
    }
    let [a, b, c] = bend.inverse();
    let first = a.max(0.0).sqrt();
    let second = if first > 0.0 { b / first } else { 0.0 };
    Trend { level, growth, root: [first, second, (c - second * second).max(0.0).sqrt()] }
}

/// Each freezing spread over its days, those within the window.
fn spread(events: &[Event], today: i64) -> Vec<Event> {
    let pairs = events.iter().zip(events.iter().skip(1));
    pairs
        .flat_map(|(before, event)| {
            let amount = event.amount / (event.day - before.day).max(1) as f64;
            (before.day + 1..=event.day).map(move |day| Event { day, amount })
        })
        .filter(|event| event.day > today - WINDOW)
        .collect()
}

/// The second derivatives of the fit.
#[derive(Clone, Copy, Default)]
struct Bend {
    level: f64,
    both: f64,
    growth: f64,
}

impl Bend {
    /// The inverse: variance of the level, covariance, variance of the growth.
    fn inverse(self) -> [f64; 3] {
        let level = self.level + 1e-9;
        let determinant = (level * self.growth - self.both * self.both).max(f64::MIN_POSITIVE);
        [self.growth / determinant, -self.both / determinant, level / determinant]
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn every_third_day(amount: impl Fn(i64) -> f64) -> Vec<Event> {
        (0..14).map(|n| Event { day: 3 * n, amount: amount(3 * n) }).collect()
    }

    #[test]
    fn a_steady_season_is_flat_and_a_growing_one_grows() {
        let steady = fit(&every_third_day(|_| 6.0), 40);
        assert!((steady.level.exp() - 2.0).abs() < 0.1 && steady.growth.abs() < 0.002, "{steady:?}");
        let growing = fit(&every_third_day(|day| 6.0 * (0.03 * day as f64).exp()), 40);
        assert!((0.015..0.035).contains(&growing.growth), "{growing:?}");
        let falling = fit(&every_third_day(|day| 20.0 * (-0.03 * day as f64).exp()), 40);
        assert!((-0.035..-0.01).contains(&falling.growth), "{falling:?}");
    }

    #[test]
    fn little_history_leaves_much_open() {
        let few = fit(&every_third_day(|_| 6.0)[..4], 10);
        let many = fit(&every_third_day(|_| 6.0), 40);
        assert!(few.root[0] > many.root[0] && few.root[2] > many.root[2]);
        assert!(few.root.iter().chain(&many.root).all(|part| part.is_finite()));
    }
}
