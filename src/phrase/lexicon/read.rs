//! Reading the data files.

use super::super::endings::plural;
use super::super::lex::{Token, lex};
use super::mistake::Mistake;
use super::sense::{Class, Classes, Container, Meaning, Sense, Unit};
use super::spelling::Spelling;
use super::word::{WordId, letters_of, mark_in_name};
use super::words::{Words, order};
use crate::processes::{self, Measure};
use crate::quantity::{Length, Mass, Number, Volume};
use crate::vocabulary::{CannerKind, Crop, Jar, Pack, Prep, Product, Ripeness, Stock, Supply};
use rustc_hash::FxHashMap;
use smallvec::SmallVec;

/// The files, in the order in which they are read.
const FILES: [(&str, &str); 8] = [
    ("english/values.txt", include_str!("../english/values.txt")),
    ("english/garden.txt", include_str!("../english/garden.txt")),
    ("english/kitchen.txt", include_str!("../english/kitchen.txt")),
    ("english/deeds.txt", include_str!("../english/deeds.txt")),
    ("english/matters.txt", include_str!("../english/matters.txt")),
    ("english/small.txt", include_str!("../english/small.txt")),
    ("english/mishaps.txt", include_str!("../english/mishaps.txt")),
    ("english/risks.txt", include_str!("../english/risks.txt")),
];

/// `word: what dictation writes instead, …`.
const MISHEARD: (&str, &str) = ("english/misheard.txt", include_str!("../english/misheard.txt"));

/// Senses that only a household's own names have.
const HOUSEHOLD: [&str; 5] =
    ["household.recipe", "household.batch", "household.name", "household.word", "mark.question"];

/// Classes whose words are not looked for when a word is mistyped: nothing is entered because of them.
const NOT_TRADE: [&str; 18] = [
    "small", "voice", "alien", "harmless", "dish", "share", "each", "extra", "single", "food", "form", "method",
    "beside", "told", "rim", "excess", "within", "syrup",
];

/// How the paths of a deed's forms end.
const FORMS: [&str; 3] = [".past", ".ing", ".base"];

struct Line {
    file: &'static str,
    number: usize,
    path: &'static str,
    names: &'static str,
}

fn read() -> Result<Words, Mistake> {
    let mut lines = Vec::with_capacity(1_000);
    for (file, text) in FILES {
        lines_of(file, text, &mut lines)?;
    }
    let mut paths: Vec<Box<str>> = lines.iter().map(|line| line.path.into()).collect();
    paths.extend(HOUSEHOLD.map(Into::into));
    paths.extend(processes::products().iter().map(|info| format!("product.{}", info.id).into_boxed_str()));
    paths.sort_by(|a, b| order(a, b));
    paths.dedup();
    let mut words = Words { paths, ..Words::default() };
    words.intern("");
    words.ends.push(SmallVec::new());
    for line in &lines {
        let meaning = match meaning(line.path).map_err(|what| mistake(line, what))? {
            // What no table has goes by the name that people use.
            Meaning::Product(product)
                if processes::product(product.as_str()).is_none()
                    && !line.names.split(',').any(|name| is_or_plural(name.trim(), product.as_str())) =>
            {
                let first = line.names.split(',').next().unwrap_or_default().trim().trim_end_matches('*');
                Meaning::Product(Product::named(first))
            }
            other => other,
        };
        let sense = words.sense(line.path);
        words.meanings.resize(words.paths.len(), Meaning::Path);
        if let Some(place) = words.meanings.get_mut(sense.0 as usize) {
            *place = meaning;
        }
        for name in line.names.split(',') {
            let name = name.trim();
            if name.is_empty() {
                return Err(mistake(line, "an empty name; remove a comma".to_owned()));
            }
            let stem = name.trim_end_matches('*');
            words.add(stem, sense);
            if let Some(ending) = plural(name.len() - stem.len()) {
                words.add(&format!("{stem}{ending}"), sense);
            }
        }
    }
    for info in processes::products() {
        let sense = words.sense(&format!("product.{}", info.id));
        if let Some(place) = words.meanings.get_mut(sense.0 as usize) {
            *place = Meaning::Product(Product::tested(info.id));
        }
        for name in [info.spoken, info.name] {
            words.add(name, sense);
            words.add_as_printed(name, sense);
        }
    }
    words.classes = Classes::find(|path| words.class(path).unwrap_or(Class { from: 0, to: 0 })).map_err(|path| {
        Mistake { file: FILES[0].0, line: 0, what: format!("no word has the sense '{path}', which the grammar needs") }
    })?;
    words.forms = words
        .paths
        .iter()
        .map(|path| FORMS.iter().position(|form| path.ends_with(form)).map_or(0, |n| n as u8 + 1))
        .collect();
    words.spelling = Spelling::new(&words.trade(), words.misheard()?);
    Ok(words)
}

fn mistake(line: &Line, what: String) -> Mistake {
    Mistake { file: line.file, line: line.number, what }
}

