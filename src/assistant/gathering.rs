//! Many messages at once, as after an absence: one summary instead of a reply to each.

use super::message::{Commit, OutKind, Outgoing};
use super::{Assistant, Incoming};
use crate::reply;
use chrono::{DateTime, Utc};
use std::collections::BTreeMap;
use std::sync::Arc;

/// Up to this many messages of a room at once are answered one by one.
const ONE_BY_ONE: usize = 10;

/// Whose messages are at most so many among those is answered one by one even then, if others said more.
const FEW: usize = 3;

/// What messages did that are to be answered together.
#[derive(Debug, Default)]
pub struct Heard {
    commits: Vec<Commit>,
    /// Whose they were.
    by: Vec<Arc<str>>,
}

impl Assistant {
    /// Hears messages in the order given. A room that would get many replies at once gets one summary instead, on the
    /// last message that it answers; questions back, refusals and alerts go out all the same.
    pub fn hear_all(&mut self, messages: &[Incoming], now: DateTime<Utc>) -> Vec<Commit> {
        let mut heard = Heard::default();
        self.hear_more(&mut heard, messages, now);
        self.answer_together(heard, now)
    }

    /// Hears messages that are to be answered with those heard before.
    pub fn hear_more(&mut self, heard: &mut Heard, messages: &[Incoming], now: DateTime<Utc>) {
        for message in messages {
            if let Some(commit) = self.hear(message, now) {
                heard.commits.push(commit);
                heard.by.push(message.who.clone());
            }
        }
    }

    /// What all of these messages did, answered as by [`Assistant::hear_all`].
    pub fn answer_together(&self, heard: Heard, now: DateTime<Utc>) -> Vec<Commit> {
        let Heard { mut commits, by } = heard;
        let mut replies: BTreeMap<Arc<str>, BTreeMap<Arc<str>, usize>> = BTreeMap::new();
        for (commit, who) in commits.iter().zip(&by).filter(|(commit, _)| commit.out.iter().any(is_taken_in)) {
            *replies.entry(commit.room.clone()).or_default().entry(who.clone()).or_default() += 1;
        }
        for (room, mut people) in replies.into_iter().filter(|(_, by)| by.values().sum::<usize>() > ONE_BY_ONE) {
            // Who said little is answered all the same, so that a flood from one drowns nobody else.
            if people.values().any(|count| *count > FEW) {
                people.retain(|_, count| *count > FEW);
            }
            let gathered = |commit: &Commit, who: &Arc<str>| commit.room == room && people.contains_key(who);
            let gathered: Vec<_> = commits.iter().zip(&by).map(|(commit, who)| gathered(commit, who)).collect();
            self.gather(&room, people.values().sum(), &gathered, &mut commits, now);
        }
        commits
    }

    /// Replaces the replies of some of a room's commits by one, where the last of them stood. A load that was told and
    /// is gone again by now is no news either: only the last alert of each topic stays.
    fn gather(&self, room: &str, count: usize, gathered: &[bool], commits: &mut [Commit], now: DateTime<Utc>) {
        let Some(ledger) = self.ledger(room) else { return };
        let said = reply::summary(reply::Scene { state: ledger.state(), now }, count);
        let mut last: Option<(usize, Outgoing)> = None;
        for ((place, commit), _) in commits.iter_mut().enumerate().zip(gathered).filter(|(_, gathered)| **gathered) {
            if let Some(reply) = commit.out.iter().rev().find(|out| is_taken_in(out)) {
                last = Some((place, reply.clone()));
            }
            commit.out.retain(|out| !is_taken_in(out));
        }
        if let Some((place, reply)) = last
            && let Some(commit) = commits.get_mut(place)
        {
            commit.out.insert(0, Outgoing { out: OutKind::Reply, text: said.text, facts: said.facts.0, ..reply });
        }
        only_last_alerts(room, commits);
    }
}

/// Whether it answers a message that was taken in, be it by a mark.
fn is_taken_in(out: &Outgoing) -> bool {
    matches!(out.out, OutKind::Reply | OutKind::Mark)
}

fn only_last_alerts(room: &str, commits: &mut [Commit]) {
    let mut seen = std::collections::BTreeSet::new();
    for commit in commits.iter_mut().rev().filter(|commit| &*commit.room == room) {
        let mut kept: Vec<_> = commit
            .out
            .drain(..)
            .rev()
            .filter(|out| out.out != OutKind::Alert || seen.insert(out.topic.clone()))
            .collect();
        kept.reverse();
        commit.out = kept;
    }
}
