//! The one thread that owns the desk. Its writes wait for the disk, so it is a thread and not a task, and no lock
//! is ever held across a wait.

use super::trouble::ServeError;
use crate::assistant::{Incoming, Outgoing};
use crate::clock::Clock;
use crate::desk::{Beside, Desk};
use crate::enclosure::Enclosure;
use crate::files::{self, File};
use crate::ledger::MessageId;
use crate::store::{Notes, StoreError, Told};
use chrono::{DateTime, Utc};
use std::sync::Arc;
use std::thread::JoinHandle;
use tokio::sync::{mpsc, oneshot, watch};

type Answer<T> = oneshot::Sender<Result<T, StoreError>>;

enum Request {
    Hear(Vec<Incoming>, Beside, Notes, Answer<()>),
    HearAhead(Vec<Incoming>),
    Tick(Answer<()>),
    Outbox(Answer<Vec<Outgoing>>),
    Sent(String, Option<MessageId>, Answer<()>),
    Known(Arc<str>, MessageId, Answer<Known>),
    HasLedger(Arc<str>, Answer<bool>),
    File(Box<Enclosure>, Arc<str>, Answer<Result<File, String>>),
    Snapshot(Answer<()>),
    Note(String, Answer<Option<String>>),
}

/// What an event is.
#[derive(Debug)]
pub(super) enum Known {
    /// Somebody's message that was heard.
    Heard,
    /// One of the assistant's own.
    Told(Told),
    /// Nothing that the desk knows.
    No,
}

/// How tasks talk to the desk. The thread ends, and closes the store, when the last of these is gone.
#[derive(Clone)]
pub(super) struct DeskHandle {
    requests: mpsc::Sender<Request>,
}

/// What the thread says unasked.
pub(super) struct DeskNews {
    /// What goes out, once it is on disk.
    pub(super) out: mpsc::UnboundedReceiver<Outgoing>,
    /// When the next thing falls due.
    pub(super) due: watch::Receiver<Option<DateTime<Utc>>>,
}

/// Starts the thread.
///
/// # Errors
/// When the system gives no thread.
pub(super) fn own(desk: Desk, clock: Arc<dyn Clock>) -> Result<(DeskHandle, DeskNews, JoinHandle<()>), std::io::Error> {
    let (requests, inbox) = mpsc::channel(64);
    let (out_to, out) = mpsc::unbounded_channel();
    let (due_to, due) = watch::channel(desk.next_due(clock.now()));
    let mut owner = Owner { desk, clock, out: out_to, due: due_to };
    let thread = std::thread::Builder::new().name("desk".into()).spawn(move || owner.run(inbox))?;
    Ok((DeskHandle { requests }, DeskNews { out, due }, thread))
}

struct Owner {
    desk: Desk,
    clock: Arc<dyn Clock>,
    out: mpsc::UnboundedSender<Outgoing>,
    due: watch::Sender<Option<DateTime<Utc>>>,
}

impl Owner {
    fn run(&mut self, mut inbox: mpsc::Receiver<Request>) {
        // An answer that nobody waits for any more is no trouble: the work is done all the same.
        while let Some(request) = inbox.blocking_recv() {
            match request {
                Request::Hear(messages, beside, notes, answer) => {
                    let out = self.desk.hear_and_say(&messages, beside, self.clock.now(), &notes);
                    let _ = answer.send(self.pass_on(out));
                }
                Request::HearAhead(messages) => self.desk.hear_ahead(messages, self.clock.now()),
                Request::Tick(answer) => {
                    let out = self.desk.tick(self.clock.now());
                    let _ = answer.send(self.pass_on(out));
                }
                Request::Outbox(answer) => {
                    let _ = answer.send(self.desk.outbox());
                }
                Request::Sent(key, id, answer) => {
                    let _ = answer.send(match id {
                        Some(id) => self.desk.sent_as(&key, &id),
                        None => self.desk.sent(&key),
                    });
                }
                Request::HasLedger(room, answer) => {
                    let ledger = self.desk.assistant().ledger(&room);
                    let _ = answer.send(Ok(ledger.is_some_and(|ledger| !ledger.is_empty())));
                }
                Request::File(enclosure, room, answer) => {
                    let file = files::file(&enclosure, &room, &self.desk);
                    let _ = answer.send(Ok(file.map_err(|error| error.to_string())));
                }
                Request::Snapshot(answer) => {
                    let _ = answer.send(self.desk.snapshot(self.clock.world_at(self.clock.now())));
                }
                Request::Known(room, id, answer) => {
                    let _ = answer.send(self.known(&room, &id));
                }
                Request::Note(name, answer) => {
                    let _ = answer.send(self.desk.note(&name));
                }
            }
        }
    }

