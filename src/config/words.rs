//! Settings that are words with a meaning, read so that what is wrong is found with its line.

use crate::quantity::Length;
use serde::de::Error;
use serde::{Deserialize, Deserializer};

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

/// An altitude as said in a room: `2400 ft`, `2,400 feet`, `730 m`.
pub(super) fn parse_altitude(text: &str) -> Result<Length, String> {
    let refuse = || format!("'{text}' is not an altitude; write \"2400 ft\" or \"730 m\"");
    let unit_at = text.find(|c: char| c.is_alphabetic()).ok_or_else(refuse)?;
    let (number, unit) = text.split_at(unit_at);
    let number: f64 = number.trim().replace(',', "").parse().map_err(|_| refuse())?;
    let metres = match unit.trim() {
        "ft" | "feet" | "foot" => number * Length::FOOT.as_metres(),
        "m" | "metres" | "meters" => number,
        _ => return Err(refuse()),
    };
    // Lower than the lowest shore, or higher than anybody lives.
    if !(-450.0..=6000.0).contains(&metres) {
        return Err(format!("'{text}' is no altitude where people live; it must lie between -450 m and 6000 m"));
    }
    Length::from_metres(metres).ok_or_else(refuse)
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
        for (text, metres) in [("2400 ft", 731.52), ("2,400 feet", 731.52), ("730m", 730.0), ("-10 m", -10.0)] {
            assert_eq!(parse_altitude(text).unwrap().as_metres(), metres, "{text}");
        }
        for text in ["", "2400", "ft", "90000 ft", "12 miles"] {
            assert!(parse_altitude(text).is_err(), "{text}");
        }
    }
}
