//! What the clauses behind a statement add to it: the weight of what is dry, juice that was kept, jars that did not seal.

use super::{Reader, State, Step};
use crate::phrase::{
    day,
    facts::Facts,
    plans,
    scan::Chunk,
    seals,
    token::one_of,
    words::{Form, Verb},
};
use crate::{
    statement::{Clarify, Drained, Picked, Statement, TimerStart},
    vocabulary::Kind,
};

impl<'t> Reader<'t, '_, '_> {
    /// What is meant to be: a batch's name, a canning day, and that it is off.
    pub(super) fn intended(
        &mut self,
        facts: &Facts<'t>,
        rest: &'t [Chunk],
        at: usize,
        state: &State<'t, '_>,
    ) -> Option<Step> {
        if !state.talk.unreal
            && let Some(said) = day::named(facts, &self.carry)
        {
            self.out.push(said);
            return Some(Step::Next(1));
        }
        if let Some(said) = plans::called_off(facts, &self.carry) {
            self.out.push(said);
            return Some(Step::Next(1));
        }
        if !self.carry.context.lexicon.planned.is_empty()
            && !state.quest
            && let Some(said) = plans::moved(&self.gather(rest), &self.carry)
        {
            self.out.push(said);
            return Some(Step::End);
        }
        if !plans::may_plan(facts) {
            return None;
        }
        // `canning sauce saturday, done by 6 pm`: the sentence, if all of it is the plan.
        let last = at + 1 == state.clauses.len();
        if !last && let Some(said) = plans::planned(&self.gather(rest), &self.carry) {
            self.out.push(said);
            return Some(Step::End);
        }
        let mut said = plans::planned(facts, &self.carry)?;
        // `want to be done by 4`: the hour said behind.
        let next = state.clauses.get(at + 1).and_then(|(from, to)| state.chunks.get(*from..*to));
        let hour = next.and_then(|next| plans::hour_behind(&self.gather(next)));
        let used = 1 + usize::from(hour.is_some());
        if let Statement::Planned(planned) = &mut said {
            planned.by = planned.by.take().or(hour);
        }
        self.out.push(said);
        Some(Step::Next(used))
    }

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
            let behind = day::took_out(&other);
            match (&mut said, behind) {
                (Statement::Dry(dry), Some(behind)) if dry.mass.is_none() => {
                    dry.mass = behind.mass;
                    dry.what = dry.what.take().or(behind.what);
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

    /// `picked 20 lb, half of it pink, rest red`: two pickings of half the weight.
    pub(super) fn by_halves(
        &mut self,
        facts: &mut Facts<'t>,
        kind: Kind,
        at: usize,
        state: &State<'t, '_>,
    ) -> Option<Step> {
        if kind != Kind::Picked || facts.ripe.is_some() || facts.mass().is_none() {
            return None;
        }
        let clause = |n: usize| state.clauses.get(n).and_then(|(from, to)| state.chunks.get(*from..*to));
        let (one, two) = (self.gather(clause(at + 1)?), self.gather(clause(at + 2)?));
        let half = one.any_token(|k| one_of!(k, "half")) && !one.has_quantity();
        let rest =
            two.any_token(|k| one_of!(k, "rest" | "half" | "other" | "others" | "remainder")) && !two.has_quantity();
        let classes = one.ripe.zip(two.ripe).filter(|_| half && rest && one.verb.is_none() && two.verb.is_none())?;
        let Some(Statement::Picked(whole)) = self.build(kind, facts, false) else { return None };
        let parts = whole.mass?.split(2);
        for (mass, class) in parts.into_iter().zip([classes.0, classes.1]) {
            self.out.push(Statement::Picked(Picked { mass: Some(mass), ripeness: Some(class), ..whole.clone() }));
        }
        self.carry.kind = Some(kind);
        Some(Step::Next(3))
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
