//! Something told: a stage, seals, or an entry of the ledger, with what stood before its verb.

use super::making::{blank, build, is_listable, merges, set_on};
use super::shares::of_all;
use super::{Reader, State, Step};
use crate::phrase::{
    batch,
    build::{self},
    day,
    facts::{Facts, has},
    freezer, kinds,
    scan::{Chunk, Item},
    seals,
    talk::voice,
    token::{one_of, says},
    words::{Form, Unit, Verb, Word},
};
use crate::{
    quantity::Pressure,
    statement::{AcidAdded, Clarify, Counted, Statement},
    vocabulary::{Kind, Missing},
};

impl<'t> Reader<'t, '_, '_> {
    /// A statement of something done, with the clauses that only add to it.
    pub(super) fn told(&mut self, mut facts: Facts<'t>, at: usize, state: &mut State<'t, '_>) -> Step {
        // `drained 2 quarts. poured it away`
        if let Some(Statement::Drained(drained)) = self.out.last_mut()
            && drained.kept.is_none()
            && !facts.has_quantity()
            && facts.has(has::IT | has::LIQUID)
            && day::is_kept_tail(facts.chunks)
            && let Some(kept) = day::is_kept(facts.chunks)
        {
            drained.kept = Some(kept);
            self.joined = true;
            return Step::Next(1);
        }
        if let Some(said) = day::day(&facts, &self.carry)
            && let Some(step) = self.day(said, &facts, at, state)
        {
            return step;
        }
        if let Some(said) = batch::stage(&facts, &self.carry)
            .filter(|_| !facts.negated || facts.verb_is(Verb::Boil))
            .filter(|said| is_here(said, &facts, state))
        {
            return self.stage(said, &facts);
        }
        if let Some(said) = freezer::unsealed_went(&facts, &self.carry) {
            return self.stage(said, &facts);
        }
        // Loads are washed.
        let laundry = |kind: &Kind| *kind == Kind::Dried && says!(&facts, "load" | "loads");
        let Some(kind) = kinds::kind_of(&facts).filter(|kind| is_real(&facts) && !laundry(kind)) else {
            if let Some(said) = seals::seals(&facts, &self.carry).filter(|_| !seals_other(facts.chunks)) {
                return self.stage(said, &facts);
            }
            return self.carried(facts, at, state);
        };
        // `pick one` is an order.
        if kind == Kind::Picked
            && facts.chunks.first().is_some_and(|c| one_of!(c.key, "pick"))
            && facts.bare().is_some()
            && facts.mass().is_none()
        {
            return Step::Next(1);
        }
        // `ate the jar that didn't seal`: it is gone, whatever its seal.
        let gone = matches!(kind, Kind::Ate | Kind::Gave | Kind::Tossed)
            && facts.verb.is_some_and(|(verb, _)| matches!(verb, Verb::Eat | Verb::Give | Verb::Toss | Verb::Throw))
            && (facts.has(has::JARS | has::DUD | has::UNSEALED) || facts.verb_is(Verb::Seal) && facts.has(has::NOT))
            && facts.dest.is_none();
        if !gone
            && !matches!(kind, Kind::Froze | Kind::Counted | Kind::Bought)
            && let Some(said) = seals::seals(&facts, &self.carry).filter(|_| !seals_other(facts.chunks))
        {
            return self.stage(said, &facts);
        }
        if let Some(step) = self.by_halves(&mut facts, kind, at, state) {
            return step;
        }
        let used = self.absorb(&mut facts, kind, at, state);
        let ahead = self.take_pending(&mut facts, kind, state);
        if facts.leading_when && self.carry.when.is_none() {
            self.carry.when = facts.when.and_then(|moment| moment.when(self.carry.context));
        }
        let elliptic = facts.amounts.iter().any(|a| a.unit.is_none()) && facts.mass().is_none();
        let run = self.out.len();
        if !ahead.is_empty() && self.carry.when.is_none() && !facts.leading_when {
            self.carry.when = facts.when.and_then(|moment| moment.when(self.carry.context));
        }
        for item in &ahead {
            let said = build(kind, item, &mut self.carry).filter(|said| !matches!(said, Statement::Clarify(_)));
            self.out.extend(said);
        }
        if let Some(said) = self.build(kind, &facts, elliptic) {
            self.run = run;
            self.carry.kind = Some(kind);
            let (from, to) =
                (state.clauses[at].0, state.clauses.get(at + used - 1).map_or(state.chunks.len(), |c| c.1));
            self.leave_foods(&state.chunks[from..to], &facts, &said);
            let (said, used) = self.with_kept(said, at, used, state);
            let (said, used) = self.with_seals(said, at, used, state);
            self.out.push(said);
            self.trailing_acid(kind, &facts);
            self.trailing_timer(kind, &facts);
            return Step::Next(used);
        } else if self.carry.kind == Some(kind) && !facts.has_quantity() {
            // `bagged and frozen`: the same once more.
            self.joined = true;
        }
        Step::Next(used)
    }

