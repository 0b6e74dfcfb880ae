//! How what is said looks on a console.

use crate::assistant::{OutKind, Outgoing};
use textwrap::{Options, WordSplitter};

/// Narrower than this nothing can be read; wider than [`WIDEST`] a line is hard to follow.
const NARROWEST: usize = 20;
const WIDEST: usize = 100;

/// The text of a message, broken at the width of the terminal; unbroken without one. An alert is marked, so that it can
/// be told from an answer at arm's length.
pub(super) fn page(outgoing: &Outgoing, width: Option<usize>) -> String {
    let mark = if outgoing.out == OutKind::Alert { "⏰ " } else { "" };
    let text: String = format!("{mark}{}", outgoing.text).chars().filter(|c| *c == '\n' || !c.is_control()).collect();
    let Some(width) = width else { return text };
    let lines: Vec<String> = text.lines().map(|line| wrap(line, width.clamp(NARROWEST, WIDEST))).collect();
    lines.join("\n")
}

/// One line, its continuation under the text of a list item rather than under its dash.
fn wrap(line: &str, width: usize) -> String {
    let body = line.trim_start_matches(|c: char| c.is_whitespace() || "-•·*".contains(c));
    let indent = " ".repeat(line.chars().count() - body.chars().count());
    let options = Options::new(width).subsequent_indent(&indent).word_splitter(WordSplitter::NoHyphenation);
    textwrap::fill(line, options)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn said(out: OutKind, text: &str) -> Outgoing {
        let at = chrono::DateTime::UNIX_EPOCH.fixed_offset();
        let (key, topic, text) = (String::new(), String::new(), text.to_owned());
        let facts = serde_json::Map::new();
        Outgoing {
            key,
            room: "home".into(),
            at,
            out,
            re: None,
            topic,
            text,
            facts,
            mention: false,
            thread: None,
            alert: None,
            files: Vec::new(),
        }
    }

    #[test]
    fn long_lines_break_between_words_and_lists_keep_their_indent() {
        let list = said(OutKind::Reply, "In the freezer:\n- three bags of seven pounds each, quartered");
        assert_eq!(page(&list, Some(24)), "In the freezer:\n- three bags of seven\n  pounds each, quartered");
        assert_eq!(page(&list, None), list.text);
        assert_eq!(page(&said(OutKind::Alert, "The 40 min are up."), Some(80)), "⏰ The 40 min are up.");
    }

    #[test]
    fn control_characters_that_somebody_typed_do_not_reach_the_terminal() {
        assert_eq!(page(&said(OutKind::Reply, "recipe \u{1b}[2Jred\u{7}"), None), "recipe [2Jred");
    }
}
