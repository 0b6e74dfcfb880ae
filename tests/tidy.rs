//! The habits of the tree, checked: imports point one way, the core knows no clock, file or network, and files stay
//! small enough to be about one thing.
#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing, clippy::string_slice, missing_docs)]

#[path = "tidy/scan.rs"]
mod scan;

use scan::{Literal, Source};
use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};

/// Modules in layers: each may import from layers before its own, and nothing else.
const LAYERS: &[&[&str]] = &[
    &["quantity"],
    &["vocabulary", "zone", "sheet"],
    &["statement", "processes", "clock"],
    &["phrase", "batch"],
    &["ledger"],
    &["planning"],
    &["picture"],
    &["enclosure"],
    &["alert"],
    &["reply"],
    &["assistant"],
    &["store"],
    &["desk", "export", "drawing"],
    &["paper"],
    &["files"],
    &["config", "replay"],
    &["console", "matrix"],
    &["cli"],
];

/// The reader of phrases, whose own files and imports are looked at one by one.
const READER: &str = "phrase";

/// All that the reader of phrases imports of the crate.
const READER_IMPORTS: &[&str] = &["processes", "quantity", "statement", "vocabulary", "zone"];

/// The layers up to this module are the core.
const LAST_OF_CORE: &str = "assistant";

/// What would let the world into the core.
const WORLDLY: &[&str] = &[
    "std::fs",
    "std::net",
    "std::env",
    "std::process",
    "std::thread",
    "SystemTime",
    "Instant::now",
    "Utc::now",
    "Local::now",
    "tokio",
    "sled",
];

fn layer(module: &str) -> Option<usize> {
    LAYERS.iter().position(|layer| layer.contains(&module))
}

fn sources() -> Vec<(PathBuf, String)> {
    let mut files = Vec::new();
    collect(&Path::new(env!("CARGO_MANIFEST_DIR")).join("src"), &mut files);
    assert!(files.len() > 60, "the sources were not found");
    files
}

fn collect(folder: &Path, files: &mut Vec<(PathBuf, String)>) {
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            collect(&path, files);
        } else if path.extension().is_some_and(|ending| ending == "rs") {
            let text = fs::read_to_string(&path).unwrap();
            files.push((path, text));
        }
    }
}

/// The top module a file belongs to: `ledger` of `src/ledger/fold.rs`.
fn module(path: &Path) -> Option<String> {
    let inside = path.strip_prefix(Path::new(env!("CARGO_MANIFEST_DIR")).join("src")).unwrap();
    let first = inside.iter().next().unwrap().to_str().unwrap().trim_end_matches(".rs").to_owned();
    (first != "lib" && first != "main").then_some(first)
}

/// Lines of code: neither comments nor what stands below the first test module.
fn code(text: &str) -> impl Iterator<Item = &str> {
    text.lines()
        .take_while(|line| !line.starts_with("#[cfg(test)]"))
        .filter(|line| !line.trim_start().starts_with("//"))
}

#[test]
fn imports_point_one_way() {
    let mut faults = Vec::new();
    for (path, text) in sources() {
        let Some(own) = module(&path) else { continue };
        let at = layer(&own).unwrap_or_else(|| panic!("{own} has no layer"));
        for line in code(&text) {
            for import in line.split("crate::").skip(1) {
                let name: String = import.chars().take_while(|c| c.is_alphanumeric() || *c == '_').collect();
                if name != own && layer(&name).is_some_and(|other| other >= at) {
                    faults.push(format!("{}: {}", path.display(), line.trim()));
                }
            }
        }
    }
    assert!(faults.is_empty(), "imports that point the wrong way:\n{}", faults.join("\n"));
}

#[test]
fn the_core_knows_no_clock_and_no_world() {
    let last = layer(LAST_OF_CORE).unwrap();
    let mut faults = Vec::new();
    for (path, text) in sources() {
        let Some(own) = module(&path) else { continue };
        if own == "clock" || layer(&own).is_none_or(|at| at > last) {
            continue;
        }
        for line in code(&text) {
            if let Some(word) = WORLDLY.iter().find(|word| line.contains(**word)) {
                faults.push(format!("{}: {word}", path.display()));
            }
        }
    }
    assert!(faults.is_empty(), "the world is in the core:\n{}", faults.join("\n"));
}

