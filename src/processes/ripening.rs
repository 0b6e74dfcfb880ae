//! How long picked tomatoes take to turn red: the published table of days by colour class and temperature.
//!
//! ```
//! use rackful::processes::ripening::{NoRed, days_to_red};
//! use rackful::quantity::Temperature;
//! use rackful::vocabulary::Ripeness;
//! let room = |celsius| Temperature::from_celsius(celsius);
//! let pink = days_to_red(Ripeness::Pink, room(20.0));
//! assert_eq!(pink.map(|pink| (pink.days, pink.soonest)), Ok((4.0, 2.0)));
//! assert_eq!(days_to_red(Ripeness::Pink, room(31.0)), Err(NoRed::TooWarm));
//! ```
//!
//! Between the table's temperatures the days are interpolated, outside them there is no figure: colder than 12.5 °C is
//! not in the table, from 25 °C up to where no red forms the days of 25 °C stand as the least. Most cells are from
//! memory (only three have been seen on a page), which [`Ripening::is_confirmed`] says; it is a question of flavour,
//! not of safety.

use super::tables::{Fact, fact};
use crate::quantity::Temperature;
use crate::vocabulary::Ripeness;

/// The temperatures of the table, °C, with the words of its keys.
const COLUMNS: [(f64, &str); 6] =
    [(12.5, "12.5c"), (15.0, "15c"), (17.5, "17.5c"), (20.0, "20c"), (22.5, "22.5c"), (25.0, "25c")];

/// The room where no temperature was told, °C: an ordinary kitchen (a choice of this program).
const USUAL_ROOM: f64 = 20.0;

/// An estimate of when fruit is red, in days after it was picked.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Ripening {
    /// When fruit that had just come into its class is red.
    pub days: f64,
    /// When fruit that was about to leave its class is red: the days of the next class.
    pub soonest: f64,
    /// Whether every cell used has been seen on a page.
    pub is_confirmed: bool,
    /// Whether the room is warmer than the table goes, so that the days are those of its last column.
    pub is_clamped: bool,
    /// Where the table is printed.
    pub source: &'static str,
}

/// Why there is no date.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum NoRed {
    /// Colder than the table goes: fruit ripens very slowly there, or not at all.
    TooCold,
    /// Too warm for red to form.
    TooWarm,
}

/// The days from picking to red of a colour class in a room; of an ordinary room of 20 °C where none is said.
///
/// The table has no line for light red; it takes half as long as pink (a choice of this program). Red is red in any
/// room.
///
/// # Errors
/// Below 12.5 °C, and above 85 °F (29.4 °C), where no red forms.
pub fn days_to_red(class: Ripeness, room: Option<Temperature>) -> Result<Ripening, NoRed> {
    let celsius = room.map_or(USUAL_ROOM, Temperature::as_celsius);
    if class == Ripeness::Red {
        let cell = cell(class, USUAL_ROOM).ok_or(NoRed::TooCold)?;
        return Ok(Ripening { days: 0.0, soonest: 0.0, is_confirmed: true, is_clamped: false, source: cell.source });
    }
    let warmest = COLUMNS.last().map_or(USUAL_ROOM, |(celsius, _)| *celsius);
    if COLUMNS.first().is_some_and(|(coldest, _)| celsius < *coldest) {
        return Err(NoRed::TooCold);
    }
    if no_red_above().is_some_and(|limit| celsius > limit.as_celsius()) {
        return Err(NoRed::TooWarm);
    }
    let at = celsius.min(warmest);
    let own = cell(class, at).ok_or(NoRed::TooCold)?;
    let next = next(class).and_then(|next| cell(next, at)).unwrap_or(Cell { days: 0.0, ..own });
    Ok(Ripening {
        days: own.days,
        soonest: next.days,
        is_confirmed: own.is_confirmed && next.is_confirmed,
        is_clamped: celsius > warmest,
        source: own.source,
    })
}

/// The range of temperatures in which fruit ripens best.
pub fn best_range() -> Option<(Temperature, Temperature)> {
    Some((fahrenheit("ripening_best_f_low")?, fahrenheit("ripening_best_f_high")?))
}

/// The coldest and the warmest temperature of the table.
pub fn table_ends() -> Option<(Temperature, Temperature)> {
    let at = |column: Option<&(f64, &str)>| Temperature::from_celsius(column?.0);
    Some((at(COLUMNS.first())?, at(COLUMNS.last())?))
}

/// Above this no red forms.
pub fn no_red_above() -> Option<Temperature> {
    fahrenheit("ripening_no_red_above_f")
}

/// How many days red fruit keeps, at the least and at the most.
pub fn red_keeps() -> (u32, u32) {
    let days = |key| fact(key).and_then(Fact::number).map_or(0, |days| days as u32);
    (days("tomato_life_red_days_low"), days("tomato_life_red_days_high"))
}

fn fahrenheit(key: &str) -> Option<Temperature> {
    Temperature::from_fahrenheit(fact(key)?.number()?)
}

#[derive(Clone, Copy)]
struct Cell {
    days: f64,
    is_confirmed: bool,
    source: &'static str,
}

/// The next riper class.
fn next(class: Ripeness) -> Option<Ripeness> {
    let place = Ripeness::ALL.iter().position(|known| *known == class)?;
    Ripeness::ALL.get(place + 1).copied()
}

fn row(class: Ripeness) -> Option<&'static str> {
    match class {
        Ripeness::Green => Some("mature_green"),
        Ripeness::Breakers => Some("breaker"),
        Ripeness::Turning => Some("turning"),
        Ripeness::Pink => Some("pink"),
        Ripeness::LightRed | Ripeness::Red => None,
    }
}

/// The days of a class at a temperature within the table.
fn cell(class: Ripeness, celsius: f64) -> Option<Cell> {
    match class {
        Ripeness::Red => Some(Cell { days: 0.0, ..cell(Ripeness::Pink, celsius)? }),
        Ripeness::LightRed => {
            let pink = cell(Ripeness::Pink, celsius)?;
            Some(Cell { days: pink.days / 2.0, is_confirmed: false, ..pink })
        }
        _ => between(row(class)?, celsius),
    }
}

fn between(row: &str, celsius: f64) -> Option<Cell> {
    let after = COLUMNS.iter().position(|(at, _)| *at >= celsius)?;
    let read = |place: usize| {
        let (at, words) = COLUMNS.get(place)?;
        let fact = fact(&format!("days_{row}_to_red_at_{words}"))?;
        Some((*at, fact.number()?, fact))
    };
    let (warm, warm_days, warm_fact) = read(after)?;
    if warm == celsius {
        return Some(Cell { days: warm_days, is_confirmed: warm_fact.confirmed_by > 0, source: &warm_fact.source });
    }
    let (cold, cold_days, cold_fact) = read(after.checked_sub(1)?)?;
    let share = (celsius - cold) / (warm - cold);
    Some(Cell {
        days: cold_days + share * (warm_days - cold_days),
        is_confirmed: warm_fact.confirmed_by > 0 && cold_fact.confirmed_by > 0,
        source: &warm_fact.source,
    })
}
