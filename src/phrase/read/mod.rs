//! A message into statements: sentences, clauses, and what carries over from one to the next.

mod afterwards;
mod also_asked;
mod clause;
mod clauses;
mod joined;
mod leftover;
mod making;
mod shares;
mod told;

use super::{
    Context, asking, batch,
    build::Carry,
    facts::{Facts, gather, has},
    scan::{Chunk, scan},
    spoken::foods_beside,
    talk::{Talk, Voice, talk, voice},
    token::{Token, says},
    words::Verb,
};
use crate::{statement::Statement, vocabulary::Subject};
use clauses::{clauses, ends_sentence};
use joined::{is_chatter, is_filler};
use leftover::{is_whole, left_words, note_unread};

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
