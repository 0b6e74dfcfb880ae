//! One clause: a recipe or timer, a correction, a setting, a question, or something told; in this order.

use super::{Reader, State, Step};
use crate::phrase::{
    asking,
    facts::{Facts, has},
    fates, mending, pantry,
    scan::{Chunk, Item},
    settings,
    talk::voice,
    timers,
    token::{one_of, says},
    words::{Form, Unit, Verb, Word},
};
use crate::{
    statement::Statement,
    vocabulary::{Kind, SettingKey, Subject},
};

impl<'t> Reader<'t, '_, '_> {
    /// `no`, `oops`, `sorry` by themselves before a comma may begin a correction.
    pub(super) fn filler_marker(&mut self, f: &Facts<'t>, state: &mut State<'t, '_>, at: usize) -> bool {
        if state.talk.elsewhere || !state.first || at > 2 {
            return false;
        }
        let rest = state.rest(state.clauses[at].0);
        match mending::correct(rest, true, f, &self.carry) {
            Some(said) if !state.quest || mending::is_strong(rest) => {
                self.out.push(said);
                self.whole.extend(rest.first().zip(rest.last()).map(|(a, b)| (a.from, b.to)));
                true
            }
            _ => false,
        }
    }

    /// Whether words stand in the sentence that head a statement of the whole of it.
    pub(super) fn leads(&self, chunks: &[Chunk]) -> bool {
        chunks.iter().any(|c| {
            matches!(c.item, Item::Verb(Verb::Remind, _))
                || one_of!(
                    c.key,
                    "timer"
                        | "timr"
                        | "timers"
                        | "alarm"
                        | "recipe"
                        | "recipes"
                        | "recipie"
                        | "recepie"
                        | "recipee"
                        | "quiet"
                        | "disturb"
                        | "silent"
                        | "timezone"
                        | "tz"
                        | "zone"
                        | "messages"
                        | "alerts"
                        | "notifications"
                        | "pings"
                        | "beeps"
                        | "reminders"
                        | "warn"
                        | "low"
                        | "let"
                        | "tell"
                        | "wake"
                        | "flag"
                )
        })
    }

