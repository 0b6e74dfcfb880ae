//! A store that is stopped without care, in one of several ways, and opened again.

use super::defaults;
use super::household::Line;
use crate::store::sample::Lots;
use rackful::assistant::{Commit, Outgoing};
use rackful::desk::Desk;
use rackful::ledger::MessageId;
use rackful::replay;
use rackful::store::{DiskStore, Notes, Store, StoreError, Told};
use serde_json::{Value, json};
use std::collections::BTreeSet;
use std::fs;
use std::io::Write;
use std::path::Path;
use std::sync::{Arc, Mutex};
use tempfile::TempDir;

/// Before which lines of a season the program is stopped.
pub(super) fn cuts(lines: &[Line], lots: &mut Lots) -> Vec<usize> {
    let count = 3 + lots.below(6);
    let cuts: BTreeSet<usize> = (0..count).map(|_| 1 + lots.below(lines.len() as u64 - 1) as usize).collect();
    cuts.into_iter().collect()
}

/// The season in pieces, each but the first beginning with a look at the state at the very instant at which the one
/// before ended.
pub(super) fn with_looks(lines: Vec<Line>, cuts: &[usize]) -> Vec<Vec<Line>> {
    let mut pieces = vec![Vec::new()];
    for (n, line) in lines.into_iter().enumerate() {
        if cuts.contains(&n) {
            let last: &Line = pieces.last().and_then(|piece: &Vec<Line>| piece.last()).unwrap();
            let look = Line {
                id: None,
                words: None,
                meant: Vec::new(),
                json: json!({"at": last.at.to_rfc3339(), "room": "home", "state": true}).to_string(),
                ..last.clone()
            };
            pieces.push(vec![look]);
        }
        pieces.last_mut().unwrap().push(line);
    }
    pieces
}

/// Plays lines into a desk.
pub(super) fn run(lines: &[&Line], desk: &mut Desk, out: &mut Vec<u8>) {
    let script: Vec<_> = lines.iter().map(|line| line.json.as_str()).collect();
    replay::run(script.join("\n").as_bytes(), desk, out).unwrap();
}

/// A store on disk that does not always note what was sent, as when the program is killed in between.
struct Forgetful {
    disk: DiskStore,
    lots: Lots,
    forgotten: Arc<Mutex<Vec<String>>>,
}

impl Store for Forgetful {
    fn keep(&mut self, commits: &[Commit], notes: &Notes) -> Result<(), StoreError> {
        self.disk.keep(commits, notes)
    }

    fn adopt(&mut self, commits: &[Commit], waiting: &BTreeSet<String>) -> Result<(), StoreError> {
        self.disk.adopt(commits, waiting)
    }

    fn each(&self, take: &mut dyn FnMut(Commit)) -> Result<(), StoreError> {
        self.disk.each(take)
    }

    fn outbox(&self) -> Result<Vec<Outgoing>, StoreError> {
        self.disk.outbox()
    }

    fn sent_as(&mut self, key: &str, id: Option<&MessageId>) -> Result<(), StoreError> {
        if self.lots.below(20) == 0 {
            self.forgotten.lock().unwrap().push(key.to_owned());
            return Ok(());
        }
        self.disk.sent_as(key, id)
    }

    fn told(&self, id: &MessageId) -> Result<Option<Told>, StoreError> {
        self.disk.told(id)
    }

    fn note(&self, name: &str) -> Result<Option<String>, StoreError> {
        self.disk.note(name)
    }
}

/// A desk on disk that is stopped after each piece of a season.
pub(super) struct Restarts {
    folder: TempDir,
    desk: Option<Desk>,
    lots: Lots,
    forgotten: Arc<Mutex<Vec<String>>>,
    /// What was said last, to be said again as a homeserver does after a restart.
    last: Vec<Line>,
    pub(super) count: usize,
}

/// Memory where there is some: a season syncs hundreds of times.
fn folder() -> TempDir {
    let memory = Path::new("/dev/shm");
    if memory.is_dir() { tempfile::tempdir_in(memory).unwrap() } else { tempfile::tempdir().unwrap() }
}

impl Restarts {
    pub(super) fn new(lots: &mut Lots) -> Self {
        Self {
            folder: folder(),
            desk: None,
            lots: Lots(lots.below(u64::MAX)),
            forgotten: Arc::default(),
            last: Vec::new(),
            count: 0,
        }
    }

