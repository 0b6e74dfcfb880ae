//! What cannot wait for the question that is open, nor for how sure a reading is: illness, and jars that are spoiled.

use super::entering::Source;
use super::turn::Turn;
use crate::phrase::{self, Reading};
use crate::processes::facts::BOTULISM_SHOWS_WITHIN;
use crate::statement::{Ask, SomeJars, Spoiled, Statement};
use crate::vocabulary::{Sign, Subject};

impl Turn<'_> {
    /// What a message says of illness or spoiled jars; it answers no question that is open, and nothing is entered with
    /// an answer about illness.
    pub(super) fn urgent(&self, source: &Source, alone: &Reading) -> Option<Vec<Statement>> {
        let is_ill = |said: &Statement| matches!(said, Statement::Ask(ask) if ask.about == Subject::Ill);
        if alone.statements.iter().any(is_ill) || self.spoiled_lately(source) && phrase::may_be_ill(&source.words) {
            return Some(vec![Statement::Ask(Ask::about(Subject::Ill))]);
        }
        let spoiled = |said: &Statement| matches!(said, Statement::Spoiled(_));
        if !alone.statements.iter().any(spoiled) {
            return None;
        }
        Some(alone.statements.iter().map(|said| self.as_it_stands(said)).collect())
    }

    /// Whether a spoiled jar was told of so short a while ago that the signs of having eaten of it may come now.
    fn spoiled_lately(&self, source: &Source) -> bool {
        let since = source.said - BOTULISM_SHOWS_WITHIN.value;
        let mut lately = self.room.ledger.entries().rev().take_while(|entry| entry.happened >= since);
        lately.any(|entry| matches!(entry.statement, Statement::Spoiled(_)))
    }

    /// A jar that came open while its batch is looked over did not seal: the batch says what may be done with it.
    fn as_it_stands(&self, said: &Statement) -> Statement {
        let Statement::Spoiled(Spoiled { signs: Some(signs), jars, product, on, .. }) = said else {
            return said.clone();
        };
        let mut open = self.room.state().open_batches();
        let looked_over = open.any(|batch| {
            !batch.outs.is_empty() && product.as_ref().is_none_or(|product| batch.is_called(product.as_str()))
        });
        if signs.as_slice() == [Sign::Unsealed] && looked_over {
            return Statement::Unsealed(SomeJars { jars: *jars, on: *on, ..SomeJars::default() });
        }
        said.clone()
    }
}
