//! Lines from a pipe, answers to a pipe.

use super::bell::{Show, keep_company};
use super::page::page;
use super::{ConsoleError, Session};
use crate::assistant::Outgoing;
use std::io::{BufRead, Read, Write};
use std::sync::mpsc::{Receiver, SyncSender, sync_channel};

/// A line longer than this is cut: the assistant refuses it anyway, and a pipe may hold a line without end.
const LONGEST_LINE: u64 = 64 * 1024;

/// Answers each line of `input`, says what falls due meanwhile, and returns when the input ends and all is written.
///
/// # Errors
/// When the store, the input or the output fails.
pub fn piped(
    mut session: Session,
    input: impl BufRead + Send + 'static,
    out: &mut dyn Write,
) -> Result<(), ConsoleError> {
    // No line is read ahead: what was read but not heard would be lost when the program is stopped.
    let (to, lines) = sync_channel(0);
    let reader = std::thread::Builder::new().name("reader".into()).spawn(move || read(input, &to));
    let reader = reader.map_err(ConsoleError::Thread)?;
    let heard = hear(&mut session, &lines, out);
    // When hearing failed the reader may wait for ever for another line; it goes with the process.
    heard?;
    match reader.join() {
        Ok(read) => read.map_err(ConsoleError::Read),
        Err(_) => Err(ConsoleError::Read(std::io::Error::other("the reader stopped"))),
    }
}

fn hear(session: &mut Session, lines: &Receiver<String>, out: &mut dyn Write) -> Result<(), ConsoleError> {
    keep_company(session, lines, &mut Plain { out })
}

fn read(mut input: impl BufRead, to: &SyncSender<String>) -> std::io::Result<()> {
    while let Some(line) = read_line(&mut input)? {
        if to.send(line).is_err() {
            break;
        }
    }
    Ok(())
}

/// The next line without its end, cut at [`LONGEST_LINE`]; bytes that are not UTF-8 become the replacement character.
fn read_line(input: &mut impl BufRead) -> std::io::Result<Option<String>> {
    let mut line = Vec::new();
    if input.by_ref().take(LONGEST_LINE).read_until(b'\n', &mut line)? == 0 {
        return Ok(None);
    }
    if line.last() == Some(&b'\n') {
        line.pop();
    } else {
        input.skip_until(b'\n')?;
    }
    if line.last() == Some(&b'\r') {
        line.pop();
    }
    Ok(Some(String::from_utf8_lossy(&line).into_owned()))
}

struct Plain<'a> {
    out: &'a mut dyn Write,
}

impl Show for Plain<'_> {
    fn show(&mut self, said: &[Outgoing]) -> Result<(), ConsoleError> {
        for outgoing in said {
            writeln!(self.out, "{}", page(outgoing, None)).map_err(ConsoleError::Write)?;
        }
        self.out.flush().map_err(ConsoleError::Write)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_are_cut_and_mended_but_none_is_lost() -> anyhow::Result<()> {
        let long = "x".repeat(LONGEST_LINE as usize + 10);
        let mut input = std::io::Cursor::new([b"a\r\n\n\xff\n", long.as_bytes(), b"\nlast"].concat());
        let mut next = || read_line(&mut input);
        assert_eq!(next()?.as_deref(), Some("a"));
        assert_eq!(next()?.as_deref(), Some(""));
        assert_eq!(next()?.as_deref(), Some("\u{fffd}"));
        assert_eq!(next()?.map(|line| line.len()), Some(LONGEST_LINE as usize));
        assert_eq!(next()?.as_deref(), Some("last"));
        assert_eq!(next()?, None);
        Ok(())
    }
}
