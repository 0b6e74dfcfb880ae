//! Quantities, times and names in words.

use crate::ledger::Amount;
use crate::ledger::state::{Settings, Stocked, SupplyKey, Units};
use crate::processes;
use crate::quantity::{Length, Mass, Temperature, Volume};
use crate::vocabulary::{Crop, Jar, Product, Supply};
use crate::zone::Zone;
use chrono::{DateTime, Datelike, NaiveDate, NaiveTime, TimeDelta, Utc};

/// How a room is spoken to.
#[derive(Clone, Copy, Debug)]
pub struct Words {
    units: Units,
    zone: Zone,
}

impl Words {
    /// In the units and the time zone of a room.
    pub fn of(settings: &Settings) -> Self {
        Self { units: settings.units, zone: settings.zone }
    }

    /// A weight: `6.5 lb`, `4 oz`; `2.95 kg`, `113 g`.
    pub fn mass(self, mass: Mass) -> String {
        match self.units {
            Units::Customary if mass < Mass::POUND && !mass.is_zero() => {
                format!("{} oz", plain(mass.ratio(Mass::OUNCE), 1))
            }
            Units::Customary => format!("{} lb", plain(mass.as_pounds(), 1)),
            Units::Metric if mass < Mass::KILOGRAM && !mass.is_zero() => format!("{} g", plain(mass.as_grams(), 0)),
            Units::Metric => format!("{} kg", plain(mass.as_kilograms(), 2)),
        }
    }

    /// A weight for a quart, in the room's own measure: `6.6 lb a quart`, `3.15 kg a litre`.
    pub fn per_quart(self, mass: Mass) -> String {
        match self.units {
            Units::Customary => format!("{} a quart", self.mass(mass)),
            Units::Metric => {
                let litre = Mass::from_grams(mass.as_grams() * Volume::LITRE.ratio(Volume::QUART));
                format!("{} a litre", self.mass(litre.unwrap_or(mass)))
            }
        }
    }

    /// A volume: spoons, cups, quarts; millilitres, litres.
    pub fn volume(self, volume: Volume) -> String {
        let spoons = volume.ratio(Volume::TABLESPOON);
        match self.units {
            Units::Metric if volume < Volume::LITRE => format!("{} ml", plain(volume.as_millilitres(), 0)),
            Units::Metric => format!("{} l", plain(volume.as_litres(), 2)),
            Units::Customary if spoons < 2.0 => format!("{} tsp", fraction(volume.ratio(Volume::TEASPOON))),
            // No spoon is marked for a third of a tablespoon, which is a teaspoon.
            Units::Customary if spoons < 8.0 && !is_marked(spoons) => {
                let rest = (spoons - spoons.floor()) * Volume::TABLESPOON.ratio(Volume::TEASPOON);
                format!("{} tbsp and {} tsp", plain(spoons.floor(), 0), fraction(rest))
            }
            Units::Customary if spoons < 8.0 => format!("{} tbsp", fraction(spoons)),
            // Where no cup is marked, spoons are.
            Units::Customary if spoons < 32.0 && !is_marked(volume.ratio(Volume::CUP)) => {
                format!("{} tbsp", fraction(spoons))
            }
            Units::Customary if volume <= Volume::CUP => format!("{} cup", fraction(volume.ratio(Volume::CUP))),
            Units::Customary if volume < Volume::QUART => format!("{} cups", fraction(volume.ratio(Volume::CUP))),
            Units::Customary => format!("{} qt", fraction(volume.ratio(Volume::QUART))),
        }
    }

    /// A temperature to the degree, or to the tenth of a degree Celsius.
    pub fn temperature(self, temperature: Temperature) -> String {
        match self.units {
            Units::Customary => format!("{:.0} °F", temperature.as_fahrenheit()),
            Units::Metric => format!("{} °C", plain(temperature.as_celsius(), 1)),
        }
    }

