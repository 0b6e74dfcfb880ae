//! The thread that brings the index up to the journal. An index write takes about a quarter of the time of a sync, and
//! nobody needs it before the reply goes out; so `keep` hands the lines over and does not wait.

use super::index::Index;
use super::journal::Appended;
use std::sync::mpsc::{Receiver, RecvTimeoutError, SyncSender, TrySendError, channel, sync_channel};
use std::time::Duration;

/// How many writes may wait for the index. It is faster than disks sync, so only a stuck one fills this.
const WAITING: usize = 4_096;

/// How long a write waits for others to go into the index with it. In a burst the thread then need not be woken each
/// time, which would cost the one who waits for the disk.
const LINGER: Duration = Duration::from_millis(10);

/// How many lines go into one index write at most.
const BATCH: usize = 1_000;

/// How long closing waits for a stuck index.
const PATIENCE: Duration = Duration::from_secs(20);

/// The index at work in its thread. Dropping it finishes what waits.
pub(crate) struct Follower {
    to: Option<SyncSender<Appended>>,
    done: Receiver<()>,
}

impl Follower {
    /// Starts the thread.
    pub(crate) fn start(index: Index) -> std::io::Result<Self> {
        let (to, from) = sync_channel(WAITING);
        let (finished, done) = channel();
        std::thread::Builder::new().name("index".into()).spawn(move || {
            follow(index, &from);
            let _ = finished.send(());
        })?;
        Ok(Self { to: Some(to), done })
    }

    /// Hands lines over. When the index is stuck or has failed it gets nothing more: the next start brings it up to
    /// date.
    pub(crate) fn hand(&mut self, lines: Appended) {
        let Some(to) = &self.to else { return };
        match to.try_send(lines) {
            Ok(()) => {}
            Err(TrySendError::Full(_)) => {
                tracing::warn!("the index does not keep up and is left behind until the next start");
                self.to = None;
            }
            Err(TrySendError::Disconnected(_)) => self.to = None,
        }
    }
}

impl Drop for Follower {
    fn drop(&mut self) {
        self.to = None;
        if self.done.recv_timeout(PATIENCE) == Err(RecvTimeoutError::Timeout) {
            tracing::warn!("the index is stuck; it is mended from the journal at the next start");
        }
    }
}

fn follow(index: Index, from: &Receiver<Appended>) {
    while let Ok(first) = from.recv() {
        std::thread::sleep(LINGER);
        let mut batch = vec![first];
        let mut lines = batch.iter().map(|appended| appended.ends.len()).sum::<usize>();
        while lines < BATCH
            && let Ok(more) = from.try_recv()
        {
            lines += more.ends.len();
            batch.push(more);
        }
        if let Err(why) = index.put(batch.iter().flat_map(Appended::lines)) {
            tracing::warn!(%why, "the index failed and is left behind until the next start");
            break;
        }
    }
    index.close();
}
