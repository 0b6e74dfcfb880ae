//! What cannot wait for the question that is open, nor for how sure a reading is: illness, and jars that are spoiled.

use super::entering::Source;
use super::turn::Turn;
use crate::alert::{Alert, deadlines};
use crate::ledger::MessageId;
use crate::ledger::state::Lot;
use crate::phrase::{self, Reading};
use crate::processes::facts::{BOTULISM_SHOWS_WITHIN, UNSEALED_KEEPS_AT_MOST};
use crate::reply;
use crate::statement::{Ask, SomeJars, Spoiled, Statement, Taken};
use crate::vocabulary::{Kind, Sign, Stock, Subject};
use chrono::{DateTime, Utc};

/// Jars of the refrigerator that are gone.
fn gone(kind: Kind, lot: &Lot) -> Statement {
    let (jars, jar, product) = (Some(lot.jars), Some(lot.jar), Some(lot.product.clone()));
    let taken = Taken { jars, jar, product, from: Some(Stock::Fridge), ..Taken::default() };
    if kind == Kind::Ate { Statement::Ate(taken) } else { Statement::Tossed(taken) }
}

impl Turn<'_> {
    /// What a message says of illness or spoiled jars; it answers no question that is open, and nothing is entered with
    /// an answer about illness.
    pub(super) fn urgent(&self, source: &Source, alone: &Reading) -> Option<Vec<Statement>> {
        let is_ill = |said: &Statement| matches!(said, Statement::Ask(ask) if ask.about == Subject::Ill);
        if alone.statements.iter().any(is_ill) || self.spoiled_lately(source) && phrase::may_be_ill(&source.words) {
            return Some(vec![Statement::Ask(Ask::about(Subject::Ill))]);
        }
        if alone.statements.is_empty()
            && let Some(kind) = phrase::rid_of(&source.words)
        {
            let over: Vec<_> = self.too_long_in_the_fridge(source.said).map(|lot| gone(kind, lot)).collect();
            return Some(over).filter(|over| !over.is_empty());
        }
        let spoiled = |said: &Statement| matches!(said, Statement::Spoiled(_));
        if !alone.statements.iter().any(spoiled) {
            return None;
        }
        Some(alone.statements.iter().map(|said| self.as_it_stands(said)).collect())
    }

    /// Jars that have been in the refrigerator longer than they keep there.
    pub(super) fn too_long_in_the_fridge(&self, at: DateTime<Utc>) -> impl Iterator<Item = &Lot> {
        let state = self.room.state();
        let today = state.settings.zone.day(at);
        state.fridge.lots().iter().filter(move |lot| lot.on + UNSEALED_KEEPS_AT_MOST.value <= today)
    }

    /// A tick on the alert about such jars: they are thrown away, as it asked.
    pub(super) fn thrown_away_by_mark(&mut self, by: &MessageId, who: &str, alert: &str) {
        let due = deadlines(self.room.state()).into_iter().find(|due| due.name == alert);
        let Some(Alert::FridgeOver(lot)) = due.map(|due| due.alert) else { return };
        let words = reply::Words::of(&self.room.state().settings).jars_of(lot.jars, lot.jar, &lot.product);
        let source = Source { message: by.clone(), who: who.into(), said: self.now, words: words.into() };
        self.statements(&source, vec![gone(Kind::Tossed, &lot)], None);
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
