//! Why a value is another than that of the other reader.

use super::{Read, Reason};
use chrono::{Datelike, NaiveDate, Timelike};

/// Whether nothing is read of it there.
fn is_nothing(read: &Read) -> bool {
    *read == Read::Nothing
}

/// Whether the phrase has a mixed number.
fn is_mixed(text: &str) -> bool {
    text.contains("and a half")
        || text.contains("three quarters")
        || text.contains('½')
        || text.contains(['/']) && text.contains(' ')
}

/// Whether both are days, those here of this year and those there the same of the next.
fn a_year_later(ours: &Read, theirs: &Read) -> bool {
    let (Read::Days(ours), Read::Days(theirs)) = (ours, theirs) else { return false };
    let next = |day: &NaiveDate| ours.iter().any(|own| own.year() + 1 == day.year() && own.ordinal() == day.ordinal());
    theirs.iter().all(next)
}

/// Whether the day there is a week behind one here.
fn a_week_later(ours: &Read, theirs: &Read) -> bool {
    let (Read::Days(ours), Read::Days(theirs)) = (ours, theirs) else { return false };
    theirs.iter().all(|day| ours.iter().any(|own| day.signed_duration_since(*own).num_days() == 7))
}

pub(super) const REASONS: &[Reason] = &[
    ("number", "a comma is a decimal point, if less than three digits follow", |text, _, theirs| {
        text.contains(',') && is_nothing(theirs)
    }),
    ("number", "mixed numbers are one number", |text, _, theirs| is_mixed(text) && is_nothing(theirs)),
    ("number", "parts of one are numbers", |text, _, theirs| {
        ["half", "a quarter", "a third", "two thirds", "half a dozen"].contains(&text) && is_nothing(theirs)
    }),
    ("number", "an article counts a hundred", |text, _, theirs| {
        ["a hundred", "a thousand"].contains(&text) && is_nothing(theirs)
    }),
    ("mass", "pounds and ounces are one mass", |text, _, theirs| {
        (text.contains("oz") || text.contains("ounces"))
            && (text.contains("lb ") || text.contains("pounds "))
            && is_nothing(theirs)
    }),
    ("mass", "a comma is a decimal point before kilograms", |text, _, theirs| {
        text.ends_with(",5 kg") && is_nothing(theirs)
    }),
    ("mass", "a kilo is a kilogram", |text, _, theirs| {
        text.ends_with("kilos") && !text.starts_with("half") && !is_mixed(text) && is_nothing(theirs)
    }),
    ("mass", "half of a unit", |text, _, theirs| text.starts_with("half a ") && is_nothing(theirs)),
    ("mass", "mixed numbers of a unit", |text, _, theirs| is_mixed(text) && is_nothing(theirs)),
    ("volume", "mixed numbers of a measure", |text, _, theirs| is_mixed(text) && is_nothing(theirs)),
    ("duration", "mixed numbers of minutes", |text, _, theirs| is_mixed(text) && is_nothing(theirs)),
    ("duration", "to the second, not to the unit below", |text, ours, theirs| {
        let (Read::Amount(ours), Read::Amount(theirs)) = (ours, theirs) else { return false };
        text.contains('.') && (0.0..60.0).contains(&(ours - theirs))
    }),
    ("duration", "parts of seconds are rounded", |text, _, theirs| {
        (text.contains('.') || text.starts_with("half a ")) && text.contains("sec") && is_nothing(theirs)
    }),
    ("duration", "bare minutes behind hours", |text, _, theirs| text == "1 h 20" && is_nothing(theirs)),
    ("duration", "a quarter needs no article", |text, _, theirs| text == "quarter hour" && is_nothing(theirs)),
    ("clock", "the small hours are of the night", |text, ours, _| {
        text.ends_with("at night") && matches!(ours, Read::Time(time, true) if time.hour() < 5)
    }),
    ("clock", "the dot at the end belongs to the sentence", |text, ours, _| text.ends_with("m.") && is_nothing(ours)),
    ("clock", "noon by another name", |text, _, theirs| text == "high noon" && is_nothing(theirs)),
    ("clock", "twelve of the morning is midnight", |text, _, _| text == "twelve in the morning"),
    ("day", "a day that is just over is not one of next year", |_, ours, theirs| a_year_later(ours, theirs)),
    ("day", "the weekday of today is today", |text, ours, theirs| {
        text.contains("fri") && !text.contains("coming") && a_week_later(ours, theirs)
    }),
    ("day", "this coming is the first one to come", |text, ours, theirs| {
        text.starts_with("this coming ") && a_week_later(ours, theirs)
    }),
    ("day", "a part of a day is of that day", |text, _, theirs| {
        let parts = ["morning", "night"];
        parts.iter().any(|part| text.ends_with(part)) && is_nothing(theirs)
    }),
    ("day", "a year ago is a day and no month", |text, ours, theirs| {
        let (Read::Days(ours), Read::Days(theirs)) = (ours, theirs) else { return false };
        text.contains("year")
            && text.ends_with("ago")
            && theirs.iter().all(|day| ours.contains(&day.with_day(14).unwrap()))
    }),
    ("day", "a weekend is its Saturday", |text, _, theirs| text.ends_with("weekend") && is_nothing(theirs)),
    ("day", "a preposition is no part of a day", |text, ours, _| text.starts_with("on ") && is_nothing(ours)),
    ("day", "holidays that it does not know", |text, _, theirs| {
        ["christmas eve", "boxing day"].contains(&text) && is_nothing(theirs)
    }),
];
