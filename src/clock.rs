//! The only place that asks what time it is. Everything else is handed an instant, so that a replay, a test and a real
//! evening run the same code.
//!
//! ```
//! use rackful::clock::{Clock, VirtualClock};
//! let clock = VirtualClock::at("2026-08-14T14:05:00Z".parse()?);
//! clock.advance_to("2026-08-14T15:00:00Z".parse()?);
//! assert_eq!(clock.now().to_rfc3339(), "2026-08-14T15:00:00+00:00");
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```

use crate::zone::Zone;
use chrono::{DateTime, TimeDelta, Utc};
use std::sync::{Mutex, PoisonError};
use std::time::Duration;

/// Says what time it is.
pub trait Clock: Send + Sync {
    /// This instant.
    fn now(&self) -> DateTime<Utc>;

    /// What this clock shows when the world's clocks show `world`.
    fn shown_at(&self, world: DateTime<Utc>) -> DateTime<Utc> {
        world
    }

    /// What the world's clocks show when this one shows `shown`.
    fn world_at(&self, shown: DateTime<Utc>) -> DateTime<Utc> {
        shown
    }

    /// How long it takes, in the world, until this clock shows `shown`; nothing when it has.
    fn until(&self, shown: DateTime<Utc>) -> Duration {
        (self.world_at(shown) - self.world_at(self.now())).to_std().unwrap_or_default()
    }
}

/// The machine's clock.
#[derive(Clone, Copy, Debug, Default)]
pub struct SystemClock;

impl Clock for SystemClock {
    fn now(&self) -> DateTime<Utc> {
        Utc::now()
    }
}

/// A clock that runs as fast as the machine's but shows another time: for a season that took place elsewhere.
#[derive(Clone, Copy, Debug)]
pub struct ShiftedClock(TimeDelta);

impl ShiftedClock {
    /// A clock that shows this instant now, and runs on from there.
    pub fn starting(at: DateTime<Utc>) -> Self {
        Self(at - Utc::now())
    }
}

impl Clock for ShiftedClock {
    fn now(&self) -> DateTime<Utc> {
        Utc::now() + self.0
    }
}

/// A clock that runs faster than the world's and shows another time: a canning day rehearsed in minutes. It is the same
/// clock in each process that is given the same figures, so a rehearsal survives a restart.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct RehearsalClock {
    /// An instant of the world.
    pub from: DateTime<Utc>,
    /// What this clock shows then.
    pub shows: DateTime<Utc>,
    /// How many of its seconds are one of the world's; at least 1.
    pub speed: u32,
}

impl Clock for RehearsalClock {
    fn now(&self) -> DateTime<Utc> {
        self.shown_at(Utc::now())
    }

    fn shown_at(&self, world: DateTime<Utc>) -> DateTime<Utc> {
        let speed = i32::try_from(self.speed).unwrap_or(i32::MAX);
        let passed = (world - self.from).checked_mul(speed);
        passed.and_then(|passed| self.shows.checked_add_signed(passed)).unwrap_or(world)
    }

    fn world_at(&self, shown: DateTime<Utc>) -> DateTime<Utc> {
        let passed = (shown - self.shows).num_microseconds().map(|micros| micros / i64::from(self.speed.max(1)));
        passed.and_then(|micros| self.from.checked_add_signed(TimeDelta::microseconds(micros))).unwrap_or(shown)
    }
}

/// A clock that stands still until it is moved.
#[derive(Debug)]
pub struct VirtualClock {
    now: Mutex<DateTime<Utc>>,
}

impl VirtualClock {
    /// A clock that shows this instant.
    pub fn at(now: DateTime<Utc>) -> Self {
        Self { now: Mutex::new(now) }
    }

    /// Moves it forward; never back.
    pub fn advance_to(&self, at: DateTime<Utc>) {
        let mut now = self.now.lock().unwrap_or_else(PoisonError::into_inner);
        *now = at.max(*now);
    }
}

impl Clock for VirtualClock {
    fn now(&self) -> DateTime<Utc> {
        *self.now.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

/// The time zone that the machine is set to: `TZ` when it names one, otherwise the system's; UTC when neither is known.
pub fn machine_zone() -> Zone {
    let named = std::env::var("TZ").ok().and_then(|name| Zone::parse(name.trim_start_matches(':')));
    named.or_else(|| iana_time_zone::get_timezone().ok().and_then(|name| Zone::parse(&name))).unwrap_or(Zone::UTC)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_shifted_clock_runs_on_from_its_start() -> anyhow::Result<()> {
        let start: DateTime<Utc> = "2025-09-21T12:00:00Z".parse()?;
        let clock = ShiftedClock::starting(start);
        let first = clock.now();
        assert!(first >= start && first < start + TimeDelta::minutes(1));
        assert!(clock.now() >= first);
        Ok(())
    }

    #[test]
    fn a_rehearsal_runs_faster_and_back_again() -> anyhow::Result<()> {
        let clock = RehearsalClock {
            from: "2026-08-14T12:00:00Z".parse()?,
            shows: "2025-09-21T08:00:00Z".parse()?,
            speed: 600,
        };
        let later: DateTime<Utc> = "2026-08-14T12:00:06Z".parse()?;
        assert_eq!(clock.shown_at(later).to_rfc3339(), "2025-09-21T09:00:00+00:00");
        assert_eq!(clock.world_at(clock.shown_at(later)), later);
        let soon = clock.until(clock.now() + TimeDelta::hours(1));
        assert!(soon <= Duration::from_secs(6) && soon > Duration::from_secs(5), "{soon:?}");
        Ok(())
    }

    #[test]
    fn a_virtual_clock_never_goes_back() -> anyhow::Result<()> {
        let noon: DateTime<Utc> = "2026-08-14T12:00:00Z".parse()?;
        let clock = VirtualClock::at(noon);
        clock.advance_to(noon - TimeDelta::hours(1));
        assert_eq!(clock.now(), noon);
        Ok(())
    }
}
