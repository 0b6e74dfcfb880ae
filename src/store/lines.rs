//! Lines of a file of any content, with their numbers and offsets, in bounded memory.

use super::codec::LONGEST;
use std::io::{self, BufRead, BufReader, Read};

/// Reads lines one by one.
pub(crate) struct Lines<'a> {
    from: BufReader<Box<dyn Read + 'a>>,
    bytes: Vec<u8>,
    number: u64,
    offset: u64,
}

/// One line.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Raw<'a> {
    /// Its number, from 1.
    pub(crate) number: u64,
    /// Where it begins, in bytes.
    pub(crate) offset: u64,
    /// The line with its newline; cut short when it is longer than a record can be.
    pub(crate) bytes: &'a [u8],
}

impl Raw<'_> {
    /// Whether its end was written.
    pub(crate) fn ended(&self) -> bool {
        self.bytes.ends_with(b"\n")
    }
}

impl<'a> Lines<'a> {
    pub(crate) fn new(from: Box<dyn Read + 'a>) -> Self {
        Self { from: BufReader::with_capacity(1 << 16, from), bytes: Vec::new(), number: 0, offset: 0 }
    }

    /// The next line; none at the end.
    pub(crate) fn next(&mut self) -> io::Result<Option<Raw<'_>>> {
        self.bytes.clear();
        let mut length = (&mut self.from).take(LONGEST as u64).read_until(b'\n', &mut self.bytes)? as u64;
        if length == 0 {
            return Ok(None);
        }
        if length == LONGEST as u64 && !self.bytes.ends_with(b"\n") {
            length += self.skip()?;
        }
        self.number += 1;
        let offset = self.offset;
        self.offset += length;
        Ok(Some(Raw { number: self.number, offset, bytes: &self.bytes }))
    }

    /// Where the next line begins.
    pub(crate) fn offset(&self) -> u64 {
        self.offset
    }

    fn skip(&mut self) -> io::Result<u64> {
        let mut skipped = 0;
        loop {
            let buffer = self.from.fill_buf()?;
            let (length, last) = match buffer.iter().position(|byte| *byte == b'\n') {
                Some(at) => (at + 1, true),
                None => (buffer.len(), buffer.is_empty()),
            };
            self.from.consume(length);
            skipped += length as u64;
            if last {
                return Ok(skipped);
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use anyhow::Context as _;

    #[test]
    fn an_endless_line_is_one_line_and_the_next_is_found() -> anyhow::Result<()> {
        let long = io::repeat(b'x').take(2 * LONGEST as u64);
        let mut lines = Lines::new(Box::new(b"a\n".chain(long).chain(&b"\nb"[..])));
        let raw = lines.next()?.context("a line")?;
        assert_eq!((raw.number, raw.offset, raw.bytes), (1, 0, &b"a\n"[..]));
        let raw = lines.next()?.context("a line")?;
        assert_eq!((raw.number, raw.offset, raw.ended()), (2, 2, false));
        let raw = lines.next()?.context("a line")?;
        assert_eq!((raw.number, raw.offset, raw.bytes), (3, 3 + 2 * LONGEST as u64, &b"b"[..]));
        assert!(lines.next()?.is_none());
        Ok(())
    }
}
