//! Builders for an invented household.

use chrono::{DateTime, Duration, Utc};
use rackful::assistant::{Assistant, Commit, Defaults, Incoming, OutKind, Outgoing, Said};
use rackful::ledger::{Entry, MessageId};
use rackful::quantity::Mass;
use rackful::statement::Statement;
use rackful::zone::Zone;

/// Friday morning, the 14th of August 2026, in the middle of the season.
pub(crate) fn noon() -> DateTime<Utc> {
    "2026-08-14T12:00:00-05:00".parse::<DateTime<Utc>>().unwrap()
}

pub(crate) fn minutes(n: i64) -> Duration {
    Duration::minutes(n)
}

pub(crate) fn lb(pounds: f64) -> Mass {
    Mass::from_pounds(pounds).unwrap()
}

/// An entry of its own message, said when it happened.
pub(crate) fn entry(id: &str, at: DateTime<Utc>, statement: Statement) -> Entry {
    Entry {
        message: MessageId::new(id),
        part: 0,
        who: "ana".into(),
        said: at,
        happened: at,
        words: id.into(),
        statement,
    }
}

/// A kitchen that is spoken to: each message a minute after the one before.
pub(crate) struct Kitchen {
    pub(crate) assistant: Assistant,
    pub(crate) now: DateTime<Utc>,
    pub(crate) commits: Vec<Commit>,
    said: usize,
}

impl Kitchen {
    pub(crate) fn new() -> Self {
        Self::with(Defaults { zone: Zone::parse("America/Chicago"), ..Defaults::default() })
    }

    pub(crate) fn with(defaults: Defaults) -> Self {
        Self { assistant: Assistant::new(defaults), now: noon(), commits: Vec::new(), said: 0 }
    }

    /// Says something and returns what goes out for it.
    pub(crate) fn say(&mut self, text: &str) -> Vec<Outgoing> {
        self.say_as("ana", text)
    }

    pub(crate) fn say_as(&mut self, who: &str, text: &str) -> Vec<Outgoing> {
        self.hear(who, Said::Text { text: text.to_owned(), reply_to: None })
    }

    pub(crate) fn hear(&mut self, who: &str, said: Said) -> Vec<Outgoing> {
        self.hear_in(None, who, said)
    }

    /// As [`Kitchen::hear`], in the thread that hangs on a message.
    pub(crate) fn hear_in(&mut self, thread: Option<MessageId>, who: &str, said: Said) -> Vec<Outgoing> {
        self.said += 1;
        self.now += minutes(1);
        let message = Incoming {
            room: "home".into(),
            who: who.into(),
            id: MessageId::new(&format!("${}", self.said)),
            at: self.now.fixed_offset(),
            direct: false,
            thread,
            said,
        };
        let Some(commit) = self.assistant.hear(&message, self.now) else { return Vec::new() };
        self.commits.push(commit.clone());
        commit.out
    }

    /// The id of the message said last.
    pub(crate) fn last(&self) -> MessageId {
        MessageId::new(&format!("${}", self.said))
    }

    /// Lets time pass, and returns the alerts that fall due in it.
    pub(crate) fn wait(&mut self, time: Duration) -> Vec<Outgoing> {
        let until = self.now + time;
        let mut out = Vec::new();
        while let Some(due) = self.assistant.next_due(self.now).filter(|due| *due <= until) {
            self.now = due;
            let commits = self.assistant.tick(due);
            assert!(!commits.is_empty(), "something was due and nothing came of it");
            out.extend(commits.iter().flat_map(|commit| commit.out.clone()));
            self.commits.extend(commits);
        }
        self.now = until;
        out
    }

    pub(crate) fn state(&self) -> serde_json::Value {
        self.assistant.state_json("home", self.now)
    }
}

/// `reply froze`, `problem not-enough`, `alert load-ready`: what a message is, in two words.
pub(crate) fn topics(out: &[Outgoing]) -> Vec<String> {
    let kind = |out: &Outgoing| match out.out {
        OutKind::Reply => "reply",
        OutKind::Alert => "alert",
        OutKind::Problem => "problem",
        OutKind::Mark => "mark",
    };
    out.iter().map(|out| format!("{} {}", kind(out), out.topic)).collect()
}
