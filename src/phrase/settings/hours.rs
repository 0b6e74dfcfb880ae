//! Quiet hours and the time zone.

use super::position;
use crate::phrase::{
    facts::{Facts, has},
    token::{Sense, Token, Tokens, one_of, says},
    words::{Verb, Word},
};
use crate::{
    statement::{Set, Statement},
    vocabulary::SettingKey,
    zone::Zone,
};

/// `quiet hours 9pm to 7am`, `quiet off`, `no messages between 10 pm and 7`.
pub(super) fn quiet(f: &Facts<'_>) -> Option<Statement> {
    let messages = |k: u64| one_of!(k, "messages" | "alerts" | "notifications" | "pings" | "beeps" | "reminders");
    let at = position(f, |k| one_of!(k, "quiet" | "disturb" | "silent" | "silence"))
        .or_else(|| position(f, messages).filter(|_| f.has(has::NOT)))?;
    let off = says!(f, "off" | "none" | "cancel" | "no") || f.verb_is(Verb::Cancel);
    let first = f.chunks.get(at)?.from as usize;
    let last = f.chunks.last()?.to as usize;
    let tokens = f.tokens.get(first..last)?;
    let times = clocks(tokens);
    if let [from, to, ..] = times.as_slice() {
        let (from, to) = night(*from, *to);
        let said = |(hour, minute, _): (u32, u32, bool)| Some(format!("{:02}:{minute:02}", hour % 24));
        return Some(Statement::Set(Set { from: said(from), to: said(to), ..Set::of(SettingKey::Quiet) }));
    }
    let short = f.unknown == 0 && f.alien == 0 && f.chunks.len() <= 8;
    (off && short && times.is_empty())
        .then(|| Statement::Set(Set { word: Some("off".to_owned()), ..Set::of(SettingKey::Quiet) }))
}

/// The clock times in a run of tokens: hour, minute, and whether the half of the day is sure.
pub(in crate::phrase) fn clocks(tokens: &[Token]) -> Vec<(u32, u32, bool)> {
    let mut out = Vec::new();
    let mut at = 0;
    while at < tokens.len() && out.len() < 3 {
        let rest = Tokens(&tokens[at..]);
        let found = match rest.0[0].sense {
            Sense::Clock(hour, minute) => Some((hour, minute)),
            Sense::Num(n) if n.as_whole().is_none() => {
                let hour = n.as_f64().trunc() as u32;
                let minute = (n.as_f64().fract() * 100.0).round() as u32;
                (hour <= 24 && minute < 60).then_some((hour, minute))
            }
            Sense::Num(n) => n.as_count().filter(|n| *n <= 24).map(|n| (n, 0)),
            Sense::Word(Word::Small(n)) => Some((u32::from(n), 0)),
            Sense::Word(Word::DayPart(hour)) if one_of!(rest.key(0), "noon" | "midday") => Some((u32::from(hour), 0)),
            Sense::Word(Word::DayPart(_)) if one_of!(rest.key(0), "midnight") => Some((24, 0)),
            _ => None,
        };
        at += 1;
        let Some((hour, minute)) = found else { continue };
        let mut half = Tokens(&tokens[at.min(tokens.len())..]);
        if let Some(Sense::Word(Word::Tens(m))) = half.first().map(|t| t.sense) {
            out.push((hour, u32::from(m), false));
            continue;
        }
        while one_of!(half.key(0), "oclock" | "o'clock" | "in" | "the" | "at") {
            half = half.skip(1);
        }
        let part = half.first().and_then(|t| t.word());
        let (hour, sure) = match part {
            Some(Word::DayPart(start)) if !one_of!(half.key(0), "noon" | "midnight" | "midday") => {
                let late = start >= 12;
                (
                    if late && hour < 12 {
                        hour + 12
                    } else if !late && hour == 12 {
                        0
                    } else {
                        hour
                    },
                    true,
                )
            }
            _ => (hour, hour > 12 || hour == 0 || matches!(rest.0[0].sense, Sense::Clock(..))),
        };
        out.push((hour, minute, sure));
    }
    out
}

/// Quiet hours that do not say which half of the day begin in the evening and end in the morning.
pub(super) const fn night(from: (u32, u32, bool), to: (u32, u32, bool)) -> ((u32, u32, bool), (u32, u32, bool)) {
    let from = if !from.2 && from.0 >= 5 && from.0 < 12 { (from.0 + 12, from.1, true) } else { from };
    (from, to)
}

/// `timezone america/chicago`: any name of the tz database, in any case, or its city alone.
pub(super) fn timezone(f: &Facts<'_>) -> Option<Statement> {
    let named = says!(f, "timezone" | "tz")
        || f.chunks.windows(2).any(|w| one_of!(w[0].key, "time") && one_of!(w[1].key, "zone"));
    if !named {
        return None;
    }
    let at = position(f, |k| one_of!(k, "timezone" | "tz" | "zone"))?;
    let from = f.tokens.get(f.chunks.get(at)?.to as usize - 1)?.to as usize;
    let until = f.tokens.get(f.chunks.last()?.to as usize - 1)?.to as usize;
    let rest = f.text.get(from..until)?;
    let words: Vec<&str> = rest
        .split(|c: char| c.is_whitespace() || matches!(c, ',' | '.' | '!' | '=' | ':' | ';'))
        .filter(|w| !w.is_empty())
        .take(8)
        .collect();
    let pairs = words.windows(2).map(|pair| format!("{}_{}", pair[0], pair[1]));
    let found = pairs.chain(words.iter().map(|word| (*word).to_owned())).find_map(|word| zone_named(&word))?;
    Some(Statement::Set(Set { word: Some(found), ..Set::of(SettingKey::Timezone) }))
}

pub(super) fn zone_named(word: &str) -> Option<String> {
    let familiar = match word.to_ascii_lowercase().as_str() {
        "eastern" | "est" | "edt" => "America/New_York",
        "central" | "cst" | "cdt" => "America/Chicago",
        "mountain" | "mst" | "mdt" => "America/Denver",
        "pacific" | "pst" | "pdt" => "America/Los_Angeles",
        "utc" => "UTC",
        "gmt" | "bst" | "uk" => "Europe/London",
        "is" | "to" | "the" | "us" | "set" | "in" | "cet" | "est5edt" => "",
        _ => "?",
    };
    match familiar {
        "" => return None,
        "?" => {}
        name => return Some(name.to_owned()),
    }
    if word.len() < 3 || word.len() > 40 {
        return None;
    }
    if let Some(Zone::Fixed(_)) = Zone::parse(word) {
        return Some(word.to_owned());
    }
    chrono_tz::TZ_VARIANTS
        .iter()
        .map(|tz| tz.name())
        .find(|name| {
            name.eq_ignore_ascii_case(word)
                || !word.contains('/')
                    && name.rsplit('/').next().is_some_and(|city| name.contains('/') && city.eq_ignore_ascii_case(word))
        })
        .map(str::to_owned)
}
