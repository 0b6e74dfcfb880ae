//! The habits of the tree, checked: imports point one way, the core knows no clock, file or network, and files stay small
//! enough to be about one thing.
#![allow(clippy::unwrap_used, clippy::panic, missing_docs)]

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
