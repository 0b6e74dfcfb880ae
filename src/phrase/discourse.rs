//! What a message says only together with what came before: `and 4 lb of peppers`, `another 3`, `same again`, `froze 1
//! kg of them`, `sorry, kg`; and what it says of itself: a slip that is put right in the same breath, sentences that
//! are sure each by itself, a doubt at its end.
//!
//! A message goes on with another one only where one of the words of `english/discourse.txt` says so, and only where
//! every word of it is accounted for: talk that names a figure (`nice one`, `another 3 weeks of this`) is never an
//! entry.

mod again;
mod parts;
mod scene;
mod words;

pub(super) use words::first_clause;

use super::build::Note;
use super::context::{Context, Last, Reading};
use super::frame::Frame;
use super::household::Household;
use super::item::{Item, Text, WordKind};
use super::language::Language;
use super::value::Value;
use crate::statement::{Ask, Statement};
use crate::vocabulary::Subject;
use again::{like, more_jars, same_of, undated, with_unit};
use scene::{Scene, goes_on};
use words::Sign;

/// Longest message that goes on with the one before, in items.
const LONGEST: usize = 10;

/// Takes a message together with what was said before it, and with what it says of itself.
pub(super) fn continued(
    reading: Reading,
    text: &Text<'_>,
    language: &Language,
    household: &Household,
    context: &Context<'_>,
    read: fn(&str, &Context<'_>) -> Reading,
) -> Reading {
    let scene = Scene { text, language, household, context, read };
    let reading = parts::doubted(reading, &scene);
    let reading = parts::sure_in_parts(reading, &scene);
    if scene.is_talk(&reading) {
        return Reading { statements: Vec::new(), ..reading };
    }
    let Some(last) = context.last else { return reading };
    match scene.going_on(last).filter(|_| text.items.len() <= LONGEST) {
        Some(statements) => Reading { statements, unread: String::new(), figure_left: false, ..reading },
        None => Reading { statements: scene.of_them(reading.statements, last), ..reading },
    }
}

impl Scene<'_> {
    /// Whether a message that was not said to the assistant, and was understood in part only, is better passed over: a
    /// question for what comes next that goes on with what is no business of a ledger (`what else, stones?`), and a
    /// question back to what names no deed (`its 98 out`).
    fn is_talk(&self, reading: &Reading) -> bool {
        if reading.addressed || reading.unread.is_empty() {
            return !reading.addressed && self.is_figure_of_speech(reading);
        }
        let deed = self.text.items.iter().any(|item| item.kind == WordKind::Deed);
        match &*reading.statements {
            [Statement::Ask(Ask { about: Subject::Next, .. })] => {
                first_clause(self.text.text).is_some_and(|(_, rest)| rest.contains(&reading.unread))
            }
            [Statement::Clarify(question)] => question.word.is_none() && !deed,
            _ => self.is_figure_of_speech(reading),
        }
    }

    /// `gave the rest a miss`, `gave it all a wash`: what was given stands behind, and is no fruit.
    fn is_figure_of_speech(&self, reading: &Reading) -> bool {
        let [Statement::Propose(proposed)] = &*reading.statements else { return false };
        let part = |item: &Item| item.values.iter().any(|value| matches!(value, Value::Share(_)));
        let other = |item: &Item| {
            matches!(item.kind, WordKind::Ordinary | WordKind::Strange | WordKind::Voice | WordKind::Alien)
        };
        matches!(&*proposed.statements, [Statement::Gave(_)]) && self.any_pair(|of, it| part(of) && other(it))
    }

    fn going_on(&self, last: Last<'_>) -> Option<Vec<Statement>> {
        let classes = &self.language.words.classes;
        if self.is(classes.mark_question) {
            return None;
        }
        if let Some(correct) = again::mended(self, last) {
            return Some(vec![Statement::Correct(correct)]);
        }
        // `and another thing` is no amount of anything.
        let figure = |item: &Item| matches!(&*item.values, [Value::Number(_), ..]);
        let thing = self.any_pair(|n, it| figure(n) && it.is(classes.pronoun));
        if thing || !words::has(self.text, Sign::GoesOn) || !goes_on(last.statement.kind()) {
            return None;
        }
        // `same again` of somebody else is talk as often as not: it enters only what the same person said.
        let bare = |item: &Item| item.is(classes.again) || !item.is_content();
        if last.own && self.is(classes.again) && self.text.items.iter().all(bare) {
            return Some(vec![undated(last.statement)]);
        }
        if let Some(same) = same_of(self, last).or_else(|| more_jars(self, last)) {
            return Some(vec![same]);
        }
        let frames = &self.language.frames.frames;
        let frame = frames.iter().find(|frame| frame.kind == last.statement.kind() && frame.about.is_none())?;
        let statements = self.filled(frame)?;
        let like = |statement| with_unit(statement, last).map(|statement| like(statement, last.statement));
        statements.into_iter().map(like).collect()
    }

    /// The words as those of a frame that they do not name; only where all of them fit, or all up to the first mark and
    /// what follows it says nothing: `one more quart of juice, company's here`.
    fn filled(&self, frame: &Frame) -> Option<Vec<Statement>> {
        let items = &self.text.items;
        let whole = self.filled_up_to(frame, items.len());
        whole.or_else(|| {
            let mark = items.iter().position(|item| item.mark.is_some())?;
            let idle = |item: &Item| {
                let kind = matches!(item.kind, WordKind::Ordinary | WordKind::Strange | WordKind::Harmless);
                item.values.is_empty() && (kind || !item.is_content())
            };
            let says_nothing = items.iter().skip(mark).all(idle);
            if says_nothing { self.filled_up_to(frame, mark) } else { None }
        })
    }

    fn filled_up_to(&self, frame: &Frame, to: usize) -> Option<Vec<Statement>> {
        let items = self.text.items.get(..to)?;
        let mine = |(n, item): (usize, &Item)| {
            self.is_from_me(n) || !matches!(item.kind, WordKind::Deed | WordKind::Voice | WordKind::Alien)
        };
        if !items.iter().enumerate().all(mine) {
            return None;
        }
        let made = self.made(frame, to).into_iter().find(|made| {
            let small = |item: &Item| matches!(item.kind, WordKind::Small | WordKind::Mark | WordKind::Harmless);
            let known = |(n, item): (usize, &Item)| made.used.has(n) || small(item) || self.is_from_me(n);
            let all = items.iter().enumerate().all(known);
            let amount = made.notes.iter().any(|note| note.is_amount());
            all && amount && !is_guessed(&made.notes)
        });
        made.map(|made| made.statements)
    }

    /// `another 4 from me`
    fn is_from_me(&self, n: usize) -> bool {
        let classes = &self.language.words.classes;
        let before = self.text.before(n);
        let own = self.text.items.get(n).is_some_and(|item| item.is(classes.own) && !item.is(classes.aux));
        own && before.is_some_and(|item| item.is(classes.prep_from))
    }

    /// `froze 1 kg of them`: of the crop that was told of last.
    fn of_them(&self, statements: Vec<Statement>, last: Last<'_>) -> Vec<Statement> {
        let classes = &self.language.words.classes;
        // An `of` behind a weight is part of it.
        let weighs = |item: &Item| item.values.iter().any(|value| matches!(value, Value::Weight(_)));
        let of_it = self.any_pair(|of, it| (of.is(classes.of) || weighs(of)) && it.is(classes.share_it));
        let Some(crop) = last.statement.crop().filter(|_| of_it) else { return statements };
        let of_crop = |statement: Statement| match (statement.crop(), statement.mass(), statement.product()) {
            (None, Some(mass), None) => statement.with_share(mass, Some(crop)),
            _ => statement,
        };
        statements.into_iter().map(of_crop).collect()
    }

    /// Whether two items that stand side by side are such.
    fn any_pair(&self, are: impl Fn(&Item, &Item) -> bool) -> bool {
        self.text.items.windows(2).any(|pair| matches!(pair, [one, other] if are(one, other)))
    }
}

/// Whether a word is taken for what no list knows it to be: where no deed is named only a strange word behind a weight
/// may be (`and 2 lb of oca`).
fn is_guessed(notes: &[Note]) -> bool {
    let unsure = notes.contains(&Note::Number);
    notes.iter().any(|note| match note {
        Note::GuessedCropOrdinary | Note::GuessedVarietyOrdinary | Note::GuessedProduct | Note::GuessedPlace => true,
        Note::GuessedCropStrange | Note::GuessedVarietyStrange => unsure,
        _ => false,
    })
}