    pub(super) fn clause(&mut self, facts: Facts<'t>, at: usize, state: &mut State<'t, '_>) -> Step {
        let (from, _) = state.clauses[at];
        let rest = state.rest(from);
        if state.told
            && let Some(step) = self.whole(rest, &facts, at, state)
        {
            return step;
        }
        if !(state.talk.elsewhere || state.talk.unreal || state.quest)
            && let Some(said) = facts
                .product
                .filter(|_| rest.iter().any(|c| one_of!(c.key, "takes" | "needs" | "uses" | "requires")))
                .and_then(|_| settings::takes_and_makes(&self.gather(rest), &self.carry))
        {
            self.out.push(said);
            return Step::End;
        }
        if !(state.talk.elsewhere || state.quest)
            && let Some(step) = self.intended(&facts, rest, at, state)
        {
            return step;
        }
        if !state.talk.elsewhere {
            if let Some(said) = mending::undo(&facts) {
                self.out.push(said);
                return Step::Next(1);
            }
            if let Some(said) = mending::correct(rest, state.first, &facts, &self.carry)
                .filter(|_| !state.quest || mending::is_strong(rest))
            {
                self.out.push(said);
                return Step::End;
            }
            let canner = if state.first && !state.quest { settings::described(&self.gather(rest)) } else { Vec::new() };
            if !canner.is_empty() {
                self.carry.kind = Some(Kind::Set);
                self.out.extend(canner);
                return Step::End;
            }
            // `usual: salsa, pints`
            let usual_jar = state
                .clauses
                .get(at + 1)
                .filter(|_| {
                    says!(&facts, "usual" | "default") && facts.jar().is_none()
                        || says!(&facts, "holds" | "fits" | "capacity") && facts.jar().is_some()
                })
                .map(|(from, to)| self.gather(&state.chunks[*from..*to]))
                .filter(|next| {
                    // `canner holds 7 quarts, 9 pints`
                    facts.jar().is_some()
                        && next.clean()
                        && next.amounts.iter().all(|a| a.jar.is_some())
                        && next.jars().is_some()
                        && next.verb.is_none()
                        && next.chunks.len() <= 3
                        || next.jar().is_some() && !next.has_quantity() && next.verb.is_none() && next.product.is_none()
                });
            let joins = usual_jar.is_some();
            let with_jar = usual_jar.map(|next| {
                let mut both = facts.clone();
                both.absorb(next);
                both
            });
            let said = with_jar.as_ref().unwrap_or(&facts);
            let set = settings::settings(said, said, &self.carry);
            let sheet =
                state.first && says!(&facts, "label" | "labels") && (set.is_empty() || settings::is_sheet(rest));
            if let Some(said) = sheet.then(|| settings::labels(&self.gather(rest), &self.carry)).flatten() {
                self.out.push(said);
                return Step::End;
            }
            // `keep it short, i'm in a meeting` is no setting.
            let aside = matches!(set.as_slice(), [Statement::Set(set)] if set.key == SettingKey::Answers)
                && state.clauses.len() > 1
                && !says!(&facts, "answers" | "reply" | "replies" | "react" | "please");
            if !set.is_empty() && !state.quest && !aside {
                self.carry.kind = Some(Kind::Set);
                let new: Vec<_> = set.into_iter().filter(|said| self.out.last() != Some(said)).collect();
                self.joined = new.is_empty();
                self.out.extend(new);
                return Step::Next(1 + usize::from(joins));
            }
        }
        if state.first
            && !state.talk.elsewhere
            && let Some(asked) = asking::tested(&facts, rest, state.quest, &self.carry)
        {
            if asked.known {
                self.leave_foods(rest, &self.gather(rest), &asked.said);
            }
            self.left.extend(asked.beside);
            self.out.push(asked.said);
            self.carry.kind = Some(Kind::Ask);
            return Step::End;
        }
        let last = at + 1 == state.clauses.len();
        let opens = asking::is_asking(facts.chunks, false)
            || state.first && asking::wants_file(&facts)
            || state.first
                && last
                && !facts.has_quantity()
                && is_short(&facts)
                && facts.chunks.first().is_some_and(|c| {
                    one_of!(c.key, "totals" | "total" | "stats" | "tally" | "log" | "chart" | "graph")
                });
        // `process for whole tomatoes in quarts`; `process for 85 minutes` is an order.
        let opens = opens
            || state.first
                && facts.chunks.first().is_some_and(|c| one_of!(c.key, "process" | "processing"))
                && facts.chunks.get(1).is_some_and(|c| one_of!(c.key, "for" | "time" | "times"))
                && !facts.has_quantity()
                && facts.clean();
        if opens
            || state.quest && (last || state.asked)
            || facts.chunks.first().is_some_and(|c| one_of!(c.key, "process" | "processing"))
                && says!(&facts, "time" | "times")
        {
            let noted = says!(&facts, "note" | "record" | "log") && facts.has(has::FIRST);
            let quest = state.quest && (last || state.asked) && !noted;
            // `time for crushed in quarts, boiling water?`
            let more =
                state.clauses.get(at + 1).map(|(from, to)| self.gather(&state.chunks[*from..*to])).filter(|next| {
                    let adds = asking::adds_to(&facts, next);
                    at + 2 == state.clauses.len()
                        && (adds || next.canner.is_some() || next.jar().is_some() || next.pack.is_some())
                        && (adds || next.clean() && next.verb.is_none())
                        && !next.has_quantity()
                        && next.product.is_none()
                        && next.crop.is_none()
                });
            let used = 1 + usize::from(more.is_some());
            let whole = more.map(|next| {
                let mut both = facts.clone();
                both.absorb(next);
                both
            });
            let said = whole.as_ref().unwrap_or(&facts);
            // `what's the plan for sunday` is as often asked of the family.
            let plain = |asked: &Statement| {
                !matches!(asked, Statement::Ask(asked) if asked.about == Subject::Day)
                    || !says!(&facts, "plan" | "plans")
                    || if facts.any_token(|k| one_of!(k, "for" | "canning" | "today" | "todays" | "day")) {
                        state.quest || !facts.any_token(|k| one_of!(k, "for"))
                    } else {
                        !(self.carry.context.lexicon.planned.is_empty()
                            && self.carry.context.lexicon.batches.is_empty())
                    }
            };
            let asked = asking::ask(said, quest || opens || used == 2, is_short(&facts), &self.carry).filter(plain);
            if let Some(said) = asked {
                let end = state.clauses.get(at + used - 1).map_or(state.chunks.len(), |(_, to)| *to);
                self.leave_foods(&state.chunks[from..end], &facts, &said);
                let more = self.also_asked(&said, &facts, at + used, state);
                self.out.push(said);
                let used = used + more.len();
                for other in more {
                    self.out.push(other);
                }
                self.share_jar();
                self.carry.kind = Some(Kind::Ask);
                return Step::Next(used);
            }
            // `i picked 5 lb? thanks!` tells, though unsure.
            let told = quest
                && !state.asked
                && !opens
                && facts.chunks.first().is_some_and(|c| one_of!(c.key, "i"))
                && facts.verb.is_some_and(|(_, form)| form == Form::Past)
                && facts.mass().is_some()
                && facts.clean();
            let inquires = facts.chunks.first().is_some_and(|c| c.word() == Some(Word::Question)) && !noted;
            if quest && !told || inquires {
                return if state.asked { Step::End } else { Step::Next(1) };
            }
        }
        if !(state.talk.elsewhere || state.talk.unreal)
            && let Some(said) = pantry::lets_begin(&facts, &mut self.carry)
        {
            self.carry.kind = Some(Kind::Began);
            self.out.push(said);
            return Step::Next(1);
        }
        if !(state.talk.elsewhere || state.talk.unreal || state.quest)
            && let Some(said) = fates::fate(&facts, &self.carry, state.chunks)
        {
            return self.stage(said, &facts);
        }
        let voice = state.hear(&facts);
        if state.talk.elsewhere
            || state.talk.unreal
            || voice.is_silent()
            || voice.order && is_instruction(&facts, state, at)
        {
            return Step::Next(1);
        }
        let read = self.out.len();
        let step = self.told(facts, at, state);
        if self.out.len() == read && state.clauses.len() == 1 {
            let facts = self.gather(&state.chunks[from..]);
            let happened = facts.any_verb(&[Verb::Fall, Verb::Stop, Verb::Lose, Verb::Turn, Verb::Crack, Verb::Throw]);
            if is_short(&facts) && !happened && facts.amounts.iter().all(|a| a.uncounted) && !facts.has(has::AUX) {
                let asked = asking::ask(&facts, false, true, &self.carry);
                if asked.is_some() {
                    state.pending.clear();
                }
                self.out.extend(asked);
            }
        }
        step
    }

