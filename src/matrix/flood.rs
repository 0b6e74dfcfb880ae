//! One person who writes without end is taken in, as everybody is, and no longer answered word by word: the homeserver
//! rations what the assistant may say, and others want answers too.

use crate::assistant::{Incoming, OutKind, Outgoing};
use crate::ledger::MessageId;
use chrono::{DateTime, FixedOffset, TimeDelta, Utc};
use std::collections::{BTreeSet, HashMap, VecDeque};
use std::sync::Arc;

/// So many messages of one person in a room ...
const MOST: usize = 30;

/// ... within so long are answered.
const WITHIN: TimeDelta = TimeDelta::minutes(1);

/// When people wrote lately, by room and person.
#[derive(Debug, Default)]
pub(super) struct Floods(HashMap<(Arc<str>, Arc<str>), Recent>);

#[derive(Debug, Default)]
struct Recent {
    at: VecDeque<DateTime<Utc>>,
    told: bool,
}

impl Floods {
    /// Which of these messages, that came by `now`, are beyond the measure; and what is said once to whoever goes
    /// beyond it.
    pub(super) fn beyond(&mut self, messages: &[Incoming], now: DateTime<Utc>) -> (BTreeSet<MessageId>, Vec<Outgoing>) {
        self.0.retain(|_, recent| recent.at.back().is_some_and(|last| now - *last < WITHIN));
        let (mut quiet, mut say) = (BTreeSet::new(), Vec::new());
        for message in messages {
            let recent = self.0.entry((message.room.clone(), message.who.clone())).or_default();
            recent.at.retain(|at| now - *at < WITHIN);
            recent.at.push_back(now);
            if recent.at.len() <= MOST {
                recent.told = false;
                continue;
            }
            // What is far beyond it need not be counted.
            recent.at.truncate(MOST + 1);
            quiet.insert(message.id.clone());
            if !std::mem::replace(&mut recent.told, true) {
                say.push(told(message, message.at));
            }
        }
        (quiet, say)
    }
}

fn told(message: &Incoming, at: DateTime<FixedOffset>) -> Outgoing {
    Outgoing {
        key: format!("{}|flood {}", message.room, message.id),
        room: message.room.clone(),
        at,
        out: OutKind::Problem,
        re: Some(message.id.clone()),
        topic: "slow-down".to_owned(),
        text: "That is a lot in a minute. I take it in without answering each, until you go slower.".to_owned(),
        facts: serde_json::Map::new(),
        mention: false,
        thread: message.thread.clone(),
        alert: None,
        files: Vec::new(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::assistant::Said;

    fn message(who: &str, n: usize, at: DateTime<Utc>) -> Incoming {
        Incoming {
            room: "!a:home.test".into(),
            who: who.into(),
            id: MessageId::new(&format!("${who}{n}")),
            at: at.fixed_offset(),
            direct: false,
            thread: None,
            said: Said::Text { text: "froze 1 lb".into(), reply_to: None },
        }
    }

    #[test]
    fn one_who_writes_without_end_is_told_once_and_others_are_not_touched() -> anyhow::Result<()> {
        let (mut floods, start) = (Floods::default(), Utc::now());
        let mut quiet = 0;
        let mut told = 0;
        for n in 0..100 {
            let now = start + TimeDelta::milliseconds(100) * n;
            let n = usize::try_from(n)?;
            let messages = [message("eve", n, now), message("ana", n / 10, now)];
            let messages = if n % 10 == 0 { &messages[..] } else { &messages[..1] };
            let (beyond, say) = floods.beyond(messages, now);
            assert!(beyond.iter().all(|id| id.as_str().starts_with("$eve")));
            quiet += beyond.len();
            told += say.len();
        }
        assert_eq!((quiet, told), (100 - MOST, 1));
        let later = start + TimeDelta::minutes(5);
        assert_eq!(floods.beyond(&[message("eve", 200, later)], later), (BTreeSet::new(), Vec::new()));
        Ok(())
    }
}
