//! Scripts of messages on a virtual clock, each beside the output it must give, byte for byte. To accept a changed
//! output after reading it, run with `RACKFUL_ACCEPT=1`.

use rackful::assistant::Defaults;
use rackful::desk::Desk;
use rackful::replay;
use rackful::store::MemoryStore;
use std::fs;
use std::path::Path;

pub(super) fn play(script: &str) -> String {
    let mut desk = Desk::open(Box::new(MemoryStore::default()), Defaults::default()).unwrap();
    let mut out = Vec::new();
    replay::run(script.as_bytes(), &mut desk, &mut out).unwrap();
    String::from_utf8(out).unwrap()
}

#[test]
fn every_script_gives_its_expected_output_twice() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/data/replay");
    let mut played = 0;
    let mut faults = Vec::new();
    for entry in fs::read_dir(&folder).unwrap() {
        let path = entry.unwrap().path();
        if path.extension().is_none_or(|ending| ending != "jsonl") {
            continue;
        }
        let script = fs::read_to_string(&path).unwrap();
        let out = play(&script);
        assert_eq!(out, play(&script), "{} is not deterministic", path.display());
        let expected = path.with_extension("expected");
        if std::env::var_os("RACKFUL_ACCEPT").is_some() {
            fs::write(&expected, &out).unwrap();
        }
        if fs::read_to_string(&expected).unwrap_or_default() != out {
            faults.push(format!("{}\n{out}", path.display()));
        }
        played += 1;
    }
    assert!(played >= 17, "the scripts were not found");
    assert!(faults.is_empty(), "another output than expected:\n{}", faults.join("\n"));
}
