//! Bounds of what a household can mean. They catch slips of the thumb, so each is far above a good day and far below
//! nonsense; all are choices of this program.

use super::effect::Refusal;
use super::entry::Entry;
use crate::quantity::{Length, Mass, Volume};
use crate::sheet::Layout;
use crate::statement::{Set, Statement, When};
use crate::vocabulary::SettingKey;
use crate::zone::Zone;
use chrono::{DateTime, Datelike, NaiveDate, Utc};

/// More than this at once is asked back: a third of a tonne and no bag or picking.
const MASS: f64 = 1000.0;
const BAGS: u32 = 200;
const JARS: u32 = 400;
const PIECES: u32 = 10_000;
const HOURS: u32 = 48;

/// Whether a statement is within bounds and has happened.
///
/// # Errors
/// [`Refusal::Future`] or [`Refusal::Absurd`], the latter with a sentence.
pub fn check(statement: &Statement, happened: DateTime<Utc>, now: DateTime<Utc>) -> Result<(), Refusal> {
    if happened > now {
        return Err(Refusal::Future(statement.on().unwrap_or(When::At(happened.fixed_offset()))));
    }
    let (masses, volumes) = weights(statement);
    for mass in masses.into_iter().flatten() {
        mass_in_bounds(mass, matches!(statement, Statement::Counted(_)))?;
    }
    for volume in volumes.into_iter().flatten() {
        if volume.is_zero() || volume > Volume::GALLON.times(crate::quantity::Number::whole(100)).unwrap_or(volume) {
            return absurd(format!("{:.1} litres can't be right; how much was it?", volume.as_litres()));
        }
    }
    if let Statement::Set(set) = statement
        && (set.key, set.jars) == (SettingKey::Capacity, Some(0))
    {
        return absurd("a canner holds at least one jar; how many does yours hold?".to_owned());
    }
    for (count, most, what) in counts(statement) {
        match count {
            Some(0) if !may_be_zero(statement) => return absurd(format!("no {what} at all? Tell me how many.")),
            Some(count) if count > most => {
                return absurd(format!("{count} {what} is more than I can believe; how many was it?"));
            }
            _ => {}
        }
    }
    if !can_be_said(statement) || !is_of_these_centuries(happened.date_naive()) {
        return absurd("there is a figure or a day in that which can't be right; what is it?".to_owned());
    }
    match statement {
        Statement::Set(set) => check_setting(set),
        _ => Ok(()),
    }
}

/// The first and the last year, and the most of anything, that an entry from a file may hold.
const YEARS: std::ops::RangeInclusive<i32> = 1900..=2500;
const MOST: u32 = 1_000_000;

/// Whether an entry that comes from a file can be one at all. Wider than [`check`] by far: where that draws a bound
/// closer one day, what was entered before must still be read. Nothing passes [`check`] that is not possible.
pub(super) fn is_possible(entry: &Entry) -> bool {
    is_of_these_centuries(entry.said.date_naive())
        && is_of_these_centuries(entry.happened.date_naive())
        && can_be_said(&entry.statement)
}

fn is_of_these_centuries(day: NaiveDate) -> bool {
    YEARS.contains(&day.year())
}

fn can_be_said(statement: &Statement) -> bool {
    let on = statement.on().map(|when| match when {
        When::Day(day) => day,
        When::At(at) => at.date_naive(),
    });
    let ahead = match statement {
        Statement::Planned(s) => s.day,
        Statement::CalledOff(s) => s.day,
        Statement::Set(s) => s.until,
        _ => None,
    };
    let further = match statement {
        Statement::Sealed(s) => [s.jars, s.of],
        Statement::PutUp(s) | Statement::Opened(s) => [s.jars, s.of],
        Statement::Set(s) => [s.jars, s.count],
        _ => [None, None],
    };
    let (masses, volumes) = weights(statement);
    on.into_iter().chain(ahead).all(is_of_these_centuries)
        && masses.into_iter().flatten().all(|mass| mass >= Mass::ZERO && mass.as_pounds() <= 1000.0 * MASS)
        && volumes.into_iter().flatten().all(|volume| volume >= Volume::ZERO && volume.as_litres() <= 1000.0 * MASS)
        && counts(statement).into_iter().map(|(count, ..)| count).chain(further).flatten().all(|count| count <= MOST)
}

fn absurd<T>(sentence: String) -> Result<T, Refusal> {
    Err(Refusal::Absurd(sentence))
}

fn mass_in_bounds(mass: Mass, may_be_zero: bool) -> Result<(), Refusal> {
    if mass < Mass::ZERO || (mass.is_zero() && !may_be_zero) {
        return absurd("that weighs nothing; how much was it?".to_owned());
    }
    if mass.as_pounds() > MASS {
        let (pounds, tenth) = (mass.as_pounds(), mass.as_pounds() / 10.0);
        return absurd(format!("{pounds:.0} lb in one go is more than I can believe. Did you mean {tenth:.0} lb?"));
    }
    Ok(())
}

type Weights = ([Option<Mass>; 2], [Option<Volume>; 1]);

