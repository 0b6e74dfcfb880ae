//! When: days, times of day, and the periods that questions ask about.
//!
//! ```text
//! moment  = day [ part ] [ time ] | part-of-day [ day ] | time [ day ] | number unit "ago"
//! day     = "today" | "yesterday" | "last night" | "this morning" | [ "on" | "last" ] weekday | "aug 12" | "12th of august"
//!         | 2026-08-12 | "on" 8/12 | "the day before yesterday"
//! time    = ( "at" | "around" | "by" ) clock | clock ( "am" | "pm" ) | "noon" | "half past 7" | "quarter to 8"
//! ```

mod ahead;
mod calendar;
mod clock;

use super::{
    Context,
    number::number,
    token::{Sense, Token, Tokens, one_of},
    words::{Unit, Word},
};
use crate::statement::When;
pub(super) use ahead::{ahead, dated};
use calendar::{calendar, day_number, impossible, month_of, year_of};
use chrono::{Datelike, Days, Duration, NaiveDate, NaiveTime, Weekday};
use clock::time;

/// A day and a time of day as far as they were said.
#[derive(Clone, Copy, PartialEq, Debug, Default)]
pub(super) struct Moment {
    day: Option<NaiveDate>,
    time: Option<Time>,
    /// Hours before now, for `an hour ago`.
    back: Option<Duration>,
    evening: bool,
    /// It lies ahead.
    pub(super) future: bool,
    /// No calendar has it: `feb 30`.
    pub(super) impossible: bool,
}

#[derive(Clone, Copy, PartialEq, Debug)]
struct Time {
    hour: u32,
    minute: u32,
    /// Whether morning or evening was said.
    certain: bool,
}

/// Days from and to, with both ends, for a question.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) struct Period {
    pub(super) since: Option<NaiveDate>,
    pub(super) until: Option<NaiveDate>,
}

impl Moment {
    /// The day or the instant meant.
    pub(super) fn when(self, context: &Context<'_>) -> Option<When> {
        let now = context.zone.local(context.now);
        if let Some(back) = self.back {
            return Some(When::At(context.zone.local(context.now.checked_sub_signed(back)?)));
        }
        let Some(time) = self.time else { return self.day.map(When::Day) };
        let clock = |hour: u32| NaiveTime::from_hms_opt(hour % 24, time.minute, 0);
        let at = |day: NaiveDate, hour: u32| Some(context.zone.at(day, clock(hour)?));
        if let Some(day) = self.day {
            let hour =
                if self.evening && !time.certain && (4..12).contains(&time.hour) { time.hour + 12 } else { time.hour };
            return at(day, hour).map(|at| When::At(context.zone.local(at)));
        }
        let today = now.date_naive();
        let hours = if time.certain || time.hour > 12 { [time.hour; 2] } else { [time.hour % 12 + 12, time.hour] };
        let said = hours.into_iter().filter_map(|hour| at(today, hour)).find(|at| *at <= context.now);
        let found = said.or_else(|| at(today.pred_opt()?, time.hour))?;
        Some(When::At(context.zone.local(found)))
    }

    pub(super) const fn has_time(self) -> bool {
        self.time.is_some()
    }

    pub(super) const fn has_day(self) -> bool {
        self.day.is_some() || self.back.is_some()
    }

    /// Adds what a second phrase says: `at 6 pm` and `yesterday`.
    pub(super) fn merge(self, other: Self) -> Self {
        Self {
            day: self.day.or(other.day),
            time: self.time.or(other.time),
            back: self.back.or(other.back),
            evening: self.evening || other.evening,
            future: self.future || other.future,
            impossible: self.impossible || other.impossible,
        }
    }
}

fn today(context: &Context<'_>) -> NaiveDate {
    context.zone.day(context.now)
}

fn days_back(context: &Context<'_>, days: i64) -> Option<NaiveDate> {
    today(context).checked_sub_signed(Duration::try_days(days)?)
}

