//! What words mean where they leave a choice: a ruling a file in `tests/data/rulings`, played by the code of `rackful
//! replay`.
//!
//! The first line of a file is `{"ruling": …, "because": …}`, a sentence each. The others are lines of a replay
//! script, with expectations below the line that they are about:
//!
//! - `{"expect": {"re": "$3", "topic": …, "facts": {…}, "text_has": …}}`: one of the messages that came with that
//!   line, or since the line before it, has all of this, and whatever other fields of a line of output are given. Of
//!   objects only what is given counts.
//! - `{"expect": {"not": {…}}}`: none of these messages is such a one.
//! - `{"expect": {"silent": "$4"}}`: nothing answers that message.
//! - `{"expect": {"state": {…}}}`: below a line with `"state": true`.
//!
//! Rulings that do not hold stand in `tests/data/rulings/broken.txt`, exactly: one that was mended must be taken off.
//! To take over what does not hold now, run with `RACKFUL_ACCEPT=1`.

use rackful::assistant::Defaults;
use rackful::desk::Desk;
use rackful::replay;
use rackful::store::MemoryStore;
use serde_json::Value;
use std::cell::RefCell;
use std::collections::BTreeSet;
use std::fs;
use std::io::{BufRead, Read, Write};
use std::path::{Path, PathBuf};
use std::rc::Rc;

type Shared = Rc<RefCell<Vec<u8>>>;

/// A script that gives a line when it is asked for one, and notes how much was put out before it.
struct Script<'a> {
    lines: &'a [String],
    read: usize,
    taken: usize,
    out: Shared,
    before: Rc<RefCell<Vec<usize>>>,
}

impl BufRead for Script<'_> {
    fn fill_buf(&mut self) -> std::io::Result<&[u8]> {
        let Some(line) = self.lines.get(self.read) else { return Ok(&[]) };
        if self.taken == 0 {
            self.before.borrow_mut().push(self.out.borrow().len());
        }
        Ok(&line.as_bytes()[self.taken..])
    }

    fn consume(&mut self, bytes: usize) {
        self.taken += bytes;
        if self.lines.get(self.read).is_some_and(|line| self.taken == line.len()) {
            (self.read, self.taken) = (self.read + 1, 0);
        }
    }
}

impl Read for Script<'_> {
    fn read(&mut self, into: &mut [u8]) -> std::io::Result<usize> {
        let bytes = self.fill_buf()?.read(into)?;
        self.consume(bytes);
        Ok(bytes)
    }
}

struct Printed(Shared);

impl Write for Printed {
    fn write(&mut self, bytes: &[u8]) -> std::io::Result<usize> {
        self.0.borrow_mut().write(bytes)
    }

    fn flush(&mut self) -> std::io::Result<()> {
        Ok(())
    }
}

/// What came out with each line of a script.
fn played(lines: &[String]) -> Result<Vec<Vec<Value>>, String> {
    let (out, before) = (Shared::default(), Rc::new(RefCell::new(Vec::new())));
    let script = Script { lines, read: 0, taken: 0, out: Rc::clone(&out), before: Rc::clone(&before) };
    let mut desk = Desk::open(Box::new(MemoryStore::default()), Defaults::default()).unwrap();
    replay::run(script, &mut desk, &mut Printed(Rc::clone(&out))).map_err(|error| error.to_string())?;
    let (out, mut from) = (out.borrow(), before.borrow_mut());
    from.push(out.len());
    let messages = |bytes: &[u8]| bytes.lines().map(|line| serde_json::from_str(&line.unwrap()).unwrap()).collect();
    Ok(from.windows(2).map(|pair| messages(&out[pair[0]..pair[1]])).collect())
}

