//! The only place that asks what time it is. Everything else is handed an instant, so that a replay, a test and a real
//! evening run the same code.
//!
//! ```
//! use rackful::clock::{Clock, VirtualClock};
//! let clock = VirtualClock::at("2026-08-14T14:05:00Z".parse().unwrap());
//! clock.advance_to("2026-08-14T15:00:00Z".parse().unwrap());
//! assert_eq!(clock.now().to_rfc3339(), "2026-08-14T15:00:00+00:00");
//! ```

use crate::zone::Zone;
use chrono::{DateTime, TimeDelta, Utc};
use std::sync::{Mutex, PoisonError};

/// Says what time it is.
pub trait Clock: Send + Sync {
    /// This instant.
    fn now(&self) -> DateTime<Utc>;
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
    fn a_shifted_clock_runs_on_from_its_start() {
        let start: DateTime<Utc> = "2025-09-21T12:00:00Z".parse().unwrap();
        let clock = ShiftedClock::starting(start);
        let first = clock.now();
        assert!(first >= start && first < start + TimeDelta::minutes(1));
        assert!(clock.now() >= first);
    }

    #[test]
    fn a_virtual_clock_never_goes_back() {
        let noon: DateTime<Utc> = "2026-08-14T12:00:00Z".parse().unwrap();
        let clock = VirtualClock::at(noon);
        clock.advance_to(noon - TimeDelta::hours(1));
        assert_eq!(clock.now(), noon);
    }
}