/// Reads one moment at the start.
pub(super) fn moment(input: Tokens<'_>, context: &Context<'_>) -> Option<(usize, Moment)> {
    let first = input.first()?;
    let (mut used, mut moment) =
        day(input, context).or_else(|| ago(input, context)).or_else(|| time(input)).or_else(|| impossible(input))?;
    if !(first.glued && matches!(first.sense, Sense::Mark(_))) {
        for _ in 0..2 {
            let rest = input.skip(used);
            let more = match (moment.has_day(), moment.has_time()) {
                (true, false) => time(rest).or_else(|| part(rest)),
                (false, true) => day(rest, context).or_else(|| part(rest)),
                _ => None,
            };
            let Some((taken, other)) = more else { break };
            moment = moment.merge(other);
            used += taken;
        }
    }
    Some((used, moment))
}

/// `morning`, `in the evening`, `night` behind a day or a time.
fn part(input: Tokens<'_>) -> Option<(usize, Moment)> {
    let skip = if one_of!(input.key(0), "in" | "at" | "late" | "early") {
        1 + usize::from(one_of!(input.key(1), "the"))
    } else {
        0
    };
    match input.nth(skip)?.word()? {
        Word::DayPart(hour)
            if !one_of!(input.key(skip), "am" | "pm" | "noon" | "midnight" | "midday" | "breakfast") =>
        {
            Some((skip + 1, Moment { evening: hour >= 13, ..Moment::default() }))
        }
        _ => None,
    }
}

fn day(input: Tokens<'_>, context: &Context<'_>) -> Option<(usize, Moment)> {
    let on = usize::from(one_of!(input.key(0), "on" | "since" | "from" | "of" | "late" | "early" | "back"));
    let on = if one_of!(input.key(0), "late" | "early" | "back") {
        usize::from(one_of!(input.key(1), "on")) + 1
    } else {
        on
    };
    let said = |used: usize, day: NaiveDate| {
        Some((used, Moment { day: Some(day), future: day > today(context), ..Moment::default() }))
    };
    let rest = input.skip(on);
    let first = rest.first()?;
    match first.sense {
        Sense::Date(day) => return said(on + 1, day),
        Sense::Written(written) => {
            let day = written.day(context.lexicon.metric);
            let unknown = Some((on + 1, Moment { impossible: true, ..Moment::default() }));
            return day.map_or(unknown, |day| said(on + 1, day));
        }
        // `tomorrow's sauce` is no time at which anything was done.
        Sense::Word(Word::Day(offset)) if offset > 0 && rest.nth(1).is_some_and(|t| t.word() == Some(Word::Is)) => {
            return None;
        }
        Sense::Word(Word::Day(offset)) => {
            let day = days_back(context, -i64::from(offset))?;
            return said(on + 1, day);
        }
        Sense::Word(Word::DayPart(hour)) if one_of!(first.key, "tonight" | "tonite") => {
            return Some((on + 1, Moment { day: Some(today(context)), evening: hour >= 13, ..Moment::default() }));
        }
        Sense::Word(Word::Weekday(n)) if on > 0 || is_weekday(first, rest) => {
            let (used, day) = (on + 1, weekday(context, n, false)?);
            return said(used, day);
        }
        Sense::Ratio(a, b) if on == 1 && one_of!(input.key(0), "on" | "since") => {
            let (month, day) = if context.lexicon.metric && b <= 12 || a > 12 { (b, a) } else { (a, b) };
            return said(on + 1, month_day(context, month, day)?);
        }
        _ => {}
    }
    if let Some((used, moment)) = named(rest, context) {
        return Some((on + used, moment));
    }
    calendar(rest, context, on > 0).and_then(|(used, day)| said(on + used, day))
}

/// `sun` and `sat` are also a star and a verb.
fn is_weekday(token: &Token, rest: Tokens<'_>) -> bool {
    if !one_of!(token.key, "sun" | "sat" | "wed") {
        return true;
    }
    match rest.nth(1).map(|t| t.sense) {
        None | Some(Sense::Mark(_)) => true,
        Some(Sense::Word(Word::DayPart(_) | Word::And)) => true,
        _ => one_of!(rest.key(1), "at"),
    }
}

