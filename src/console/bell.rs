//! Waits for a line or for the next deadline, whichever comes first.

use super::{ConsoleError, Session};
use crate::assistant::Outgoing;
use crate::store::StoreError;
use std::sync::mpsc::{Receiver, RecvTimeoutError};

/// What a front end does with what is said.
pub(super) trait Show {
    /// Shows some messages, in order.
    fn show(&mut self, said: &[Outgoing]) -> Result<(), ConsoleError>;

    /// A line has been answered in full.
    fn answered(&mut self) {}

    /// The store refused.
    ///
    /// # Errors
    /// When the conversation must end for it.
    fn refused(&mut self, error: StoreError) -> Result<(), ConsoleError> {
        Err(error.into())
    }
}

/// Hears lines until there are no more, and says what falls due in between. This is the one place that waits.
pub(super) fn keep_company(
    session: &mut Session,
    lines: &Receiver<String>,
    front: &mut dyn Show,
) -> Result<(), ConsoleError> {
    let left_over = session.left_over()?;
    say(session, left_over, front)?;
    loop {
        let due = session.due();
        settle(session, due, front)?;
        match lines.recv_timeout(session.wait()) {
            Ok(line) => {
                if !line.trim().is_empty() {
                    let said = session.say(&line);
                    settle(session, said, front)?;
                }
                // What the line itself made due is said before the next prompt.
                let due = session.due();
                settle(session, due, front)?;
                front.answered();
            }
            Err(RecvTimeoutError::Timeout) => {}
            Err(RecvTimeoutError::Disconnected) => return Ok(()),
        }
    }
}

fn settle(
    session: &mut Session,
    said: Result<Vec<Outgoing>, StoreError>,
    front: &mut dyn Show,
) -> Result<(), ConsoleError> {
    match said {
        Ok(said) => say(session, said, front),
        Err(error) => front.refused(error),
    }
}

fn say(session: &mut Session, said: Vec<Outgoing>, front: &mut dyn Show) -> Result<(), ConsoleError> {
    if said.is_empty() {
        return Ok(());
    }
    front.show(&said)?;
    said.iter().for_each(|outgoing| session.shown(outgoing));
    Ok(())
}
