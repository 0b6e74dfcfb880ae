//! Settings that are words with a meaning, read so that what is wrong is found with its line.

use crate::drawing::Theme;
use crate::ledger::{Refusal, check_bounds};
use crate::phrase::{self, Context, Lexicon};
use crate::quantity::Length;
use crate::statement::{Set, Statement};
use crate::vocabulary::SettingKey;
use crate::zone::Zone;
use chrono::DateTime;
use serde::de::Error;
use serde::{Deserialize, Deserializer};
use std::time::Duration;

/// The units that rooms speak until they set their own.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Units {
    /// Pounds and quarts.
    #[default]
    Us,
    /// Kilograms and litres.
    Metric,
}

impl Units {
    /// From its written form.
    pub(super) fn parse(word: &str) -> Result<Self, String> {
        match word {
            "us" => Ok(Self::Us),
            "metric" => Ok(Self::Metric),
            _ => Err(format!("'{word}' is not a system of units; write us or metric")),
        }
    }
}

/// A theme of pictures.
pub(super) fn parse_theme(word: &str) -> Result<Theme, String> {
    match word {
        "light" => Ok(Theme::Light),
        "dark" => Ok(Theme::Dark),
        _ => Err(format!("'{word}' is no theme of pictures; write light or dark")),
    }
}

/// An altitude, in the words that set one in a room: `2400 ft`, `2,400 feet`, `730 m`.
pub(super) fn parse_altitude(text: &str) -> Result<Length, String> {
    let lexicon = Lexicon::default();
    let context = Context { now: DateTime::UNIX_EPOCH, zone: Zone::UTC, lexicon: &lexicon, last: None };
    let read = phrase::read(&format!("altitude {text}"), &context);
    let [said @ Statement::Set(Set { key: SettingKey::Altitude, length: Some(length), .. })] = &*read.statements else {
        return Err(format!("'{text}' is not an altitude; write \"2400 ft\" or \"730 m\""));
    };
    match check_bounds(said, context.now, context.now) {
        Ok(()) => Ok(*length),
        Err(Refusal::Absurd(sentence)) => Err(sentence),
        Err(_) => Err(format!("'{text}' cannot be an altitude")),
    }
}

/// A filter of log lines.
pub(super) fn parse_filter(text: &str) -> Result<String, String> {
    match tracing_subscriber::EnvFilter::builder().parse(text) {
        Ok(_) => Ok(text.to_owned()),
        Err(_) => Err(format!("'{text}' is not a log filter; write a level such as info, warn or debug")),
    }
}

/// A name to answer to: one word, so that it can be told from the sentence.
pub(super) fn parse_name(text: &str) -> Result<String, String> {
    let one_word = (1..=32).contains(&text.chars().count()) && text.chars().all(char::is_alphanumeric);
    if one_word {
        Ok(text.to_owned())
    } else {
        Err(format!("'{text}' won't do as a name; take one word of letters and digits, at most 32 of them"))
    }
}

pub(super) fn altitude<'de, D: Deserializer<'de>>(from: D) -> Result<Option<Length>, D::Error> {
    word(from, parse_altitude).map(Some)
}

pub(super) fn filter<'de, D: Deserializer<'de>>(from: D) -> Result<String, D::Error> {
    word(from, parse_filter)
}

pub(super) fn name<'de, D: Deserializer<'de>>(from: D) -> Result<String, D::Error> {
    word(from, parse_name)
}

/// A length of time, such as `24h` or `90s`.
pub(super) fn parse_duration(text: &str) -> Result<Duration, String> {
    humantime::parse_duration(text).map_err(|_| format!("'{text}' is no length of time; write 24h, 30m or 90s"))
}

pub(super) fn duration<'de, D: Deserializer<'de>>(from: D) -> Result<Duration, D::Error> {
    word(from, parse_duration)
}

/// A string, read further.
pub(super) fn word<'de, D: Deserializer<'de>, T>(
    from: D,
    parse: impl FnOnce(&str) -> Result<T, String>,
) -> Result<T, D::Error> {
    parse(&String::deserialize(from)?).map_err(D::Error::custom)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn altitudes_are_read_as_people_write_them() {
        for (text, metres) in [("2400 ft", 731.52), ("2,400 feet", 731.52), ("730m", 730.0), ("0 ft", 0.0)] {
            assert_eq!(parse_altitude(text).map(Length::as_metres), Ok(metres), "{text}");
        }
        for text in ["", "2400", "ft", "90000 ft", "12 miles"] {
            assert!(parse_altitude(text).is_err(), "{text}");
        }
    }
}