    fn known(&self, room: &str, id: &MessageId) -> Result<Known, StoreError> {
        if let Some(told) = self.desk.told(id)? {
            return Ok(Known::Told(told));
        }
        Ok(if self.desk.assistant().has_heard(room, id) { Known::Heard } else { Known::No })
    }

    fn pass_on(&mut self, out: Result<Vec<Outgoing>, StoreError>) -> Result<(), StoreError> {
        for message in out? {
            // Without a receiver the program is ending; the outbox keeps it.
            let _ = self.out.send(message);
        }
        self.due.send_replace(self.desk.next_due(self.clock.now()));
        Ok(())
    }
}

impl DeskHandle {
    /// See [`Desk::hear_and_say`]; what goes out arrives at the sender.
    pub(super) async fn hear(&self, messages: Vec<Incoming>, beside: Beside, notes: Notes) -> Result<(), ServeError> {
        self.ask(|answer| Request::Hear(messages, beside, notes, answer)).await
    }

    /// See [`Desk::hear_ahead`]. Returns when there is room for it, not when it is done.
    pub(super) async fn hear_ahead(&self, messages: Vec<Incoming>) -> Result<(), ServeError> {
        self.requests.send(Request::HearAhead(messages)).await.map_err(|_| ServeError::DeskGone)
    }

    /// See [`Desk::tick`].
    pub(super) async fn tick(&self) -> Result<(), ServeError> {
        self.ask(Request::Tick).await
    }

    /// See [`Desk::outbox`].
    pub(super) async fn outbox(&self) -> Result<Vec<Outgoing>, ServeError> {
        self.ask(Request::Outbox).await
    }

    /// See [`Desk::sent`] and [`Desk::sent_as`].
    pub(super) async fn sent(&self, key: &str, id: Option<MessageId>) -> Result<(), ServeError> {
        let key = key.to_owned();
        self.ask(|answer| Request::Sent(key, id, answer)).await
    }

    /// Whether a room has entries.
    pub(super) async fn has_ledger(&self, room: &Arc<str>) -> Result<bool, ServeError> {
        let room = room.clone();
        self.ask(|answer| Request::HasLedger(room, answer)).await
    }

    /// See [`files::file`].
    pub(super) async fn file(&self, enclosure: Enclosure, room: Arc<str>) -> Result<Result<File, String>, ServeError> {
        self.ask(|answer| Request::File(Box::new(enclosure), room, answer)).await
    }

    /// See [`Desk::snapshot`].
    pub(super) async fn snapshot(&self) -> Result<(), ServeError> {
        self.ask(Request::Snapshot).await
    }

    /// What an event of a room is, as far as the desk knows.
    pub(super) async fn known(&self, room: &Arc<str>, id: &MessageId) -> Result<Known, ServeError> {
        let (room, id) = (room.clone(), id.clone());
        self.ask(|answer| Request::Known(room, id, answer)).await
    }

    /// See [`Desk::note`].
    pub(super) async fn note(&self, name: &str) -> Result<Option<String>, ServeError> {
        let name = name.to_owned();
        self.ask(|answer| Request::Note(name, answer)).await
    }

    async fn ask<T>(&self, request: impl FnOnce(Answer<T>) -> Request) -> Result<T, ServeError> {
        let (answer, answered) = oneshot::channel();
        self.requests.send(request(answer)).await.map_err(|_| ServeError::DeskGone)?;
        Ok(answered.await.map_err(|_| ServeError::DeskGone)??)
    }
}