fn weights(statement: &Statement) -> Weights {
    match statement {
        Statement::Picked(s) => ([s.mass, None], [None]),
        Statement::Froze(s) => ([s.mass, s.each], [None]),
        Statement::Thawed(s) => ([s.mass, None], [None]),
        Statement::Ate(s) | Statement::Gave(s) | Statement::Tossed(s) => ([s.mass, None], [None]),
        Statement::Counted(s) => ([s.mass, None], [s.volume]),
        Statement::Began(s) => ([s.mass, None], [None]),
        Statement::Drained(s) => ([s.mass, None], [s.volume]),
        Statement::PutUp(s) | Statement::Opened(s) => ([s.mass, None], [None]),
        Statement::Dried(s) => ([s.mass, None], [None]),
        Statement::CookedDown(s) => ([s.mass, None], [s.volume]),
        Statement::Dry(s) => ([s.mass, None], [None]),
        Statement::Powdered(s) => ([s.mass, None], [None]),
        Statement::Bought(s) => ([s.mass, None], [s.volume]),
        Statement::Recipe(s) => ([s.mass, None], [None]),
        Statement::Set(s) => ([s.mass, None], [s.volume]),
        _ => ([None, None], [None]),
    }
}

fn counts(statement: &Statement) -> Vec<(Option<u32>, u32, &'static str)> {
    let jars = |count| vec![(count, JARS, "jars")];
    match statement {
        Statement::Froze(s) => vec![(s.bags, BAGS, "bags"), (s.jars, JARS, "jars")],
        Statement::Thawed(s) => vec![(s.bags, BAGS, "bags")],
        Statement::Ate(s) | Statement::Gave(s) | Statement::Tossed(s) => {
            vec![(s.bags, BAGS, "bags"), (s.jars, JARS, "jars")]
        }
        Statement::Counted(s) => vec![(s.bags, BAGS, "bags"), (s.jars, PIECES, "jars"), (s.count, PIECES, "pieces")],
        Statement::Began(s) => jars(s.jars),
        Statement::Filled(s) => jars(s.jars),
        Statement::PutUp(s) | Statement::Opened(s) => jars(s.jars),
        Statement::Lifted(s) => jars(s.jars),
        Statement::Spoiled(s) => jars(s.jars),
        Statement::Unsealed(s)
        | Statement::Reprocessed(s)
        | Statement::Refrigerated(s)
        | Statement::Broke(s)
        | Statement::Siphoned(s) => jars(s.jars),
        Statement::Dried(s) => vec![(s.trays, BAGS, "trays")],
        Statement::Planted(s) => vec![(s.count, PIECES, "plants")],
        Statement::Planned(s) => jars(s.jars),
        Statement::Bought(s) => vec![(s.count, PIECES, "pieces")],
        Statement::Recipe(s) => jars(s.jars),
        Statement::TimerStart(s) => vec![(s.seconds, HOURS * 3600, "seconds")],
        Statement::Set(s) if s.key == SettingKey::Capacity => jars(s.jars),
        _ => Vec::new(),
    }
}

/// Counting none, and sealing none, are things that happen.
fn may_be_zero(statement: &Statement) -> bool {
    matches!(statement, Statement::Counted(_) | Statement::Lifted(_))
}

/// From 500 m below the sea to 3500 m above it, where the tables' last bands are open upwards but nobody lives; a room
/// between 5 and 35 °C.
fn check_setting(set: &Set) -> Result<(), Refusal> {
    let lowest = Length::from_metres(-500.0).unwrap_or_default();
    let highest = Length::from_metres(3500.0).unwrap_or_default();
    if let Some(altitude) = set.length.filter(|altitude| *altitude < lowest || *altitude > highest) {
        let (metres, feet) = (altitude.as_metres(), altitude.as_feet());
        return absurd(format!(
            "{feet:.0} ft ({metres:.0} m) above the sea is outside what the tables know, \
             so none is set and I give no time; what is your altitude?"
        ));
    }
    if let Some(temp) = set.temp.filter(|temp| !(5.0..=35.0).contains(&temp.as_celsius())) {
        let (celsius, fahrenheit) = (temp.as_celsius(), temp.as_fahrenheit());
        return absurd(format!(
            "{celsius:.0} °C ({fahrenheit:.0} °F) is no room to ripen fruit in; \
             tell me between 5 and 35 °C (41 and 95 °F)."
        ));
    }
    if let (SettingKey::Timezone, Some(word)) = (set.key, &set.word)
        && Zone::parse(word).is_none()
    {
        return absurd(format!("I know no time zone '{word}'; name it as 'timezone America/Chicago'."));
    }
    if let (SettingKey::Labels, Some(word)) = (set.key, &set.word)
        && let Err(unfit) = Layout::parse(word)
    {
        return absurd(unfit.to_string());
    }
    if set.key == SettingKey::Bag && set.mass.is_some_and(|mass| mass.as_pounds() > 50.0) {
        return absurd("a bag of more than 50 lb? Tell me what one bag weighs.".to_owned());
    }
    Ok(())
}