/// Whether `got` has all that is `wanted`: objects may have more, lists not; figures to a thousandth.
fn has(got: &Value, wanted: &Value) -> bool {
    match (got, wanted) {
        (Value::Object(got), Value::Object(wanted)) => {
            wanted.iter().all(|(key, value)| has(got.get(key).unwrap_or(&Value::Null), value))
        }
        (Value::Array(got), Value::Array(wanted)) => {
            got.len() == wanted.len() && got.iter().zip(wanted).all(|(got, wanted)| has(got, wanted))
        }
        (Value::Number(got), Value::Number(wanted)) => {
            let (got, wanted) = (got.as_f64().unwrap(), wanted.as_f64().unwrap());
            (got - wanted).abs() <= 1e-3 * wanted.abs().max(1.0)
        }
        (got, wanted) => got == wanted,
    }
}

/// Whether a message is the one expected.
fn is(message: &Value, wanted: &Value) -> bool {
    wanted.as_object().unwrap().iter().all(|(key, value)| match key.as_str() {
        "text_has" => message["text"].as_str().unwrap_or_default().contains(value.as_str().unwrap()),
        _ => has(&message[key], value),
    })
}

/// Why an expectation is not met by what came with its line.
fn fault(expected: &Value, came: &[Value], all: &[Vec<Value>]) -> Option<String> {
    let brief = |messages: &mut dyn Iterator<Item = &Value>| {
        let lines: Vec<String> = messages.map(|message| format!("      {message}")).collect();
        if lines.is_empty() { "      nothing".to_owned() } else { lines.join("\n") }
    };
    if let Some(id) = expected.get("silent") {
        let mut answers = all.iter().flatten().filter(|message| message.get("re") == Some(id)).peekable();
        return answers.peek().is_some().then(|| format!("was answered:\n{}", brief(&mut answers.by_ref())));
    }
    if let Some(state) = expected.get("state") {
        let is_met = came.iter().any(|line| line.get("state").is_some_and(|got| has(got, state)));
        return (!is_met).then(|| format!("the state is\n{}", brief(&mut came.iter())));
    }
    if let Some(other) = expected.get("not") {
        let mut such = came.iter().filter(|message| is(message, other)).peekable();
        return such.peek().is_some().then(|| format!("there is\n{}", brief(&mut such.by_ref())));
    }
    (!came.iter().any(|message| is(message, expected))).then(|| format!("there came\n{}", brief(&mut came.iter())))
}

/// What is wrong with the file itself, and which of its expectations are not met: their lines with what came instead.
fn check(text: &str) -> Result<Vec<(String, String)>, String> {
    let lines: Vec<(usize, Value)> = text
        .lines()
        .enumerate()
        .filter(|(_, line)| !line.trim().is_empty())
        .map(|(n, line)| Ok((n + 1, serde_json::from_str(line).map_err(|error| format!("line {}: {error}", n + 1))?)))
        .collect::<Result<_, String>>()?;
    let (_, head) = lines.first().ok_or("it is empty")?;
    for key in ["ruling", "because"] {
        let sentence = head[key].as_str().unwrap_or_default();
        if sentence.split_whitespace().count() < 4 || !sentence.ends_with('.') {
            return Err(format!("the first line gives no sentence as \"{key}\""));
        }
    }
    let (mut script, mut expected) = (Vec::new(), Vec::new());
    for (n, line) in &lines[1..] {
        match line.get("expect") {
            Some(expect) => expected.push((*n, script.len(), expect)),
            None => script.push(format!("{line}\n")),
        }
    }
    if expected.is_empty() {
        return Err("it expects nothing".to_owned());
    }
    let ids: BTreeSet<&str> = lines.iter().filter_map(|(_, line)| line["id"].as_str()).collect();
    let came = played(&script)?;
    let mut faults = Vec::new();
    for (n, after, expect) in expected {
        let named = expect.get("silent").or_else(|| expect.get("re")).map(|id| id.as_str().unwrap_or_default());
        if let Some(id) = named.filter(|id| !ids.contains(id)) {
            return Err(format!("line {n}: no line has the id {id}"));
        }
        let here = after.checked_sub(1).and_then(|at| came.get(at)).ok_or(format!("line {n}: it is below no line"))?;
        if let Some(why) = fault(expect, here, &came) {
            faults.push((expect.to_string(), why));
        }
    }
    Ok(faults)
}

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/data/rulings")
}

