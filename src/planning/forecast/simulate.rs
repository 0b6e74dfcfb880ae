//! Seasons to come, drawn from the one so far.
//!
//! Each path draws the season's course from what is known of it ([`Trend`]), gives every past freezing a weight of
//! chance (the Bayesian bootstrap, so that a short history counts as little as it says) that fades with age, and then
//! lets freezings follow each other as they did: a gap and the amount that came after it, together. The first gap is
//! one that has not ended yet.

use super::trend::{Event, Trend, fit};
use rand_distr::{Distribution, Exp1, StandardNormal, StandardUniform};
use rand_pcg::Pcg64Mcg;
use rand_pcg::rand_core::SeedableRng;

/// How many seasons are drawn.
const PATHS: usize = 400;
/// A gap and its amount are drawn e times less often for being so many days older.
const FADES: f64 = 21.0;
/// What never happened yet, such as a week away, is drawn with this weight, against 1 for the latest freezing.
const UNSEEN: f64 = 0.4;
/// The daily step by which the course may leave what was seen, as a share.
const DRIFT: f64 = 0.03;
/// Growth goes on, but less by this factor each day: no season rises for ever.
const GOES_ON: f64 = 0.95;
/// The size of a freezing that never happened yet, as the spread of its logarithm; and that of every other one.
const SPREAD_UNSEEN: f64 = 0.5;
const SPREAD: f64 = 0.1;
/// A gap longer than any before ends after this share of a usual one.
const SOON: f64 = 0.5;
/// So often a gap is drawn again until it is longer than the one that has not ended.
const TRIES: u32 = 20;

/// The paths of a season to come: on each, the freezings in order of days until `until`.
pub(super) struct Paths {
    pairs: Vec<Pair>,
    mean: Pair,
    trend: Trend,
    today: i64,
    elapsed: i64,
    rng: Pcg64Mcg,
}

/// A gap in days, the amount that came after it, and its weight.
#[derive(Clone, Copy)]
struct Pair {
    gap: i64,
    amount: f64,
    weight: f64,
}

impl Paths {
    /// From freezings in order of days, at least two, the last not after `today`. The same freezings and seed give the
    /// same paths.
    pub(super) fn new(events: &[Event], today: i64, seed: u64) -> Self {
        let trend = fit(events, today);
        let pair = |(before, event): (&Event, &Event)| {
            let ago = (today - event.day) as f64;
            // As much as it would be now.
            let amount = event.amount * (trend.growth * ago).exp();
            Pair { gap: event.day - before.day, amount, weight: (-ago / FADES).exp() }
        };
        let pairs: Vec<Pair> = events.iter().zip(events.iter().skip(1)).map(pair).collect();
        let elapsed = events.last().map_or(0, |event| today - event.day);
        let mean = mean(&pairs);
        Self { pairs, mean, trend, today, elapsed, rng: Pcg64Mcg::seed_from_u64(seed) }
    }

    /// The first day on which what comes in sums to `short`, on each path, in order; `None` last, for paths that have
    /// not got there by `until`.
    pub(super) fn days_to(&mut self, short: f64, until: i64) -> Vec<Option<i64>> {
        let mut days: Vec<Option<i64>> = (0..PATHS)
            .map(|_| {
                let (mut sum, mut reached) = (0.0, None);
                self.walk(until, |event| {
                    sum += event.amount;
                    reached = (sum >= short).then_some(event.day);
                    reached.is_none()
                });
                reached
            })
            .collect();
        days.sort_by_key(|day| day.unwrap_or(i64::MAX));
        days
    }

    /// What has come in by each of the next days, on each path, in order.
    pub(super) fn sums(&mut self, days: usize) -> Vec<Vec<f64>> {
        let until = self.today + days as i64;
        let mut sums = vec![Vec::with_capacity(PATHS); days];
        for _ in 0..PATHS {
            let mut by_day = vec![0.0; days];
            let today = self.today;
            self.walk(until, |event| {
                for sum in by_day.iter_mut().skip((event.day - today - 1).max(0) as usize) {
                    *sum += event.amount;
                }
                true
            });
            for (of_day, sum) in sums.iter_mut().zip(by_day) {
                of_day.push(sum);
            }
        }
        sums.iter_mut().for_each(|of_day| of_day.sort_by(f64::total_cmp));
        sums
    }

