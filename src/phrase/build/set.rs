//! Settings that are more than a value in a slot: quiet hours, the digest, the season's end, label sheets, time zones,
//! and words of a closed list.

use super::clause::{Clause, meaning_of, value_of};
use super::made::{Made, Used};
use super::when::{by_day, hours_minutes};
use crate::phrase::item::Item;
use crate::phrase::lex::Shape;
use crate::phrase::value::Value;
use crate::phrase::value::{
    clock::Clock,
    day::{Dated, Day},
};
use crate::quantity::Number;
use crate::statement::{Set, Statement};
use crate::vocabulary::SettingKey;
use chrono::{Datelike, Duration, Months, NaiveDate, NaiveTime, Timelike, Weekday};
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
    pub(super) const LETTER: &str = "letter";
    pub(super) const LABEL: &str = "label";
    pub(super) const INCHES: &str = " in";
    pub(super) const ZONE_MARK: char = '/';
}

fn made(used: Used, set: Set) -> Made {
    Made::one(Statement::Set(set), used, [])
}

/// A setting that is turned off.
fn off(used: Used, key: SettingKey) -> Made {
    made(used, Set { word: Some(word::OFF.to_owned()), ..Set::of(key) })
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

/// `1500` as a time of day.
fn clock_figures(number: Number) -> Option<NaiveTime> {
    let figures = number.as_count().filter(|n| (100..2400).contains(n))?;
    NaiveTime::from_hms_opt(figures / 100, figures % 100, 0)
}

/// The time of day that an item is, a bare hour too.
fn time_of(item: &Item) -> Option<Clock> {
    let clock = value_of!(item, Value::Clock(clock) => *clock);
    let number = value_of!(item, Value::Number(figure) if !figure.range => figure.number);
    let figures = number.and_then(clock_figures).map(|time| Clock { time, sure: true });
    figures.or(clock).or_else(|| {
        let hour = number.and_then(Number::as_count).filter(|hour| *hour <= 24)? % 24;
        Some(Clock { time: NaiveTime::from_hms_opt(hour, 0, 0)?, sure: hour > 12 })
    })
}

/// `9-7` as two hours: a range is its middle, so its ends are read off the tokens.
fn range_ends(clause: &Clause<'_>) -> Option<(usize, NaiveTime, NaiveTime)> {
    let text = clause.scene.text;
    let time = |at: u32| {
        let figures = match text.lexed.tokens.get(at as usize)?.shape {
            Shape::Digits(n, 4) if n < 2400 => n,
            Shape::Digits(n, _) if n <= 24 => n % 24 * 100,
            _ => return None,
        };
        let figures = u32::try_from(figures).ok()?;
        NaiveTime::from_hms_opt(figures / 100, figures % 100, 0)
    };
    // `21 to 7` may read as a time of day or as the middle of two numbers; its ends are what is meant here.
    let ranges = clause.items().iter().enumerate().filter(|(_, item)| item.to - item.from == 3);
    ranges.into_iter().find_map(|(n, item)| Some((n, time(item.from)?, time(item.to.checked_sub(1)?)?)))
}

/// `quiet from 21:00 to 07:00`, `quiet 9pm-7am`, `quiet hours off`.
pub(super) fn quiet(clause: &Clause<'_>) -> Option<Made> {
    let classes = clause.classes();
    let mut used = clause.used_by_trigger();
    let said = clause.items().iter().enumerate();
    let mut times: SmallVec<[(usize, Clock); 2]> = said.filter_map(|(n, item)| Some((n, time_of(item)?))).collect();
    if times.len() < 2
        && let Some((n, first, last)) = range_ends(clause)
    {
        let sure = first.minute() > 0 || last.hour() > 12;
        times = [first, last].into_iter().map(|time| (n, Clock { time, sure })).collect();
    }
    // `i go to bed at 8, so be quiet from 20:00 until 03:00`: the hours are those behind `from`.
    let from = clause.position(classes.prep_from).unwrap_or(0);
    if times.iter().filter(|(n, _)| *n > from).count() >= 2 {
        times.retain(|(n, _)| *n > from);
    }
    if let [(a, from), (b, to), ..] = times.as_slice() {
        used.add(*a);
        used.add(*b);
        // The night: from the evening to the morning, if nothing else is said; `from 8:00 to 15:30` says a day.
        let day = to.sure && to.time.hour() >= 12 && to.time > from.time;
        let evening = !from.sure && !day && (5..12).contains(&from.time.hour());
        let from = from.time.overflowing_add_signed(Duration::hours(if evening { 12 } else { 0 })).0;
        let to = if !to.sure && to.time.hour() == 12 { NaiveTime::MIN } else { to.time };
        let (from, to) = (Some(hours_minutes(from)), Some(hours_minutes(to)));
        return Some(made(used, Set { from, to, ..Set::of(SettingKey::Quiet) }));
    }
    // `silence` is the quiet itself, and ends nothing.
    let ends = |item: &Item| item.is_any(&[classes.set_off, classes.cancel]) && !item.is(classes.quiet);
    used.add(clause.items().iter().position(ends)?);
    Some(off(used, SettingKey::Quiet))
}

/// `digest on sundays at 6 pm`, `no more digest`, `weekly digest please`.
pub(super) fn digest(clause: &Clause<'_>) -> Made {
    let classes = clause.classes();
    let mut used = clause.used_by_trigger();
    let none = [classes.set_off, classes.cancel, classes.not];
    if let Some(n) = clause.items().iter().position(|item| item.is_any(&none)) {
        used.add(n);
        return off(used, SettingKey::Digest);
    }
    let mut set = Set::of(SettingKey::Digest);
    for (n, item) in clause.items().iter().enumerate() {
        let day = value_of!(item, Value::Day(Dated { day: Day::Weekday(weekday, _), part }) => (*weekday, *part));
        if let Some((weekday, part)) = day {
            used.add(n);
            set.word = weekday_name(weekday);
            set.from = set.from.or(part.and_then(part_time));
        }
        let led = clause.before(n).is_some_and(|item| item.is(classes.at));
        let hour = value_of!(item, Value::Number(figure) if led => figure.number).and_then(Number::as_count);
        let clock = value_of!(item, Value::Clock(clock) => clock.time).or_else(|| NaiveTime::from_hms_opt(hour?, 0, 0));
        if let Some(time) = clock {
            used.add(n);
            set.from = Some(hours_minutes(time));
        } else if let Some(hour) = meaning_of!(item, classes.daypart, clause.words(), Number)
            && set.from.is_none()
        {
            used.add(n);
            set.from = u8::try_from(*hour).ok().and_then(part_time);
        }
    }
    made(used, set)
}

/// A weekday by its number, Monday first, as the setting has it.
fn weekday_name(weekday: u8) -> Option<String> {
    let day = NaiveDate::from_isoywd_opt(2026, 1, Weekday::try_from(weekday).ok()?)?;
    Some(day.format("%A").to_string().to_lowercase())
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
    let classes = clause.classes();
    let context = clause.scene.context;
    let today = context.zone.day(context.now);
    let mut used = clause.used_by_trigger();
    let said = clause.items().iter().enumerate();
    let (n, day) =
        said.into_iter().find_map(|(n, item)| Some((n, value_of!(item, Value::Day(dated) => dated.day)?)))?;
    used.add(n);
    let until = match day {
        // Of a month alone its end, of its early or late part the middle of that.
        Day::Month(month) => {
            let first = NaiveDate::from_ymd_opt(today.year(), month.into(), 1)?;
            let end = first.checked_add_months(Months::new(1))?.pred_opt()?;
            let parts = [(classes.part_late, 25), (classes.part_mid, 15), (classes.part_early, 5)];
            let part = clause.before(n).and_then(|item| parts.into_iter().find(|(class, _)| item.is(*class)));
            end.with_day(part.map_or(end.day(), |(_, day)| day))?
        }
        day => day.coming(today, context.lexicon.metric)?,
    };
    Some(made(used, Set { until: Some(until), ..Set::of(SettingKey::Season) }))
}

/// `labels are 3 by 8 on a4`, with the size of a label and the margins where they are said.
pub(super) fn labels(clause: &Clause<'_>) -> Option<Made> {
    let classes = clause.classes();
    let words = clause.words();
    let mut used = clause.used_by_trigger();
    let mut grids: SmallVec<[(usize, Number, Number); 3]> = SmallVec::new();
    let mut paper = word::LETTER;
    for (n, item) in clause.items().iter().enumerate() {
        let grid = value_of!(item, Value::Grid(a, b) => (n, *a, *b));
        let named = meaning_of!(item, classes.paper, words, Word);
        if grid.is_some() || named.is_some() {
            used.add(n);
        }
        grids.extend(grid);
        paper = named.unwrap_or(&paper);
    }
    let (columns, rows) = grids.iter().find_map(|(_, a, b)| Some((a.as_count()?, b.as_count()?)))?;
    let mut said = format!("{columns}x{rows} {paper}");
    // What else is measured stands behind the grid as it was written: `label 63.5x38.1`, `margin 7x15`.
    for (n, a, b) in grids.iter().skip(1) {
        let inches = clause.is(n + 1, classes.inch);
        let named = clause.before(*n).and_then(|item| meaning_of!(item, classes.label_part, words, Word));
        used.add_all(n - usize::from(named.is_some())..n + usize::from(inches) + 1);
        let (part, unit) = (named.unwrap_or(&word::LABEL), if inches { word::INCHES } else { "" });
        said.push_str(&format!(", {part} {}x{}{unit}", a.as_f64(), b.as_f64()));
    }
    Some(made(used, Set { word: Some(said), ..Set::of(SettingKey::Labels) }))
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
    used.add_all(0..clause.len());
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

/// The hour by which the jars should be out, `HH:MM`.
pub(super) fn by(item: &Item) -> Option<String> {
    time_of(item).map(|clock| hours_minutes(by_day(clock)))
}