    /// A temperature to the tenth: of a table, whose ends are no whole degrees in both units.
    pub fn temperature_exact(self, temperature: Temperature) -> String {
        match self.units {
            Units::Customary => format!("{} °F", plain(temperature.as_fahrenheit(), 1)),
            Units::Metric => self.temperature(temperature),
        }
    }

    /// An altitude.
    pub fn altitude(self, altitude: Length) -> String {
        match self.units {
            Units::Customary => format!("{} ft", Self::whole(altitude.as_feet())),
            Units::Metric => format!("{} m", Self::whole(altitude.as_metres())),
        }
    }

    /// A headspace.
    pub fn headspace(self, headspace: Length) -> String {
        let inches = headspace.as_inches();
        let printed = [
            (0.125, "1/8 in"),
            (0.25, "1/4 in"),
            (0.5, "1/2 in"),
            (1.0, "1 in"),
            (1.25, "1 1/4 in"),
            (1.5, "1 1/2 in"),
            (2.0, "2 in"),
        ];
        match (self.units, printed.iter().find(|(value, _)| (value - inches).abs() < 0.01)) {
            (Units::Customary, Some((_, words))) => (*words).to_owned(),
            (Units::Customary, None) => format!("{} in", plain(inches, 2)),
            (Units::Metric, _) => format!("{:.0} mm", headspace.as_millimetres()),
        }
    }

    /// A clock time in the room: `2:05 pm` or `14:05`.
    pub fn clock(self, at: DateTime<Utc>) -> String {
        let local = self.zone.local(at);
        match self.units {
            Units::Customary => local.format("%-I:%M %P").to_string(),
            Units::Metric => local.format("%H:%M").to_string(),
        }
    }

    /// A time of day as it was set: `6:00 pm` or `18:00`.
    pub fn hour(self, time: NaiveTime) -> String {
        match self.units {
            Units::Customary => time.format("%-I:%M %P").to_string(),
            Units::Metric => time.format("%H:%M").to_string(),
        }
    }

    /// A clock time, with its day when that is not the day of `now`.
    pub fn moment(self, at: DateTime<Utc>, now: DateTime<Utc>) -> String {
        let (day, today) = (self.zone.day(at), self.zone.day(now));
        match (day - today).num_days() {
            0 => self.clock(at),
            1 => format!("{} tomorrow", self.clock(at)),
            -1 => format!("{} yesterday", self.clock(at)),
            _ => format!("{} on {}", self.clock(at), self.day(day)),
        }
    }

    /// A day: `Fri Aug 14`, `Fri 14 Aug`.
    pub fn day(self, day: NaiveDate) -> String {
        match self.units {
            Units::Customary => day.format("%a %b %-d").to_string(),
            Units::Metric => day.format("%a %-d %b").to_string(),
        }
    }

    /// A day, with its year where that is another than today's.
    pub fn day_from(self, day: NaiveDate, today: NaiveDate) -> String {
        if day.year() == today.year() { self.day(day) } else { self.date(day) }
    }

    /// A day without its weekday: `Sep 20`, `20 Sep`.
    pub fn day_of_month(self, day: NaiveDate) -> String {
        match self.units {
            Units::Customary => day.format("%b %-d").to_string(),
            Units::Metric => day.format("%-d %b").to_string(),
        }
    }

    /// A day with its year, for what is kept for long: `Aug 14, 2026`, `14 Aug 2026`.
    pub fn date(self, day: NaiveDate) -> String {
        match self.units {
            Units::Customary => day.format("%b %-d, %Y").to_string(),
            Units::Metric => day.format("%-d %b %Y").to_string(),
        }
    }

    /// A month and its year: `Aug 2027`.
    pub fn month(self, day: NaiveDate) -> String {
        day.format("%b %Y").to_string()
    }

    /// The day of an instant.
    pub fn day_of(self, at: DateTime<Utc>) -> String {
        self.day(self.zone.day(at))
    }