#[test]
fn only_the_clock_reads_a_clock() {
    for (path, text) in sources() {
        let reads = code(&text)
            .any(|line| line.contains("Utc::now") || line.contains("SystemTime::now") || line.contains("Local::now"));
        assert!(!reads || module(&path).as_deref() == Some("clock"), "{} reads a clock", path.display());
    }
}

#[test]
fn files_are_about_one_thing() {
    let long: Vec<_> = sources()
        .into_iter()
        .map(|(path, text)| (path, code(&text).count()))
        .filter(|(_, lines)| *lines > 450)
        .collect();
    assert!(long.is_empty(), "longer than 450 lines of code: {long:?}");
}

/// What rustfmt leaves alone, literals and comments, is held to the width that it keeps for code (`max_width` in
/// `rustfmt.toml`): columns are characters, wide ones counted once.
#[test]
fn lines_are_at_most_120_columns() {
    let mut files = Vec::new();
    for folder in ["src", "tests", "benches"] {
        collect(Path::new(folder), &mut files);
    }
    assert!(files.len() > 300, "{} files", files.len());
    let wide = |(path, text): &(PathBuf, String)| {
        let numbered = (1..).zip(text.lines());
        let wide = numbered.filter(|(_, line)| line.chars().count() > 120);
        wide.map(|(number, _)| format!("{}:{number}", path.display())).collect::<Vec<_>>()
    };
    let wide: Vec<_> = files.iter().flat_map(wide).collect();
    assert!(wide.is_empty(), "wider than 120 columns: {wide:#?}");
}

/// Nothing in `src` ends the program by name, its unit tests and examples included: they return errors as the program
/// does, so that a copied example is one that may run on anything.
#[test]
fn nothing_in_the_sources_panics_by_name() {
    let names = ["unwrap()", "expect(", "unwrap_err()", "expect_err("].map(|name| format!(".{name}"));
    let macros = ["panic", "todo", "unimplemented", "unreachable"].map(|name| format!("{name}!("));
    let named = |line: &str| names.iter().chain(&macros).any(|name| line.contains(name.as_str()));
    let lines = |(path, text): &(PathBuf, String)| {
        let numbered = (1..).zip(text.lines()).filter(|(_, line)| named(line));
        numbered.map(|(number, line)| format!("{}:{number}: {}", path.display(), line.trim())).collect::<Vec<_>>()
    };
    let found: Vec<_> = sources().iter().flat_map(lines).collect();
    assert!(found.is_empty(), "an error belongs here: {found:#?}");
}

// ---------------------------------------------------------------------- the reader of phrases

/// What a literal may be.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
enum Kind {
    /// A path of senses, or a part of one, that stands in `english/*.txt`.
    Path,
    /// A slot or a type of value, as `english/frames.toml` has it.
    Slot,
    /// A part of a feature's name, as `english/weights.csv` or `english/thresholds.csv` has it.
    Feature,
    /// A word that the contract of a statement fixes: another module reads it, or a corpus wants it.
    Wire,
    /// What a rule of the grammar is called in its errors: one or two lower-case words.
    Rule,
    /// What kind of value it is, for the tests of the grammar.
    Value,
    /// A sentence for developers, of at least four words.
    Sentence,
    /// The name of the program.
    Program,
    /// The name of a type of the same file, or of an entry of an enumeration (`no-batch` of `NoBatch`).
    Type,
}

/// Which literals may stand in which files of the reader; a folder counts for all of its files. Names of data files may
/// stand in any.
const LITERALS: &[(&str, &[Kind])] = &[
    ("phrase/build/ask.rs", &[Kind::Wire]),
    ("phrase/build/set.rs", &[Kind::Wire]),
    ("phrase/context.rs", &[Kind::Program]),
    ("phrase/directions.rs", &[Kind::Sentence]),
    ("phrase/explain.rs", &[Kind::Sentence]),
    ("phrase/feature.rs", &[Kind::Feature, Kind::Type]),
    ("phrase/frame.rs", &[Kind::Slot, Kind::Type, Kind::Sentence]),
    ("phrase/lexicon/read.rs", &[Kind::Path, Kind::Sentence]),
    ("phrase/lexicon/sense.rs", &[Kind::Path]),
    ("phrase/lexicon/spelling.rs", &[Kind::Type]),
    ("phrase/score.rs", &[Kind::Feature, Kind::Sentence]),
    ("phrase/training.rs", &[Kind::Path, Kind::Value]),
    ("phrase/value/", &[Kind::Rule]),
];

