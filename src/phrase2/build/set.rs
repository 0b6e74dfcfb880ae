//! Settings that are more than a value in a slot: quiet hours, the digest, the season's end, label sheets, time zones, and words of a closed list.

use super::super::lexicon::sense::Meaning;
use super::super::value::Value;
use super::clause::Clause;
use super::made::{Made, Used};
use super::when::{by_day, hours_minutes};
use crate::quantity::Number;
use crate::statement::{Set, Statement};
use crate::vocabulary::SettingKey;
use chrono::{NaiveTime, Timelike};
use smallvec::SmallVec;

/// Words that settings are set to.
mod word {
    pub(super) const OFF: &str = "off";
    pub(super) const US: &str = "us";
    pub(super) const METRIC: &str = "metric";
    pub(super) const OWN: &str = "own";
    pub(super) const HANDBOOK: &str = "handbook";
    pub(super) const BRIEF: &str = "brief";
    pub(super) const SILENT: &str = "silent";
    pub(super) const FULL: &str = "full";
    pub(super) const DARK: &str = "dark";
    pub(super) const LIGHT: &str = "light";
    /// Monday first.
    pub(super) const WEEKDAYS: [&str; 7] =
        ["monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"];
    pub(super) const LETTER: &str = "letter";
    pub(super) const LABEL: &str = "label";
    pub(super) const INCHES: &str = " in";
    pub(super) const ZONE_MARK: char = '/';
}

fn made(used: Used, set: Set) -> Made {
    Made { statements: [Statement::Set(set)].into_iter().collect(), used, ..Made::default() }
}

/// The word of a closed list that a setting is set to, and the item that says it.
pub(super) fn word_of(clause: &Clause<'_>, key: SettingKey) -> Option<(usize, &'static str)> {
    let classes = clause.classes();
    let choices: &[_] = match key {
        SettingKey::Units => &[(classes.set_metric, word::METRIC), (classes.set_us, word::US)],
        SettingKey::Yield => &[(classes.set_own, word::OWN), (classes.set_handbook, word::HANDBOOK)],
        SettingKey::Answers => {
            &[(classes.set_silent, word::SILENT), (classes.set_brief, word::BRIEF), (classes.set_full, word::FULL)]
        }
        SettingKey::Pictures => &[(classes.set_dark, word::DARK), (classes.set_light, word::LIGHT)],
        _ => return None,
    };
    let found = |n: usize| {
        let item = clause.item(n)?;
        choices.iter().find(|(class, _)| item.is(*class)).map(|(_, word)| (n, *word))
    };
    (0..clause.items().len()).rev().find_map(found)
}

/// Times of day in a clause, bare hours too, with the items that say them.
fn times(clause: &Clause<'_>) -> SmallVec<[(usize, NaiveTime, bool); 2]> {
    let mut found = SmallVec::new();
    for (n, item) in clause.items().iter().enumerate() {
        for value in &item.values {
            match value {
                Value::Clock(clock) => {
                    found.push((n, clock.time, clock.sure));
                    break;
                }
                Value::Number(figure) if !figure.range && clock_figures(figure.number).is_some() => {
                    if let Some(time) = clock_figures(figure.number) {
                        found.push((n, time, true));
                        break;
                    }
                }
                Value::Number(figure) if !figure.range => {
                    let hour = figure.number.as_count().filter(|hour| *hour <= 24).map(|hour| hour % 24);
                    if let Some(time) = hour.and_then(|hour| NaiveTime::from_hms_opt(hour, 0, 0)) {
                        let clocked = item.values.iter().any(|value| matches!(value, Value::Clock(_)));
                        if !clocked {
                            found.push((n, time, hour.is_some_and(|hour| hour > 12)));
                            break;
                        }
                    }
                }
                _ => {}
            }
        }
    }
    found
}

/// `1500` as a time of day.
fn clock_figures(number: Number) -> Option<NaiveTime> {
    let figures = number.as_count().filter(|n| (100..2400).contains(n))?;
    NaiveTime::from_hms_opt(figures / 100, figures % 100, 0)
}

/// `9-7` as two hours: a range is its middle, so its ends are read off the tokens.
fn range_ends(clause: &Clause<'_>) -> Option<(usize, NaiveTime, NaiveTime)> {
    let text = clause.scene.text;
    clause.items().iter().enumerate().find_map(|(n, item)| {
        // `21 to 7` may read as a time of day or as the middle of two numbers; its ends are what is meant here.
        let ranged = item.to - item.from == 3 && !item.values.is_empty();
        let number = |at: u32| match text.lexed.tokens.get(at as usize).map(|token| token.shape) {
            Some(super::super::lex::Shape::Digits(n, 4)) if n < 2400 => u32::try_from(n).ok(),
            Some(super::super::lex::Shape::Digits(n, _)) if n <= 24 => u32::try_from(n % 24 * 100).ok(),
            _ => None,
        };
        let (first, last) = (number(item.from)?, number(item.to.checked_sub(1)?)?);
        let time = |figures| NaiveTime::from_hms_opt(figures / 100, figures % 100, 0);
        ranged.then(|| Some((n, time(first)?, time(last)?))).flatten()
    })
}

