//! When a batch's clocks run out.

use super::Batch;
use crate::processes::facts;
use crate::zone::Zone;
use chrono::{DateTime, Duration, NaiveTime, Timelike, Utc};

/// One of the batch's clocks.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Clock {
    /// Half-way through a long process under pressure: look at the gauge.
    HeatCheck,
    /// The process minutes are up.
    ProcessDone,
    /// The jars may come out.
    RestDone,
    /// The jars should be out of the canner by now.
    StillIn,
    /// The hours in which jars without their process may get it are nearly over.
    StandNear,
    /// They are over.
    StandOver,
    /// The seals may be looked at.
    SealCheck,
    /// The last hours in which an unsealed jar may be reprocessed.
    ReprocessDeadline,
}

/// A process under pressure of at least this many minutes gets one reminder of its gauge (a choice of this program).
const LONG_PROCESS_MIN: u32 = 30;

/// Jars that rest in the canner are asked about once more so long after they could come out, and a canner of which
/// nobody said that its pressure is down is taken to be down after so long (choices of this program: no page gives
/// hours, `jars_in_canner_overnight_limit_h`).
const STILL_IN_AFTER: Duration = Duration::hours(1);
const COMES_DOWN_WITHIN: Duration = Duration::hours(1);

/// So long before jars have stood for too long somebody is called: as long as bringing a canner to heat takes, and some
/// more (a choice of this program).
const STAND_AHEAD: Duration = Duration::minutes(40);

impl Batch {
    /// When the minutes are up, while the clock runs; and when the rest is over, after it.
    pub fn ends_at(&self, now: DateTime<Utc>) -> Option<DateTime<Utc>> {
        match (self.heat, self.timing.minutes) {
            (Some(heat), Some(minutes)) => Some(heat.since + Duration::minutes(i64::from(minutes))),
            (Some(_), None) => None,
            (None, _) => self.rest_over().filter(|end| *end > now && self.heat_off.is_some()),
        }
    }

    /// When the rest is over, once the heat is off (pressure: once the pressure is down).
    pub(super) fn rest_over(&self) -> Option<DateTime<Utc>> {
        if self.canner.is_pressure() {
            self.pressure_down.map(|down| down + facts::PRESSURE_REST.value)
        } else {
            self.heat_off.map(|off| off + facts::BOILING_WATER_REST.value)
        }
    }

    /// The end of the 24 hours in which an unsealed jar may be reprocessed. Nobody says which round a jar was in, so
    /// they count from the earliest of which a jar may be undecided.
    pub fn reprocess_until(&self) -> Option<DateTime<Utc>> {
        let earliest = self.outs.get(self.settled).or_else(|| self.outs.first());
        earliest.map(|(out, _)| *out + facts::REPROCESS_WITHIN.value)
    }

    /// The instant after which the seals of the earliest open round may not wait, whatever the hour.
    pub fn seal_check_latest(&self) -> Option<DateTime<Utc>> {
        let out = self.again_out.or_else(|| self.open_rounds().next().map(|(out, _)| out))?;
        Some(out + Duration::hours(22))
    }

    /// Every clock that is set, with the instant it runs out. Those in the past have run out. While the batch is set
    /// aside only the jars that are out keep theirs.
    pub fn clocks(&self, zone: Zone) -> Vec<(Clock, DateTime<Utc>)> {
        let mut set = if self.stopped.is_none() { self.canner_clocks() } else { Vec::new() };
        set.extend(self.shelf_clocks(zone));
        if self.stopped.is_none() {
            set.extend(self.standing_clocks());
        }
        set
    }

    fn canner_clocks(&self) -> Vec<(Clock, DateTime<Utc>)> {
        let mut set = Vec::new();
        if let (Some(heat), Some(minutes)) = (self.heat, self.timing.minutes) {
            if self.canner.is_pressure() && minutes >= LONG_PROCESS_MIN {
                set.push((Clock::HeatCheck, heat.since + Duration::minutes(i64::from(minutes / 2))));
            }
            set.push((Clock::ProcessDone, heat.since + Duration::minutes(i64::from(minutes))));
        }
        if self.heat_off.is_some()
            && let Some(end) = self.rest_over()
        {
            set.push((Clock::RestDone, end));
        }
        if let Some(off) = self.heat_off {
            set.push((Clock::StillIn, self.rest_over().unwrap_or(off + COMES_DOWN_WITHIN) + STILL_IN_AFTER));
        }
        set
    }

    /// Of a batch that is set aside it is told at once, and no clock starts afterwards for jars that stood too long.
    fn standing_clocks(&self) -> Vec<(Clock, DateTime<Utc>)> {
        let Some(standing) = self.standing() else { return Vec::new() };
        let until = standing.until();
        vec![(Clock::StandNear, until - STAND_AHEAD), (Clock::StandOver, until)]
    }

    fn shelf_clocks(&self, zone: Zone) -> Vec<(Clock, DateTime<Utc>)> {
        let mut set = Vec::new();
        let unknown = self.undecided() > self.unsealed_open();
        for (out, _) in self.open_rounds().filter(|_| unknown) {
            let check = (Clock::SealCheck, seal_check(out, zone));
            if !set.contains(&check) {
                set.push(check);
            }
        }
        if let Some(out) = self.again_out.filter(|_| self.reprocessing() > self.fates.open_again) {
            set.push((Clock::SealCheck, seal_check(out, zone)));
        }
        if let Some(until) = self.reprocess_until() {
            let due = until - Duration::hours(2);
            if self.unsealed_open() > 0 && self.unsealed_at.is_some_and(|found| found <= due) {
                set.push((Clock::ReprocessDeadline, due));
            }
        }
        set
    }
}

/// Twelve hours after the jars came out, or as soon after that as it is between 07:00 and 21:00 in the room, and never
/// later than 22 hours after.
fn seal_check(out: DateTime<Utc>, zone: Zone) -> DateTime<Utc> {
    let cooled = out + facts::SEAL_CHECK_FROM.value;
    let clock = zone.local(cooled);
    let seven = NaiveTime::from_hms_opt(7, 0, 0).unwrap_or_default();
    let minutes = clock.hour() * 60 + clock.minute();
    let civil = if minutes < 7 * 60 {
        zone.at(clock.date_naive(), seven)
    } else if minutes > 21 * 60 || (minutes == 21 * 60 && clock.second() > 0) {
        zone.at(clock.date_naive() + Duration::days(1), seven)
    } else {
        cooled
    };
    civil.clamp(cooled, out + Duration::hours(22))
}

#[cfg(test)]
mod tests {
    use super::*;
    use anyhow::Context as _;

    /// One line a case: lifted, seal-check, both as clock times of the room.
    #[test]
    fn seals_are_looked_at_in_civil_hours() -> anyhow::Result<()> {
        let zone = Zone::parse("America/Chicago").context("a zone")?;
        let at = |text: &str| anyhow::Ok(zone.instant(format!("2026-{text}:00").parse()?));
        for (out, due) in [
            ("08-14T18:00", "08-15T07:00"),
            ("08-14T19:00", "08-15T07:00"),
            ("08-14T20:30", "08-15T08:30"),
            ("08-14T09:00", "08-14T21:00"),
            ("08-14T09:01", "08-15T07:00"),
            ("08-14T12:00", "08-15T07:00"),
            // The night in which the clocks go back is an hour longer: the 22 hours hold all the same.
            ("10-31T09:30", "11-01T06:30"),
        ] {
            assert_eq!(zone.local(seal_check(at(out)?, zone)), zone.local(at(due)?), "lifted {out}");
        }
        Ok(())
    }
}