    /// A stretch of time: `45 min`, `1 h 20 min`, `40 s`.
    pub fn stretch(self, time: TimeDelta) -> String {
        let seconds = time.num_seconds().max(0);
        let (hours, minutes) = (seconds / 3600, seconds % 3600 / 60);
        match (hours, minutes) {
            (0, 0) => format!("{seconds} s"),
            (0, minutes) if seconds < 600 && seconds % 60 != 0 => format!("{minutes} min {} s", seconds % 60),
            (0, minutes) => format!("{minutes} min"),
            (hours, 0) => format!("{hours} h"),
            (hours, minutes) => format!("{hours} h {minutes} min"),
        }
    }

    /// `1 bag`, `5 bags`.
    pub fn bags(self, count: u32) -> String {
        counted(count, "bag", "bags")
    }

    /// `7 quarts`, `7 × 750 ml jars`.
    pub fn jars(self, count: u32, jar: Jar) -> String {
        jar.counted(count)
    }

    /// `7 quarts of thick tomato sauce`.
    pub fn jars_of(self, count: u32, jar: Jar, product: &Product) -> String {
        format!("{} of {}", self.jars(count, jar), self.product(product))
    }

    /// A product as people say it.
    pub fn product(self, product: &Product) -> String {
        processes::product(product.as_str()).map_or_else(|| product.as_str().to_owned(), |info| info.spoken.to_owned())
    }

    /// An amount that was wanted or is there.
    pub fn amount(self, amount: &Amount) -> String {
        match amount {
            Amount::Mass(mass, Crop::Tomato) => self.mass(*mass),
            Amount::Mass(mass, crop) => format!("{} of {}", self.mass(*mass), plural(*crop)),
            Amount::Bags(bags, Crop::Tomato) => self.bags(*bags),
            Amount::Bags(bags, crop) => format!("{} of {}", self.bags(*bags), plural(*crop)),
            Amount::Jars(jars, jar, product) => {
                let size = jar.map_or(if *jars == 1 { "jar" } else { "jars" }, |jar| jar.spoken(*jars));
                match product {
                    Some(product) => format!("{jars} {size} of {}", self.product(product)),
                    None => format!("{jars} {size}"),
                }
            }
        }
    }

    /// How much of a supply.
    pub fn stocked(self, key: SupplyKey, stocked: Stocked) -> String {
        match key.0 {
            Supply::Lids => counted(stocked.count, "lid", "lids"),
            Supply::Bags => counted(stocked.count, "freezer bag", "freezer bags"),
            Supply::Jars => match key.1 {
                Some(jar) => format!("{} empty {}", stocked.count, jar.spoken(stocked.count)),
                None => counted(stocked.count, "empty jar", "empty jars"),
            },
            Supply::LemonJuice | Supply::CitricAcid | Supply::Vinegar | Supply::Salt => {
                let name = supply(key.0);
                let amount = if !stocked.mass.is_zero() {
                    self.mass(stocked.mass)
                } else if !stocked.volume.is_zero() {
                    self.volume(stocked.volume)
                } else {
                    return format!("no {name}");
                };
                format!("{amount} of {name}")
            }
        }
    }

    /// Somebody's words, shortened for quoting.
    pub fn quote(self, words: &str) -> String {
        let line: String = words.split_whitespace().collect::<Vec<_>>().join(" ");
        if line.chars().count() <= 60 { line } else { line.chars().take(57).chain("...".chars()).collect() }
    }
}

/// A crop in the plural, as stock is spoken of.
pub(super) fn plural(crop: Crop) -> String {
    let word = crop.as_str();
    match crop {
        Crop::Tomato | Crop::Potato => format!("{word}es"),
        Crop::Peach | Crop::Radish | Crop::Squash => format!("{word}es"),
        Crop::Cherry | Crop::Berry | Crop::Strawberry | Crop::Raspberry | Crop::Blackberry | Crop::Blueberry => {
            format!("{}ies", word.trim_end_matches('y'))
        }
        Crop::Zucchini
        | Crop::Corn
        | Crop::Okra
        | Crop::Garlic
        | Crop::Kale
        | Crop::Chard
        | Crop::Spinach
        | Crop::Lettuce
        | Crop::Celery
        | Crop::Asparagus
        | Crop::Rhubarb
        | Crop::Basil
        | Crop::Parsley
        | Crop::Oregano
        | Crop::Thyme
        | Crop::Dill
        | Crop::Mint
        | Crop::Cilantro
        | Crop::Broccoli => word.to_owned(),
        _ => format!("{word}s"),
    }
}

