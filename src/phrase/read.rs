//! A message into statements: sentences, clauses, and what carries over from one to the next.

use super::{
    Context, asking, batch,
    build::{self, Carry},
    drying,
    facts::{Facts, gather, has},
    freezer, harvest, kinds,
    measure::Amount,
    mending, pantry, product,
    scan::{Chunk, Item, scan},
    seals, settings,
    spoken::foods_beside,
    supplies,
    talk::{Talk, Voice, talk, voice},
    timers,
    token::{Mark, Token, one_of, says},
    words::{Form, Unit, Verb, Word},
};
use crate::{
    quantity::Pressure,
    statement::{AcidAdded, Clarify, Counted, Statement, When},
    vocabulary::{Kind, Missing, Subject},
};

/// Reads the tokens of a message.
pub(super) fn statements(text: &str, tokens: &[Token], context: &Context<'_>, unread: &mut String) -> Vec<Statement> {
    let chunks = scan(text, tokens, context);
    let carry = Carry { context, kind: None, unit: None, jar: None, when: None };
    let mut reader =
        Reader { text, tokens, carry, out: Vec::new(), left: Vec::new(), whole: Vec::new(), joined: false, run: 0 };
    let mut from = 0;
    while from < chunks.len() {
        let end = chunks[from..].iter().position(ends_sentence).map_or(chunks.len(), |at| from + at);
        // The question mark may stand behind an exclamation or be doubled.
        let next = chunks[end..].iter().position(|c| !ends_sentence(c)).map_or(chunks.len(), |at| end + at);
        let quest = chunks[end..next].iter().any(batch::is_quest);
        if end > from {
            reader.sentence(&chunks[from..end], quest);
        }
        from = next;
    }
    if !reader.out.is_empty() {
        let mut left = std::mem::take(&mut reader.left);
        left_words(text, tokens, &chunks, &reader, &mut left);
        left.sort_unstable();
        let mut read_to = 0;
        for (from, to) in left {
            if to > read_to {
                note_unread(text, tokens, (from.max(read_to), to), unread);
                read_to = to;
            }
        }
    }
    reader.out
}

/// Words that no table knows, or that are none of the trade's, unless a statement took them for a name.
fn left_words(text: &str, tokens: &[Token], chunks: &[Chunk], reader: &Reader<'_, '_, '_>, left: &mut Vec<(u32, u32)>) {
    let mut names: Option<String> = None;
    let taken =
        reader.out.iter().any(|said| matches!(said.kind(), Kind::Gave | Kind::Ate | Kind::Opened | Kind::Thawed));
    for (at, chunk) in chunks
        .iter()
        .enumerate()
        .filter(|(_, c)| matches!(c.item, Item::Unknown | Item::Word(Word::Common | Word::Alien)))
    {
        // Whom it went to and what it was for.
        let before = |n: usize| at.checked_sub(n).and_then(|at| chunks.get(at)).map_or(0, |c| c.key);
        if taken
            && (one_of!(before(1), "to" | "for" | "on" | "in" | "with")
                || one_of!(before(1), "a" | "the" | "some" | "our" | "my")
                    && one_of!(before(2), "to" | "for" | "on" | "in" | "with"))
        {
            continue;
        }
        let word = product::said(text, tokens, chunk.from as usize, chunk.to as usize).unwrap_or_default();
        if reader.whole.iter().any(|(from, to)| (*from..*to).contains(&chunk.from))
            || one_of!(
                chunk.key,
                "broke"
                    | "stocked"
                    | "restocked"
                    | "fed"
                    | "shattered"
                    | "dinner"
                    | "lunch"
                    | "supper"
                    | "save"
                    | "store"
                    | "flash"
                    | "home"
            )
        {
            continue;
        }
        let names = names.get_or_insert_with(|| names_of(&reader.out));
        if !word.is_empty() && !names.contains(&word) {
            left.push((chunk.from, chunk.to));
        }
    }
}

/// Kinds whose words all belong to them.
const fn is_whole(kind: Kind) -> bool {
    matches!(
        kind,
        Kind::Set | Kind::Undo | Kind::Correct | Kind::Recipe | Kind::TimerStart | Kind::TimerStop | Kind::Ask
    )
}

/// All the words that statements hold.
fn names_of(out: &[Statement]) -> String {
    let one = |said: &Statement| serde_json::to_string(said).unwrap_or_default();
    out.iter()
        .map(|said| match said {
            Statement::Clarify(Clarify { partial: Some(partial), .. }) => one(partial),
            said => one(said),
        })
        .collect()
}

fn note_unread(text: &str, tokens: &[Token], (from, to): (u32, u32), unread: &mut String) {
    let words = tokens
        .get(from as usize)
        .zip(tokens.get((to as usize).saturating_sub(1)))
        .and_then(|(a, b)| text.get(a.from as usize..b.to as usize));
    if let Some(words) = words {
        if !unread.is_empty() {
            unread.push(' ');
        }
        unread.push_str(words.trim());
    }
}

