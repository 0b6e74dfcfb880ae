//! What a homeserver no longer knows as a repetition must be found by looking: after a day it forgets transaction ids,
//! and a new log-in has none of the old one's.

use crate::bot::USER;
use crate::person::wait;
use crate::synapse::{Rations, Synapse};
use chrono::{TimeDelta, Utc};
use rackful::assistant::{Commit, OutKind, Outgoing};
use rackful::clock::SystemClock;
use rackful::desk::Desk;
use rackful::ledger::MessageId;
use rackful::matrix::settings::{LogIn, MatrixSettings};
use rackful::store::{MemoryStore, Notes, Store, StoreError, Told};
use std::collections::BTreeSet;
use std::io::ErrorKind;
use std::path::Path;
use std::sync::{Arc, Mutex};

/// A store that can be looked at from outside.
#[derive(Clone, Default)]
pub struct Seen(Arc<Mutex<MemoryStore>>, Arc<Mutex<Option<ErrorKind>>>);

impl Seen {
    /// Lets it fail with this from now on, as a disk would.
    pub fn fails(&self, with: Option<ErrorKind>) {
        *self.1.lock().unwrap() = with;
    }

    fn check(&self) -> Result<(), StoreError> {
        match *self.1.lock().unwrap() {
            None => Ok(()),
            Some(kind) => Err(StoreError::Io { doing: "write to", path: "journal.jsonl".into(), source: kind.into() }),
        }
    }
}

impl Store for Seen {
    fn keep(&mut self, commits: &[Commit], notes: &Notes) -> Result<(), StoreError> {
        self.check()?;
        self.0.lock().unwrap().keep(commits, notes)
    }
    fn adopt(&mut self, commits: &[Commit], waiting: &BTreeSet<String>) -> Result<(), StoreError> {
        self.0.lock().unwrap().adopt(commits, waiting)
    }
    fn each(&self, take: &mut dyn FnMut(Commit)) -> Result<(), StoreError> {
        self.0.lock().unwrap().each(take)
    }
    fn outbox(&self) -> Result<Vec<Outgoing>, StoreError> {
        self.0.lock().unwrap().outbox()
    }
    fn sent_as(&mut self, key: &str, id: Option<&MessageId>) -> Result<(), StoreError> {
        self.check()?;
        self.0.lock().unwrap().sent_as(key, id)
    }
    fn told(&self, id: &MessageId) -> Result<Option<Told>, StoreError> {
        self.0.lock().unwrap().told(id)
    }
    fn note(&self, name: &str) -> Result<Option<String>, StoreError> {
        self.0.lock().unwrap().note(name)
    }
}

/// Serves a store within this process, obeying `permitted`, until something is so.
pub fn serve_until(
    server: &Synapse,
    data: &Path,
    store: &Seen,
    permitted: &'static str,
    what: &str,
    so: impl FnMut() -> bool,
) {
    let log_in = Arc::new(|| Ok(Some(LogIn::Password("rackful".into()))));
    let settings = MatrixSettings::new(&server.address(), USER, log_in, Arc::new(move |user: &str| user == permitted));
    let runtime = tokio::runtime::Runtime::new().unwrap();
    let (desk, data) = (Desk::open(Box::new(store.clone()), Default::default()).unwrap(), data.to_owned());
    let serving = runtime
        .spawn(async move { rackful::matrix::serve(&settings, desk, Arc::new(SystemClock), &data).await.unwrap() });
    wait(what, so);
    serving.abort();
    runtime.shutdown_timeout(std::time::Duration::from_secs(10));
}

#[test]
fn an_outbox_entry_hours_old_is_looked_for_before_it_is_sent() {
    let server = Synapse::start(Rations::None);
    let ana = server.register("ana");
    server.register("rackful");
    let data = tempfile::tempdir().unwrap();
    let room = ana.room("12", &[USER]);
    let joined = || ana.membership(&room, USER) == "join";
    serve_until(&server, data.path(), &Seen::default(), "@ana:home.test", "it to join", joined);
    let asked = ana.say(&room, "froze 1 lb");

    // The store of one who was stopped after sending and before noting it; nobody is obeyed, so that all is as it was.
    let send = |age: TimeDelta| {
        let at = Utc::now() - age;
        let out = Outgoing {
            key: "a key".into(),
            room: room.as_str().into(),
            at: at.fixed_offset(),
            out: OutKind::Reply,
            re: Some(MessageId::new(&asked)),
            topic: "froze".into(),
            text: "Froze 1 lb.\n<1 bag>".into(),
            facts: serde_json::Map::new(),
            mention: false,
            thread: None,
            alert: None,
            files: Vec::new(),
        };
        let commit =
            Commit { room: out.room.clone(), at, message: None, said: None, changes: Vec::new(), out: vec![out] };
        let mut store = Seen::default();
        store.keep(&[commit], &Notes::new()).unwrap();
        let sent = || store.outbox().unwrap().is_empty();
        serve_until(&server, data.path(), &store, "@nobody:home.test", "it to be sent", sent);
        ana.answers(&room, &asked).len()
    };
    let (old, new) = (TimeDelta::hours(13), TimeDelta::zero());
    let log_in_anew = || std::fs::rename(data.path().join("matrix"), data.path().join("old")).unwrap();
    assert_eq!(send(old), 1, "what is not found is sent");
    assert_eq!(send(old), 1, "found by its transaction id");
    log_in_anew();
    assert_eq!(send(old), 1, "found by what it answers, and its words");
    std::fs::remove_dir_all(data.path().join("old")).unwrap();
    log_in_anew();
    assert_eq!(send(new), 2, "the homeserver itself knows nothing of a former device: only the search did");
}