/// A supply as people say it.
pub(super) fn supply(supply: Supply) -> &'static str {
    match supply {
        Supply::Lids => "lids",
        Supply::Jars => "jars",
        Supply::LemonJuice => "bottled lemon juice",
        Supply::CitricAcid => "citric acid",
        Supply::Vinegar => "vinegar",
        Supply::Salt => "canning salt",
        Supply::Bags => "freezer bags",
    }
}

fn counted(count: u32, one: &str, many: &str) -> String {
    format!("{count} {}", if count == 1 { one } else { many })
}

/// At most so many decimals, without trailing zeros.
pub(crate) fn plain(value: f64, decimals: usize) -> String {
    let text = format!("{value:.decimals$}");
    if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.').to_owned() } else { text }
}

/// Whether a measuring cup has a mark for it: whole eighths.
fn is_marked(value: f64) -> bool {
    (value * 8.0 - (value * 8.0).round()).abs() <= 0.02
}

/// As measuring spoons and cups are marked, where it is a whole number of eighths; else with two decimals.
fn fraction(value: f64) -> String {
    const EIGHTHS: [&str; 8] = ["", "1/8", "1/4", "3/8", "1/2", "5/8", "3/4", "7/8"];
    let eighths = (value * 8.0).round();
    if (value * 8.0 - eighths).abs() > 0.02 || eighths < 1.0 {
        return plain(value, 2);
    }
    let (whole, part) = ((eighths / 8.0).trunc(), EIGHTHS.get((eighths % 8.0) as usize).copied().unwrap_or_default());
    match (whole > 0.0, part.is_empty()) {
        (true, true) => plain(whole, 0),
        (true, false) => format!("{} {part}", plain(whole, 0)),
        (false, _) => part.to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Number;
    use anyhow::Context as _;

    #[test]
    fn quantities_read_as_people_write_them() -> anyhow::Result<()> {
        let words = Words::of(&Settings::default());
        let metric = Words::of(&Settings { units: Units::Metric, ..Settings::default() });
        let pounds = |value: f64| Mass::from_pounds(value).context("a mass");
        assert_eq!(words.mass(pounds(6.5)?), "6.5 lb");
        assert_eq!(words.mass(pounds(7.0)?), "7 lb");
        assert_eq!(words.mass(pounds(0.25)?), "4 oz");
        assert_eq!(metric.mass(Mass::KILOGRAM), "1 kg");
        let spoons = |count: i64| Volume::TABLESPOON.times(Number::whole(count)).context("spoons");
        assert_eq!(words.volume(spoons(14)?), "7/8 cup");
        assert_eq!(words.volume(spoons(18)?), "1 1/8 cups");
        assert_eq!(words.volume(spoons(9)?), "9 tbsp");
        assert_eq!(words.volume(Volume::TEASPOON), "1 tsp");
        let half_teaspoons =
            |count: i64| Number::new(count, 2).and_then(|half| Volume::TEASPOON.times(half)).context("spoons");
        assert_eq!(words.volume(half_teaspoons(14)?), "2 tbsp and 1 tsp");
        assert_eq!(words.volume(half_teaspoons(19)?), "3 tbsp and 1/2 tsp");
        assert_eq!(words.stretch(TimeDelta::minutes(80)), "1 h 20 min");
        assert_eq!(words.stretch(TimeDelta::seconds(95)), "1 min 35 s");
        let altitude = Length::from_metres(731.52).context("an altitude")?;
        assert_eq!(words.altitude(altitude), "2,400 ft");
        assert_eq!(words.jars_of(1, Jar::Pint, &Product::THICK_SAUCE), "1 pint of thick tomato sauce");
        Ok(())
    }
}