/// `last night`, `this morning`, `last tuesday`, `the day before yesterday`.
fn named(input: Tokens<'_>, context: &Context<'_>) -> Option<(usize, Moment)> {
    let the = usize::from(one_of!(input.key(0), "the" | "first" | "early" | "earlier" | "late" | "later"));
    let thing = if one_of!(input.key(the), "thing") { the + 1 } else { the };
    let input = input.skip(thing);
    let day = |day: NaiveDate, evening: bool| Moment { day: Some(day), evening, ..Moment::default() };
    let second = input.nth(1).and_then(|t| t.word());
    if one_of!(input.key(0), "day") && one_of!(input.key(1), "before" | "b4") {
        if let Some(Word::Day(-1)) = input.nth(2).and_then(|t| t.word()) {
            return Some((thing + 3, day(days_back(context, 2)?, false)));
        }
        if one_of!(input.key(2), "last") {
            return Some((thing + 3, day(days_back(context, 2)?, false)));
        }
    }
    if one_of!(input.key(0), "last") {
        return match second? {
            Word::DayPart(hour) if hour >= 17 => Some((thing + 2, day(days_back(context, 1)?, true))),
            Word::Weekday(n) => Some((thing + 2, day(weekday(context, n, true)?, false))),
            _ => None,
        };
    }
    if one_of!(input.key(0), "this") {
        let past = usize::from(one_of!(input.key(1), "past" | "very" | "fine"));
        return match input.nth(1 + past)?.word()? {
            Word::DayPart(hour) => Some((thing + 2 + past, day(today(context), hour >= 13))),
            Word::Weekday(n) => Some((thing + 2 + past, day(weekday(context, n, false)?, false))),
            _ => None,
        };
    }
    if one_of!(input.key(0), "next")
        && let Word::Weekday(n) = second?
    {
        let date = weekday(context, n, false)?.checked_add_days(Days::new(7))?;
        return Some((thing + 2, Moment { future: true, ..day(date, false) }));
    }
    None
}

/// The most recent such day of the week, today included unless `last` was said.
fn weekday(context: &Context<'_>, n: u8, last: bool) -> Option<NaiveDate> {
    let today = today(context);
    let wanted = Weekday::try_from(n).ok()?;
    let mut back = u64::from(today.weekday().days_since(wanted));
    if last && back == 0 {
        back = 7;
    }
    today.checked_sub_days(Days::new(back))
}

/// This year's such day, or last year's when that is more than two months ahead.
fn month_day(context: &Context<'_>, month: u32, day: u32) -> Option<NaiveDate> {
    let today = today(context);
    let this = NaiveDate::from_ymd_opt(today.year(), month, day)?;
    if this > today.checked_add_days(Days::new(62))? {
        NaiveDate::from_ymd_opt(today.year() - 1, month, day)
    } else {
        Some(this)
    }
}

/// `2 days ago`, `a week ago`, `an hour ago`.
fn ago(input: Tokens<'_>, context: &Context<'_>) -> Option<(usize, Moment)> {
    let (used, count) = match number(input) {
        Ok((rest, n)) => (input.0.len() - rest.0.len(), n.as_f64()),
        Err(_) if one_of!(input.key(0), "a" | "an" | "one") => (1, 1.0),
        Err(_) => return None,
    };
    let Word::Unit(unit) = input.nth(used)?.word()? else { return None };
    if !one_of!(input.key(used + 1), "ago" | "back") || !(0.0..10_000.0).contains(&count) {
        return None;
    }
    let days = |each: f64| {
        days_back(context, (count * each).round() as i64).map(|day| Moment { day: Some(day), ..Moment::default() })
    };
    let clock = |seconds: f64| {
        Duration::try_seconds((count * seconds).round() as i64)
            .map(|back| Moment { back: Some(back), ..Moment::default() })
    };
    let moment = match unit {
        Unit::Days => days(1.0),
        Unit::Weeks => days(if one_of!(input.key(used), "fortnight") { 14.0 } else { 7.0 }),
        Unit::Hour => clock(3600.0),
        Unit::Minute | Unit::M => clock(60.0),
        _ => None,
    }?;
    Some((used + 2, moment))
}

