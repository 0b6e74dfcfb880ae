//! Starts itself, kills itself, damages what is on disk, and looks whether every accepted commit is there exactly once.
//! Prints its seed; `RACKFUL_CRASH_SEED`, `RACKFUL_CRASH_ROUNDS`, `RACKFUL_CRASH_DAMAGES` and `RACKFUL_CRASH_FILES`
//! set what is run.

#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing, clippy::string_slice, clippy::expect_used)]

#[path = "it/store/sample.rs"]
mod sample;

use rackful::store::{DiskStore, Notes, Store};
use sample::{Lots, commit, number};
use std::fs::{self, File};
use std::io::{BufRead, BufReader, Write};
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::time::Duration;

type Check = (&'static str, fn(u64));

const CHECKS: [Check; 4] = [
    ("killed_at_random_moments_every_acknowledged_commit_is_there_once", killed_at_random_moments),
    ("whatever_happens_to_the_index_the_store_is_the_same", damaged_index),
    ("whatever_happens_to_one_file_of_a_store_the_other_gives_it_back", damaged_anywhere),
    ("journal_torn_at_every_byte_of_its_last_record_keeps_all_before_it", torn_tail),
];

fn main() {
    let arguments: Vec<_> = std::env::args().skip(1).collect();
    if let [word, folder] = arguments.as_slice()
        && word == "child"
    {
        return child(Path::new(folder));
    }
    if arguments.iter().any(|argument| argument == "--list") {
        return CHECKS.iter().for_each(|(name, _)| println!("{name}: test"));
    }
    let seed = setting("SEED", u64::from(std::process::id()) ^ Lots(7).below(u64::MAX));
    let wanted: Vec<_> = arguments.iter().filter(|argument| !argument.starts_with('-')).collect();
    for (name, check) in CHECKS {
        if wanted.is_empty() || wanted.iter().any(|part| name.contains(part.as_str())) {
            println!("test {name} (RACKFUL_CRASH_SEED={seed}) ...");
            check(seed);
            println!("test {name} ... ok");
        }
    }
}

fn setting(name: &str, default: u64) -> u64 {
    std::env::var(format!("RACKFUL_CRASH_{name}")).map_or(default, |value| value.parse().expect("a number"))
}

/// Says how many commits it finds, then keeps more and says so each time, until it is killed. Every third message is
/// sent.
fn child(folder: &Path) {
    let mut store = DiskStore::open(folder).unwrap();
    let mut n = numbers(&store).len() as u64;
    let mut out = std::io::stdout().lock();
    let mut say = |words: String| out.write_all(words.as_bytes()).and_then(|()| out.flush()).unwrap();
    say(format!("found {n}\n"));
    loop {
        let next: Vec<_> = (n + 1..=n + 1 + n % 3).map(commit).collect();
        store.keep(&next, &Notes::from([("token".into(), Some(n.to_string()))])).unwrap();
        n += next.len() as u64;
        say(format!("kept {n}\n"));
        for sent in next.iter().filter(|commit| number(commit).is_multiple_of(3)) {
            store.sent(&sent.out[0].key).unwrap();
        }
    }
}

/// The numbers of the commits, which must be 1, 2, 3 and so on.
fn numbers(store: &dyn Store) -> Vec<u64> {
    let mut found = Vec::new();
    store.each(&mut |commit| found.push(number(&commit))).unwrap();
    assert!(found.iter().copied().eq(1..=found.len() as u64), "not each once: {found:?}");
    found
}

/// What may never be lost: all commits up to `kept`, and the messages that nobody sent.
fn check(store: &dyn Store, kept: u64) {
    let found = numbers(store).len() as u64;
    assert!(found >= kept, "{kept} were acknowledged and {found} are there");
    let waiting: Vec<_> = store.outbox().unwrap().into_iter().map(|out| out.key).collect();
    let unsent = |keys: &[String]| keys.iter().filter(|key| !key_number(key).is_multiple_of(3)).count() as u64;
    assert_eq!(unsent(&waiting), found - found / 3, "the outbox is not what was left unsent");
}

fn key_number(key: &str) -> u64 {
    key[key.len() - 10..].parse().unwrap()
}

fn killed_at_random_moments(seed: u64) {
    let mut lots = Lots(seed);
    let folder = tempfile::tempdir().unwrap();
    let mut kept = 0;
    for round in 0..setting("ROUNDS", 30) {
        kept = run_and_kill(folder.path(), Duration::from_micros(lots.below(200_000)), kept);
        // The journal alone tells everything, and does not touch the index that the next child finds.
        let alone = tempfile::tempdir().unwrap();
        fs::copy(folder.path().join("journal.jsonl"), alone.path().join("journal.jsonl"))
            .map_or_else(|_| assert_eq!(kept, 0), |_| check(&DiskStore::open(alone.path()).unwrap(), kept));
        if round % 5 == 4 {
            check(&DiskStore::open(folder.path()).unwrap(), kept);
        }
    }
    assert!(kept > 0, "no child lived long enough to keep anything");
}

/// The last commit acknowledged by a child that was killed after `life`.
fn run_and_kill(folder: &Path, life: Duration, before: u64) -> u64 {
    let mut child = Command::new(std::env::current_exe().unwrap())
        .args([Path::new("child"), folder])
        .stdout(Stdio::piped())
        .spawn()
        .unwrap();
    let words = BufReader::new(child.stdout.take().unwrap());
    let listener = std::thread::spawn(move || {
        let mut kept = before;
        for line in words.split(b'\n').map_while(Result::ok) {
            let line = String::from_utf8(line).unwrap();
            match line.split_once(' ') {
                Some(("found", n)) => {
                    let found: u64 = n.parse().unwrap();
                    assert!(found >= before, "{before} were acknowledged and {found} are there");
                    kept = found;
                }
                Some(("kept", n)) => kept = n.parse().unwrap(),
                _ => {}
            }
        }
        kept
    });
    std::thread::sleep(life);
    assert_eq!(child.try_wait().unwrap(), None, "the child ended by itself");
    child.kill().unwrap();
    child.wait().unwrap();
    listener.join().unwrap()
}

/// A closed store of some size: its folder, and its journal.
fn filled(commits: u64) -> (tempfile::TempDir, Vec<u8>) {
    let folder = tempfile::tempdir().unwrap();
    let mut store = DiskStore::open(folder.path()).unwrap();
    store.keep(&(1..commits).map(commit).collect::<Vec<_>>(), &Notes::new()).unwrap();
    for n in (3..commits).step_by(3) {
        store.sent(&commit(n).out[0].key).unwrap();
    }
    store.keep(&[commit(commits)], &Notes::from([("token".into(), Some("s".into()))])).unwrap();
    drop(store);
    let journal = fs::read(folder.path().join("journal.jsonl")).unwrap();
    (folder, journal)
}

fn damaged_index(seed: u64) {
    let (original, journal) = filled(1_000);
    let mut set_aside = 0;
    for round in 0..setting("DAMAGES", 40) {
        let mut lots = Lots(seed ^ (round << 32));
        let folder = tempfile::tempdir().unwrap();
        copy_folder(original.path(), folder.path());
        let harm = (0..1 + lots.below(3)).map(|_| damage(&folder.path().join("index"), &mut lots)).collect::<Vec<_>>();
        let open = || DiskStore::open(folder.path()).unwrap_or_else(|error| panic!("round {round}, {harm:?}: {error}"));
        let is_whole = |store: &dyn Store| {
            check(store, 1_000);
            assert_eq!(store.note("token").unwrap().as_deref(), Some("s"), "round {round}, {harm:?}");
        };
        is_whole(&open());
        set_aside += u64::from(fs::read_dir(folder.path()).unwrap().any(|e| is_aside(&e.unwrap().path())));
        assert!(fs::read(folder.path().join("journal.jsonl")).unwrap() == journal, "round {round}, {harm:?}");
        // The index that now is there can give everything back.
        fs::remove_file(folder.path().join("journal.jsonl")).unwrap();
        is_whole(&open());
        assert!(fs::read(folder.path().join("journal.jsonl")).unwrap() == journal, "round {round}, {harm:?}");
    }
    println!("{set_aside} of the damages made the index unusable");
    assert!(set_aside > 0, "no damage was one");
}

/// Each round one file of a closed store, be it the journal or one of the index, is cut short, zeroed, overwritten,
/// added to, changed in some bits or deleted: what then is opened is what was closed.
fn damaged_anywhere(seed: u64) {
    let (original, journal) = filled(120);
    let mut of_journal = 0;
    let rounds = setting("FILES", 200);
    for round in 0..rounds {
        let mut lots = Lots(seed ^ (round << 24));
        let folder = tempfile::tempdir().unwrap();
        copy_folder(original.path(), folder.path());
        // The journal is one file of several, and the one that counts: it is hurt every other time.
        let alone = tempfile::tempdir().unwrap();
        let place = folder.path().join("journal.jsonl");
        let harm = if round % 2 == 0 {
            fs::rename(&place, alone.path().join("journal.jsonl")).unwrap();
            let harm = damage(alone.path(), &mut lots);
            if alone.path().join("journal.jsonl").exists() {
                fs::copy(alone.path().join("journal.jsonl"), &place).unwrap();
            }
            of_journal += 1;
            harm
        } else {
            damage(&folder.path().join("index"), &mut lots)
        };
        let store = DiskStore::open(folder.path()).unwrap_or_else(|e| panic!("round {round}, {harm}: {e}"));
        check(&store, 120);
        assert_eq!(store.note("token").unwrap().as_deref(), Some("s"), "round {round}, {harm}");
        drop(store);
        assert!(fs::read(&place).unwrap() == journal, "round {round}, {harm}");
    }
    println!("{rounds} damages, {of_journal} of them to the journal");
}

fn is_aside(path: &Path) -> bool {
    path.file_name().is_some_and(|name| name.to_string_lossy().starts_with("index.aside-"))
}

/// Does something to one file of a folder, and says what.
fn damage(folder: &Path, lots: &mut Lots) -> String {
    let mut files = files(folder);
    files.sort();
    if files.is_empty() {
        return "nothing left".into();
    }
    let path = &files[lots.below(files.len() as u64) as usize];
    let mut bytes = fs::read(path).unwrap();
    let (at, length) = (lots.below(bytes.len() as u64) as usize, 1 + lots.below(4_096) as usize);
    let end = (at + length).min(bytes.len());
    let what = match lots.below(6) {
        0 => {
            fs::remove_file(path).unwrap();
            return format!("{} deleted", path.display());
        }
        1 => {
            bytes.truncate(at);
            format!("cut at {at}")
        }
        2 => {
            bytes[at..end].fill(0);
            format!("{at}..{end} zeroed")
        }
        3 => {
            bytes[at..end].fill_with(|| lots.below(256) as u8);
            format!("{at}..{end} overwritten")
        }
        4 => {
            bytes.extend((0..length).map(|_| lots.below(256) as u8));
            format!("{length} bytes added")
        }
        _ => {
            for _ in 0..8 {
                let at = lots.below(bytes.len() as u64) as usize;
                if let Some(byte) = bytes.get_mut(at) {
                    *byte ^= 1 << lots.below(8);
                }
            }
            "eight bits flipped".into()
        }
    };
    fs::write(path, bytes).unwrap();
    format!("{} {what}", path.display())
}

fn files(folder: &Path) -> Vec<PathBuf> {
    let entries = fs::read_dir(folder).into_iter().flatten().map(|entry| entry.unwrap().path());
    entries.flat_map(|path| if path.is_dir() { files(&path) } else { vec![path] }).collect()
}

fn copy_folder(from: &Path, to: &Path) {
    fs::create_dir_all(to).unwrap();
    for entry in fs::read_dir(from).unwrap() {
        let path = entry.unwrap().path();
        let copy = to.join(path.file_name().unwrap());
        if path.is_dir() {
            copy_folder(&path, &copy);
        } else {
            fs::copy(&path, &copy).unwrap();
        }
    }
}

fn torn_tail(_: u64) {
    let (original, journal) = filled(6);
    let last = commit(6);
    // The last write: the commit, then the notes.
    let needle = format!("\"message\":\"{}\"", last.message.as_ref().unwrap());
    let text = String::from_utf8(journal.clone()).unwrap();
    let start = text[..text.find(&needle).unwrap()].rfind('\n').unwrap() + 1;
    let end = start + text[start..].find('\n').unwrap() + 1;
    for at in start..end {
        let alone = tempfile::tempdir().unwrap();
        File::create(alone.path().join("journal.jsonl")).unwrap().write_all(&journal[..at]).unwrap();
        let store = DiskStore::open(alone.path()).unwrap();
        assert_eq!(numbers(&store).len(), 5, "torn at {at}");
        check(&store, 5);
    }
    for at in (start..journal.len()).step_by(29) {
        let both = tempfile::tempdir().unwrap();
        copy_folder(original.path(), both.path());
        fs::write(both.path().join("journal.jsonl"), &journal[..at]).unwrap();
        drop(DiskStore::open(both.path()).unwrap());
        assert!(fs::read(both.path().join("journal.jsonl")).unwrap() == journal, "torn at {at}, with the index");
    }
}