    /// What was said before the verb: part of this item, or items of its own (`tomatoes 12 lb, peppers 3 lb picked`).
    pub(super) fn take_pending(
        &mut self,
        facts: &mut Facts<'t>,
        kind: Kind,
        state: &mut State<'t, '_>,
    ) -> Vec<Facts<'t>> {
        let mut ahead = Vec::new();
        // The one next to the verb completes it; those before are items of their own.
        for pending in std::mem::take(&mut state.pending).into_iter().rev() {
            let bagged = matches!(kind, Kind::Froze | Kind::Thawed)
                && facts.mass().is_none()
                && facts.unit(Unit::Bag).is_some()
                && pending.amounts.len() == 1
                && pending.mass().is_some()
                && pending.unit(Unit::Bag).is_none();
            let completes = bagged
                || !facts.has_quantity()
                || pending.amounts.is_empty()
                || facts.mass().is_none()
                    && pending.mass().is_some()
                    && facts.has(has::IT)
                    && facts.unit(Unit::Bag).is_some();
            let item = pending.has_quantity()
                && (pending.mass().is_some() || pending.jars().is_some() || pending.unit(Unit::Tray).is_some())
                && (pending.crop.is_some()
                    || pending.what.is_some()
                    || pending.variety.is_some()
                    || pending.product.is_some());
            if completes {
                facts.absorb(pending);
            } else if item && is_listable(kind) && state.pending.len() < 50 {
                ahead.push(pending);
            } else {
                self.leave(&pending);
            }
        }
        ahead.reverse();
        ahead
    }

    pub(super) fn build(&mut self, kind: Kind, f: &Facts<'_>, elliptic: bool) -> Option<Statement> {
        // Less than nothing was never frozen or picked: how much is asked for.
        if f.amounts.iter().any(|a| a.number.as_f64() < 0.0) {
            return blank(kind).map(|partial| build::clarify((kind, partial), Missing::Amount, None));
        }
        let before = self.carry.when;
        if elliptic && f.when.is_none() && before.is_none() && self.carry.kind.is_some() {
            self.carry.when = self.out.last().and_then(Statement::on);
        }
        let said = match of_all(kind, f) {
            Some(all) => build(kind, &all, &mut self.carry),
            None => build(kind, f, &mut self.carry),
        };
        self.carry.when = before;
        said
    }

    pub(super) fn trailing_acid(&mut self, kind: Kind, f: &Facts<'_>) {
        if kind == Kind::Filled && f.acid().is_some() && f.has(has::IN) {
            self.out.push(Statement::AcidAdded(AcidAdded { supply: f.acid(), ..AcidAdded::default() }));
        }
    }

    /// A clause without a verb takes the verb before it, or waits for the one behind.
    pub(super) fn carried(&mut self, facts: Facts<'t>, _at: usize, state: &mut State<'t, '_>) -> Step {
        if self.adds_each(&facts) {
            self.joined = true;
            return Step::Next(1);
        }
        let listed = self.carry.kind.filter(|kind| is_listable(*kind));
        let plain = facts.verb.is_none() && !facts.has(has::MODAL | has::NOT) && !facts.bad_object && facts.alien == 0;
        // `5 of them green` speaks of what was counted already.
        let of_those = facts.has_quantity() && facts.has(has::IT);
        if let Some(kind) = listed.filter(|_| plain && facts.has_quantity() && !of_those) {
            let own = facts.when.and_then(|moment| moment.when(self.carry.context));
            let before = self.carry.when;
            self.carry.when = before.or_else(|| self.out.last().and_then(Statement::on));
            let said = build(kind, &facts, &mut self.carry);
            self.carry.when = before;
            let said = said.map(|said| self.with_product(said));
            if let Some(said) = said.filter(|said| !matches!(said, Statement::Clarify(_))) {
                self.complete_before(kind, &said);
                if let Some(on) = own.filter(|_| !facts.leading_when) {
                    self.out[self.run..].iter_mut().filter(|s| s.on().is_none()).for_each(|s| set_on(s, on));
                }
                self.out.push(said);
            }
            return Step::Next(1);
        }
        if let Some(step) = self.adds_to_stage(&facts) {
            self.joined = true;
            return step;
        }
        let moved = facts.verb.is_none_or(|(verb, _)| {
            matches!(
                verb,
                Verb::Take | Verb::Pull | Verb::Get | Verb::Put | Verb::Bring | Verb::Go | Verb::Come | Verb::Grab
            )
        });
        let plain = moved && !facts.has(has::MODAL | has::NOT) && !facts.bad_object && facts.alien == 0;
        if plain && facts.has_slots() && facts.unknown == 0 && facts.common <= 1 {
            let only_when = facts.chunks.iter().all(|c| {
                matches!(c.item, Item::When(_) | Item::Mark(_) | Item::Word(Word::Filler | Word::Link | Word::First))
            });
            if only_when && self.out.is_empty() {
                self.carry.when = facts.when.and_then(|moment| moment.when(self.carry.context));
            }
            match state.pending.last_mut() {
                Some(pending) if !(pending.has_quantity() && facts.has_quantity()) => pending.absorb(facts),
                _ => state.pending.push(facts),
            }
            return Step::Held;
        }
        Step::Next(1)
    }

    /// `3 pints of salsa and 4 half pints`: the product said first is that of both.
    pub(super) fn with_product(&self, said: Statement) -> Statement {
        if let (Statement::Counted(this), Some(Statement::Counted(last))) = (&said, self.out.last()) {
            return Statement::Counted(Counted { from: this.from.or(last.from), ..this.clone() });
        }
        let Statement::Clarify(Clarify { missing: Missing::Product, partial: Some(partial), .. }) = &said else {
            return said;
        };
        let mut whole = partial.as_ref().clone();
        match (&mut whole, self.out.last()) {
            (Statement::PutUp(s), Some(Statement::PutUp(last)))
            | (Statement::Opened(s), Some(Statement::Opened(last))) => s.product = last.product.clone(),
            (Statement::Ate(s), Some(Statement::Ate(last)))
            | (Statement::Gave(s), Some(Statement::Gave(last)))
            | (Statement::Tossed(s), Some(Statement::Tossed(last))) => s.product = last.product.clone(),
            _ => return said,
        }
        whole
    }

    /// `3 pints and 4 half pints of salsa`: the product said last is that of both.
    pub(super) fn complete_before(&mut self, kind: Kind, said: &Statement) {
        let product = match said {
            Statement::PutUp(s) | Statement::Opened(s) => s.product.clone(),
            Statement::Ate(s) | Statement::Gave(s) | Statement::Tossed(s) => s.product.clone(),
            _ => None,
        };
        let Some(last) = self.out.last_mut().filter(|_| product.is_some()) else { return };
        let Statement::Clarify(pending) = last else { return };
        if pending.about != kind || pending.missing != Missing::Product {
            return;
        }
        let Some(mut partial) = pending.partial.take() else { return };
        match partial.as_mut() {
            Statement::PutUp(s) | Statement::Opened(s) => s.product = product,
            Statement::Ate(s) | Statement::Gave(s) | Statement::Tossed(s) => s.product = product,
            _ => {}
        }
        *last = *partial;
    }

    /// `weight's jiggling, 15 pounds`, `gone into the fridge, one jar`: a number that belongs to the stage before.
    pub(super) fn adds_to_stage(&mut self, f: &Facts<'_>) -> Option<Step> {
        if f.verb.is_some()
            || !f.clean()
            || f.amounts.len() != 1
            || f.crop.is_some()
            || f.dest.is_some()
            || f.source.is_some()
        {
            return None;
        }
        let amount = f.amounts.first()?;
        let jars = amount.count().filter(|_| amount.is_jars() || amount.unit.is_none());
        let slot = match self.out.last_mut()? {
            Statement::AtHeat(s) if s.psi.is_none() => {
                let psi = amount.number.as_f64();
                let fits = matches!(amount.unit, Some(Unit::Pound | Unit::Psi)) && (4.0..=20.0).contains(&psi);
                s.psi = Pressure::from_psi(psi).filter(|_| fits);
                return s.psi.map(|_| Step::Next(1));
            }
            Statement::Refrigerated(s) | Statement::Reprocessed(s) | Statement::Unsealed(s) => &mut s.jars,
            Statement::Lifted(s) => &mut s.jars,
            Statement::Filled(s) => &mut s.jars,
            _ => return None,
        };
        if slot.is_some() || jars.is_none() {
            return None;
        }
        *slot = jars;
        Some(Step::Next(1))
    }

    pub(super) fn stage(&mut self, said: Statement, f: &Facts<'_>) -> Step {
        self.carry.kind = Some(said.kind());
        let joined = self.out.last_mut().is_some_and(|last| last.kind() == said.kind() && merges(last, &said));
        self.joined = joined;
        if !joined {
            self.out.push(said);
        }
        let _ = f;
        Step::Next(1)
    }
}