/// Senses that no file gives words to: the household's own names have them, and marks.
const WORDLESS: [&str; 5] =
    ["household.recipe", "household.batch", "household.name", "household.word", "mark.question"];

/// What the data files of the reader know by name.
struct Data {
    paths: String,
    slots: BTreeSet<String>,
    features: BTreeSet<String>,
    /// Literals of the other modules, and of the statements that the corpora want.
    elsewhere: BTreeSet<String>,
}

impl Data {
    fn new(sources: &[Source]) -> Self {
        let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("src/phrase/english");
        let read = |name: &str| fs::read_to_string(folder.join(name)).unwrap();
        let mut paths = String::from(".");
        for entry in fs::read_dir(&folder).unwrap().map(|entry| entry.unwrap().path()) {
            if entry.extension().is_some_and(|ending| ending == "txt") {
                let text = fs::read_to_string(&entry).unwrap();
                let lines = text.lines().filter(|line| !line.starts_with('#'));
                lines.filter_map(|line| line.split_once(": ")).for_each(|(path, _)| paths += &format!(" .{path}. "));
            }
        }
        WORDLESS.iter().for_each(|path| paths += &format!(" .{path}. "));
        let frames = read("frames.toml");
        let lists = frames.lines().filter(|line| line.starts_with("slots") || line.starts_with("needs"));
        let mut slots: BTreeSet<String> =
            lists.flat_map(|line| line.split(|c: char| !c.is_alphanumeric())).map(str::to_owned).collect();
        let types = frames.split('#').skip(1);
        slots.extend(types.map(|rest| rest.chars().take_while(|c| c.is_alphanumeric()).collect::<String>()));
        let rows = read("weights.csv") + &read("thresholds.csv");
        let features = rows.split(['|', ',', '\n']).map(str::to_owned).collect();
        let others = sources.iter().filter(|source| !source.name.starts_with(READER));
        let mut elsewhere: BTreeSet<String> =
            others.flat_map(|source| &source.literals).map(|literal| literal.text.clone()).collect();
        for entry in fs::read_dir(Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/data/phrases")).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                continue;
            }
            let text = fs::read_to_string(path).unwrap();
            elsewhere.extend(text.split('"').map(str::to_owned));
        }
        Self { paths, slots, features, elsewhere }
    }

    fn allows(&self, source: &Source, literal: &Literal, kind: Kind) -> bool {
        let text = literal.text.as_str();
        match kind {
            Kind::Path => {
                let path = text.split('{').next().unwrap_or_default();
                self.paths.contains(&format!(".{}.", path.trim_matches('.')))
            }
            Kind::Slot => self.slots.contains(text),
            Kind::Feature => self.features.contains(text),
            Kind::Wire => self.elsewhere.contains(text) || self.elsewhere.contains(text.trim()),
            Kind::Value => VALUES.contains(&text),
            Kind::Rule => {
                literal.names_a_rule
                    && text.replace('-', " ").chars().all(|c| c.is_ascii_lowercase() || c == ' ')
                    && text.split(' ').count() <= 2
            }
            Kind::Sentence => {
                let words: Vec<&str> = text.split(' ').filter(|word| word.chars().any(char::is_alphabetic)).collect();
                words.len() >= 4 && words.iter().any(|word| ["is", "was", "has", "no", "a"].contains(word))
            }
            Kind::Program => text == env!("CARGO_PKG_NAME"),
            Kind::Type => {
                let entry: String = text.split('-').map(capital).collect();
                source.code.contains(&format!("struct {text} ")) || source.code.contains(&format!(" {entry} = "))
            }
        }
    }
}

fn reader_and_others() -> Vec<Source> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let name = |path: &Path| path.strip_prefix(&root).unwrap().to_str().unwrap().replace('\\', "/");
    sources().iter().map(|(path, text)| Source::new(name(path), text)).collect()
}

fn reader() -> Vec<Source> {
    let all = reader_and_others();
    all.into_iter().filter(|source| source.module().first().is_some_and(|first| first == READER)).collect()
}

fn capital(word: &str) -> String {
    word.chars().take(1).flat_map(char::to_uppercase).chain(word.chars().skip(1)).collect()
}

/// Whether a literal has letters that are none of a place to fill in, as those of `{n}` and `%H`. One letter between
/// two figures is no word: `{columns}x{rows}`.
fn has_words(text: &str) -> bool {
    let (mut depth, mut before, mut letters) = (0, ' ', 0);
    for c in text.chars() {
        depth += i32::from(c == '{') - i32::from(before == '}');
        letters += usize::from(depth == 0 && c.is_alphabetic() && before != '%');
        before = c;
    }
    letters > usize::from(text.contains('{'))
}

