//! Starts the parts, ticks the desk when something falls due, and ends in good order.

use super::homes::{self, Homes};
use super::invites::Joiner;
use super::kept::session_file;
use super::keys::KeyKeeper;
use super::outgoing::Sender;
use super::owner::{DeskHandle, own};
use super::receipts;
use super::session;
use super::settings::MatrixSettings;
use super::space::{AGAIN, Space, takes_nothing};
use super::sync::Syncer;
use super::trouble::ServeError;
use crate::clock::Clock;
use crate::desk::Desk;
use crate::store::Restored;
use chrono::{DateTime, TimeDelta, Utc};
use std::path::Path;
use std::sync::{Arc, Mutex};
use std::time::Duration;
use tokio::signal::unix::{Signal, SignalKind, signal};
use tokio::sync::mpsc::unbounded_channel;
use tokio::sync::{Notify, watch};
use tokio::task::JoinSet;

/// The longest sleep until the clock is looked at again: a machine may be suspended, or its clock set.
const DOZE: Duration = Duration::from_secs(20);

/// Runs the assistant on a homeserver until the process is asked to end (SIGTERM or SIGINT: `Ok`) or cannot go on.
/// `data` is the store's folder; the session and the Matrix library's own store go beside it, in `data/matrix`.
///
/// # Errors
/// When the settings, the credentials or the kept session are wrong, the store fails, or the sync fails in a way that
/// only a new process mends. A homeserver that cannot be reached is no error: it is tried again until it can.
pub async fn serve(
    settings: &MatrixSettings,
    desk: Desk,
    clock: Arc<dyn Clock>,
    data: &Path,
) -> Result<(), ServeError> {
    let mut stop = Stop::listen()?;
    let client = tokio::select! {
        client = session::open(settings, data) => client?,
        () = stop.asked() => return Ok(()),
    };
    let permits = settings.permits.clone();
    let me = client.user_id().ok_or(ServeError::NoCredential)?.to_owned();
    let session_file = session_file(data);
    let (desk, news, thread) = own(desk, clock.clone()).map_err(|why| sdk("start a thread", &why))?;
    let (caught_up, ready) = watch::channel(false);
    let invited = Arc::new(Notify::new());
    let homes = Arc::new(watch::Sender::new(Homes::read(desk.note(homes::NOTE).await?.as_deref())));
    let mut tasks = JoinSet::new();

    let sender = Sender {
        client: client.clone(),
        me: me.clone(),
        permits: permits.clone(),
        desk: desk.clone(),
        clock: clock.clone(),
        homes: homes.subscribe(),
        restored: Restored::read(desk.note(Restored::NOTE).await?.as_deref()),
        session_file: session_file.clone(),
    };
    // What fell due while it was down is announced after what was said meanwhile is taken in: that may have settled it.
    tasks.spawn(after(ready.clone(), sender.run(news.out)));
    tasks.spawn(after(ready.clone(), keep_time(desk.clone(), clock.clone(), news.due)));
    tasks.spawn(after(ready.clone(), keep_snapshots(desk.clone())));
    let keys = KeyKeeper::new(client.clone(), settings.log_in.clone(), data);
    tasks.spawn(after(ready.clone(), keys.run()));
    tasks.spawn(
        Joiner {
            client: client.clone(),
            permits: permits.clone(),
            invited: invited.clone(),
            session_file: session_file.clone(),
        }
        .run(),
    );
    let key_wait = TimeDelta::from_std(settings.key_wait).unwrap_or(TimeDelta::MAX);
    let space = Space::of(data);
    let (read, receipts) = unbounded_channel();
    let mut side = JoinSet::new();
    side.spawn(receipts::send(client.clone(), receipts));
    let me_too = me.clone();
    let syncer = Syncer {
        client,
        me: me_too,
        permits,
        desk,
        clock,
        invited,
        caught_up,
        space,
        floods: Mutex::default(),
        homes,
        read,
        key_wait,
        session_file,
    };
    tasks.spawn(syncer.run());
    tracing::info!(user = %me, "serving");

    let ended = tokio::select! {
        ended = tasks.join_next() => Err(ended.and_then(Result::ok).unwrap_or(ServeError::DeskGone)),
        () = stop.asked() => Ok(()),
    };
    // With the tasks go the last handles, and with these the thread, after the write it is at. A sync cut short here is
    // asked for again by the next process.
    tasks.shutdown().await;
    side.shutdown().await;
    let _ = tokio::task::spawn_blocking(|| thread.join()).await;
    tracing::info!("stopped");
    ended
}

async fn after(mut ready: watch::Receiver<bool>, then: impl Future<Output = ServeError>) -> ServeError {
    // The lock that comes with the answer must not be held on.
    let came = ready.wait_for(|ready| *ready).await.is_ok();
    if came { then.await } else { ServeError::DeskGone }
}

/// Has a snapshot made every day. One that fails is tried again in an hour, and no reason to stop.
async fn keep_snapshots(desk: DeskHandle) -> ServeError {
    loop {
        match desk.snapshot().await {
            Ok(()) => {}
            Err(ServeError::Store(error)) => tracing::warn!("no snapshot was made: {error}"),
            Err(error) => return error,
        }
        tokio::time::sleep(Duration::from_secs(3600)).await;
    }
}

/// Ticks the desk whenever something falls due.
async fn keep_time(
    desk: DeskHandle,
    clock: Arc<dyn Clock>,
    mut due: watch::Receiver<Option<DateTime<Utc>>>,
) -> ServeError {
    loop {
        let next = *due.borrow_and_update();
        let left = next.map(|next| clock.until(next));
        if left.is_some_and(|left| left.is_zero()) {
            match desk.tick().await {
                // What fell due stays due, and is told when the disk takes it.
                Err(ServeError::Store(error)) if takes_nothing(&error) => tokio::time::sleep(AGAIN).await,
                Err(error) => return error,
                Ok(()) => {}
            }
            // The wheel must not spin if the desk finds nothing to do at a time that it named.
            tokio::time::sleep(Duration::from_millis(50)).await;
            continue;
        }
        tokio::select! {
            () = tokio::time::sleep(left.unwrap_or(DOZE).min(DOZE)) => {}
            changed = due.changed() => if changed.is_err() { return ServeError::DeskGone },
        }
    }
}

fn sdk(doing: &'static str, why: &dyn std::error::Error) -> ServeError {
    ServeError::Sdk { doing, why: why.to_string() }
}

/// The signals that ask a service to end.
struct Stop {
    terminate: Signal,
    interrupt: Signal,
}

impl Stop {
    fn listen() -> Result<Self, ServeError> {
        let listen = |kind| signal(kind).map_err(|why| sdk("listen for signals", &why));
        Ok(Self { terminate: listen(SignalKind::terminate())?, interrupt: listen(SignalKind::interrupt())? })
    }

    async fn asked(&mut self) {
        tokio::select! {
            _ = self.terminate.recv() => {}
            _ = self.interrupt.recv() => {}
        }
    }
}
