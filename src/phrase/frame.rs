//! Frames: for each kind of statement the triggers that bring it up and the slots that it fills. They stand in
//! `english/frames.toml`, are checked when they are loaded, and know no word themselves.

use super::item::Item;
use super::lexicon::sense::{Class, Sense};
use super::lexicon::{Mistake, WordId, Words};
use super::listed::listed;
use super::value::Value;
use crate::vocabulary::{Kind, Mishap, SettingKey, Subject};
use serde::Deserialize;
use smallvec::SmallVec;

/// The file they stand in.
pub(super) const FILE: &str = "english/frames.toml";
const TEXT: &str = include_str!("english/frames.toml");

/// A set of named bits.
macro_rules! bits {
    ($(#[$doc:meta])* $name:ident { $($(#[$vdoc:meta])* $bit:ident),+ $(,)? }) => {
        $(#[$doc])*
        #[derive(Clone, Copy, PartialEq, Eq, Default, Debug)]
        pub(super) struct $name(pub(super) u64);

        #[allow(non_upper_case_globals, dead_code)]
        impl $name {
            bits!(@each 0u64; $($(#[$vdoc])* $bit),+);

            /// Every one with its name in the data files.
            pub(super) const NAMES: &'static [(&'static str, Self)] = &[$((stringify!($bit), Self::$bit)),+];

            /// Whether it has all of these.
            pub(super) const fn has(self, other: Self) -> bool {
                self.0 & other.0 == other.0
            }

            /// Whether it has any of these.
            pub(super) const fn meets(self, other: Self) -> bool {
                self.0 & other.0 != 0
            }

            /// Both together.
            pub(super) const fn with(self, other: Self) -> Self {
                Self(self.0 | other.0)
            }

            fn named(word: &str) -> Option<Self> {
                Self::NAMES.iter().find(|(name, _)| name.eq_ignore_ascii_case(word)).map(|(_, bit)| *bit)
            }
        }
    };
    (@each $n:expr; $(#[$vdoc:meta])* $bit:ident $(, $($rest:tt)*)?) => {
        $(#[$vdoc])*
        pub(super) const $bit: Self = Self(1 << $n);
        $(bits!(@each $n + 1; $($rest)*);)?
    };
}

bits! {
    /// What a frame takes in.
    Slots {
        /// A weight.
        Mass,
        /// A volume.
        Volume,
        /// Containers.
        Count,
        /// Trays.
        Trays,
        /// Jars.
        Jars,
        /// Some of how many.
        Of,
        /// A bare number.
        Number,
        /// A part of what was spoken of.
        Share,
        /// A crop.
        Crop,
        /// A variety.
        Variety,
        /// Where it grew.
        Place,
        /// How ripe it is.
        Ripe,
        /// How it was cut.
        Prep,
        /// What is in the jar.
        Product,
        /// Where it is or was, where that is part of the statement.
        From,
        /// Where it goes, where the kind says it already.
        Store,
        /// What canning uses up.
        Supply,
        /// A canner.
        Canner,
        /// Hot or raw pack.
        Pack,
        /// A batch by its name, number or product.
        Batch,
        /// Skins, halves, powder.
        Dryable,
        /// When it happened.
        On,
        /// A day to come, or a season.
        Day,
        /// A time of day.
        Clock,
        /// A stretch of the calendar.
        Span,
        /// A pressure.
        Psi,
        /// A height.
        Height,
        /// A temperature.
        Temp,
        /// A span of time.
        Duration,
        /// A label.
        Label,
        /// A name.
        Name,
        /// Whether liquid was kept.
        Kept,
        /// A word of a setting or a paper.
        Word,
        /// Two figures of a grid.
        Grid,
        /// The number of an entry.
        Entry,
        /// Several groups of thing and amount, one statement each.
        List,
        /// Words for plants.
        Plants,
        /// Which table or picture.
        What,
        /// Whether the counter counts.
        Counter,
        /// A season.
        Season,
    }
}

bits! {
    /// The types of value that a trigger can ask for.
    Types {
        /// A weight.
        Mass,
        /// A volume.
        Volume,
        /// Containers.
        Count,
        /// Containers of a weight each.
        Portions,
        /// Jars.
        Jars,
        /// Some out of how many.
        Of,
        /// A bare number.
        Number,
        /// A day.
        Day,
        /// A time of day.
        Clock,
        /// A span of time.
        Duration,
        /// A temperature.
        Temp,
        /// A pressure.
        Psi,
        /// A height.
        Height,
        /// A part.
        Share,
        /// A grid.
        Grid,
        /// The number of an entry.
        Entry,
        /// A place.
        Place,
        /// A share of colour.
        Colour,
    }
}

/// The types of an item's values.
pub(super) fn types_of(item: &Item) -> Types {
    let of = |value: &Value| match value {
        Value::Number(_) => Types::Number,
        Value::Weight(_) | Value::Measure(..) => Types::Mass,
        Value::Volume(..) => Types::Volume,
        Value::Count(_) | Value::CountOf(..) => Types::Count,
        Value::Portions(_) => Types::Portions.with(Types::Mass).with(Types::Count),
        Value::Jars(_) => Types::Jars,
        Value::OutOf(_) => Types::Of,
        Value::Day(_) => Types::Day,
        Value::Clock(_) => Types::Clock,
        Value::Duration(_) | Value::Ago(_) => Types::Duration,
        Value::Temperature(..) => Types::Temp,
        Value::Pressure(_) => Types::Psi,
        Value::Height(_) => Types::Height,
        Value::Share(_) => Types::Share,
        Value::Colour(_) => Types::Colour,
        Value::Grid(..) => Types::Grid,
        Value::Entry(_) => Types::Entry,
        Value::Place => Types::Place,
    };
    item.values.iter().fold(Types::default(), |all, value| all.with(of(value)))
}

listed! {
    /// What a frame belongs to: frames of a group share most of what is learned.
    #[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug, Deserialize)]
    #[serde(rename_all = "lowercase")]
    pub(super) enum Group {
        /// Something was done with food or supplies.
        Deed,
        /// A stock was counted.
        Count,
        /// A batch begins.
        Begin,
        /// A step of a batch.
        Batch,
        /// How jars fared.
        Seal,
        /// A question.
        Ask,
        /// A setting.
        Set,
        /// A change of what was said.
        Edit,
        /// A day to come.
        Plan,
        /// A kitchen timer.
        Timer,
        /// A household's recipe.
        Recipe,
    }
}

impl Group {
    /// Its name in the data files.
    pub(super) fn name(self) -> String {
        format!("{self:?}").to_lowercase()
    }
}

/// How a frame's statements are built.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default, Deserialize)]
#[serde(rename_all = "lowercase")]
pub(super) enum Build {
    /// From its slots.
    #[default]
    Slots,
    /// Jars that did not seal, frozen.
    Jars,
    /// A batch's new name.
    Named,
    /// A canning day.
    Plan,
    /// Another day for the canning day that is set.
    Moved,
    /// A household's recipe.
    Recipe,
    /// A kitchen timer.
    Timer,
    /// A time zone.
    Timezone,
    /// Quiet hours.
    Quiet,
    /// The weekly digest.
    Digest,
    /// The season's end.
    Season,
    /// A sheet of labels.
    Labels,
    /// A picture.
    Chart,
    /// A table.
    Table,
    /// Taking back.
    Undo,
    /// A correction.
    Correct,
    /// A word is taught.
    Teach,
}

/// One part of a trigger.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(super) enum Term {
    /// A sense of this class.
    Class(Class),
    /// This word.
    Word(WordId),
    /// A value of one of these types.
    Value(Types),
}

impl Term {
    /// Whether an item is what it asks for.
    pub(super) fn fits(self, item: &Item, types: Types) -> bool {
        match self {
            Self::Class(class) => item.is(class),
            Self::Word(word) => item.word == word,
            Self::Value(wanted) => types.meets(wanted),
        }
    }
}

/// What brings a frame up.
#[derive(Clone, PartialEq, Debug)]
pub(super) struct Trigger {
    pub(super) terms: SmallVec<[Term; 3]>,
    /// Whether a term must stand behind the one before it.
    pub(super) ordered: bool,
    /// As it stands in the file.
    pub(super) text: Box<str>,
}

/// A frame.
#[derive(Clone, PartialEq, Debug)]
pub(super) struct Frame {
    pub(super) kind: Kind,
    /// Its own name, unique.
    pub(super) name: Box<str>,
    pub(super) group: Group,
    pub(super) build: Build,
    pub(super) about: Option<Subject>,
    pub(super) key: Option<SettingKey>,
    pub(super) mishap: Option<Mishap>,
    pub(super) slots: Slots,
    /// One of these must be filled, or it is asked for.
    pub(super) needs: Slots,
    pub(super) accounts_for_all: bool,
    pub(super) triggers: Vec<Trigger>,
    /// What one wants to do with it, for the list of what can be said; empty where the list does not show it.
    pub(super) task: Box<str>,
    pub(super) examples: Vec<Box<str>>,
}

impl Frame {
    /// A frame that only takes in what an answer may be.
    pub(super) fn asking_for(slots: Slots) -> Self {
        Self {
            kind: Kind::Clarify,
            name: Box::default(),
            group: Group::Edit,
            build: Build::Slots,
            about: None,
            key: None,
            mishap: None,
            slots,
            needs: Slots::default(),
            accounts_for_all: true,
            triggers: Vec::new(),
            task: Box::default(),
            examples: Vec::new(),
        }
    }
}

/// All frames, and which of them each word can bring up.
#[derive(Debug, Default)]
pub(super) struct Frames {
    pub(super) frames: Vec<Frame>,
    /// By sense: frame and trigger whose first term it fits.
    by_sense: Vec<SmallVec<[(u16, u16); 2]>>,
    by_word: rustc_hash::FxHashMap<WordId, Vec<(u16, u16)>>,
    by_value: Vec<(Types, u16, u16)>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    frame: Vec<toml::Spanned<Written>>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Written {
    kind: String,
    name: Option<String>,
    about: Option<String>,
    key: Option<String>,
    mishap: Option<String>,
    group: Group,
    #[serde(default)]
    build: Build,
    #[serde(default)]
    slots: String,
    #[serde(default)]
    needs: String,
    #[serde(default)]
    accounts_for_all: bool,
    triggers: String,
    #[serde(default)]
    task: String,
    #[serde(default)]
    examples: String,
}

impl Frames {
    /// From the data file.
    pub(super) fn load(words: &mut Words) -> Result<Self, Mistake> {
        let file: File = toml::from_str(TEXT).map_err(|fault| {
            let line = fault.span().map_or(0, |span| line_of(span.start));
            Mistake { file: FILE, line, what: fault.message().to_owned() }
        })?;
        let mut frames = Self { by_sense: vec![SmallVec::new(); words.senses()], ..Self::default() };
        for written in file.frame {
            let line = line_of(written.span().start);
            let frame = frame(written.into_inner(), words).map_err(|what| Mistake { file: FILE, line, what })?;
            frames.index(frame);
        }
        Ok(frames)
    }

    fn index(&mut self, frame: Frame) {
        let at = self.frames.len() as u16;
        for (n, trigger) in frame.triggers.iter().enumerate() {
            let place = (at, n as u16);
            match trigger.terms.first() {
                Some(Term::Class(class)) => {
                    for sense in class.from..class.to {
                        if let Some(list) = self.by_sense.get_mut(usize::from(sense)) {
                            list.push(place);
                        }
                    }
                }
                Some(Term::Word(word)) => self.by_word.entry(*word).or_default().push(place),
                Some(Term::Value(types)) => self.by_value.push((*types, place.0, place.1)),
                None => {}
            }
        }
        self.frames.push(frame);
    }

    /// A frame by its number, where there is one.
    pub(super) fn get(&self, frame: impl Into<Option<u16>>) -> Option<&Frame> {
        self.frames.get(usize::from(frame.into()?))
    }

    /// Frames and triggers whose first term an item fits.
    pub(super) fn begun_by(&self, item: &Item, types: Types, mut found: impl FnMut(u16, u16)) {
        for hit in &item.senses {
            let Sense(sense) = hit.sense;
            for (frame, trigger) in self.by_sense.get(usize::from(sense)).into_iter().flatten() {
                found(*frame, *trigger);
            }
        }
        if let Some(list) = self.by_word.get(&item.word).filter(|_| item.word != WordId::UNKNOWN) {
            list.iter().for_each(|(frame, trigger)| found(*frame, *trigger));
        }
        for (_, frame, trigger) in self.by_value.iter().filter(|(wanted, ..)| types.meets(*wanted)) {
            found(*frame, *trigger);
        }
    }
}

fn line_of(at: usize) -> usize {
    TEXT.get(..at).map_or(0, |head| head.lines().count().max(1))
}

fn frame(written: Written, words: &mut Words) -> Result<Frame, String> {
    let kind = Kind::named(&written.kind).ok_or_else(|| format!("'{}' is no kind of statement", written.kind))?;
    let about = match &written.about {
        Some(about) => Some(Subject::named(about).ok_or_else(|| format!("'{about}' is no subject of a question"))?),
        None => None,
    };
    let key = match &written.key {
        Some(key) => Some(SettingKey::named(key).ok_or_else(|| format!("'{key}' is no key of a setting"))?),
        None => None,
    };
    let mishap = match &written.mishap {
        Some(what) => Some(Mishap::named(what).ok_or_else(|| format!("'{what}' is no mishap"))?),
        None => None,
    };
    let extra = written.about.as_deref().or(written.key.as_deref()).or(written.mishap.as_deref());
    let name = written.name.unwrap_or_else(|| match extra {
        Some(extra) => format!("{}-{extra}", written.kind),
        None => written.kind.clone(),
    });
    let slots = bits_of(&written.slots)?;
    let needs = bits_of(&written.needs)?;
    let mut triggers = Vec::new();
    for line in written.triggers.lines().map(str::trim).filter(|line| !line.is_empty()) {
        triggers.push(trigger(line, words)?);
    }
    if triggers.is_empty() {
        return Err(format!("the frame '{name}' has no trigger"));
    }
    let examples = written.examples.lines().map(str::trim).filter(|line| !line.is_empty()).map(Into::into).collect();
    Ok(Frame {
        kind,
        name: name.into(),
        group: written.group,
        build: written.build,
        about,
        key,
        mishap,
        slots,
        needs,
        accounts_for_all: written.accounts_for_all,
        triggers,
        task: written.task.into(),
        examples,
    })
}

fn bits_of(words: &str) -> Result<Slots, String> {
    words.split_whitespace().try_fold(Slots::default(), |all, word| {
        Slots::named(word).map(|slot| all.with(slot)).ok_or_else(|| format!("'{word}' is no slot"))
    })
}

fn trigger(line: &str, words: &mut Words) -> Result<Trigger, String> {
    let ordered = line.contains('>');
    let mut terms = SmallVec::new();
    for part in line.split(['+', '>']).map(str::trim) {
        let term = if let Some(name) = part.strip_prefix('#') {
            Term::Value(Types::named(name).ok_or_else(|| format!("'#{name}' is no type of value"))?)
        } else if let Some(word) = part.strip_prefix('\'').and_then(|rest| rest.strip_suffix('\'')) {
            Term::Word(words.intern(word))
        } else {
            Term::Class(
                words.class(part).ok_or_else(|| format!("no word has the sense '{part}' of the trigger '{line}'"))?,
            )
        };
        terms.push(term);
    }
    Ok(Trigger { terms, ordered, text: line.into() })
}
