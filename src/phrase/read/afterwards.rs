//! What the clauses behind a statement add to it: the weight of what is dry, juice that was kept, jars that did not seal.

use super::{Reader, State, Step};
use crate::phrase::{
    day,
    facts::Facts,
    seals,
    words::{Form, Verb},
};
use crate::{
    statement::{Clarify, Drained, Statement, TimerStart},
    vocabulary::Kind,
};

impl<'t> Reader<'t, '_, '_> {
    /// A statement of the day beside the stages, with the clauses that only go on about it.
    pub(super) fn day(
        &mut self,
        mut said: Statement,
        facts: &Facts<'t>,
        at: usize,
        state: &mut State<'t, '_>,
    ) -> Option<Step> {
        let mut used = 1;
        while let Some((from, to)) = state.clauses.get(at + used).copied() {
            let other = self.gather(&state.chunks[from..to]);
            let kind = said.kind();
            match &mut said {
                Statement::Dry(dry) if dry.mass.is_none() && day::took_out(&other) => {
                    dry.mass = other.mass().and_then(|a| a.mass)
                }
                _ if day::is_tail(kind, &other) => {}
                _ => {
                    state.ahead = Some((at + used, other));
                    break;
                }
            }
            used += 1;
        }
        // `basil is dry` may only want water.
        if matches!(&said, Statement::Dry(dry) if dry.mass.is_none()) && !day::is_surely_dry(facts) {
            return None;
        }
        self.stage(said, facts);
        Some(Step::Next(used))
    }

    /// Whether liquid poured off was kept, as its own clause or the next says.
    pub(super) fn with_kept(
        &mut self,
        said: Statement,
        at: usize,
        used: usize,
        state: &State<'t, '_>,
    ) -> (Statement, usize) {
        let Statement::Drained(drained) = said else { return (said, used) };
        let clause = |n: usize| state.clauses.get(n).and_then(|(from, to)| state.chunks.get(*from..*to));
        let own = (at..at + used).filter_map(clause).find_map(day::is_kept);
        let next = clause(at + used).filter(|next| own.is_none() && day::is_kept_tail(next)).and_then(day::is_kept);
        let kept = own.or(next);
        (Statement::Drained(Drained { kept, ..drained }), used + usize::from(next.is_some()))
    }

    /// `put up 7 quarts, 1 didn't seal`: six went onto the shelf, of seven.
    pub(super) fn with_seals(
        &mut self,
        said: Statement,
        at: usize,
        used: usize,
        state: &mut State<'t, '_>,
    ) -> (Statement, usize) {
        let put_up = |said: &Statement| match said {
            Statement::PutUp(jarred) => jarred.jars,
            Statement::Clarify(Clarify { about: Kind::PutUp, partial: Some(partial), .. }) => match partial.as_ref() {
                Statement::PutUp(jarred) => jarred.jars,
                _ => None,
            },
            _ => None,
        };
        let next = state.clauses.get(at + used).copied();
        let (Some(all), Some((from, to))) = (put_up(&said), next) else { return (said, used) };
        let other = match state.ahead.take() {
            Some((n, facts)) if n == at + used => facts,
            _ => self.gather(&state.chunks[from..to]),
        };
        let sealed = match seals::seals(&other, &self.carry) {
            Some(Statement::Unsealed(some)) => some.jars.and_then(|not| all.checked_sub(not)),
            Some(Statement::Sealed(some)) if some.of.is_none() || some.of == Some(all) => some.jars,
            _ => None,
        };
        let Some(sealed) = sealed.filter(|sealed| *sealed <= all) else {
            state.ahead = Some((at + used, other));
            return (said, used);
        };
        let mut said = said;
        let jarred = match &mut said {
            Statement::PutUp(jarred) => Some(jarred),
            Statement::Clarify(Clarify { partial: Some(partial), .. }) => match partial.as_mut() {
                Statement::PutUp(jarred) => Some(jarred),
                _ => None,
            },
            _ => None,
        };
        if let Some(jarred) = jarred {
            (jarred.jars, jarred.of) = (Some(sealed), Some(all));
        }
        (said, used + 1)
    }

    /// `skins in the dryer for 8 hours`: when they are done is waited for.
    pub(super) fn trailing_timer(&mut self, kind: Kind, f: &Facts<'_>) {
        let seconds = f.amounts.iter().find_map(|a| a.seconds);
        let past = f.verb == Some((Verb::Dry, Form::Past));
        if let (Kind::Dried, Some(seconds), false) = (kind, seconds, past) {
            let label = match self.out.last() {
                Some(Statement::Dried(dried)) => dried.what.clone(),
                _ => None,
            };
            self.out.push(Statement::TimerStart(TimerStart { seconds: Some(seconds), label }));
        }
    }
}
