//! What a message says of itself, read in parts.

use super::super::context::{Context, Reading};
use super::super::held::held_in;
use super::super::item::Item;
use super::super::value::Value;
use super::scene::Scene;
use super::words::{before_doubt, sentences};
use crate::statement::{Clarify, Propose, Statement};
use crate::vocabulary::{Kind, Subject};

/// What a sentence ends with.
const ENDS: [&str; 5] = [". ", "! ", "? ", "; ", "\n"];
/// What is put between sentences instead, so that they are parts of one.
const BETWEEN: &str = ", ";
const ASKS: &str = "?";
const MARKS: [char; 4] = ['.', '!', '?', ';'];
/// Longest message that is read in parts, in items: each part is read anew.
const LONGEST: usize = 60;

fn alone(text: &str, scene: &Scene<'_>) -> Reading {
    (scene.read)(text, &Context { last: None, ..*scene.context })
}

fn enters(statement: &Statement) -> bool {
    !matches!(statement, Statement::Ask(_) | Statement::Clarify(_) | Statement::Correct(_) | Statement::Undo)
}

/// A message with a doubt at its end (`…, but I'm not sure`) is put to the household: what it says without it,
/// whatever the doubt made of it.
pub(super) fn doubted(reading: Reading, scene: &Scene<'_>) -> Reading {
    if scene.text.items.len() > LONGEST {
        return reading;
    }
    let Some(head) = before_doubt(scene.text.text) else { return reading };
    let sure = alone(head, scene);
    let statements = match &*sure.statements {
        [Statement::Propose(proposed)] => proposed.statements.clone(),
        statements => statements.to_vec(),
    };
    if statements.is_empty() || !statements.iter().all(enters) {
        return reading;
    }
    Reading { statements: vec![Statement::Propose(Propose { statements })], ..reading }
}

/// What would be proposed counts where it is sure in parts: where each sentence says its share by itself, or where a
/// figure is put right in the same breath (`16 lb, no wait, 18`) and what stands before that is sure.
pub(super) fn sure_in_parts(reading: Reading, scene: &Scene<'_>) -> Reading {
    let [Statement::Propose(proposed)] = &*reading.statements else {
        return match &*reading.statements {
            // Sentences that were each sure may be too unsure together even to be proposed.
            [] => {
                let parts = sentence_by_sentence(reading, scene, None);
                if parts.statements.is_empty() { in_one(scene).unwrap_or(parts) } else { parts }
            }
            // What was held back over another sentence may be a part of the same: `…? Dial gauge canner.`
            [Statement::Clarify(asked)] if asked.word.is_some() => {
                let is_held = |together: &Reading| together.statements.iter().any(|said| said.kind() == Kind::Clarify);
                in_one(scene).filter(|together| !is_held(together)).unwrap_or(reading)
            }
            _ => reading,
        };
    };
    if scene.text.items.len() > LONGEST {
        return reading;
    }
    if let [one] = &*proposed.statements
        && reading.unread.is_empty()
        && is_sure_before_slip(one, scene)
    {
        let statements = proposed.statements.clone();
        return Reading { statements, ..reading };
    }
    let count = proposed.statements.len();
    sentence_by_sentence(reading, scene, Some(count))
}