#[test]
fn the_reader_imports_what_it_says() {
    let mut found = BTreeSet::new();
    for source in reader() {
        let paths = source.paths(&[]);
        found.extend(paths.into_iter().filter_map(|path| path.into_iter().next()).filter(|first| first != READER));
    }
    assert_eq!(found.into_iter().collect::<Vec<_>>(), READER_IMPORTS);
}

/// The files that each file of the reader imports, by module. Who imports something that a parent imports from its
/// child imports the parent.
fn reader_imports() -> BTreeMap<String, BTreeSet<String>> {
    let sources = reader();
    let modules: BTreeSet<Vec<String>> = sources.iter().map(Source::module).collect();
    let below = |module: &[String]| {
        let is_child = |other: &&Vec<String>| other.len() == module.len() + 1 && other.starts_with(module);
        modules.iter().filter(is_child).filter_map(|other| other.last().cloned()).collect::<Vec<_>>()
    };
    let file = |path: Vec<String>| {
        let heads = (1..=path.len()).rev().map(|n| path[..n].to_vec());
        heads.into_iter().find(|head| modules.contains(head))
    };
    let imports = |source: &Source| {
        let own = source.module();
        let paths = source.paths(&below(&own));
        paths.into_iter().filter_map(file).filter(|other| *other != own).map(|other| other.join("::")).collect()
    };
    sources.iter().map(|source| (source.module().join("::"), imports(source))).collect()
}

#[test]
fn files_of_the_reader_import_in_no_circle() {
    let mut left = reader_imports();
    assert!(left.len() > 40 && left.values().any(|imports| imports.len() > 5), "the imports were not found");
    // Whoever imports nothing that is left is in no circle.
    while let Some(leaf) = left.iter().find(|(_, imports)| imports.is_empty()).map(|(file, _)| file.clone()) {
        left.remove(&leaf);
        for imports in left.values_mut() {
            imports.remove(&leaf);
        }
    }
    assert!(left.is_empty(), "files that import each other, or files that do: {left:#?}");
}

#[test]
fn functions_are_short() {
    let lengths = |sources: Vec<Source>| -> Vec<(usize, String)> {
        let named = |source: &Source| {
            let name = source.name.clone();
            source
                .functions()
                .into_iter()
                .map(move |(function, line, lines)| (lines, format!("{name}:{line} {function}")))
        };
        sources.iter().flat_map(named).collect::<Vec<_>>()
    };
    let of_reader = lengths(reader());
    assert!(of_reader.len() > 400, "the functions were not found");
    let long: Vec<_> = of_reader.iter().filter(|(lines, _)| *lines > 80).collect();
    assert!(long.is_empty(), "longer than 80 lines: {long:?}");
    for all in [of_reader, lengths(reader_and_others())] {
        let long: Vec<_> = all.iter().filter(|(lines, _)| *lines >= 40).collect();
        assert!(long.len() * 10 <= all.len(), "more than one in ten of {} has 40 lines: {long:?}", all.len());
    }
}

/// Names of values in the tests of their grammar.
const VALUES: &[&str] =
    &["digits", "vulgar", "number", "portions", "count-of", "out-of", "duration", "temperature", "grid"];

#[test]
fn no_word_of_the_language_stands_in_the_reader() {
    let sources = reader_and_others();
    let data = Data::new(&sources);
    let english = Path::new(env!("CARGO_MANIFEST_DIR")).join("src/phrase");
    let mut faults = Vec::new();
    for source in sources.iter().filter(|source| source.name.starts_with(READER)) {
        let kinds = LITERALS.iter().find(|(name, _)| source.name.starts_with(name)).map_or(&[][..], |(_, kinds)| kinds);
        for literal in source.literals.iter().filter(|literal| has_words(&literal.text)) {
            let text = literal.text.trim_start_matches("../");
            let is_file = text.starts_with("english/") && english.join(text).is_file();
            if !is_file && !kinds.iter().any(|kind| data.allows(source, literal, *kind)) {
                faults.push(format!("{}:{} {:?} is none of {kinds:?}", source.name, literal.line, literal.text));
            }
        }
    }
    assert!(faults.is_empty(), "words in the code:\n{}", faults.join("\n"));
}