/// `quiet from 21:00 to 07:00`, `quiet 9pm-7am`, `quiet hours off`.
pub(super) fn quiet(clause: &Clause<'_>) -> Option<Made> {
    let classes = clause.classes();
    let mut used = clause.used_by_trigger();
    let mut times = times(clause);
    if times.len() < 2
        && let Some((n, first, last)) = range_ends(clause)
    {
        let sure = first.minute() > 0 || last.hour() > 12;
        times = [(n, first, sure), (n, last, sure)].into_iter().collect();
    }
    if let [(a, from, from_sure), (b, to, to_sure), ..] = times.as_slice() {
        used.add(*a);
        used.add(*b);
        // The night: from the evening to the morning, if nothing else is said.
        let evening = |time: NaiveTime| time.overflowing_add_signed(chrono::Duration::hours(12)).0;
        let from = if !from_sure && (5..12).contains(&from.hour()) { evening(*from) } else { *from };
        let to = if !to_sure && to.hour() == 12 { NaiveTime::MIN } else { *to };
        let set = Set { from: Some(hours_minutes(from)), to: Some(hours_minutes(to)), ..Set::of(SettingKey::Quiet) };
        return Some(made(used, set));
    }
    let off = clause.items().iter().position(|item| item.is(classes.set_off) || item.is(classes.cancel))?;
    used.add(off);
    Some(made(used, Set { word: Some(word::OFF.to_owned()), ..Set::of(SettingKey::Quiet) }))
}

/// `digest on sundays at 6 pm`, `no more digest`, `weekly digest please`.
pub(super) fn digest(clause: &Clause<'_>) -> Option<Made> {
    let classes = clause.classes();
    let words = clause.scene.text.words;
    let mut used = clause.used_by_trigger();
    let off = clause
        .items()
        .iter()
        .position(|item| item.is(classes.set_off) || item.is(classes.cancel) || item.is(classes.not));
    if let Some(off) = off {
        used.add(off);
        return Some(made(used, Set { word: Some(word::OFF.to_owned()), ..Set::of(SettingKey::Digest) }));
    }
    let mut set = Set::of(SettingKey::Digest);
    for (n, item) in clause.items().iter().enumerate() {
        for value in &item.values {
            match value {
                Value::Day(dated) => {
                    if let super::super::value::time::Day::Weekday(weekday, _) = dated.day {
                        used.add(n);
                        set.word = word::WEEKDAYS.get(usize::from(weekday)).map(|day| (*day).to_owned());
                        set.from = set.from.or(dated.part.and_then(part_time));
                    }
                }
                Value::Clock(clock) => {
                    used.add(n);
                    set.from = Some(hours_minutes(clock.time));
                }
                Value::Number(figure) if n > 0 && clause.item(n - 1).is_some_and(|item| item.is(classes.at)) => {
                    let time = figure.number.as_count().and_then(|hour| NaiveTime::from_hms_opt(hour, 0, 0));
                    if let Some(time) = time {
                        used.add(n);
                        set.from = Some(hours_minutes(time));
                    }
                }
                _ => {}
            }
        }
        if set.from.is_none()
            && let Some(Meaning::Number(hour)) = item.meaning(classes.daypart, words)
        {
            used.add(n);
            set.from = u8::try_from(*hour).ok().and_then(part_time);
        }
    }
    Some(made(used, set))
}

/// When a part of the day is for a message: mornings at eight, evenings at six.
fn part_time(hour: u8) -> Option<String> {
    let hour = match hour {
        6 => 8,
        17 => 18,
        hour => u32::from(hour),
    };
    NaiveTime::from_hms_opt(hour, 0, 0).map(hours_minutes)
}

/// `season ends Oct 10`, `first frost is usually oct 5`, `last harvest is usually late september`.
pub(super) fn season(clause: &Clause<'_>) -> Option<Made> {
    use super::super::value::time::Day;
    use chrono::{Datelike, Months, NaiveDate};
    let mut used = clause.used_by_trigger();
    let context = clause.scene.context;
    let today = context.zone.day(context.now);
    let (n, day) = clause.items().iter().enumerate().find_map(|(n, item)| {
        let day = item.values.iter().find_map(|value| match value {
            Value::Day(dated) => Some(dated.day),
            _ => None,
        })?;
        Some((n, day))
    })?;
    used.add(n);
    let until = match day {
        // Of a month alone its end, of its early or late part the middle of that.
        Day::Month(month) => {
            let first = NaiveDate::from_ymd_opt(today.year(), month.into(), 1)?;
            let end = first.checked_add_months(Months::new(1))?.pred_opt()?;
            let part = n.checked_sub(1).and_then(|n| clause.item(n));
            let classes = clause.classes();
            let day = match part {
                Some(item) if item.is(classes.part_end) => end.day(),
                Some(item) if item.is(classes.part_late) => 25,
                Some(item) if item.is(classes.part_mid) => 15,
                Some(item) if item.is(classes.part_early) => 5,
                _ => end.day(),
            };
            end.with_day(day)?
        }
        day => day.coming(today, context.lexicon.metric)?,
    };
    Some(made(used, Set { until: Some(until), ..Set::of(SettingKey::Season) }))
}

