//! Messages in turn, each line one, by the whole way from words to replies: nothing panics, what goes out fits, nothing
//! that was typed becomes markup, the fruit balances, and a restart gives the same rooms.
//!
//! A line may begin with a sign: `>` is said by somebody else, `+5 ` five hours later, `=2 ` edits the message two
//! before, `-2` deletes it, `^2` marks it as not counting, `<2 ` replies to it. A first line `#` begins with an empty
//! room, anything else in a household in mid-season.

use super::common::{ask_some, balances, can_go_out, comes_back, message, restored, seen, text, wait};
use super::html;
use chrono::{DateTime, TimeDelta, Utc};
use rackful::assistant::{Assistant, Commit, Defaults, Incoming, Mark, Said};
use rackful::ledger::MessageId;
use std::sync::LazyLock;

/// No more lines than these are said.
const LINES: usize = 24;

/// What a household has said by mid-August.
const BEFORE: [&str; 12] = [
    "altitude 2400 ft",
    "canner is steam, holds 7 quarts",
    "bought 24 lids and a pound of citric acid",
    "recipe fire salsa takes 6 lb makes 4 pints",
    "planted 24 romas in the tunnel",
    "freezer count: 9 bags, 63 lb",
    "picked 23 lb pink romas from the tunnel",
    "put up 7 quarts of sauce",
    "drying 5 trays of skins",
    "thawing 7 bags",
    "starting thick sauce in quarts",
    "filled 7 quarts",
];

static HOUSEHOLD: LazyLock<Vec<Commit>> = LazyLock::new(|| {
    let mut assistant = Assistant::new(Defaults::default());
    let say = |(n, words): (usize, &&str)| {
        let at = start() - TimeDelta::minutes(120 - 10 * n as i64);
        assistant.hear(&message("home", "ana", &format!("b{n}"), at, text(words)), at)
    };
    BEFORE.iter().enumerate().filter_map(say).collect()
});

fn start() -> DateTime<Utc> {
    DateTime::from_timestamp(1_786_716_300, 0).unwrap_or_default()
}

/// Checks one input.
pub(crate) fn check(script: &str) {
    let (script, before) = match script.strip_prefix("#\n") {
        Some(rest) => (rest, &[][..]),
        None => (script, HOUSEHOLD.as_slice()),
    };
    let mut assistant = restored(before);
    let (mut now, mut commits) = (start(), Vec::new());
    for (n, line) in script.lines().take(LINES).enumerate() {
        now += TimeDelta::minutes(1);
        if let Some(hours) = number_after(line, '+') {
            commits.extend(wait(&mut assistant, &mut now, TimeDelta::hours(hours.into())));
        }
        let heard = incoming(n, line, now);
        commits.extend(assistant.hear(&heard, now));
        assert!(assistant.hear(&heard, now).is_none(), "heard twice");
        balances(&assistant, &"home".into());
    }
    let last = now;
    let there = seen(&assistant, last);
    let again = seen(&restored(before.iter().chain(&commits)), last);
    assert!(there == again, "{there}\n{again}");
    commits.extend(ask_some(&mut assistant, last, crc32fast::hash(script.as_bytes())));
    commits.extend(wait(&mut assistant, &mut now, TimeDelta::days(4)));
    balances(&assistant, &"home".into());
    for commit in &commits {
        comes_back(commit);
        for out in &commit.out {
            can_go_out(out);
            is_plain(&html::html(&out.text));
        }
    }
}

fn incoming(n: usize, line: &str, at: DateTime<Utc>) -> Incoming {
    let (who, line) = line.strip_prefix('>').map_or(("ana", line), |rest| ("ben", rest));
    let sign = line.chars().next().unwrap_or_default();
    let words = line.split_once(' ').map_or("", |(_, words)| words).to_owned();
    let back = number_after(line, sign).map(|back| match n.checked_sub(back.into()) {
        Some(n) => MessageId::new(&format!("m{n}")),
        None => MessageId::new(&format!("b{}", usize::from(back) % BEFORE.len())),
    });
    let said = match (sign, back) {
        ('=', Some(target)) => Said::Edit { target, text: words },
        ('-', Some(target)) => Said::Redact { target },
        ('^', Some(target)) => Said::Mark { target, mark: Mark::Undo, alert: None },
        ('<', Some(target)) => Said::Text { text: words, reply_to: Some(target) },
        ('+', Some(_)) => text(&words),
        _ => text(line),
    };
    message("home", who, &format!("m{n}"), at, said)
}

fn number_after(line: &str, sign: char) -> Option<u8> {
    line.strip_prefix(sign)?.split(' ').next()?.parse().ok()
}

/// Holds no markup but the renderer's own.
fn is_plain(html: &str) {
    let mut rest = html.to_owned();
    for tag in ["br", "table", "/table", "tr", "/tr", "td", "/td", "ul", "/ul", "li", "/li"] {
        rest = rest.replace(&format!("<{tag}>"), "");
    }
    assert!(!rest.contains(['<', '>']), "{html}");
}
