//! One person in one room, and the desk.

use super::files::put_down;
use crate::assistant::{Incoming, Outgoing, Said};
use crate::clock::Clock;
use crate::desk::Desk;
use crate::ledger::MessageId;
use crate::store::{Notes, StoreError};
use crate::zone::Zone;
use chrono::{DateTime, Utc};
use std::path::PathBuf;
use std::sync::Arc;
use std::time::Duration;

/// The console's room.
pub const ROOM: &str = "home";

/// The longest sleep: after a suspend or a changed clock no deadline is missed by more than this.
const LONGEST_WAIT: Duration = Duration::from_secs(15);

/// The shortest: deadlines that cannot be met yet must not keep a processor busy.
const SHORTEST_WAIT: Duration = Duration::from_millis(50);

/// A console's conversation.
pub struct Session {
    desk: Desk,
    clock: Arc<dyn Clock>,
    zone: Zone,
    who: Arc<str>,
    /// Unique to this session, so that message ids are unique for good.
    prefix: String,
    said: u64,
    /// After a refused write: when to try again.
    not_before: DateTime<Utc>,
    /// Where files that go with an answer are put.
    folder: Option<PathBuf>,
}

impl Session {
    /// This person, at this desk, on a machine in this time zone.
    pub fn new(desk: Desk, clock: Arc<dyn Clock>, zone: Zone, who: &str) -> Self {
        let started = clock.now().timestamp_micros();
        let prefix = format!("console-{started:x}-{:x}", std::process::id());
        Self { desk, clock, zone, who: Arc::from(who), prefix, said: 0, not_before: DateTime::UNIX_EPOCH, folder: None }
    }

    /// Puts files that go with an answer into this folder, which is made when the first one comes.
    pub fn with_files(self, folder: PathBuf) -> Self {
        Self { folder: Some(folder), ..self }
    }

    /// Hears a line and gives the answers.
    ///
    /// # Errors
    /// When the store does not keep it; then it does not count and can be said again.
    pub fn say(&mut self, text: &str) -> Result<Vec<Outgoing>, StoreError> {
        let now = self.clock.now();
        self.said += 1;
        let message = Incoming {
            room: Arc::from(ROOM),
            who: Arc::clone(&self.who),
            id: MessageId::new(&format!("{}-{}", self.prefix, self.said)),
            at: self.zone.local(now),
            direct: true,
            thread: None,
            said: Said::Text { text: text.to_owned(), reply_to: None },
        };
        let said = self.desk.hear(&[message], now, &Notes::new())?;
        Ok(self.here(said))
    }

    /// What was kept but, as far as is known, never shown: the program was stopped in between.
    ///
    /// # Errors
    /// When the store cannot be read.
    pub fn left_over(&self) -> Result<Vec<Outgoing>, StoreError> {
        self.desk.outbox().map(|said| self.here(said))
    }

    /// What has fallen due.
    ///
    /// # Errors
    /// When the store does not keep it; it stays due.
    pub fn due(&mut self) -> Result<Vec<Outgoing>, StoreError> {
        let now = self.clock.now();
        if now < self.not_before || self.desk.next_due(now).is_none_or(|due| due > now) {
            return Ok(Vec::new());
        }
        self.desk.tick(now).map(|said| self.here(said)).inspect_err(|_| self.not_before = now + LONGEST_WAIT)
    }

    /// How long nothing can fall due.
    pub fn wait(&self) -> Duration {
        let now = self.clock.now();
        let until = self.desk.next_due(now).map(|due| self.clock.until(due.max(self.not_before)));
        until.unwrap_or(LONGEST_WAIT).clamp(SHORTEST_WAIT, LONGEST_WAIT)
    }

    /// A message was shown. If that cannot be noted it will be shown again, which does no harm.
    pub fn shown(&mut self, outgoing: &Outgoing) {
        if let Err(error) = self.desk.sent(&outgoing.key) {
            tracing::warn!("cannot note that a message was shown: {error}");
        }
    }

    /// The console's own messages, their files put down. A store that also serves other rooms keeps theirs for the
    /// driver that can send them.
    fn here(&self, mut out: Vec<Outgoing>) -> Vec<Outgoing> {
        out.retain(|outgoing| &*outgoing.room == ROOM);
        if let Some(folder) = &self.folder {
            out.iter_mut().for_each(|outgoing| put_down(outgoing, &self.desk, folder));
        }
        out
    }
}