    /// Recipes, timers, quiet hours: read from the rest of the sentence at once, where their word stands.
    pub(super) fn whole(
        &mut self,
        rest: &'t [Chunk],
        facts: &Facts<'t>,
        at: usize,
        state: &mut State<'t, '_>,
    ) -> Option<Step> {
        let here = self.leads(facts.chunks);
        if !here && at > 0 {
            return None;
        }
        let all = self.gather(rest);
        if let Some(said) = settings::recipe(&all).filter(|said| (!state.quest || !state.asked) && is_named(said)) {
            self.out.push(said);
            return Some(Step::End);
        }
        if let Some(said) = settings::sentence_settings(&all).filter(|_| here) {
            self.out.push(said);
            self.carry.kind = Some(Kind::Set);
            return Some(Step::End);
        }
        let low =
            settings::settings(&Facts { text: self.text, tokens: self.tokens, ..Facts::default() }, &all, &self.carry);
        if !low.is_empty() && here {
            self.out.extend(low);
            return Some(Step::End);
        }
        if !here || self.out.len() > 200 {
            return None;
        }
        let asks = state.quest
            && asking::is_asking(facts.chunks, false)
            && !says!(&facts, "set" | "start" | "put" | "cancel" | "stop" | "remind");
        let said = timers::timer(&all).filter(|_| !asks && !tells_of_timer(all.chunks))?;
        self.out.push(said);
        self.carry.kind = Some(Kind::TimerStart);
        state.told = false;
        Some(Step::Next(1))
    }
}

