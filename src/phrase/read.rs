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
use super::safety;
use super::thawed;
use super::value::Value;
use crate::quantity::Mass;
use crate::statement::{Ask, Clarify, Mishap, Propose, Statement};
use crate::vocabulary::{self, Condition, Kind, Matter, Missing, SettingKey, Subject};

/// Reads a message.
pub(super) fn read(text: &str, context: &Context<'_>) -> Reading {
    if text.len() > LONGEST {
        return Reading { refusal: Some(TooLong { bytes: text.len() }), ..Reading::default() };
    }
    let language = language();
    let household = Household::new(context.lexicon, &language.words);
    let items = items(text, &language.words, &household);
    let heard = safety::heard(&items, &household, context);
    let waits = |said: &Statement| matches!(said, Statement::Spoiled(_)) || is_about(said, Matter::ThawCounter);
    if let Some(statement) = heard.clone().filter(|said| !waits(said)) {
        let lost = is_about(&statement, Matter::FreezerOff)
            .then(|| Statement::Propose(Propose { statements: vec![thawed::freezer_lost()] }));
        return Reading { statements: std::iter::once(statement).chain(lost).collect(), ..Reading::default() };
    }
    let read_all = Read::new(language, &items, &household, context);
    let mut reading = read_all.reading(context);
    read_all.watch_acid(&mut reading, context);
    // Jars that were spoiled and thrown away are thrown away; why they were is in the words.
    let tossed = |said: &Statement| matches!(said, Statement::Tossed(taken) if taken.jars.is_some());
    // What goes out to thaw is entered; where it must not thaw is said with it.
    let thaws = |said: &Statement| matches!(said, Statement::Thawed(_));
    let heard = heard.filter(|said| !(is_about(said, Matter::ThawCounter) && reading.statements.iter().any(thaws)));
    if let Some(statement) = heard.filter(|_| !(reading.statements.iter().any(tossed) && safety::throws(&items))) {
        return Reading { statements: vec![statement], ..Reading::default() };
    }
    let mut reading = continued(reading, &items, language, &household, context, read);
    // Read in parts (`rolling boil? no`), the words that doubt may be in another part than the heat.
    read_all.watch_heat(&mut reading);
    // With a batch open, words that nothing was made of and that may mean lost heat are asked about.
    let open = !context.lexicon.batches.is_empty();
    let of_heat = |said: &Statement| matches!(said, Statement::LostHeat(_) | Statement::Mishap(_));
    let guess = |said: &Statement| match said {
        Statement::Propose(proposed) => !proposed.statements.iter().any(of_heat),
        said => matches!(said, Statement::Clarify(_)),
    };
    if open && reading.statements.iter().all(guess) && safety::may_be_lost(&items) {
        let unclear = Mishap { what: vocabulary::Mishap::Unclear, psi: None, batch: None, on: None };
        reading.statements = vec![Statement::Mishap(unclear)];
        // Where no canner was hot yet, it is how it was brought up that is amiss.
        reading.statements.extend(safety::amiss(&items).filter(|matter| *matter == Matter::VentDoubt).map(asked_of));
    } else if open && reading.statements.iter().all(|said| matches!(said, Statement::Propose(_))) {
        // So is what may be amiss with the jars, be it a guess or not.
        let matter = safety::amiss(&items).filter(|_| reading.statements.is_empty());
        reading.statements.extend(matter.map(asked_of));
    }
    reading
}

/// Whether a message tells of somebody who ate or fell ill.
pub(super) fn may_be_ill(text: &str) -> bool {
    safety::may_be_ill(&items(text, &language().words, &Household::default()))
}

fn asked_of(matter: Matter) -> Statement {
    Statement::Ask(Ask { what: Some(matter.as_str().to_owned()), ..Ask::about(Subject::Safety) })
}

fn is_about(said: &Statement, matter: Matter) -> bool {
    matches!(said, Statement::Ask(ask) if ask.about == Subject::Safety && ask.what.as_deref() == Some(matter.as_str()))
}

/// Whether a message tells of fruit that thaws, or thawed, at room temperature.
pub(super) fn thaws_on_counter(text: &str) -> bool {
    safety::thaws_on_counter(&items(text, &language().words, &Household::default()))
}

/// What a message says of the fruit that was picked.
pub(super) fn conditions(text: &str) -> Vec<Condition> {
    safety::conditions(&items(text, &language().words, &Household::default()))
}

/// Whether a short message says that something is gone.
pub(super) fn rid_of(text: &str) -> Option<Kind> {
    safety::rid_of(&items(text, &language().words, &Household::default()))
}

/// Whether a message tells of a jar that was spoiled.
pub(super) fn is_spoiled(text: &str) -> bool {
    safety::is_spoiled(&items(text, &language().words, &Household::default()))
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
        count_heights(&mut statements);
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

/// A height that a message tells counts for what it asks: `process for beans? we're at 5000 ft`.
fn count_heights(statements: &mut [Statement]) {
    let told = statements.iter().find_map(|said| match said {
        Statement::Set(set) if set.key == SettingKey::Altitude => set.length,
        _ => None,
    });
    for said in statements.iter_mut() {
        if let Statement::Ask(ask) = said
            && ask.about == Subject::Process
        {
            ask.length = ask.length.or(told);
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

/// Whether it sets the height of the kitchen, or would if its figure were clear.
fn is_height(said: &Statement) -> bool {
    match said {
        Statement::Set(set) => set.key == SettingKey::Altitude,
        Statement::Clarify(asked) => asked.partial.as_deref().is_some_and(is_height),
        _ => false,
    }
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
    let height = edge.statements.iter().any(is_height);
    let missing = if height { Missing::Altitude } else { Missing::Product };
    // What may be no more than chatter is asked about, and counts when somebody says that it is.
    let partial = edge.statements.first().filter(|said| {
        let of_jars =
            matches!(said, Statement::Began(_) | Statement::PutUp(_) | Statement::Filled(_) | Statement::Ask(_));
        held.unknown && !height && of_jars && edge.statements.len() == 1
    });
    let partial = partial.cloned().map(Box::new);
    Statement::Clarify(Clarify { about, missing, amount: None, word: Some(held.word), partial })
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
