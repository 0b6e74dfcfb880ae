//! A person at a terminal: line editing, history, and alerts that appear above the line being typed.

use super::bell::{Show, keep_company};
use super::page::page;
use super::{ConsoleError, Session};
use crate::assistant::Outgoing;
use crate::store::StoreError;
use rustyline::error::ReadlineError;
use rustyline::{Config, DefaultEditor, ExternalPrinter};
use std::io::Write;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::mpsc::{Receiver, RecvTimeoutError, SyncSender, sync_channel};
use std::time::Duration;

const PROMPT: &str = "> ";

/// How long the next prompt waits for an answer. An answer that takes longer appears above the prompt.
const PATIENCE: Duration = Duration::from_secs(10);

/// What a terminal needs besides the session.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Terminal {
    /// What it says first.
    pub greeting: String,
    /// Where typed lines are remembered; nowhere for a throw-away session.
    pub history: Option<PathBuf>,
}

/// Talks with the person until they leave with Ctrl-D, Ctrl-C, `quit` or `exit`.
///
/// # Errors
/// When the terminal cannot be used, or the store cannot be read at the start.
pub fn terminal(mut session: Session, how: &Terminal) -> Result<(), ConsoleError> {
    let config = Config::builder().max_history_size(1000)?.build();
    let mut editor = DefaultEditor::with_config(config)?;
    if let Some(history) = &how.history {
        // Not there the first time.
        let _ = editor.load_history(history);
    }
    let printer = editor.create_external_printer()?;
    let width = Arc::new(AtomicUsize::new(0));
    let (lines_to, lines) = sync_channel(1);
    let (answered_to, answered) = sync_channel(1);
    let mut above = Above { printer, width: Arc::clone(&width), answered: answered_to };
    writeln!(std::io::stdout(), "{}", how.greeting).map_err(ConsoleError::Write)?;
    let company = std::thread::Builder::new()
        .name("company".into())
        .spawn(move || keep_company(&mut session, &lines, &mut above))
        .map_err(ConsoleError::Thread)?;
    // Gone with its ends of the channels when it returns, so that the other thread cannot wait for it.
    let read = Typing { editor, history: how.history.as_deref(), lines: lines_to, answered, width }.read();
    let kept = company.join().unwrap_or_else(|_| Err(ConsoleError::Thread(std::io::Error::other("it stopped"))));
    read.and(kept)
}

/// The line being typed.
struct Typing<'a> {
    editor: DefaultEditor,
    history: Option<&'a Path>,
    lines: SyncSender<String>,
    answered: Receiver<()>,
    width: Arc<AtomicUsize>,
}

impl Typing<'_> {
    /// Reads lines and hands each over, until the person leaves or nobody takes them.
    fn read(mut self) -> Result<(), ConsoleError> {
        loop {
            let columns = self.editor.dimensions().map_or(0, |(columns, _)| usize::from(columns));
            self.width.store(columns, Ordering::Relaxed);
            let line = match self.editor.readline(PROMPT) {
                Ok(line) => line,
                Err(ReadlineError::Eof | ReadlineError::Interrupted) => return Ok(()),
                Err(error) => return Err(error.into()),
            };
            if matches!(line.trim(), "quit" | "exit") {
                return Ok(());
            }
            self.remember(&line);
            // An answer that was too late for the line before may still lie here.
            while self.answered.try_recv().is_ok() {}
            if self.lines.send(line).is_err() {
                return Ok(());
            }
            match self.answered.recv_timeout(PATIENCE) {
                Ok(()) => {}
                Err(RecvTimeoutError::Timeout) => {
                    tracing::warn!("the answer takes long; it will appear above the line")
                }
                Err(RecvTimeoutError::Disconnected) => return Ok(()),
            }
        }
    }

    /// Keeps a line for the arrow keys, at once: a terminal may be closed at any time.
    fn remember(&mut self, line: &str) {
        let added = self.editor.add_history_entry(line).unwrap_or(false);
        if let Some(history) = self.history.filter(|_| added)
            && let Err(error) = self.editor.append_history(history)
        {
            tracing::warn!("cannot keep what was typed in {}: {error}", history.display());
        }
    }
}

/// Writes above the line being typed.
struct Above<P> {
    printer: P,
    width: Arc<AtomicUsize>,
    answered: SyncSender<()>,
}

impl<P: ExternalPrinter> Show for Above<P> {
    fn show(&mut self, said: &[Outgoing]) -> Result<(), ConsoleError> {
        let width = Some(self.width.load(Ordering::Relaxed)).filter(|width| *width > 0);
        // In one piece: the printer holds one message at a time, and would block on a second while no line is read.
        let mut text: String = said.iter().map(|outgoing| page(outgoing, width) + "\n").collect();
        if said.iter().any(|outgoing| outgoing.mention) {
            text.insert(0, '\u{7}');
        }
        Ok(self.printer.print(text)?)
    }

    fn answered(&mut self) {
        // Full when the person did not wait, closed when they left: both are fine.
        let _ = self.answered.try_send(());
    }

    fn refused(&mut self, error: StoreError) -> Result<(), ConsoleError> {
        // The next try may succeed (a full disk was cleared), and a batch's clock must not end with it.
        Ok(self.printer.print(format!("That was not kept: {error}. Then say it again.\n"))?)
    }
}