/// What is said of jars in several sentences, each of them too short to say it: `Apricots, raw pack, pints. Starting.`
///
/// Without a product and a jar, a pack or a canner it is no such thing. Nor is it with a `not`: what is denied in
/// another sentence would be taken for told (`I have not the pressure one`).
fn in_one(scene: &Scene<'_>) -> Option<Reading> {
    let classes = &scene.language.words.classes;
    let of_jars = scene.is(classes.product)
        && (scene.is(classes.pack) || scene.is(classes.canner) || scene.any_value(|v| matches!(v, Value::Jars(_))));
    if !of_jars || scene.is(classes.not) || scene.text.items.len() > LONGEST {
        return None;
    }
    let text = scene.text.text.trim();
    let one = ENDS.iter().fold(text.to_owned(), |text, end| text.replace(end, BETWEEN));
    if one == text {
        return None;
    }
    let asked = if text.contains(ASKS) { ASKS } else { "" };
    let joined = format!("{}{asked}", one.trim_end_matches(MARKS));
    let made = alone(&joined, scene);
    let process = |statement: &Statement| match statement {
        Statement::Ask(ask) => ask.about == Subject::Process,
        Statement::Clarify(asked) => asked.word.is_some(),
        said => matches!(said, Statement::Began(_)),
    };
    let says = made.statements.iter().flat_map(|statement| match statement {
        Statement::Propose(proposed) => proposed.statements.as_slice(),
        said => std::slice::from_ref(said),
    });
    (!made.statements.is_empty() && says.into_iter().all(process)).then_some(made)
}

/// The statements of all sentences, where each has some and is sure of them.
fn sentence_by_sentence(reading: Reading, scene: &Scene<'_>, count: Option<usize>) -> Reading {
    let sentences = sentences(scene.text.text);
    if sentences.len() < 2 || scene.text.items.len() > LONGEST {
        return reading;
    }
    let read: Vec<Reading> = sentences.iter().map(|sentence| alone(sentence, scene)).collect();
    let sure = |reading: &Reading| {
        let open = |statement: &Statement| {
            matches!(statement, Statement::Propose(_) | Statement::Ask(_) | Statement::Correct(_) | Statement::Undo)
        };
        !reading.statements.is_empty() && reading.unread.is_empty() && !reading.statements.iter().any(open)
    };
    let statements: Vec<Statement> = read.iter().flat_map(|reading| reading.statements.clone()).collect();
    // Only one question can wait.
    let questions = statements.iter().filter(|statement| matches!(statement, Statement::Clarify(_))).count();
    let as_many = count.is_none_or(|count| count == statements.len()) && questions < 2;
    if !read.iter().all(sure) || !as_many {
        return reading;
    }
    let statements = held_over(&sentences, &read, scene).map_or(statements, |held| vec![Statement::Clarify(held)]);
    Reading { statements, ..reading }
}

/// What a sentence says of food in jars, held back over another that may be about the same food: `starting plums in
/// pints. I thickened it`. Read alone, neither knows of the other.
fn held_over(sentences: &[&str], read: &[Reading], scene: &Scene<'_>) -> Option<Clarify> {
    let of_jars = |statement: &&Statement| {
        matches!(statement, Statement::Began(_) | Statement::Filled(_) | Statement::PutUp(_) | Statement::Ask(_))
    };
    let may_tell = |reading: &Reading| {
        reading.statements.iter().any(|said| matches!(said, Statement::Clarify(_)) || of_jars(&said))
    };
    let context = Context { last: None, ..*scene.context };
    read.iter().enumerate().find_map(|(at, reading)| {
        let others =
            || sentences.iter().zip(read).enumerate().filter(move |(n, (_, other))| *n != at && may_tell(other));
        let mut depends = reading.statements.iter().filter(of_jars);
        depends.find_map(|statement| others().find_map(|(_, (sentence, _))| held_in(statement, sentence, &context)))
    })
}

/// Whether what stands before a slip tells of the same deed, surely or but for its unit.
fn is_sure_before_slip(proposed: &Statement, scene: &Scene<'_>) -> bool {
    let classes = &scene.language.words.classes;
    let items = &scene.text.items;
    let slip = |item: &Item| item.is(classes.oops);
    let Some(at) = items.iter().skip(1).position(slip).map(|at| at + 1) else { return false };
    let marks = items.iter().take(at).rev().take_while(|item| item.mark.is_some()).count();
    let (from, to) = scene.text.span(0, at - marks);
    let Some(head) = scene.text.text.get(from as usize..to as usize) else { return false };
    match &*alone(head, scene).statements {
        [Statement::Clarify(Clarify { about, word: None, .. })] => *about == proposed.kind(),
        [statement] => statement.kind() == proposed.kind(),
        _ => false,
    }
}
