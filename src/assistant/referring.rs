//! What a message refers to: a part of something (`froze half of it`), or an entry by its figure (`14 lb not 12`) or its number in the log.

use super::entering::Source;
use super::turn::Turn;
use crate::ledger::MessageId;
use crate::phrase2 as phrase;
use crate::quantity::{Mass, Number};
use crate::statement::{Clarify, Correct, Statement};
use crate::vocabulary::{Crop, Kind, Missing, Whole};
use chrono::Duration;

/// What was last spoken of was said within this time (our own choice: a basket is dealt with on the day that it came in).
const SPOKEN_OF_WITHIN: Duration = Duration::hours(18);
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

    /// What a part is a part of, with its crop.
    fn whole(&self, source: &Source, statement: &Statement, of: Option<Whole>, crop: Option<Crop>) -> Option<(Mass, Option<Crop>)> {
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
        let spoken_of = |entry: &Statement| match entry {
            Statement::Picked(_) => !thaws,
            Statement::Froze(_) => thaws,
            Statement::Thawed(_) => !thaws,
            _ => false,
        };
        let mut taken = Mass::ZERO;
        for id in self.room.ledger.all_by(&source.who).take(LOOKED_THROUGH) {
            for entry in self.room.ledger.message(id).unwrap_or_default().into_iter().rev() {
                if source.said - entry.said > SPOKEN_OF_WITHIN {
                    break;
                }
                let Some(mass) = entry.statement.mass() else { continue };
                if spoken_of(&entry.statement) && crop.is_none_or(|crop| entry.statement.crop().unwrap_or(Crop::Tomato) == crop) {
                    // All of it is what is left of it.
                    let all = statement.share().is_some_and(|(share, _)| share == Number::ONE);
                    let left = if all { mass.less(taken) } else { mass };
                    return (!left.is_zero()).then_some((left, entry.statement.crop()));
                }
                taken += mass;
            }
        }
        // Nothing was told of: all that lies there.
        let rest = if thaws { state.freezer.mass(of_crop) } else { state.counter.mass(of_crop) };
        there(rest)
    }

    /// The entry that a correction is about by its own words: the one whose figure it replaces.
    pub(super) fn entry_with(&self, source: &Source, correct: &Correct) -> Option<MessageId> {
        let was = correct.was?;
        let ledger = &self.room.ledger;
        let holds = |id: &&MessageId| {
            ledger.message(id).unwrap_or_default().iter().any(|entry| holds_figure(&entry.statement, was, phrase::mass_unit(&entry.words)))
        };
        ledger.all_by(&source.who).take(LOOKED_THROUGH).find(holds).cloned()
    }
}

/// Whether a figure stands in a statement: as its count, or as its weight in the unit of its words.
fn holds_figure(statement: &Statement, figure: Number, unit: Option<Mass>) -> bool {
    let mass = unit.and_then(|unit| unit.times(figure));
    statement.count().is_some() && statement.count() == figure.as_count() || mass.is_some() && statement.mass() == mass
}