/// An order tells somebody what to do unless it is kept as short as a note: `thaw 4 bags`.
pub(super) fn is_instruction(f: &Facts<'_>, state: &State<'_, '_>, at: usize) -> bool {
    let first = f.verb.map(|(verb, _)| verb);
    let noted = matches!(
        first,
        Some(
            Verb::Thaw
                | Verb::Freeze
                | Verb::Begin
                | Verb::Add
                | Verb::Eat
                | Verb::Toss
                | Verb::Give
                | Verb::Fill
                | Verb::Drain
                | Verb::Use
                | Verb::Dry
                | Verb::Make
                | Verb::Reprocess
                | Verb::Count
        )
    ) && f.amounts.iter().any(|a| {
        a.mass.is_some()
            || a.is_jars()
            || a.is(Unit::Bag)
            || a.is(Unit::Tray)
            || a.unit.is_none()
            || a.volume().is_some()
    }) | matches!(first, Some(Verb::Begin | Verb::Make | Verb::Reprocess))
        && f.clean()
        && !f.each
        && !f.has(has::EACH | has::YOU | has::PLEASE | has::KIN);
    let ahead = f.chunks.windows(2).any(|w| one_of!(w[0].key, "for") && matches!(w[1].item, Item::When(_)))
        || says!(f, "tonight" | "tomorrow" | "later" | "overnight" | "until" | "before" | "after" | "when");
    let others = state
        .clauses
        .iter()
        .enumerate()
        .skip(at.saturating_sub(4))
        .take(9)
        .any(|(n, (from, to))| n != at && state.chunks.get(*from..*to).is_some_and(|chunks| voice(chunks).order));
    let depth = f.verb_is(Verb::Fill) && f.amounts.iter().any(|a| a.is(Unit::Far));
    f.chunks.len() > 1 && (!noted || ahead || others || depth)
}

/// `the recipe says`, `the recipe on the web`, `the recipe from my sister` name none.
pub(super) fn is_named(said: &Statement) -> bool {
    let name = match said {
        Statement::Recipe(recipe) => recipe.name.as_str(),
        _ => return true,
    };
    !matches!(
        name.split(' ').next(),
        Some(
            "says"
                | "said"
                | "say"
                | "calls"
                | "called"
                | "on"
                | "from"
                | "in"
                | "wants"
                | "needs"
                | "asks"
                | "by"
                | "that"
                | "is"
                | "was"
                | "has"
                | "had"
                | "online"
                | "book"
                | "i"
                | "we"
                | "she"
                | "he"
                | "they"
                | "you"
                | "with"
                | "at"
                | "uses"
                | "gives"
                | "went"
                | "tells"
        )
    )
}

/// A timer spoken about: `oven timer says 10 minutes`, `the timer on the coffee machine is set`, `set the alarm for 6`.
pub(super) fn tells_of_timer(chunks: &[Chunk]) -> bool {
    let Some(at) = chunks.iter().position(|c| one_of!(c.key, "timer" | "timr" | "timers" | "alarm")) else {
        return false;
    };
    let after = chunks.get(at + 1..).unwrap_or_default();
    let said = after.first().is_some_and(|c| c.word() == Some(Word::Hearsay));
    let is_set = after
        .windows(2)
        .any(|w| matches!(w[0].item, Item::Word(Word::Is | Word::Aux)) && one_of!(w[1].key, "set" | "off" | "broken"))
        && after.iter().any(|c| matches!(c.item, Item::When(_) | Item::Word(Word::Alien)));
    let clock = one_of!(chunks[at].key, "alarm")
        && !chunks.iter().any(|c| matches!(c.item, Item::Amount(a) if a.seconds.is_some()))
        && !chunks.iter().any(|c| matches!(c.item, Item::Verb(Verb::Cancel | Verb::Undo | Verb::Turn, _)));
    said || is_set || clock
}

/// Few words, none of them foreign: `pantry`, `time left`, `totals this week`.
pub(super) fn is_short(f: &Facts<'_>) -> bool {
    f.chunks.iter().filter(|c| !matches!(c.item, Item::Word(Word::Filler | Word::Is) | Item::Mark(_))).count() <= 5
}
