//! What speaks for and against taking a stretch of words in some way: features with names. Each is a number that holds
//! its template and what it is about; the weights file has it in words.

use super::build::Note;
use super::frame::{Frames, Group};
use super::item::WordKind;
use super::lexicon::{WordId, Words};

/// A feature.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub struct Feature(pub(super) u64);

/// How a feature reads: which sort of thing stands at each of its three places.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
enum Arg {
    None,
    Frame,
    Group,
    Trigger,
    Note,
    Kind,
    Word,
    Cut,
    Voice,
    Where,
    Form,
    Subject,
    Number,
    Situation,
    Sort,
    Beside,
    Follow,
}

macro_rules! templates {
    ($($(#[$doc:meta])* $name:ident ($a:ident, $b:ident, $c:ident)),+ $(,)?) => {
        /// The templates.
        #[derive(Clone, Copy, PartialEq, Eq, Debug)]
        #[repr(u8)]
        pub(super) enum Template { $($(#[$doc])* $name),+ }

        impl Template {
            const ALL: &'static [(Self, &'static str, [Arg; 3])] =
                &[$((Self::$name, stringify!($name), [Arg::$a, Arg::$b, Arg::$c])),+];
        }
    };
}

templates! {
    /// A frame at all.
    Bias (Frame, None, None),
    /// A trigger.
    Trigger (Trigger, None, None),
    /// A note under a frame.
    Note (Frame, Note, None),
    /// A note in a group.
    GroupNote (Group, Note, None),
    /// Two notes in a group.
    Notes (Group, Note, Note),
    /// The form of the deed, and who did it.
    Form (Group, Form, Subject),
    /// The form of the deed under a frame.
    FrameForm (Frame, Form, None),
    /// So many unaccounted words of a kind.
    Unread (Group, Kind, Number),
    /// So many unaccounted words under a frame.
    FrameUnread (Frame, Number, None),
    /// An unaccounted word.
    UnreadWord (Group, Word, None),
    /// A word of the clause.
    Word (Frame, Word, None),
    /// A word of the clause in a group.
    GroupWord (Group, Word, None),
    /// A word before the clause, in its sentence.
    WordBefore (Group, Word, None),
    /// A word behind the clause, in its sentence.
    WordAfter (Group, Word, None),
    /// Whose doing, whether real: in the clause, before or behind it.
    Voice (Group, Where, Voice),
    /// The same under a frame.
    FrameVoice (Frame, Where, Voice),
    /// What stands to the left of the clause.
    Left (Group, Cut, None),
    /// What stands to its right.
    Right (Group, Cut, None),
    /// A question mark behind it.
    Asked (Frame, None, None),
    /// So much of the sentence is elsewhere.
    Outside (Group, Number, None),
    /// So much of the message is elsewhere.
    Beyond (Group, Number, None),
    /// All words accounted for, an amount, the form and who did it.
    Whole (Group, Number, Form),
    /// Words that were mended.
    Repaired (Group, Number, None),
    /// The situation of the household.
    Situation (Frame, Situation, None),
    /// The situation in a group.
    GroupSituation (Group, Situation, None),
    /// How long the clause is.
    Size (Group, Number, None),
    /// How many statements.
    Several (Group, Number, None),
    /// The amount stands before the deed.
    AmountFirst (Frame, Number, None),
    /// How far apart the parts of the trigger stand.
    Spread (Group, Number, None),
    /// Stops inside the clause.
    Crosses (Group, Number, None),
    /// The group of the clause before, whatever is left alone between them.
    Follows (Frame, Follow, None),
    /// The same for a group.
    GroupFollows (Group, Follow, None),
    /// A question about what is missing.
    Clarify (Frame, Note, None),
    /// A stretch that is left alone.
    Talk (Number, None, None),
    /// The kinds of words that are left alone.
    TalkKind (Kind, Number, None),
    /// So many amounts of a sort that are left alone.
    TalkAmount (Sort, Number, None),
    /// A word that takes something back, with a figure behind it, left alone.
    TalkOops (None, None, None),
    /// A deed that is left alone, by its form.
    TalkDeed (Form, None, None),
    /// So many amounts of a sort that the clause has and the statement has not.
    LeftAmount (Group, Sort, Number),
    /// The word right before the clause.
    PreviousWord (Group, Word, None),
    /// The word right behind it.
    NextWord (Group, Word, None),
    /// What stands right before the clause.
    Previous (Group, Beside, None),
    /// What stands right behind it.
    Next (Group, Beside, None),
}

/// An enumeration whose entries stand in the weights file by name.
macro_rules! named {
    ($(#[$doc:meta])* $name:ident $names:ident { $($entry:ident),+ $(,)? }) => {
        $(#[$doc])*
        #[derive(Clone, Copy, PartialEq, Eq, Debug)]
        #[allow(dead_code, reason = "some are only counted, by their number")]
        pub(super) enum $name { $($entry),+ }

        pub(super) const $names: &[&str] = &[$(stringify!($entry)),+];
    };
}

named! {
    /// The form of a deed.
    Form FORMS { None, Past, Ing, Base, Say }
}
named! {
    /// Who did it.
    Who SUBJECTS { Nobody, Own, Kin, Other, You, Thing }
}
named! {
    /// What is known of the household when a message comes.
    Situation SITUATIONS {
        Batch, NoBatch, Unsealed, Timer, Planned,
        Addressed, Metric,
    }
}
named! {
    /// What a boundary is.
    CutKind CUTS {
        Edge, Stop, Question, Comma, And, Colon,
        Deed, Amount, Line,
    }
}
named! {
    /// What stands beside a clause.
    Beside BESIDES {
        None, Oops, Not, Mass, Jars, Value, Deed,
        Asking, Own, Voice, Trade, Small, Ordinary,
        Strange,
    }
}
named! {
    /// Classes of voice.
    Voice VOICES { Own, You, Other, Kin, Folk, Not, Modal, Want, If, Hearsay, Memory, Price, Question, Inverted }
}
named! {
    /// Where a word stands.
    Where WHERES { In, Before, Behind }
}
named! {
    /// Sorts of amounts.
    Sort SORTS { Mass, Count, Jars, Of, Number }
}

/// Every group that enters something.
pub(super) const ANY: usize = Group::ALL.len();
const ENTRY: &str = stringify!(Entry);
/// No clause stands before.
const NOTHING: &str = stringify!(Nothing);
/// What may have been said before: nothing, or a clause of one of the groups.
pub(super) const STATES: usize = Group::ALL.len() + 1;

impl Arg {
    /// Those that stand in the weights file by a name of a list.
    const NAMED: [Self; 8] =
        [Self::Sort, Self::Beside, Self::Cut, Self::Voice, Self::Where, Self::Form, Self::Subject, Self::Situation];

    fn names(self) -> &'static [&'static str] {
        match self {
            Self::Sort => SORTS,
            Self::Beside => BESIDES,
            Self::Cut => CUTS,
            Self::Voice => VOICES,
            Self::Where => WHERES,
            Self::Form => FORMS,
            Self::Subject => SUBJECTS,
            Self::Situation => SITUATIONS,
            _ => &[],
        }
    }
}

impl Template {
    /// Whether it is learned for all entries together, too.
    pub(super) const fn is_shared(self) -> bool {
        use Template::{LeftAmount, Next, NextWord, Outside, Previous, PreviousWord, Unread, UnreadWord, Voice};
        let words = matches!(self, UnreadWord | Self::WordBefore | Self::WordAfter | PreviousWord | NextWord);
        words || matches!(self, Voice | Unread | Previous | Next | Outside | LeftAmount)
    }
}

impl Feature {
    /// Of a template and up to three things.
    pub(super) const fn new(template: Template, a: usize, b: usize, c: usize) -> Self {
        Self(
            (template as u64) << 56
                | ((a as u64) & 0xffff) << 40
                | ((b as u64) & 0xf_ffff) << 20
                | (c as u64) & 0xf_ffff,
        )
    }

    fn template(self) -> usize {
        (self.0 >> 56) as usize
    }

    /// Whether it is about a word.
    pub(super) fn is_word(self) -> bool {
        Template::ALL.get(self.template()).is_some_and(|(_, _, args)| args.contains(&Arg::Word))
    }

    fn args(self) -> [usize; 3] {
        [(self.0 >> 40) as usize & 0xffff, (self.0 >> 20) as usize & 0xf_ffff, self.0 as usize & 0xf_ffff]
    }
}

/// Features in words, and back.
pub(super) struct Namer<'a> {
    pub(super) words: &'a Words,
    pub(super) frames: &'a Frames,
}

impl Namer<'_> {
    /// A feature in words.
    pub(super) fn name(&self, feature: Feature) -> String {
        let Some((_, word, args)) = Template::ALL.get(feature.template()) else { return String::new() };
        let mut name = (*word).to_owned();
        for (arg, value) in args.iter().zip(feature.args()) {
            if *arg != Arg::None {
                name.push('|');
                name.push_str(&self.arg(*arg, value, feature.args()));
            }
        }
        name
    }

    fn arg(&self, arg: Arg, value: usize, all: [usize; 3]) -> String {
        match arg {
            Arg::None => String::new(),
            Arg::Frame => self.frames.frames.get(value).map_or(String::new(), |frame| frame.name.to_string()),
            Arg::Group => Group::ALL.get(value).map_or(ENTRY.to_owned(), |group| group.name()),
            Arg::Trigger => {
                let frame = self.frames.frames.get(value);
                let trigger = frame.and_then(|frame| frame.triggers.get(all[1]));
                frame.zip(trigger).map_or(String::new(), |(frame, trigger)| format!("{}: {}", frame.name, trigger.text))
            }
            Arg::Note => Note::named(value).map_or(String::new(), |note| format!("{note:?}")),
            Arg::Kind => WordKind::ALL.get(value).map_or(String::new(), |kind| format!("{kind:?}").to_lowercase()),
            Arg::Word => self.words.letters(WordId(value as u32)).to_owned(),
            Arg::Number => value.to_string(),
            Arg::Follow => match value.checked_sub(1).and_then(|group| Group::ALL.get(group)) {
                Some(group) => group.name(),
                None => NOTHING.to_owned(),
            },
            listed => listed.names().get(value).copied().unwrap_or_default().to_owned(),
        }
    }
}

/// Features from words: made once for a whole file.
pub(super) struct Reader {
    /// By the sort of thing that they name.
    names: Vec<rustc_hash::FxHashMap<String, usize>>,
}

impl Reader {
    /// For the words and frames of the data files.
    pub(super) fn new(frames: &Frames) -> Self {
        let mut names = vec![rustc_hash::FxHashMap::default(); Arg::Follow as usize + 1];
        let mut add = |arg: Arg, name: String, value: usize| {
            if let Some(names) = names.get_mut(arg as usize) {
                names.insert(name, value);
            }
        };
        for (n, frame) in frames.frames.iter().enumerate() {
            add(Arg::Frame, frame.name.to_string(), n);
            for (t, trigger) in frame.triggers.iter().enumerate() {
                add(Arg::Trigger, format!("{}: {}", frame.name, trigger.text), n << 16 | t);
            }
        }
        add(Arg::Group, ENTRY.to_owned(), ANY);
        add(Arg::Follow, NOTHING.to_owned(), 0);
        for (n, group) in Group::ALL.iter().enumerate() {
            add(Arg::Group, group.name(), n);
            add(Arg::Follow, group.name(), n + 1);
        }
        for n in 0..super::build::NOTES {
            if let Some(note) = Note::named(n) {
                add(Arg::Note, format!("{note:?}"), n);
            }
        }
        for (n, kind) in WordKind::ALL.iter().enumerate() {
            add(Arg::Kind, format!("{kind:?}").to_lowercase(), n);
        }
        for arg in Arg::NAMED {
            for (n, word) in arg.names().iter().enumerate() {
                add(arg, (*word).to_owned(), n);
            }
        }
        Self { names }
    }

    /// The feature of a name; `None` where the data files no longer have something that it is about.
    pub(super) fn read(&self, name: &str, words: &mut Words) -> Option<Feature> {
        let mut parts = name.split('|');
        let word = parts.next()?;
        let (template, _, args) = Template::ALL.iter().find(|(_, known, _)| *known == word)?;
        let mut values = [0; 3];
        for (place, arg) in values.iter_mut().zip(args).filter(|(_, arg)| **arg != Arg::None) {
            let part = parts.next()?;
            *place = match arg {
                Arg::Number => part.parse().ok()?,
                Arg::Word => words.intern(part).0 as usize,
                arg => *self.names.get(*arg as usize)?.get(part)?,
            };
        }
        if args.first() == Some(&Arg::Trigger) {
            values = [values[0] >> 16, values[0] & 0xffff, 0];
        }
        Some(Feature::new(*template, values[0], values[1], values[2]))
    }
}