    pub(super) fn desk(&self) -> &Desk {
        self.desk.as_ref().unwrap()
    }

    /// Plays a piece of the season after a restart, or after the first start.
    pub(super) fn play(&mut self, piece: &[&Line], out: &mut Vec<u8>) {
        if let Some(desk) = self.desk.take() {
            self.stop(desk);
            self.count += 1;
        }
        let mut desk = self.open();
        if let (Some(first), false) = (piece.first(), self.last.is_empty()) {
            self.hears_again(first, &mut desk);
        }
        run(piece, &mut desk, out);
        self.last = piece.iter().rev().take(3).map(|line| (*line).clone()).collect();
        self.desk = Some(desk);
    }

    fn open(&mut self) -> Desk {
        let disk = DiskStore::open(self.folder.path()).unwrap();
        let (lots, forgotten) = (Lots(self.lots.below(u64::MAX)), self.forgotten.clone());
        let mut desk = Desk::open(Box::new(Forgetful { disk, lots, forgotten }), defaults()).unwrap();
        let waiting: Vec<_> = desk.outbox().unwrap().into_iter().map(|out| out.key).collect();
        assert_eq!(
            waiting,
            std::mem::take(&mut *self.forgotten.lock().unwrap()),
            "the outbox is not what was not noted"
        );
        for key in &waiting {
            // It goes out again, under the same key.
            while desk.outbox().unwrap().iter().any(|out| out.key == *key) {
                desk.sent(key).unwrap();
            }
        }
        self.forgotten.lock().unwrap().clear();
        desk
    }

    /// What was heard before the stop comes once more and does nothing.
    fn hears_again(&self, first: &Line, desk: &mut Desk) {
        for line in self.last.iter().filter(|line| line.id.is_some()) {
            let mut again: Value = serde_json::from_str(&line.json).unwrap();
            again["at"] = json!(first.at.to_rfc3339());
            let (before, mut out) = (desk.assistant().state_json("home", first.at.to_utc()), Vec::new());
            let script = serde_json::to_string(&again).unwrap();
            for line in replay::lines(script.as_bytes()) {
                let replay::Act::Message(message) = line.unwrap().act else { continue };
                out.extend(desk.hear(&[message], first.at.to_utc(), &Notes::new()).unwrap());
            }
            assert!(out.is_empty(), "{out:?}");
            assert_eq!(desk.assistant().state_json("home", first.at.to_utc()), before);
        }
    }

    /// Stops it, and leaves the folder as one of several ends leaves it.
    fn stop(&mut self, desk: Desk) {
        let journal = self.folder.path().join("journal.jsonl");
        match self.lots.below(6) {
            // Killed: nothing is closed, and the index is wherever it is.
            0 | 1 => {
                let copy = folder();
                copy_folder(self.folder.path(), copy.path());
                drop(desk);
                self.folder = copy;
            }
            2 => {
                drop(desk);
                fs::remove_dir_all(self.folder.path().join("index")).unwrap();
            }
            3 => {
                drop(desk);
                let torn = br#"{"v":1,"seq":999999,"commit":{"room":"home","at":"2026-"#;
                fs::OpenOptions::new().append(true).open(&journal).unwrap().write_all(torn).unwrap();
            }
            4 => {
                drop(desk);
                fs::remove_file(&journal).unwrap();
            }
            _ => drop(desk),
        }
    }

    /// Closes it for good and gives the store back.
    pub(super) fn close(&mut self) -> DiskStore {
        drop(self.open_again());
        DiskStore::open(self.folder.path()).unwrap()
    }

    fn open_again(&mut self) -> Desk {
        let desk = self.desk.take().unwrap();
        self.stop(desk);
        self.open()
    }
}

fn copy_folder(from: &Path, to: &Path) {
    for entry in fs::read_dir(from).unwrap() {
        let path = entry.unwrap().path();
        let copy = to.join(path.file_name().unwrap());
        if path.is_dir() {
            fs::create_dir_all(&copy).unwrap();
            copy_folder(&path, &copy);
        } else {
            fs::copy(&path, &copy).unwrap();
        }
    }
}
