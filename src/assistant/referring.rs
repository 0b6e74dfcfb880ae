//! What a message refers to: a part of something (`froze half of it`), or an entry by its figure (`14 lb not 12`) or
//! its number in the log.

use super::entering::Source;
use super::turn::Turn;
use crate::ledger::{Entry, MessageId};
use crate::phrase::{self, Reading};
use crate::quantity::{Mass, Number};
use crate::statement::{Clarify, Correct, Statement};
use crate::vocabulary::{Crop, Kind, Missing, Whole};
use chrono::Duration;

/// What was last spoken of was said within this time (our own choice: a basket is dealt with on the day that it came
/// in).
const SPOKEN_OF_WITHIN: Duration = Duration::hours(18);
/// What is not said quite surely must have been spoken of within this time (our own choice).
const JUST_TOLD_WITHIN: Duration = Duration::minutes(30);
/// A figure that a correction replaces is looked for among so many messages of the same person.
const LOOKED_THROUGH: usize = 20;

impl Turn<'_> {
    /// Gives a statement that tells of a part the weight of it; a question where it is not known of what.
    pub(super) fn weighed(&self, source: &Source, statement: Statement) -> Statement {
        let Some((share, of)) = statement.share() else { return statement };
        let crop = statement.crop();
        match self.whole(source, &statement, of, crop) {
            Some((whole, crop)) => match whole.times(share) {
                Some(mass) if !mass.is_zero() => statement.with_share(mass, crop),
                _ => statement,
            },
            None => Statement::Clarify(Clarify {
                about: statement.kind(),
                missing: Missing::Amount,
                amount: None,
                word: None,
                partial: Some(Box::new(statement)),
            }),
        }
    }

    /// Asks of which size jars are that were taken out, where there are several sizes of what is in them: taken from
    /// the wrong one, both would be wrong.
    pub(super) fn sized(&self, statement: Statement) -> Statement {
        let (jars, jar) = match &statement {
            Statement::Opened(said) => (said.jars, said.jar),
            Statement::Ate(said) | Statement::Gave(said) | Statement::Tossed(said) => (said.jars, said.jar),
            _ => return statement,
        };
        let (Some(jars), None, Some(product)) = (jars, jar, statement.product()) else { return statement };
        let sizes = self.room.state().pantry.sums().into_iter().filter(|(there, ..)| there == product).count();
        if sizes < 2 {
            return statement;
        }
        Statement::Clarify(Clarify {
            about: statement.kind(),
            missing: Missing::Jar,
            amount: Some(Number::whole(jars.into())),
            word: None,
            partial: Some(Box::new(statement)),
        })
    }

    /// What a part is a part of, with its crop.
    fn whole(
        &self,
        source: &Source,
        statement: &Statement,
        of: Option<Whole>,
        crop: Option<Crop>,
    ) -> Option<(Mass, Option<Crop>)> {
        let state = self.room.state();
        let of_crop = crop.unwrap_or(Crop::Tomato);
        let there = |mass: Mass| (!mass.is_zero()).then_some((mass, crop));
        match of {
            Some(Whole::Counter) => return there(state.counter.mass(of_crop)),
            Some(Whole::Freezer) => return there(state.freezer.mass(of_crop)),
            Some(Whole::Thawing) => return there(state.thawing.get(&of_crop).copied().unwrap_or_default()),
            Some(Whole::Last) | None => {}
        }
        let thaws = statement.kind() == Kind::Thawed;
        if let Some(told) = self.told_of(source, statement, crop, SPOKEN_OF_WITHIN) {
            return there(self.left_of(told, statement)).map(|(mass, _)| (mass, told.statement.crop()));
        }
        // Nothing was told of: all that lies there.
        let rest = if thaws { state.freezer.mass(of_crop) } else { state.counter.mass(of_crop) };
        there(rest)
    }

    /// What was last told of that a statement may tell a part of: by the same person, else by anybody here.
    fn told_of(&self, source: &Source, statement: &Statement, crop: Option<Crop>, within: Duration) -> Option<&Entry> {
        let thaws = statement.kind() == Kind::Thawed;
        let spoken_of = |entry: &&Entry| match entry.statement {
            Statement::Picked(_) | Statement::Thawed(_) => !thaws,
            Statement::Froze(_) => thaws,
            _ => false,
        };
        let crop_of = |entry: &Entry| entry.statement.crop().unwrap_or(Crop::Tomato);
        let fits = |entry: &&Entry| {
            let recent = entry.said <= source.said && source.said - entry.said <= within;
            let of_crop = crop.is_none_or(|crop| crop_of(entry) == crop);
            recent && of_crop && spoken_of(entry) && entry.statement.mass().is_some()
        };
        let ledger = &self.room.ledger;
        let latest_of = |who: &str| {
            let entries = ledger.all_by(who).take(LOOKED_THROUGH).filter_map(|id| ledger.message(id));
            entries.flat_map(|entries| entries.into_iter().rev()).find(fits)
        };
        latest_of(&source.who).or_else(|| ledger.people().filter_map(latest_of).max_by_key(|entry| entry.said))
    }

    /// The weight of what was told of; where all of it is meant, what was not taken from it since.
    fn left_of(&self, told: &Entry, statement: &Statement) -> Mass {
        let mass = told.statement.mass().unwrap_or_default();
        if statement.share().is_none_or(|(share, _)| share != Number::ONE) {
            return mass;
        }
        let crop_of = |entry: &Entry| entry.statement.crop().unwrap_or(Crop::Tomato);
        let takes = |entry: &&Entry| {
            let later = (entry.said, entry.part) > (told.said, told.part);
            let takes = match entry.statement {
                Statement::Froze(_) => !matches!(told.statement, Statement::Froze(_)),
                Statement::Ate(_) | Statement::Gave(_) | Statement::Tossed(_) => true,
                Statement::Thawed(_) => matches!(told.statement, Statement::Froze(_)),
                _ => false,
            };
            later && takes && crop_of(entry) == crop_of(told)
        };
        let since = self.room.ledger.entries().rev().take_while(|entry| entry.happened >= told.happened);
        mass.less(since.filter(takes).filter_map(|entry| entry.statement.mass()).sum())
    }

    /// A part of something (`gave it all away`) that would be put to the household: it counts where all of its words
    /// are understood and what it is a part of was just told of, and where they are not it is talk, for `half of it`
    /// may be half of anything.
    pub(super) fn in_view_of_what_was_told(&self, source: &Source, reading: Reading) -> Reading {
        let [Statement::Propose(proposed)] = &*reading.statements else { return reading };
        let [part] = &*proposed.statements else { return reading };
        let Some((_, None | Some(Whole::Last))) = part.share() else { return reading };
        // To whom something was given need not be known.
        let names = if part.kind() == Kind::Gave { 1 } else { 0 };
        if reading.unread.split_whitespace().count() > names {
            return Reading { statements: Vec::new(), ..reading };
        }
        if self.told_of(source, part, part.crop(), JUST_TOLD_WITHIN).is_none() {
            return reading;
        }
        let statements = vec![part.clone()];
        Reading { statements, unread: String::new(), ..reading }
    }

    /// Whether somebody has entered anything of late.
    pub(super) fn has_told(&self, source: &Source) -> bool {
        let latest = self.room.ledger.latest_by(&source.who).and_then(|id| self.room.ledger.message(id));
        latest.is_some_and(|entries| entries.iter().any(|entry| source.said - entry.said <= SPOKEN_OF_WITHIN))
    }

    /// The entry that a correction is about by its own words: the one whose figure it replaces.
    pub(super) fn entry_with(&self, source: &Source, correct: &Correct) -> Option<MessageId> {
        let was = correct.was?;
        let ledger = &self.room.ledger;
        let holds = |id: &&MessageId| {
            ledger
                .message(id)
                .unwrap_or_default()
                .iter()
                .any(|entry| holds_figure(&entry.statement, was, phrase::mass_unit(&entry.words)))
        };
        ledger.all_by(&source.who).take(LOOKED_THROUGH).find(holds).cloned()
    }
}

/// Whether a figure stands in a statement: as its count, or as its weight in the unit of its words.
fn holds_figure(statement: &Statement, figure: Number, unit: Option<Mass>) -> bool {
    let mass = unit.and_then(|unit| unit.times(figure));
    statement.count().is_some() && statement.count() == figure.as_count() || mass.is_some() && statement.mass() == mass
}