fn ends_sentence(chunk: &Chunk) -> bool {
    matches!(chunk.item, Item::Mark(Mark::Dot | Mark::Bang | Mark::Quest | Mark::Semi | Mark::Line))
}

fn splits(chunks: &[Chunk], at: usize) -> bool {
    let chunk = &chunks[at];
    match chunk.item {
        Item::Mark(Mark::Comma | Mark::Dash | Mark::Other | Mark::And) => true,
        // `w/ 7 lb`, `b/c`: one letter and its slash are a word.
        Item::Mark(Mark::Slash) => {
            at > 0
                && !matches!(
                    chunks[at - 1].item,
                    Item::Word(Word::Link | Word::Question | Word::Unit(_)) | Item::Unknown
                )
                && chunks.get(at + 1).is_some_and(|c| matches!(c.item, Item::Amount(_) | Item::Verb(..)))
        }
        // `dryer: 4 trays`, `new batch: thick sauce` name where it belongs; `freezer + 2 bags` adds to it.
        Item::Mark(Mark::Colon | Mark::Plus) => !is_headed(chunks.get(at.saturating_sub(5)..at).unwrap_or_default()),
        // `all but one` is one thing.
        Item::Word(Word::And) => {
            !(one_of!(chunk.key, "but")
                && at > 0
                && (one_of!(chunks[at - 1].key, "all" | "every")
                    || matches!(chunks[at - 1].item, Item::Verb(Verb::Seal, _))
                        && chunks[..at].iter().any(|c| one_of!(c.key, "all" | "every"))
                        && chunks.len() <= at + 3))
        }
        Item::Word(Word::Filler) => {
            one_of!(chunk.key, "because" | "bc" | "cos" | "cuz" | "coz" | "while" | "whilst" | "although" | "though")
        }
        Item::Word(Word::Link) => {
            one_of!(chunk.key, "so")
                && !chunks.get(at + 1).is_some_and(|next| one_of!(next.key, "far" | "many" | "much"))
        }
        _ => false,
    }
}

/// Clauses of a sentence: at commas, joints, and before a further verb with its own amount.
fn clauses(chunks: &[Chunk]) -> Vec<(usize, usize)> {
    let mut out = Vec::new();
    let mut from = 0;
    let (mut verb, mut amount) = (false, false);
    for at in 0..chunks.len() {
        let heads = matches!(chunks[at].item, Item::Verb(v, Form::Past) if is_ledger(v));
        let placed = matches!(
            chunks[at].item,
            Item::Verb(
                Verb::Put | Verb::Bag | Verb::Dry | Verb::Throw | Verb::Send | Verb::Make | Verb::Grind | Verb::Bring,
                Form::Past
            )
        ) && matches!(chunks.get(at + 1).map(|c| c.item), Some(Item::Amount(_)));
        let heads = heads || placed;
        let further = heads
            && verb
            && amount
            && chunks.get(at + 1..).is_some_and(|rest| rest.iter().take(4).any(|c| matches!(c.item, Item::Amount(_))))
            || is_seal_count(chunks, at);
        let listed = !further && begins_listed(chunks, from, at);
        if splits(chunks, at) || further || listed {
            // `yesterday picked 12 lb today picked 8 lb`: the day belongs to what follows.
            let dated = further
                && at > from + 2
                && matches!(chunks[at - 1].item, Item::When(_))
                && matches!(chunks[from].item, Item::When(_));
            let begin = at - usize::from(dated);
            if begin > from {
                out.push((from, begin));
            }
            from = if further || listed { begin } else { at + 1 };
            if listed {
                amount = true;
                continue;
            }
            (verb, amount) = (further, false);
            continue;
        }
        verb |= heads;
        amount |= verb && matches!(chunks[at].item, Item::Amount(a) if !a.uncounted);
    }
    if chunks.len() > from {
        out.push((from, chunks.len()));
    }
    out
}