fn lines_of(file: &'static str, text: &'static str, out: &mut Vec<Line>) -> Result<(), Mistake> {
    for (n, line) in text.lines().enumerate() {
        let line = line.trim();
        if line.is_empty() || line.starts_with('#') {
            continue;
        }
        let Some((path, names)) = line.split_once(": ") else {
            let what = format!(
                "'{line}' is no line of words: a path, a colon, a space, \
                 and names with commas between them belong there"
            );
            return Err(Mistake { file, line: n + 1, what });
        };
        out.push(Line { file, number: n + 1, path: path.trim(), names });
    }
    Ok(())
}

impl Words {
    /// From the data files and the names of the tables.
    pub(in super::super) fn load() -> Result<Self, Mistake> {
        read()
    }

    fn sense(&self, path: &str) -> Sense {
        Sense(self.paths.binary_search_by(|known| order(known, path)).unwrap_or(0) as u16)
    }

    fn add(&mut self, name: &str, sense: Sense) {
        self.add_with(name, sense, |_| None);
    }

    /// With the marks that stand in the name.
    fn add_as_printed(&mut self, name: &str, sense: Sense) {
        self.add_with(name, sense, mark_in_name);
    }

    fn add_with(&mut self, name: &str, sense: Sense, mark: impl Fn(&Token) -> Option<&'static str>) {
        let lexed = lex(name);
        let mut node = 0;
        for token in &lexed.tokens {
            if let Some(letters) = letters_of(&lexed, token).or_else(|| mark(token)) {
                let word = self.intern(letters);
                node = self.node(node, word);
            }
        }
        if let Some(senses) = self.ends.get_mut(node as usize).filter(|senses| node > 0 && !senses.contains(&sense)) {
            senses.push(sense);
        }
    }

    /// Every word of a name that means something in the trade, sorted by its letters.
    fn trade(&self) -> Vec<(Box<str>, WordId)> {
        let small: Vec<Class> = NOT_TRADE.iter().filter_map(|path| self.class(path)).collect();
        let mut trade = std::collections::BTreeMap::new();
        // A word counts when some name with it has a sense of the trade.
        let mut back = vec![None; self.ends.len()];
        for ((from, word), to) in &self.edges {
            if let Some(place) = back.get_mut(*to as usize) {
                *place = Some((*from, *word));
            }
        }
        for (node, senses) in self.ends.iter().enumerate() {
            if !senses.iter().any(|sense| !small.iter().any(|class| class.has(*sense))) {
                continue;
            }
            let mut at = node as u32;
            while let Some(Some((from, word))) = back.get(at as usize) {
                let letters = self.letters(*word);
                let is_word = letters.len() >= 4 && letters.bytes().all(|b| b.is_ascii_lowercase());
                let single = *from == 0 && at == node as u32;
                let long = !single && letters.len() >= 5;
                if is_word && (long || single && !self.is_small(*word, &small)) {
                    trade.insert(Box::from(letters), *word);
                }
                at = *from;
            }
        }
        trade.into_iter().collect()
    }

    fn is_small(&self, word: WordId, small: &[Class]) -> bool {
        let senses = self.senses_of(word);
        !senses.is_empty() && senses.iter().all(|sense| small.iter().any(|class| class.has(*sense)))
    }

    fn misheard(&mut self) -> Result<FxHashMap<WordId, SmallVec<[WordId; 2]>>, Mistake> {
        let mut lines = Vec::new();
        lines_of(MISHEARD.0, MISHEARD.1, &mut lines)?;
        let mut misheard: FxHashMap<WordId, SmallVec<[WordId; 2]>> = FxHashMap::default();
        for line in &lines {
            let meant = self.number(line.path);
            if meant == WordId::UNKNOWN {
                return Err(mistake(line, format!("no file has the word '{}'", line.path)));
            }
            for heard in line.names.split(',').map(str::trim) {
                let heard = self.intern(heard);
                misheard.entry(heard).or_default().push(meant);
            }
        }
        Ok(misheard)
    }
}

/// What a path names.
fn meaning(path: &'static str) -> Result<Meaning, String> {
    let (head, rest) = path.split_once('.').unwrap_or((path, ""));
    let last = path.rsplit('.').next().unwrap_or(path);
    let unknown = || format!("'{rest}' is no {head} that the program knows");
    Ok(match head {
        "num" | "heard" | "ordinal" | "day" | "weekday" | "month" | "daypart" => match last.parse() {
            Ok(n) if rest.starts_with("part") => Meaning::Part(n),
            Ok(n) => Meaning::Number(n),
            Err(_) => Meaning::Path,
        },
        "sea" | "clock" | "share" | "each" | "times" | "at" | "weighing" => Meaning::Path,
        "unit" => Meaning::Unit(unit(rest).ok_or_else(unknown)?),
        "container" => Meaning::Container(container(rest).ok_or_else(unknown)?),
        "crop" => Meaning::Crop(Crop::of(rest)),
        "variety" => {
            let (name, of) = rest.split_once('>').map_or((rest, None), |(name, crop)| (name, Some(Crop::of(crop))));
            Meaning::Variety(name, of)
        }
        "product" => Meaning::Product(Product::tested(rest)),
        "prep" => Prep::named(rest).map_or(Meaning::Path, Meaning::Prep),
        "ripe" => Ripeness::named(rest).map_or(Meaning::Path, Meaning::Ripe),
        "store" => Stock::named(rest).map_or(Meaning::Path, Meaning::Store),
        "supply" => Supply::named(rest).map_or(Meaning::Path, Meaning::Supply),
        "jar" => Jar::named(rest).map_or(Meaning::Path, Meaning::Jar),
        "canner" => CannerKind::named(rest).map_or(Meaning::Path, Meaning::Canner),
        "pack" => Meaning::Pack(Pack::named(rest).ok_or_else(unknown)?),
        "dryable" | "paper" | "labelpart" => Meaning::Word(last),
        _ => Meaning::Path,
    })
}

