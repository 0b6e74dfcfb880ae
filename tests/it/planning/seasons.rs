//! Invented seasons to try a forecast on: six ways in which households' fruit comes into the freezer. Nothing here
//! knows how the forecast works.

use rand_distr::{Distribution, Normal, Uniform};
use rand_pcg::Pcg32;
use rand_pcg::rand_core::SeedableRng;

/// A way in which fruit comes in.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) enum Kind {
    /// About the same every week.
    Steady,
    /// Ever more, up to the frost.
    Ramping,
    /// Rise, peak and decline.
    Peaked,
    /// Mostly at weekends, much or little.
    Lumpy,
    /// Two people with a patch each.
    TwoPeople,
    /// With one or two weeks away.
    Pause,
}

impl Kind {
    pub(crate) const ALL: [Self; 6] =
        [Self::Steady, Self::Ramping, Self::Peaked, Self::Lumpy, Self::TwoPeople, Self::Pause];
}

/// One question to the forecast, and what came of it. Days count from the season's first day.
#[derive(Clone, PartialEq, Debug)]
pub(crate) struct Case {
    pub(crate) kind: Kind,
    /// Pounds frozen on each day up to and with the day of the question.
    pub(crate) frozen: Vec<f64>,
    /// Pounds that are missing.
    pub(crate) short: f64,
    /// The day after which no more fruit comes, where the household knows it.
    pub(crate) end: Option<i64>,
    /// The first day on which it was reached; none when it was not reached that season.
    pub(crate) reached: Option<i64>,
}

impl Case {
    pub(crate) fn today(&self) -> i64 {
        self.frozen.len() as i64 - 1
    }

    /// The days on which something was frozen.
    pub(crate) fn freezings(&self) -> Vec<(i64, f64)> {
        self.frozen
            .iter()
            .enumerate()
            .filter(|(_, pounds)| **pounds > 0.0)
            .map(|(day, pounds)| (day as i64, *pounds))
            .collect()
    }
}

struct Dice(Pcg32);

impl Dice {
    fn between(&mut self, low: f64, high: f64) -> f64 {
        Uniform::new(low, high).unwrap().sample(&mut self.0)
    }

    fn chance(&mut self, probability: f64) -> bool {
        self.between(0.0, 1.0) < probability
    }

    fn spread(&mut self, sd: f64) -> f64 {
        Normal::new(0.0, sd).unwrap().sample(&mut self.0).exp()
    }

    fn whole(&mut self, low: i64, high: i64) -> i64 {
        self.between(low as f64, high as f64 + 1.0).floor() as i64
    }
}

/// Pounds ripe on each day of a season.
fn garden(kind: Kind, days: i64, dice: &mut Dice) -> Vec<f64> {
    let rate = dice.between(1.5, 6.0);
    let (peak, width) = (days as f64 * dice.between(0.35, 0.65), dice.between(14.0, 24.0));
    let double = dice.between(16.0, 32.0);
    let bump = matches!(kind, Kind::Peaked)
        || (matches!(kind, Kind::TwoPeople | Kind::Pause | Kind::Lumpy) && dice.chance(0.5));
    let mut weather: f64 = 0.0;
    (0..days)
        .map(|day| {
            weather = 0.8 * weather + dice.spread(0.15).ln();
            let day = day as f64;
            let course = match kind {
                Kind::Ramping => (day / double).exp2() * 0.5,
                _ if bump => 1.8 * (-(day - peak).powi(2) / (2.0 * width * width)).exp(),
                _ => 1.0,
            };
            rate * course * weather.exp()
        })
        .collect()
}

/// What one person freezes of it each day.
fn freezer(kind: Kind, ripe: &[f64], dice: &mut Dice) -> Vec<f64> {
    let habit = dice.between(0.2, 0.6);
    let least = dice.between(1.0, 4.0);
    let weekday = dice.whole(0, 6);
    let days = ripe.len() as i64;
    let pauses: Vec<(i64, i64)> = match kind {
        Kind::Pause => (0..dice.whole(1, 2)).map(|_| (dice.whole(15, days - 15), dice.whole(6, 14))).collect(),
        _ => Vec::new(),
    };
    let mut there = 0.0;
    let mut frozen = Vec::new();
    for (day, pounds) in (0..).zip(ripe) {
        there += pounds * dice.between(0.5, 1.0);
        if pauses.iter().any(|(from, length)| (*from..from + length).contains(&day)) {
            there *= 0.9;
            frozen.push(0.0);
            continue;
        }
        let at_it = match kind {
            Kind::Lumpy => match (day + weekday) % 7 {
                0 => dice.chance(0.75),
                1 => dice.chance(0.25),
                _ => dice.chance(0.05),
            },
            _ => dice.chance(habit),
        };
        if at_it && there > least {
            let share = if kind == Kind::Lumpy { dice.between(0.3, 1.0) } else { dice.between(0.6, 1.0) };
            let weighed = (there * share * 2.0).round() / 2.0;
            there -= weighed;
            // What is not frozen by and by is eaten or spoils.
            there *= 0.7;
            frozen.push(weighed);
        } else {
            frozen.push(0.0);
        }
    }
    frozen
}

/// A season and the questions put in it.
pub(crate) fn cases(kind: Kind, seed: u64, questions: usize) -> Vec<Case> {
    let mut dice = Dice(Pcg32::seed_from_u64(seed));
    let days = dice.whole(70, 110);
    let mut frozen = vec![0.0; days as usize];
    for _ in 0..if kind == Kind::TwoPeople { 2 } else { 1 } {
        let ripe = garden(kind, days, &mut dice);
        for (sum, pounds) in frozen.iter_mut().zip(freezer(kind, &ripe, &mut dice)) {
            *sum += pounds;
        }
    }
    let target = [14.0, 21.0, 28.0, 35.0, 46.0][dice.whole(0, 4) as usize];
    let end_is_known = dice.chance(0.5);
    (0..questions).filter_map(|_| question(kind, &frozen, target, end_is_known, &mut dice)).collect()
}

fn question(kind: Kind, frozen: &[f64], target: f64, end_is_known: bool, dice: &mut Dice) -> Option<Case> {
    let days = frozen.len() as i64;
    let today = dice.whole(5, days - 10);
    let (past, future) = frozen.split_at(today as usize + 1);
    // A load is canned as soon as there is one.
    let stock = past.iter().fold(0.0, |stock, pounds| if stock + pounds >= target { 0.0 } else { stock + pounds });
    let short = target - stock;
    let mut sum = 0.0;
    let reached = future.iter().position(|pounds| {
        sum += pounds;
        sum >= short
    });
    Some(Case {
        kind,
        frozen: past.to_vec(),
        short,
        end: end_is_known.then_some(days - 1),
        reached: reached.map(|after| today + 1 + after as i64),
    })
}