/// `labels are 3 by 8 on a4`, with the size of a label and the margins where they are said.
pub(super) fn labels(clause: &Clause<'_>) -> Option<Made> {
    let classes = clause.classes();
    let mut used = clause.used_by_trigger();
    let mut grids: SmallVec<[(usize, Number, Number); 3]> = SmallVec::new();
    let mut paper = word::LETTER.to_owned();
    for (n, item) in clause.items().iter().enumerate() {
        let grid = item.values.iter().find_map(|value| match value {
            Value::Grid(a, b) => Some((*a, *b)),
            _ => None,
        });
        if let Some((a, b)) = grid {
            used.add(n);
            grids.push((n, a, b));
        }
        if let Some(Meaning::Word(name)) = item.meaning(classes.paper, clause.scene.text.words) {
            used.add(n);
            paper = (*name).to_owned();
        }
    }
    let (columns, rows) = grids.iter().find_map(|(_, a, b)| Some((a.as_count()?, b.as_count()?)))?;
    let words = clause.scene.text.words;
    let mut said = format!("{columns}x{rows} {paper}");
    // What else is measured stands behind the grid as it was written: `label 63.5x38.1`, `margin 7x15`.
    for (n, a, b) in grids.iter().skip(1) {
        let inches = clause.item(n + 1).is_some_and(|item| item.is(classes.inch));
        let named = clause.item(n.wrapping_sub(1)).and_then(|item| item.meaning(classes.label_part, words));
        let part = match named {
            Some(Meaning::Word(part)) => part,
            _ => word::LABEL,
        };
        if inches {
            used.add(n + 1);
        }
        if named.is_some() {
            used.add(n - 1);
        }
        said.push_str(&format!(", {part} {}x{}{}", plain(*a), plain(*b), if inches { word::INCHES } else { "" }));
    }
    Some(made(used, Set { word: Some(said), ..Set::of(SettingKey::Labels) }))
}

fn plain(number: Number) -> String {
    let value = number.as_f64();
    format!("{value}")
}

/// `timezone Europe/Rome`: a name of the tz database, in any case.
pub(super) fn timezone(clause: &Clause<'_>) -> Option<Made> {
    let mut used = clause.used_by_trigger();
    let text = clause.scene.text;
    let (from, to) = text.span(clause.from, clause.to);
    let words = text.text.get(from as usize..to as usize)?;
    let named = words
        .split(|c: char| c.is_whitespace() || matches!(c, ',' | '.' | ':' | '(' | ')'))
        .filter(|word| word.contains(word::ZONE_MARK) || word.len() >= 3)
        .find_map(zone)?;
    (0..clause.items().len()).for_each(|n| used.add(n));
    Some(made(used, Set { word: Some(named), ..Set::of(SettingKey::Timezone) }))
}

fn zone(word: &str) -> Option<String> {
    let whole = chrono_tz::TZ_VARIANTS.iter().find(|zone| zone.name().eq_ignore_ascii_case(word));
    // `Halifax`: a city by itself, where only one zone is called after it.
    let city = |zone: &&chrono_tz::Tz| {
        zone.name().rsplit(word::ZONE_MARK).next().is_some_and(|city| city.eq_ignore_ascii_case(word))
    };
    let mut cities = chrono_tz::TZ_VARIANTS.iter().filter(|zone| zone.name().contains(word::ZONE_MARK)).filter(city);
    let only = cities.next().filter(|_| cities.next().is_none() && word.len() > 3);
    whole.or(only).map(|zone| zone.name().to_owned())
}

/// The hour by which the jars should be out.
pub(super) fn by(clause: &Clause<'_>, n: usize) -> Option<(usize, String)> {
    let item = clause.item(n)?;
    item.values.iter().find_map(|value| match value {
        Value::Clock(clock) => Some((n, hours_minutes(by_day(*clock)))),
        Value::Number(figure) => {
            if let Some(time) = clock_figures(figure.number) {
                return Some((n, hours_minutes(time)));
            }
            let hour = figure.number.as_count().filter(|hour| *hour <= 24)?;
            let time = NaiveTime::from_hms_opt(hour % 24, 0, 0)?;
            let clock = super::super::value::time::Clock { time, sure: hour > 12 };
            Some((n, hours_minutes(by_day(clock))))
        }
        _ => None,
    })
}
