//! A room's civil time: which day and hour an instant is there, and which instant a day and hour is.

use chrono::{
    DateTime, Duration, FixedOffset, MappedLocalTime, NaiveDate, NaiveDateTime, NaiveTime, Offset, TimeZone, Utc,
};
use chrono_tz::Tz;

/// The time zone of a room: a named zone with its daylight saving, or a bare offset.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Zone {
    /// A zone of the tz database.
    Named(Tz),
    /// A fixed offset from UTC.
    Fixed(FixedOffset),
}

impl Zone {
    /// Universal time.
    pub const UTC: Self = Self::Named(Tz::UTC);

    /// From an IANA name or an offset such as `-05:00`.
    pub fn parse(word: &str) -> Option<Self> {
        word.parse().map(Self::Named).or_else(|_| word.parse().map(Self::Fixed)).ok()
    }

    /// The instant as read off a clock in the room, with the offset in force then.
    pub fn local(self, at: DateTime<Utc>) -> DateTime<FixedOffset> {
        match self {
            Self::Named(tz) => {
                let local = at.with_timezone(&tz);
                let offset = local.offset().fix();
                at.with_timezone(&offset)
            }
            Self::Fixed(offset) => at.with_timezone(&offset),
        }
    }

    /// The calendar day of an instant.
    pub fn day(self, at: DateTime<Utc>) -> NaiveDate {
        self.local(at).date_naive()
    }

    /// The instant when the room's clock shows this. A time that daylight saving skips is the instant an hour later
    /// on the clock; one that comes twice is its first coming.
    pub fn instant(self, clock: NaiveDateTime) -> DateTime<Utc> {
        match self {
            Self::Fixed(offset) => first(&offset, clock),
            Self::Named(tz) => first(&tz, clock),
        }
    }

    /// Shorthand for [`Zone::instant`] of a day and a time of day.
    pub fn at(self, day: NaiveDate, time: NaiveTime) -> DateTime<Utc> {
        self.instant(day.and_time(time))
    }
}

fn first<T: TimeZone>(zone: &T, clock: NaiveDateTime) -> DateTime<Utc> {
    let found = |clock| match zone.from_local_datetime(&clock) {
        MappedLocalTime::Single(at) | MappedLocalTime::Ambiguous(at, _) => Some(at.with_timezone(&Utc)),
        MappedLocalTime::None => None,
    };
    found(clock).or_else(|| found(clock + Duration::hours(1))).unwrap_or_else(|| clock.and_utc())
}

/// Written as its name or offset.
impl std::fmt::Display for Zone {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::Named(tz) => f.write_str(tz.name()),
            Self::Fixed(offset) => write!(f, "{offset}"),
        }
    }
}

impl serde::Serialize for Zone {
    fn serialize<S: serde::Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.collect_str(self)
    }
}

impl<'de> serde::Deserialize<'de> for Zone {
    fn deserialize<D: serde::Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        let word = <String as serde::Deserialize>::deserialize(from)?;
        Self::parse(&word).ok_or_else(|| serde::de::Error::custom(format!("'{word}' is not a time zone")))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use anyhow::Context as _;

    #[test]
    fn a_skipped_hour_and_a_doubled_hour_are_one_instant_each() -> anyhow::Result<()> {
        let zone = Zone::parse("America/Chicago").context("a zone")?;
        let clock = |text: &str| NaiveDateTime::parse_from_str(text, "%Y-%m-%dT%H:%M");
        assert_eq!(zone.instant(clock("2026-03-08T02:30")?), zone.instant(clock("2026-03-08T03:30")?));
        assert_eq!(zone.instant(clock("2026-11-01T01:30")?).to_rfc3339(), "2026-11-01T06:30:00+00:00");
        assert_eq!(Zone::parse("-05:00").map(|zone| zone.to_string()).as_deref(), Some("-05:00"));
        assert_eq!(Zone::parse("nowhere"), None);
        Ok(())
    }
}