/// `14 lb tomatoes 8 lb peppers`: an amount behind the thing that the amount before it counts, with a thing of its own.
fn begins_listed(chunks: &[Chunk], from: usize, at: usize) -> bool {
    let class = |chunk: &Chunk| match chunk.item {
        Item::Amount(a) if a.uncounted => None,
        Item::Amount(a) if a.mass.is_some() && !a.is(Unit::Bag) => Some(0),
        Item::Amount(a) if a.jar.is_some() => Some(1),
        Item::Amount(a) if a.is(Unit::Tray) => Some(2),
        _ => None,
    };
    let Some(this) = class(&chunks[at]) else { return false };
    let thing = |c: &Chunk| {
        matches!(c.item, Item::Crop(_) | Item::Variety(..) | Item::Product(_))
            || one_of!(c.key, "skins" | "halves" | "slices" | "rounds" | "rings" | "strips")
    };
    let day = |c: &Chunk| matches!(c.item, Item::When(_));
    let look = at.saturating_sub(8).max(from);
    let Some(before) = (look..at).rev().find(|n| class(&chunks[*n]).is_some()) else { return false };
    let between = chunks.get(before + 1..at).unwrap_or_default();
    let behind = chunks.get(at + 1..).unwrap_or_default();
    let behind = &behind[..behind.len().min(4)];
    let behind = &behind[..behind.iter().position(|c| class(c).is_some()).unwrap_or(behind.len())];
    let loose = |c: &Chunk| {
        c.word() == Some(Word::Not)
            || matches!(c.item, Item::Verb(Verb::Take | Verb::Make | Verb::Yield | Verb::Use, _))
            || one_of!(c.key, "for" | "or" | "per" | "than" | "to")
    };
    class(&chunks[before]) == Some(this)
        && !between.iter().any(loose)
        && (between.iter().any(thing) && behind.iter().any(thing) || between.iter().any(day) && behind.iter().any(day))
}

/// `8 sealed 1 failed`: the second number begins a clause.
fn is_seal_count(chunks: &[Chunk], at: usize) -> bool {
    matches!(chunks[at].item, Item::Amount(_))
        && at > 0
        && matches!(chunks[at - 1].item, Item::Verb(Verb::Seal, Form::Past))
        && chunks.get(at + 1..).is_some_and(|rest| {
            rest.iter().take(3).any(|c| matches!(c.item, Item::Verb(Verb::Fail, _)) || c.word() == Some(Word::Not))
        })
}

/// Whether what stands before a colon is a heading: a few words that name what follows and no amount.
fn is_headed(before: &[Chunk]) -> bool {
    let start = before
        .iter()
        .rposition(|c| matches!(c.item, Item::Mark(Mark::Comma) | Item::Word(Word::And)))
        .map_or(0, |at| at + 1);
    let before = before.get(start..).unwrap_or_default();
    let noun = |c: &Chunk| {
        matches!(c.item, Item::Verb(..) | Item::Supply(_) | Item::Place)
            || one_of!(c.key, "heat" | "unsealed" | "low" | "pressure" | "steam" | "duds" | "usual" | "yield")
    };
    before.iter().any(names_head)
        || before.iter().any(noun)
            && !before.iter().any(|c| {
                matches!(c.item, Item::Amount(a) if !a.uncounted)
                    || matches!(c.item, Item::Word(Word::Kin | Word::Folk))
            })
}

/// Words that head what stands behind a colon.
fn names_head(chunk: &Chunk) -> bool {
    matches!(chunk.item, Item::Store(_) | Item::Place | Item::Verb(Verb::Pick | Verb::Count, Form::Base))
        || one_of!(
            chunk.key,
            "compost"
                | "check"
                | "dehydrator"
                | "dryer"
                | "drier"
                | "dehydratr"
                | "batch"
                | "canner"
                | "altitude"
                | "alt"
                | "elevation"
                | "units"
                | "usual"
                | "room"
                | "bags"
                | "bag"
                | "capacity"
                | "timer"
        )
}

const fn is_ledger(verb: Verb) -> bool {
    matches!(
        verb,
        Verb::Pick
            | Verb::Freeze
            | Verb::Thaw
            | Verb::Eat
            | Verb::Give
            | Verb::Toss
            | Verb::Drain
            | Verb::Fill
            | Verb::Can
            | Verb::Open
            | Verb::Buy
            | Verb::Use
    )
}

struct Reader<'t, 'c, 'l> {
    text: &'t str,
    tokens: &'t [Token],
    carry: Carry<'c, 'l>,
    out: Vec<Statement>,
    /// Token ranges that gave nothing.
    left: Vec<(u32, u32)>,
    /// Token ranges that a setting, a question or a correction took as a whole.
    whole: Vec<(u32, u32)>,
    /// The last clause only added to a statement that was there.
    joined: bool,
    /// Where the statements with the verb that may carry over begin.
    run: usize,
}