/// `sealed bid of 200`, `one sealed joke`: the seal is a quality of something else.
pub(super) fn seals_other(chunks: &[Chunk]) -> bool {
    chunks
        .windows(2)
        .any(|w| one_of!(w[0].key, "sealed") && matches!(w[1].item, Item::Word(Word::Common | Word::Alien)))
        || chunks
            .windows(3)
            .any(|w| one_of!(w[0].key, "sealed") && w[1].item == Item::Unknown && one_of!(w[2].key, "of" | "for"))
}

/// Whether a stage is told of the kitchen: its few words leave no room for another place or thing.
pub(super) fn is_here(said: &Statement, f: &Facts<'_>, state: &State<'_, '_>) -> bool {
    let elsewhere = says!(f, "work" | "school" | "office");
    let sure = !elsewhere
        && (f.has(has::VENT) && f.has(has::STEAM | has::PLUME) || f.has(has::CANNER) || f.unit(Unit::Psi).is_some());
    let bare_vent = matches!(said, Statement::Venting(_))
        && !f.has(has::STEAM | has::CANNER | has::PLUME)
        && f.chunks
            .iter()
            .all(|c| !one_of!(c.key, "pipe" | "vent" | "vents" | "petcock" | "exhaust" | "spout" | "valve"))
        && voice(state.rest(0)).stranger;
    let odd = match said {
        Statement::AtHeat(_) => f.verb_is(Verb::Lift) || says!(f, "dry"),
        Statement::Lifted(_) if f.verb_is(Verb::Throw) => true,
        Statement::Lifted(_) | Statement::HeatOff(_) => {
            // `jars come out at 4` is still to come; `out of jars` has none.
            let at = f
                .chunks
                .windows(2)
                .any(|w| one_of!(w[0].key, "at" | "by") && matches!(w[1].item, Item::Amount(a) if a.unit.is_none()));
            let ahead = (at || f.when.is_some_and(|w| w.has_time())) && says!(f, "come" | "comes" | "go" | "goes");
            let none = f.chunks.windows(3).any(|w| {
                one_of!(w[0].key, "out")
                    && one_of!(w[1].key, "of")
                    && (one_of!(w[2].key, "jars" | "lids") || matches!(w[2].item, Item::Amount(a) if a.is_jars()))
            });
            ahead || none
        }
        _ => false,
    };
    // `jars out in 5`.
    let soon = f.chunks.windows(2).any(|w| one_of!(w[0].key, "in" | "within" | "for") && matches!(w[1].item, Item::Amount(a) if a.seconds.is_some() || a.unit.is_none() && w[1].to == f.chunks.last().map_or(0, |c| c.to)));
    let lost = matches!(said, Statement::LostHeat(_));
    !odd && (!soon || lost)
        && !bare_vent
        && (sure || !voice(f.chunks).stranger || matches!(said, Statement::LostHeat(_)))
}

/// Whether a clause tells what was done, by somebody of the house.
pub(super) fn is_real(f: &Facts<'_>) -> bool {
    if f.unreal || f.negated || f.other_subject || f.when.is_some_and(|w| w.impossible) {
        return false;
    }
    if f.verb.is_none() && f.has(has::MODAL | has::NOT) {
        return false;
    }
    let order = f.asked_for
        && (f.verb.is_some_and(|(_, form)| form == Form::Base) || says!(f, "put" | "set"))
        && !says!(f, "add" | "log" | "note" | "record");
    if order {
        return false;
    }
    let ahead = f.when.is_some_and(|w| w.future);
    !(ahead && f.verb.is_none_or(|(_, form)| form != Form::Past))
}
