//! Occasions as iCalendar (RFC 5545), by a library that folds and escapes.
//!
//! Times are UTC, so that no time zone has to be described; a whole day is a date, which is that day wherever it is
//! read. A UID is made from the room and what the occasion is about, not from its time: taken in again, a moved clock
//! moves its event. What wants a hand rings at its time.

use crate::enclosure::{Calendar, Moment, Occasion};
use chrono::{DateTime, Days, TimeDelta, Utc};
use icalendar::{Alarm, CalendarDateTime, Component, Event, EventLike, Property, Trigger};

/// How long an instant is shown: calendars hide what takes no time.
const SHOWN: TimeDelta = TimeDelta::minutes(15);

/// The calendar of a room.
pub fn calendar(calendar: &Calendar, room: &str) -> Vec<u8> {
    let mut out = icalendar::Calendar::empty();
    out.append_property(Property::new("VERSION", "2.0"));
    out.append_property(Property::new("PRODID", "-//rackful//what is due//EN"));
    out.append_property(Property::new("CALSCALE", "GREGORIAN"));
    out.append_property(Property::new("METHOD", "PUBLISH"));
    for occasion in &calendar.occasions {
        out.push(event(occasion, room, calendar.made));
    }
    fold(&out.to_string()).into_bytes()
}

/// Lines of at most 75 octets (RFC 5545, section 3.1): the library's last part of a line may have one more. A line is
/// broken beside a letter rather than a blank, since some readers drop blanks at a line's end.
fn fold(text: &str) -> String {
    const LONGEST: usize = 75;
    let mut folded = String::with_capacity(text.len() + text.len() / 64);
    for line in text.replace("\r\n ", "").split_terminator("\r\n") {
        let (mut rest, mut room) = (line, LONGEST);
        while rest.len() > room {
            let mut places = (1..=room).rev().filter_map(|at| rest.split_at_checked(at));
            let clean = |(left, right): &(&str, &str)| !left.ends_with(' ') && !right.starts_with(' ');
            let at = places.clone().take(24).find(clean).or_else(|| places.next());
            let Some((left, right)) = at else { break };
            folded.push_str(left);
            folded.push_str("\r\n ");
            // The blank that begins the next line counts.
            (rest, room) = (right, LONGEST - 1);
        }
        folded.push_str(rest);
        folded.push_str("\r\n");
    }
    folded
}

fn event(occasion: &Occasion, room: &str, made: DateTime<Utc>) -> Event {
    let uid = format!("{}-{:08x}@rackful", slug(&occasion.subject), crc32fast::hash(room.as_bytes()));
    let mut event = Event::new();
    event.uid(&uid).timestamp(made).summary(&plain(&occasion.summary)).description(&plain(&occasion.detail));
    match occasion.when {
        Moment::At(at) => {
            event.starts(CalendarDateTime::Utc(at)).ends(CalendarDateTime::Utc(at + SHOWN));
            let mut alarm = Alarm::display(&plain(&occasion.summary), Trigger::before_start(TimeDelta::zero()));
            // Otherwise the library would look at a clock and roll dice.
            alarm.uid(&format!("alarm-{uid}")).timestamp(made);
            event.alarm(alarm);
        }
        Moment::Day(day) => {
            event.starts(day);
            if let Some(next) = day.checked_add_days(Days::new(1)) {
                event.ends(next);
            }
            // A day is a hint and takes nobody's time.
            event.add_property("TRANSP", "TRANSPARENT");
        }
    }
    event.done()
}

/// Without control characters, which a calendar may not hold; lines stay.
fn plain(words: &str) -> String {
    words.chars().filter(|c| !c.is_control() || *c == '\n').collect()
}

/// Letters, digits and dashes: what an identity is made of.
fn slug(words: &str) -> String {
    let dashed: String = words.chars().map(|c| if c.is_ascii_alphanumeric() { c } else { '-' }).collect();
    let parts: Vec<&str> = dashed.split('-').filter(|part| !part.is_empty()).collect();
    // Names that differ only in other letters are told apart by a sum over them.
    if words.is_ascii() {
        parts.join("-")
    } else {
        format!("{}-{:08x}", parts.join("-"), crc32fast::hash(words.as_bytes()))
    }
}