/// Reads a period at the start: `this week`, `last year`, `since june`, `in july`, `yesterday`, `so far`.
pub(super) fn period(input: Tokens<'_>, context: &Context<'_>) -> Option<(usize, Period)> {
    let skip = usize::from(one_of!(input.key(0), "for" | "in" | "over" | "during" | "from" | "of"));
    let skip = skip + usize::from(one_of!(input.key(skip), "the") && !one_of!(input.key(skip + 1), "day"));
    let rest = input.skip(skip);
    let now = today(context);
    let year = |y: i32| Some((NaiveDate::from_ymd_opt(y, 1, 1)?, NaiveDate::from_ymd_opt(y, 12, 31)?));
    let open = |used: usize, since: NaiveDate| Some((skip + used, Period { since: Some(since), until: None }));
    let both = |used: usize, (since, until): (NaiveDate, NaiveDate)| {
        Some((skip + used, Period { since: Some(since), until: Some(until) }))
    };
    let second = rest.nth(1).and_then(|t| t.word());
    let season = one_of!(rest.key(1), "season" | "summer");
    if one_of!(rest.key(0), "this" | "current") {
        return match second {
            Some(Word::Unit(Unit::Weeks)) => {
                open(2, now.checked_sub_days(Days::new(now.weekday().num_days_from_monday().into()))?)
            }
            Some(Word::Unit(Unit::Months)) => open(2, now.with_day(1)?),
            Some(Word::Unit(Unit::Years)) => open(2, year(now.year())?.0),
            _ if season => open(2, year(now.year())?.0),
            _ => None,
        };
    }
    if one_of!(rest.key(0), "last" | "past" | "previous") {
        let number = rest.nth(1).and_then(|t| match t.sense {
            Sense::Num(n) => n.as_count(),
            Sense::Word(Word::Small(n)) => Some(n.into()),
            _ => None,
        });
        if let Some(n) = number {
            let days = match rest.nth(2)?.word()? {
                Word::Unit(Unit::Days) => 1,
                Word::Unit(Unit::Weeks) => 7,
                Word::Unit(Unit::Months) => 30,
                _ => return None,
            };
            return open(3, now.checked_sub_days(Days::new((u64::from(n) * days).min(40_000)))?);
        }
        let monday = now.checked_sub_days(Days::new(now.weekday().num_days_from_monday().into()))?;
        return match second {
            Some(Word::Unit(Unit::Weeks)) => both(2, (monday.checked_sub_days(Days::new(7))?, monday.pred_opt()?)),
            Some(Word::Unit(Unit::Months)) => {
                let end = now.with_day(1)?.pred_opt()?;
                both(2, (end.with_day(1)?, end))
            }
            Some(Word::Unit(Unit::Years)) => both(2, year(now.year() - 1)?),
            _ if season => both(2, year(now.year() - 1)?),
            _ => None,
        };
    }
    if let Some(y) = rest.first().and_then(year_of).filter(|_| skip > 0) {
        return if y == now.year() { open(1, year(y)?.0) } else { both(1, year(y)?) };
    }
    if one_of!(rest.key(0), "since") {
        if let Some(month) = rest.nth(1).and_then(month_of).filter(|_| rest.nth(2).and_then(day_number).is_none()) {
            return open(2, month_day(context, month, 1)?);
        }
        let (used, moment) = day(rest, context)?;
        return open(used, moment.day?);
    }
    if let Some(month) =
        rest.first().and_then(month_of).filter(|_| skip > 0 && rest.nth(1).and_then(day_number).is_none())
    {
        let since = month_day(context, month, 1)?;
        let until = since.checked_add_months(chrono::Months::new(1))?.pred_opt()?;
        return both(1, (since, until));
    }
    if one_of!(rest.key(0), "ytd") {
        return open(1, year(now.year())?.0);
    }
    let (used, moment) = day(input, context)?;
    let day = moment.day?;
    if day == now {
        return Some((used, Period { since: Some(day), until: None }));
    }
    Some((used, Period { since: Some(day), until: Some(day) }))
}