/// Whether a written name, with `*` or `**` for its plural, stands for a name or its plural.
fn is_or_plural(written: &str, name: &str) -> bool {
    let stem = written.trim_end_matches('*');
    let ending = plural(written.len() - stem.len()).unwrap_or_default();
    name == stem || name.strip_prefix(stem) == Some(ending)
}

fn container(name: &str) -> Option<Container> {
    Some(match name {
        "bag" => Container::Bag,
        "tray" => Container::Tray,
        "box" => Container::Box,
        "jar" => Container::Jar,
        "tub" => Container::Tub,
        "bottle" => Container::Bottle,
        _ => return None,
    })
}

fn unit(name: &str) -> Option<Unit> {
    let mass = |unit: Mass, above: i64, below: i64, metric| {
        Number::new(above, below).and_then(|number| unit.times(number)).map(|mass| Unit::Mass(mass, metric))
    };
    match name {
        "mass.lb" => mass(Mass::POUND, 1, 1, false),
        "mass.oz" => Some(Unit::Ounce),
        "mass.g" => mass(Mass::GRAM, 1, 1, true),
        "mass.dag" => mass(Mass::GRAM, 10, 1, true),
        "mass.mg" => mass(Mass::GRAM, 1, 1000, true),
        "mass.kg" => mass(Mass::KILOGRAM, 1, 1, true),
        // A stone is 14 lb by definition.
        "mass.stone" => mass(Mass::POUND, 14, 1, false),
        "measure.bushel" => Some(Unit::Measure(Measure::Bushel)),
        "measure.halfbushel" => Some(Unit::Measure(Measure::HalfBushel)),
        "measure.peck" => Some(Unit::Measure(Measure::Peck)),
        "measure.lug" => Some(Unit::Measure(Measure::Lug)),
        "volume.ml" => Some(Unit::Volume(Volume::MILLILITRE, true)),
        "volume.cl" => Volume::MILLILITRE.times(Number::whole(10)).map(|v| Unit::Volume(v, true)),
        "volume.dl" => Volume::MILLILITRE.times(Number::whole(100)).map(|v| Unit::Volume(v, true)),
        "volume.l" => Some(Unit::Volume(Volume::LITRE, true)),
        "volume.tsp" => Some(Unit::Volume(Volume::TEASPOON, false)),
        "volume.tbsp" => Some(Unit::Volume(Volume::TABLESPOON, false)),
        "volume.floz" => Some(Unit::Volume(Volume::FLUID_OUNCE, false)),
        "volume.cup" | "volume.halfpint" => Some(Unit::Volume(Volume::CUP, false)),
        "volume.pint" => Some(Unit::Volume(Volume::PINT, false)),
        "volume.quart" => Some(Unit::Volume(Volume::QUART, false)),
        "volume.gallon" => Some(Unit::Volume(Volume::GALLON, false)),
        "volume.halfgallon" => Volume::QUART.times(Number::whole(2)).map(|v| Unit::Volume(v, false)),
        "time.second" => Some(Unit::Seconds(1)),
        "time.minute" => Some(Unit::Seconds(60)),
        "time.hour" => Some(Unit::Seconds(3600)),
        "time.day" => Some(Unit::Days(1)),
        "time.week" => Some(Unit::Days(7)),
        "time.fortnight" => Some(Unit::Days(14)),
        "time.month" => Some(Unit::Days(30)),
        "time.year" => Some(Unit::Days(365)),
        "length.ft" => Some(Unit::Length(Length::FOOT, false)),
        "length.m" => Some(Unit::Length(Length::METRE, true)),
        "length.km" => Length::METRE.times(Number::whole(1000)).map(|l| Unit::Length(l, true)),
        "temp.f" => Some(Unit::Fahrenheit),
        "temp.c" => Some(Unit::Celsius),
        "temp.degree" => Some(Unit::Degree),
        "pressure.psi" => Some(Unit::Psi),
        "percent" => Some(Unit::Percent),
        "other" => Some(Unit::Other),
        _ => None,
    }
}
