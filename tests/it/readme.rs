//! The README's walk through a canning day is the program's own output: it is played again here and compared, so that
//! it can't go stale. To take over a changed walk after reading it, run with `RACKFUL_ACCEPT=1`.

use crate::replay::play;
use serde_json::Value;
use std::fs;
use std::path::Path;

const BEGINS: &str = "```text\nida> ";
const WIDTH: usize = 118;

/// Text in lines of the README's width, under a mark.
fn wrapped(mark: &str, text: &str) -> String {
    let line = |(n, line): (usize, &str)| {
        let first = if n == 0 { mark } else { "  " };
        textwrap::fill(line, textwrap::Options::new(WIDTH).initial_indent(first).subsequent_indent("  "))
    };
    text.lines().enumerate().map(line).collect::<Vec<_>>().join("\n")
}

/// A script and its output as a conversation.
fn conversation(script: &str, output: &str) -> String {
    let read = |text: &str| text.lines().map(|line| serde_json::from_str(line).unwrap()).collect::<Vec<Value>>();
    let (said, out) = (read(script), read(output));
    let mut lines = Vec::new();
    let mut told = out.iter().peekable();
    for message in &said {
        lines.push(format!("{}> {}", message["who"].as_str().unwrap(), message["say"].as_str().unwrap()));
        while let Some(next) = told.next_if(|next| next["re"] == message["id"] || next["re"].is_null()) {
            let mark = if next["out"] == "alert" { "\u{23f0} " } else { "  " };
            lines.push(wrapped(mark, next["text"].as_str().unwrap()));
        }
    }
    assert!(told.next().is_none(), "an answer to nothing that was said");
    lines.join("\n")
}

#[test]
fn the_walk_in_the_readme_is_what_the_program_says() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let script = fs::read_to_string(root.join("tests/data/replay/a-canning-day.jsonl")).unwrap();
    let walk = conversation(&script, &play(&script));
    let readme = fs::read_to_string(root.join("README.md")).unwrap();
    let from = readme.find(BEGINS).unwrap() + "```text\n".len();
    let to = from + readme[from..].find("\n```").unwrap();
    if std::env::var_os("RACKFUL_ACCEPT").is_some() {
        let text = format!("{}{walk}{}", &readme[..from], &readme[to..]);
        fs::write(root.join("README.md"), text).unwrap();
        return;
    }
    assert_eq!(&readme[from..to], walk, "the README tells another day than the program");
}