    fn normal(&mut self) -> f64 {
        StandardNormal.sample(&mut self.rng)
    }

    fn exponential(&mut self) -> f64 {
        Exp1.sample(&mut self.rng)
    }

    /// One path, freezing by freezing, until it is told to stop or the days are over.
    fn walk(&mut self, until: i64, mut goes_on: impl FnMut(Event) -> bool) {
        let (z1, z2) = (self.normal(), self.normal());
        let [first, second, third] = self.trend.root;
        let level = self.trend.level + first * z1;
        let growth = self.trend.growth + second * z1 + third * z2;
        let chances = self.chances();
        // Freezings as they were, but so much of each that together they come to the level drawn.
        let scale = level.exp() * chances.gap / chances.amount.max(f64::MIN_POSITIVE);
        let (mut day, mut drift, mut first) = (self.today - self.elapsed, 0.0, true);
        loop {
            let before = day.max(self.today);
            let (gap, amount) = if first { self.unended(&chances) } else { self.draw(&chances) };
            first = false;
            day += gap;
            if day > until {
                return;
            }
            drift += DRIFT * ((day - before) as f64).sqrt() * self.normal();
            let course = growth * (1.0 - GOES_ON.powf((day - self.today) as f64)) / (1.0 - GOES_ON);
            let amount = amount * scale * (course + drift + SPREAD * self.normal()).exp();
            if !goes_on(Event { day, amount }) {
                return;
            }
        }
    }

    /// The weights of one path.
    fn chances(&mut self) -> Chances {
        let mut weights: Vec<f64> = Vec::with_capacity(self.pairs.len());
        for place in 0..self.pairs.len() {
            let fades = self.pairs.get(place).map_or(0.0, |pair| pair.weight);
            weights.push(fades * self.exponential());
        }
        let unseen = UNSEEN * self.exponential();
        let total = weights.iter().sum::<f64>() + unseen;
        let over = |of: fn(&Pair) -> f64, mean: &Pair| {
            let seen: f64 = self.pairs.iter().zip(&weights).map(|(pair, weight)| weight * of(pair)).sum();
            (seen + unseen * of(mean)) / total
        };
        let (gap, amount) = (over(|pair| pair.gap as f64, &self.mean), over(|pair| pair.amount, &self.mean));
        Chances { weights, total, gap, amount }
    }

    fn draw(&mut self, chances: &Chances) -> (i64, f64) {
        let uniform: f64 = StandardUniform.sample(&mut self.rng);
        let mut left = uniform * chances.total;
        for (pair, weight) in self.pairs.iter().zip(&chances.weights) {
            if left < *weight {
                return (pair.gap, pair.amount);
            }
            left -= weight;
        }
        let gap = (self.mean.gap as f64 * self.exponential()).round().max(1.0) as i64;
        let size = (SPREAD_UNSEEN * self.normal() - SPREAD_UNSEEN * SPREAD_UNSEEN / 2.0).exp();
        (gap, self.mean.amount * size)
    }

    /// The gap that has not ended yet, and what comes after it. One that is longer than any before ends soon, and
    /// brings more than usual: some of what ripened in it is still there.
    fn unended(&mut self, chances: &Chances) -> (i64, f64) {
        let mut usual = (self.mean.gap, self.mean.amount);
        for _ in 0..TRIES {
            let drawn = self.draw(chances);
            if drawn.0 > self.elapsed {
                return drawn;
            }
            usual = drawn;
        }
        let more = SOON * self.mean.gap as f64 * self.exponential();
        let gap = self.elapsed + 1 + more.round() as i64;
        let longer = (gap as f64 / usual.0.max(1) as f64).max(1.0);
        (gap, usual.1 * longer.sqrt())
    }
}

/// One path's weights, and the mean gap and amount under them.
struct Chances {
    weights: Vec<f64>,
    total: f64,
    gap: f64,
    amount: f64,
}

fn mean(pairs: &[Pair]) -> Pair {
    let weight: f64 = pairs.iter().map(|pair| pair.weight).sum::<f64>().max(f64::MIN_POSITIVE);
    let over = |of: fn(&Pair) -> f64| pairs.iter().map(|pair| pair.weight * of(pair)).sum::<f64>() / weight;
    Pair { gap: over(|pair| pair.gap as f64).round().max(1.0) as i64, amount: over(|pair| pair.amount), weight: 1.0 }
}
