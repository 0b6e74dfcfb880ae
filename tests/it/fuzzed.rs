//! What the fuzzer kept, run on every change: the corpora of `tests/fuzz/corpus`, one input a line as a JSON string.

#[path = "../fuzz/checks/mod.rs"]
mod checks;

use std::path::Path;

fn kept(target: &str) -> Vec<String> {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(format!("tests/fuzz/corpus/{target}.jsonl"));
    let lines = std::fs::read_to_string(path).unwrap();
    let inputs: Vec<String> = lines.lines().map(|line| serde_json::from_str(line).unwrap()).collect();
    assert!(inputs.len() > 20, "the corpus was not found");
    inputs
}

#[test]
fn each_phrase_that_was_kept_holds() {
    kept("phrase").iter().for_each(|input| checks::phrase::check(input));
}

#[test]
fn each_conversation_that_was_kept_holds() {
    kept("conversation").iter().for_each(|input| checks::conversation::check(input));
}

#[test]
fn each_import_that_was_kept_holds() {
    kept("import").iter().for_each(|input| checks::import::check(input.as_bytes()));
}

#[test]
fn each_journal_that_was_kept_holds() {
    kept("journal").iter().for_each(|input| checks::journal::check(input.as_bytes()));
}