impl<'t> Reader<'t, '_, '_> {
    fn gather(&self, chunks: &'t [Chunk]) -> Facts<'t> {
        gather(self.text, self.tokens, chunks)
    }

    fn sentence(&mut self, chunks: &'t [Chunk], quest: bool) {
        let talk = talk(chunks);
        let clauses = clauses(chunks);
        let asked = quest && asking::is_asking(chunks, false);
        self.carry.when = None;
        self.carry.kind = None;
        let mut state = State {
            chunks,
            clauses: &clauses,
            talk,
            quest,
            asked,
            first: true,
            pending: Vec::new(),
            ahead: None,
            told: self.leads(chunks),
            foreign: false,
        };
        let mut at = 0;
        while at < clauses.len() {
            let (from, to) = clauses[at];
            let facts = match state.ahead.take() {
                Some((n, facts)) if n == at => facts,
                _ => self.gather(&chunks[from..to]),
            };
            if is_filler(&facts) {
                if self.filler_marker(&facts, &mut state, at) {
                    return;
                }
                at += 1;
                continue;
            }
            let read = self.out.len();
            let held = state.pending.len();
            let (next, ended) = match self.clause(facts, at, &mut state) {
                Step::Next(n) => (at + n.max(1), false),
                Step::End => (clauses.len(), true),
                Step::Held => {
                    at += 1;
                    state.first = false;
                    continue;
                }
            };
            state.first = false;
            let end = clauses.get(next - 1).filter(|_| ended).map_or(to, |(_, end)| *end);
            let said = chunks.get(from..end).is_some_and(|clause| !clause.iter().all(is_chatter));
            if self.out.len() == read && state.pending.len() == held && !self.joined && said {
                self.left.push((chunks[from].from, chunks[end - 1].to));
            }
            self.joined = false;
            if self.out.len() > read && self.out.last().is_some_and(|said| is_whole(said.kind())) {
                let end = clauses.get(next - 1).map_or(to, |(_, end)| *end);
                self.whole.push((chunks[from].from, chunks[end - 1].to));
            }
            at = next;
        }
        for pending in &state.pending {
            self.leave(pending);
        }
    }

    /// Foods beside the product that a time is asked for, or that goes into jars.
    fn leave_foods(&mut self, chunks: &[Chunk], f: &Facts<'_>, said: &Statement) {
        let product = match said {
            Statement::Ask(ask) if matches!(ask.about, Subject::Process | Subject::Acid) => ask.product.as_ref(),
            Statement::Began(began) => began.product.as_ref(),
            Statement::Filled(filled) => filled.product.as_ref(),
            Statement::PutUp(jarred) => jarred.product.as_ref(),
            _ => return,
        };
        self.left.extend(foods_beside(chunks, f, product));
    }

    /// A clause that nothing took.
    fn leave(&mut self, f: &Facts<'_>) {
        let only_when = f.when.is_some() && f.amounts.is_empty() && f.unknown + f.common == 0;
        if let (Some(first), Some(last)) = (f.chunks.first(), f.chunks.last().filter(|_| !only_when)) {
            self.left.push((first.from, last.to));
        }
    }

    /// `no`, `oops`, `sorry` by themselves before a comma may begin a correction.
    fn filler_marker(&mut self, f: &Facts<'t>, state: &mut State<'t, '_>, at: usize) -> bool {
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
    fn leads(&self, chunks: &[Chunk]) -> bool {
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
                        | "warn"
                        | "low"
                        | "let"
                        | "tell"
                        | "wake"
                        | "flag"
                )
        })
    }

    fn clause(&mut self, facts: Facts<'t>, at: usize, state: &mut State<'t, '_>) -> Step {
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
            // `usual: salsa, pints`
            let usual_jar = state
                .clauses
                .get(at + 1)
                .filter(|_| says!(&facts, "usual" | "default") && facts.jar().is_none())
                .map(|(from, to)| self.gather(&state.chunks[*from..*to]))
                .filter(|next| {
                    next.jar().is_some() && !next.has_quantity() && next.verb.is_none() && next.product.is_none()
                });
            let joins = usual_jar.is_some();
            let with_jar = usual_jar.map(|next| {
                let mut both = facts.clone();
                both.absorb(next);
                both
            });
            let said = with_jar.as_ref().unwrap_or(&facts);
            let set = settings::settings(said, said, &self.carry);
            if !set.is_empty() && !state.quest {
                self.carry.kind = Some(Kind::Set);
                let new: Vec<_> = set.into_iter().filter(|said| self.out.last() != Some(said)).collect();
                self.joined = new.is_empty();
                self.out.extend(new);
                return Step::Next(1 + usize::from(joins));
            }
        }
        let last = at + 1 == state.clauses.len();
        let opens = asking::is_asking(facts.chunks, false)
            || state.first
                && last
                && !facts.has_quantity()
                && is_short(&facts)
                && facts.chunks.first().is_some_and(|c| {
                    one_of!(c.key, "totals" | "total" | "stats" | "tally" | "log" | "chart" | "graph")
                });
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
                    at + 2 == state.clauses.len()
                        && (next.canner.is_some() || next.jar().is_some() || next.pack.is_some())
                        && next.clean()
                        && next.verb.is_none()
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
            if let Some(said) = asking::ask(said, quest || opens || used == 2, is_short(&facts), &self.carry) {
                let end = state.clauses.get(at + used - 1).map_or(state.chunks.len(), |(_, to)| *to);
                self.leave_foods(&state.chunks[from..end], &facts, &said);
                self.out.push(said);
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
    fn whole(&mut self, rest: &'t [Chunk], facts: &Facts<'t>, at: usize, state: &mut State<'t, '_>) -> Option<Step> {
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

    /// A statement of something done, with the clauses that only add to it.
    fn told(&mut self, mut facts: Facts<'t>, at: usize, state: &mut State<'t, '_>) -> Step {
        if let Some(said) = batch::stage(&facts, &self.carry)
            .filter(|_| !facts.negated || facts.verb_is(Verb::Boil))
            .filter(|said| is_here(said, &facts, state))
        {
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
            && facts.has(has::JARS | has::DUD | has::UNSEALED)
            && facts.dest.is_none();
        if !gone
            && !matches!(kind, Kind::Froze | Kind::Counted | Kind::Bought)
            && let Some(said) = seals::seals(&facts, &self.carry).filter(|_| !seals_other(facts.chunks))
        {
            return self.stage(said, &facts);
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
            self.out.push(said);
            self.trailing_acid(kind, &facts);
        } else if self.carry.kind == Some(kind) && !facts.has_quantity() {
            // `bagged and frozen`: the same once more.
            self.joined = true;
        }
        Step::Next(used)
    }

    /// What was said before the verb: part of this item, or items of its own (`tomatoes 12 lb, peppers 3 lb picked`).
    fn take_pending(&mut self, facts: &mut Facts<'t>, kind: Kind, state: &mut State<'t, '_>) -> Vec<Facts<'t>> {
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

    fn build(&mut self, kind: Kind, f: &Facts<'_>, elliptic: bool) -> Option<Statement> {
        // Less than nothing was never frozen or picked: how much is asked for.
        if f.amounts.iter().any(|a| a.number.as_f64() < 0.0) {
            return blank(kind).map(|partial| build::clarify((kind, partial), Missing::Amount, None));
        }
        let before = self.carry.when;
        if elliptic && f.when.is_none() && before.is_none() && self.carry.kind.is_some() {
            self.carry.when = self.out.last().and_then(Statement::on);
        }
        let said = build(kind, f, &mut self.carry);
        self.carry.when = before;
        said
    }

    fn trailing_acid(&mut self, kind: Kind, f: &Facts<'_>) {
        if kind == Kind::Filled && f.acid().is_some() && f.has(has::IN) {
            self.out.push(Statement::AcidAdded(AcidAdded { supply: f.acid(), ..AcidAdded::default() }));
        }
    }

    /// A clause without a verb takes the verb before it, or waits for the one behind.
    fn carried(&mut self, facts: Facts<'t>, _at: usize, state: &mut State<'t, '_>) -> Step {
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
    fn with_product(&self, said: Statement) -> Statement {
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
    fn complete_before(&mut self, kind: Kind, said: &Statement) {
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

    /// Takes in the clauses that only add to this one; says how many were used.
    fn absorb(&mut self, facts: &mut Facts<'t>, kind: Kind, at: usize, state: &mut State<'t, '_>) -> usize {
        let mut used = 1;
        let mut kept = 1;
        let mut skipped = Vec::new();
        while let Some((from, to)) = state.clauses.get(at + used).copied() {
            let mut other = match state.ahead.take() {
                Some((n, facts)) if n == at + used => facts,
                _ => self.gather(&state.chunks[from..to]),
            };
            let joint = state
                .chunks
                .get(from.wrapping_sub(1))
                .is_some_and(|c| c.word() == Some(Word::And) || c.is_mark(Mark::And) || c.is_mark(Mark::Plus));
            if is_filler(&other) {
                used += 1;
                continue;
            }
            let head = kinds::kind_of(&other);
            let same = head == Some(kind) && !facts.has_quantity() && other.has_quantity();
            if other.chunks.iter().take(2).any(|c| c.word() == Some(Word::Question)) {
                state.ahead = Some((at + used, other));
                break;
            }
            if asking::is_asking(other.chunks, false)
                && !(other.has_quantity()
                    || other.chunks.first().is_some_and(|c| one_of!(c.key, "were" | "are" | "is" | "was")))
            {
                state.ahead = Some((at + used, other));
                break;
            }
            if !same
                && (head.is_some()
                    || batch::stage(&other, &self.carry).is_some()
                    || seals::seals(&other, &self.carry).is_some() && kind != Kind::Filled)
            {
                state.ahead = Some((at + used, other));
                break;
            }
            // `and they are quartered`
            let prepared = other.prep.is_some() && !other.has_quantity();
            let remark = !prepared
                && (other.has(has::AUX) || other.verb_is(Verb::Make))
                && other.chunks.first().is_some_and(|c| one_of!(c.key, "that" | "it" | "which" | "they" | "those"))
                || other.has_quantity()
                    && other.has(has::IT)
                    && facts.mass().is_some()
                    && !matches!(kind, Kind::Froze | Kind::Thawed);
            let foreign = remark
                || other.verb.is_some() && !same && !weak_tail(&other)
                || other.has(has::MODAL | has::NOT)
                || other.bad_object
                || other.alien > 0
                || other.unknown + other.common > 1;
            // Jars are nothing that was picked or drained before.
            if matches!(kind, Kind::Picked | Kind::Froze | Kind::Drained)
                && facts.mass().is_some()
                && other.jars().is_some_and(|a| a.jar.is_some())
                && !matches!(kind, Kind::Drained)
            {
                break;
            }
            if foreign || !other.has_slots() {
                if used + 1 - kept > 2 {
                    break;
                }
                skipped.push((state.chunks[from].from, state.chunks[to - 1].to));
                used += 1;
                continue;
            }
            if starts_item(facts, &other, kind, joint) || self.leads(other.chunks) || settings_follow(&other) {
                state.ahead = Some((at + used, other));
                break;
            }
            if !matches!(
                kind,
                Kind::Began
                    | Kind::Filled
                    | Kind::PutUp
                    | Kind::Opened
                    | Kind::Ate
                    | Kind::Gave
                    | Kind::Tossed
                    | Kind::Counted
            ) {
                other.product = None;
            }
            facts.absorb(other);
            used += 1;
            kept = used;
            self.left.append(&mut skipped);
        }
        kept
    }

    /// `weight's jiggling, 15 pounds`, `gone into the fridge, one jar`: a number that belongs to the stage before.
    fn adds_to_stage(&mut self, f: &Facts<'_>) -> Option<Step> {
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

    fn stage(&mut self, said: Statement, f: &Facts<'_>) -> Step {
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

enum Step {
    Next(usize),
    /// Kept for what follows.
    Held,
    End,
}

struct State<'t, 's> {
    chunks: &'t [Chunk],
    clauses: &'s [(usize, usize)],
    talk: Talk,
    quest: bool,
    /// The sentence begins as a question.
    asked: bool,
    /// Nothing but politeness so far.
    first: bool,
    pending: Vec<Facts<'t>>,
    /// Facts of a clause that was looked at ahead, by its number.
    ahead: Option<(usize, Facts<'t>)>,
    told: bool,
    /// Somebody else's deeds are being told.
    foreign: bool,
}

/// How far ahead of a clause anything looks that reads more than the clause, in chunks: what keeps time linear.
const AHEAD: usize = 60;

impl<'t> State<'t, '_> {
    /// The voice of a clause; one that goes on with somebody else's deeds stays theirs.
    fn hear(&mut self, facts: &Facts<'_>) -> Voice {
        let mut voice = voice(facts.chunks);
        let goes_on = !voice.subject && !voice.own && !facts.has(has::FIRST) && facts.verb.is_some();
        let to_them = facts.verb_is(Verb::Give) && says!(&facts, "him" | "her" | "them");
        if goes_on {
            voice.foreign |= self.foreign && !to_them;
        } else {
            self.foreign = voice.foreign || voice.others;
        }
        voice
    }

    /// The sentence from here on, as far as anything looks ahead.
    fn rest(&self, from: usize) -> &'t [Chunk] {
        let to = self.chunks.len().min(from + AHEAD);
        self.chunks.get(from..to).unwrap_or_default()
    }
}

/// `sealed bid of 200`, `one sealed joke`: the seal is a quality of something else.
fn seals_other(chunks: &[Chunk]) -> bool {
    chunks
        .windows(2)
        .any(|w| one_of!(w[0].key, "sealed") && matches!(w[1].item, Item::Word(Word::Common | Word::Alien)))
        || chunks
            .windows(3)
            .any(|w| one_of!(w[0].key, "sealed") && w[1].item == Item::Unknown && one_of!(w[2].key, "of" | "for"))
}

/// Whether a stage is told of the kitchen: its few words leave no room for another place or thing.
fn is_here(said: &Statement, f: &Facts<'_>, state: &State<'_, '_>) -> bool {
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

/// An order tells somebody what to do unless it is kept as short as a note: `thaw 4 bags`.
fn is_instruction(f: &Facts<'_>, state: &State<'_, '_>, at: usize) -> bool {
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

/// Words that say nothing by themselves: `all good`, `very nice`.
fn is_chatter(chunk: &Chunk) -> bool {
    matches!(
        chunk.item,
        Item::Word(
            Word::Filler
                | Word::Quality
                | Word::Link
                | Word::And
                | Word::Is
                | Word::Aux
                | Word::First
                | Word::You
                | Word::Kin
                | Word::DayPart(_)
        ) | Item::Mark(_)
    ) || one_of!(chunk.key, "log" | "entry" | "harvest")
}

fn is_filler(f: &Facts<'_>) -> bool {
    let asks = f.chunks.len() == 1 && one_of!(f.chunks[0].key, "next");
    !asks
        && f.chunks.iter().all(|c| {
            matches!(
                c.item,
                Item::Word(Word::Filler | Word::And | Word::Kin | Word::You | Word::DayPart(_)) | Item::Mark(_)
            ) || matches!(c.item, Item::Word(Word::Link))
                || c.word() == Some(Word::Not) && f.chunks.len() <= 2
        })
}

/// A clause like `weighing` or `went` that hangs on the one before.
fn weak_tail(f: &Facts<'_>) -> bool {
    f.verb.is_some_and(|(verb, _)| {
        matches!(
            verb,
            Verb::Get
                | Verb::Weigh
                | Verb::Go
                | Verb::Do
                | Verb::Bag
                | Verb::Cut
                | Verb::Come
                | Verb::Use
                | Verb::Make
                | Verb::Thaw
                | Verb::Run
        )
    }) && f.has_slots()
        && !(f.verb_is(Verb::Make) && f.product.is_some())
}

/// `the recipe says`, `the recipe on the web`, `the recipe from my sister` name none.
fn is_named(said: &Statement) -> bool {
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
fn tells_of_timer(chunks: &[Chunk]) -> bool {
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

fn settings_follow(f: &Facts<'_>) -> bool {
    says!(f, "altitude" | "units" | "usual" | "room")
}

/// Whether a clause begins a further item of a list rather than adding to the one before.
fn starts_item(facts: &Facts<'_>, other: &Facts<'_>, kind: Kind, joint: bool) -> bool {
    if !other.has_quantity() || !facts.has_quantity() || !is_listable(kind) {
        return false;
    }
    let both = |a: bool, b: bool| a && b;
    let conflict =
        both(facts.crop.is_some() || facts.variety.is_some(), other.crop.is_some() || other.variety.is_some())
            || both(facts.prep.is_some(), other.prep.is_some())
            || both(facts.place.is_some(), other.place.is_some())
            || both(facts.product.is_some(), other.product.is_some())
            || both(facts.supply.is_some(), other.supply.is_some())
            || both(facts.what.is_some(), other.what.is_some())
            || both(facts.has(has::FOLK | has::KIN), other.has(has::FOLK | has::KIN))
            || matches!(kind, Kind::Filled | Kind::PutUp | Kind::Opened)
                && other.jars().is_some_and(|a| {
                    facts.jars().is_some_and(|b| a.jar.is_some() && b.jar.is_some() && a.jar != b.jar)
                });
    if is_further(facts, other, kind, joint) {
        return true;
    }
    let own = other.crop.is_some()
        || other.variety.is_some()
        || other.supply.is_some()
        || other.product.is_some() && facts.jars().is_some() && other.jars().is_some();
    let other_measure = matches!(kind, Kind::Ate | Kind::Gave | Kind::Tossed)
        && (facts.unit(Unit::Bag).is_some() || facts.mass().is_some())
        && other.jars().is_some();
    conflict
        || other_measure
        || joint && own
        || kind == Kind::Bought && (own || other.jars().is_some() || other.unit(Unit::Bag).is_some())
}

/// A second amount of the same measure is an entry of its own, unless it only says the first in other words.
fn is_further(facts: &Facts<'_>, other: &Facts<'_>, kind: Kind, joint: bool) -> bool {
    let counted = |f: &Facts<'_>, accept: fn(&Amount) -> bool| f.amounts.iter().any(|a| !a.uncounted && accept(a));
    let both = |accept: fn(&Amount) -> bool| counted(facts, accept) && counted(other, accept);
    if other.has(has::TOTAL | has::IT) || other.each {
        return false;
    }
    let dated = facts.when.is_some() && other.when.is_some();
    let weight = |a: &Amount| a.mass.is_some() && !a.is(Unit::Bag);
    match kind {
        Kind::Froze | Kind::Thawed => {
            let bags = both(|a| a.is(Unit::Bag)) && !both(|a| a.each.is_some());
            let plain = !counted(facts, |a| a.is(Unit::Bag)) && !counted(other, |a| a.is(Unit::Bag));
            bags && (joint || facts.mass().is_some() || dated) || plain && both(weight) && (joint || dated)
        }
        Kind::Picked | Kind::Ate | Kind::Gave | Kind::Tossed | Kind::Drained | Kind::Powdered => {
            let unit =
                |f: &Facts<'_>| f.amounts.iter().find(|a| a.mass.is_some() || a.unit.is_some()).and_then(|a| a.unit);
            both(weight) && (joint || dated || unit(facts) == unit(other))
                || both(|a| a.is(Unit::Bag)) && joint
                || both(|a| a.jar.is_some()) && joint
                || kind == Kind::Drained && joint && other.has_quantity()
        }
        Kind::PutUp | Kind::Opened | Kind::Filled | Kind::Counted => both(|a| a.is_jars()) && joint,
        Kind::Dried => both(|a| a.is(Unit::Tray)) && joint,
        _ => false,
    }
}

const fn is_listable(kind: Kind) -> bool {
    matches!(
        kind,
        Kind::Picked
            | Kind::Froze
            | Kind::Thawed
            | Kind::Ate
            | Kind::Gave
            | Kind::Tossed
            | Kind::Counted
            | Kind::Filled
            | Kind::PutUp
            | Kind::Opened
            | Kind::Dried
            | Kind::Powdered
            | Kind::Bought
            | Kind::Drained
    )
}

/// Whether a clause tells what was done, by somebody of the house.
fn is_real(f: &Facts<'_>) -> bool {
    if f.unreal || f.negated || f.other_subject {
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

fn build(kind: Kind, f: &Facts<'_>, carry: &mut Carry<'_, '_>) -> Option<Statement> {
    match kind {
        Kind::Picked => harvest::picked(f, carry),
        Kind::Froze => freezer::froze(f, carry),
        Kind::Thawed => freezer::thawed(f, carry),
        Kind::Counted => freezer::counted(f, carry),
        Kind::Ate | Kind::Gave | Kind::Tossed => harvest::taken(kind, f, carry),
        Kind::Began => pantry::began(f, carry),
        Kind::Filled => pantry::filled(f, carry),
        Kind::PutUp | Kind::Opened => pantry::jarred(kind, f, carry),
        Kind::Drained => drying::drained(f, carry),
        Kind::Dried => drying::dried(f, carry),
        Kind::Powdered => drying::powdered(f, carry),
        Kind::Bought => supplies::bought(f, carry),
        _ => None,
    }
}

/// A statement of a kind with nothing in it yet.
fn blank(kind: Kind) -> Option<Statement> {
    Some(match kind {
        Kind::Picked => Statement::Picked(Default::default()),
        Kind::Froze => Statement::Froze(Default::default()),
        Kind::Thawed => Statement::Thawed(Default::default()),
        Kind::Ate => Statement::Ate(Default::default()),
        Kind::Gave => Statement::Gave(Default::default()),
        Kind::Tossed => Statement::Tossed(Default::default()),
        Kind::Drained => Statement::Drained(Default::default()),
        Kind::Filled => Statement::Filled(Default::default()),
        Kind::PutUp => Statement::PutUp(Default::default()),
        Kind::Opened => Statement::Opened(Default::default()),
        Kind::Dried => Statement::Dried(Default::default()),
        Kind::Powdered => Statement::Powdered(Default::default()),
        Kind::Bought => Statement::Bought(Default::default()),
        _ => return None,
    })
}

/// Few words, none of them foreign: `pantry`, `time left`, `totals this week`.
fn is_short(f: &Facts<'_>) -> bool {
    f.chunks.iter().filter(|c| !matches!(c.item, Item::Word(Word::Filler | Word::Is) | Item::Mark(_))).count() <= 5
}

/// Joins a repeated stage with the one before; false when they are two.
fn merges(last: &mut Statement, said: &Statement) -> bool {
    match (last, said) {
        (Statement::AtHeat(a), Statement::AtHeat(b)) => {
            a.psi = a.psi.or(b.psi);
            true
        }
        (Statement::Lifted(a), Statement::Lifted(b)) => {
            a.jars = a.jars.or(b.jars);
            true
        }
        (Statement::Unsealed(a), Statement::Unsealed(b))
        | (Statement::Refrigerated(a), Statement::Refrigerated(b))
        | (Statement::Reprocessed(a), Statement::Reprocessed(b)) => {
            let joins = a.jars.is_none() || b.jars.is_none() || a.jars == b.jars;
            a.jars = a.jars.or(b.jars);
            joins
        }
        (Statement::AcidAdded(a), Statement::AcidAdded(b)) => {
            let joins = a.supply.is_none() || b.supply.is_none() || a.supply == b.supply;
            a.supply = a.supply.or(b.supply);
            joins
        }
        (Statement::Sealed(a), Statement::Sealed(b)) => {
            let joins = b.jars.is_none() || *a == *b;
            if a.jars.is_none() {
                *a = b.clone();
                return true;
            }
            joins
        }
        (Statement::Venting(_), _)
        | (Statement::LostHeat(_), _)
        | (Statement::HeatOff(_), _)
        | (Statement::PressureDown(_), _) => true,
        _ => false,
    }
}

/// Sets when a statement happened, for the kinds that lists are made of.
fn set_on(said: &mut Statement, on: When) {
    let slot = match said {
        Statement::Picked(s) => &mut s.on,
        Statement::Froze(s) => &mut s.on,
        Statement::Thawed(s) => &mut s.on,
        Statement::Ate(s) | Statement::Gave(s) | Statement::Tossed(s) => &mut s.on,
        Statement::Counted(s) => &mut s.on,
        Statement::PutUp(s) | Statement::Opened(s) => &mut s.on,
        Statement::Filled(s) => &mut s.on,
        Statement::Dried(s) => &mut s.on,
        Statement::Powdered(s) => &mut s.on,
        Statement::Bought(s) => &mut s.on,
        _ => return,
    };
    *slot = Some(on);
}
