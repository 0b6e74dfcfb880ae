//! From a message to what it says: what is sure enough counts, what is less sure is put to the household, and over
//! anything that a process time would rest on what was not understood is asked about.

use super::build::Note;
use super::context::{Context, LONGEST, Reading, TooLong};
use super::discourse::continued;
use super::held::{Held, held};
use super::household::Household;
use super::item::{Item, WordKind, items};
use super::language::language;
use super::lattice::Edge;
use super::lex::Mark;
use super::put::{mass_of, set_mass, share_of};
use super::readings::{Outcome, Read};
use super::value::Value;
use crate::quantity::Mass;
use crate::statement::{Clarify, Propose, Statement};
use crate::vocabulary::{Kind, Missing};

/// Reads a message.
pub(super) fn read(text: &str, context: &Context<'_>) -> Reading {
    if text.len() > LONGEST {
        return Reading { refusal: Some(TooLong { bytes: text.len() }), ..Reading::default() };
    }
    let language = language();
    let household = Household::new(context.lexicon, &language.words);
    let items = items(text, &language.words, &household);
    let read_all = Read::new(language, &items, &household, context);
    let mut reading = read_all.reading(context);
    read_all.watch_acid(&mut reading, context);
    continued(reading, &items, language, &household, context, read)
}

impl Read<'_> {
    /// What the message says.
    pub(super) fn reading(&self, context: &Context<'_>) -> Reading {
        let mut reading = Reading { addressed: self.addressed, ..Reading::default() };
        let Some((said, outcome)) = self.chosen(context).filter(|(_, outcome)| *outcome != Outcome::Silent) else {
            return reading;
        };
        let mut statements: Vec<Statement> = Vec::new();
        for edge in self.edges(said).filter(|edge| !edge.statements.is_empty()) {
            let first = statements.len();
            match self.frame(edge).and_then(|frame| held(self, said, edge, frame)) {
                Some(held) => statements.push(asked_about(edge, held)),
                None => statements.extend(edge.statements.iter().cloned()),
            }
            resolve(&mut statements, first, edge);
            self.doubt_minus(&mut statements, first, edge);
        }
        reading.unread = self.unread(said);
        reading.figure_left = self.leaves_figure(said);
        reading.statements = match outcome {
            Outcome::Propose => proposed(statements),
            _ => statements,
        };
        reading
    }

    /// `froze -7 lb`: less than nothing was not meant, so the amount is asked for.
    fn doubt_minus(&self, statements: &mut [Statement], first: usize, edge: &Edge) {
        let minus = |n: usize| {
            let item = |n: usize| self.text.items.get(n);
            let Some(sign) = item(n) else { return false };
            let glued = |at: u32| self.text.lexed.tokens.get(at as usize).is_some_and(|token| token.glued);
            let dash = sign.mark == Some(Mark::Dash) && glued(sign.to) && !glued(sign.from);
            let amount = |item: &Item| item.values.iter().any(Value::is_amount);
            let deed = n.checked_sub(1).and_then(item).is_some_and(|item| item.kind == WordKind::Deed);
            (dash || sign.is(self.language.words.classes.sea_below)) && deed && item(n + 1).is_some_and(amount)
        };
        if !self.stretch(edge).any(minus) {
            return;
        }
        for statement in statements.iter_mut().skip(first).filter(|statement| enters(statement)) {
            let (about, partial) = (statement.kind(), Some(Box::new(statement.clone())));
            *statement =
                Statement::Clarify(Clarify { about, missing: Missing::Amount, amount: None, word: None, partial });
        }
    }
}

/// What would be entered is proposed; what is asked is asked.
fn proposed(statements: Vec<Statement>) -> Vec<Statement> {
    let (entered, mut asked): (Vec<_>, Vec<_>) = statements.into_iter().partition(enters);
    if !entered.is_empty() {
        asked.push(Statement::Propose(Propose { statements: entered }));
    }
    asked
}

/// Whether a statement changes anything.
fn enters(statement: &Statement) -> bool {
    !matches!(statement, Statement::Ask(_) | Statement::Clarify(_) | Statement::Propose(_))
}

/// A question about a word on which the statement of an edge depends.
fn asked_about(edge: &Edge, held: Held) -> Statement {
    let said = || {
        edge.statements.first().map_or(Kind::Began, |statement| match statement {
            Statement::Clarify(asked) => asked.about,
            said => said.kind(),
        })
    };
    let about = held.about.unwrap_or_else(said);
    Statement::Clarify(Clarify { about, missing: Missing::Product, amount: None, word: Some(held.word), partial: None })
}

/// Gives shares their weight where the same message says of what: `picked 12 lb, froze half`, `gave 5 lb away and froze
/// the rest`.
fn resolve(statements: &mut [Statement], first: usize, edge: &Edge) {
    let (before, new) = statements.split_at_mut(first.min(statements.len()));
    let rest = edge.made.notes.contains(&Note::Rest);
    for statement in new {
        let Some(share) = share_of(statement).filter(|_| statement.mass().is_none()) else { continue };
        let Some(source) =
            before.iter().rposition(|s| matches!(s, Statement::Picked(_)) || !rest && mass_of(s).is_some())
        else {
            continue;
        };
        let whole = before.get(source).and_then(mass_of);
        let taken: Mass = before.iter().skip(source + 1).filter_map(mass_of).sum();
        let left = whole.map(|whole| if rest { whole.less(taken) } else { whole }).filter(|left| !left.is_zero());
        if let Some(mass) = left.and_then(|left| left.times(share)) {
            set_mass(statement, mass);
        }
    }
}