fn files() -> Vec<(String, String)> {
    let mut files: Vec<_> = fs::read_dir(folder())
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .filter(|path| path.extension().is_some_and(|ending| ending == "jsonl"))
        .map(|path| (path.file_stem().unwrap().to_str().unwrap().to_owned(), fs::read_to_string(&path).unwrap()))
        .collect();
    files.sort();
    files
}

#[test]
fn every_ruling_holds_but_those_known_to_be_broken() {
    let list = folder().join("broken.txt");
    let (mut now, mut told) = (BTreeSet::new(), Vec::new());
    let files = files();
    for (name, text) in &files {
        for (expect, why) in check(text).unwrap_or_else(|why| panic!("{name}: {why}")) {
            told.push(format!("{name}: {expect}\n   {why}"));
            now.insert(format!("{name}\t{expect}"));
        }
    }
    if std::env::var_os("RACKFUL_ACCEPT").is_some() {
        let lines: String = now.iter().map(|line| format!("{line}\n")).collect();
        fs::write(&list, lines).unwrap();
    }
    let known: BTreeSet<String> = fs::read_to_string(&list).unwrap_or_default().lines().map(str::to_owned).collect();
    println!("{} rulings, {} expectations not met\n{}", files.len(), now.len(), told.join("\n"));
    assert!(files.len() >= 30, "the rulings were not found");
    let (new, mended): (Vec<_>, Vec<_>) = (now.difference(&known).collect(), known.difference(&now).collect());
    assert!(new.is_empty(), "these do not hold: {new:#?}");
    assert!(mended.is_empty(), "these hold now, take them off {}: {mended:#?}", list.display());
}

#[test]
fn the_page_links_every_ruling() {
    let page = fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join("DEVELOPERS.md")).unwrap();
    let names: BTreeSet<String> = files().into_iter().map(|(name, _)| name).collect();
    let linked: BTreeSet<String> = page
        .split("tests/data/rulings/")
        .skip(1)
        .filter_map(|rest| rest.split_once(".jsonl").map(|(name, _)| name.to_owned()))
        .filter(|name| !name.contains(|c: char| c.is_whitespace() || c == '<'))
        .collect();
    assert_eq!(names, linked, "rulings and links of DEVELOPERS.md");
}

#[test]
fn a_ruling_needs_its_sentences_and_an_expectation() {
    let head = r#"{"ruling": "A word means what it says.", "because": "Nobody would know otherwise."}"#;
    let said =
        r#"{"at": "2026-08-14T08:00:00-05:00", "room": "home", "who": "ana", "id": "$1", "say": "picked 10 lb"}"#;
    let met = r#"{"expect": {"re": "$1", "topic": "picked", "text_has": "10 lb"}}"#;
    assert_eq!(check(&format!("{head}\n{said}\n{met}")), Ok(Vec::new()));
    assert!(check(&format!("{said}\n{met}")).unwrap_err().contains("ruling"));
    assert!(check(&format!("{head}\n{said}")).unwrap_err().contains("expects nothing"));
    for unmet in [
        r#"{"expect": {"silent": "$1"}}"#,
        r#"{"expect": {"re": "$1", "topic": "froze"}}"#,
        r#"{"expect": {"not": {"topic": "picked"}}}"#,
        r#"{"expect": {"state": {}}}"#,
    ] {
        assert_eq!(check(&format!("{head}\n{said}\n{unmet}")).unwrap().len(), 1, "{unmet}");
    }
    assert!(check(&format!("{head}\n{said}\n{}", met.replace("$1", "$2"))).unwrap_err().contains("no line has the id"));
}
