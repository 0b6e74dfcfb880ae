//! The hours that filled jars may stand without their process, and those in which one that went wrong may be made good.
//!
//! Invariant: once they are over no clock starts for these jars, so that nothing that is said afterwards shelves them.

use super::{Batch, Misfit};
use crate::processes::facts;
use chrono::{DateTime, Utc};

/// Since when jars stand that have had no full process, and why.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Standing {
    /// They were filled, or the canner was free for them, or their process went wrong.
    pub since: DateTime<Utc>,
    /// Whether their process went wrong; else they only wait.
    pub went_wrong: bool,
}

impl Standing {
    /// The end of the published hours. For jars that wait no page gives minutes: the limit of any food that spoils.
    pub fn until(self) -> DateTime<Utc> {
        let limit = if self.went_wrong { facts::REDO_WITHIN } else { facts::MAY_STAND_WARM };
        self.since + limit.value
    }
}

impl Batch {
    /// Jars that stand without their full process and are not on the clock; `None` where there are none.
    pub fn standing(&self) -> Option<Standing> {
        let in_canner = self.heat.is_some() || self.heat_off.is_some();
        let jars = self.waiting() > 0 || self.is_again_under_way();
        self.stands.filter(|_| self.is_open() && jars && !in_canner)
    }

    /// Whether jars stand whose hours are over.
    pub fn is_too_late(&self, at: DateTime<Utc>) -> bool {
        self.standing().is_some_and(|standing| at > standing.until())
    }

    /// Jars are filled. Those that wait already have waited since before.
    pub(super) fn wait_from(&mut self, at: DateTime<Utc>) {
        if self.waiting() == 0 {
            self.stands = Some(Standing { since: at, went_wrong: false });
        }
    }

    /// A round is out. What the others have waited counts from now: a load is filled when the canner is free for it
    /// (USDA yearbook, 1977), and people tell all the jars at once. Jars whose process went wrong keep their hours.
    pub(super) fn wait_on(&mut self, at: DateTime<Utc>) {
        self.undone = self.undone.filter(|_| self.waiting() > 0);
        let standing = Standing { since: self.undone.unwrap_or(at), went_wrong: self.undone.is_some() };
        self.stands = (self.waiting() > 0).then_some(standing);
    }

    /// A process went wrong.
    pub(super) fn wait_again(&mut self, at: DateTime<Utc>) {
        self.stands = Some(Standing { since: at, went_wrong: true });
    }

    /// Jars that have stood for too long get no clock.
    pub(super) fn check_hours(&self, at: DateTime<Utc>) -> Result<(), Misfit> {
        match self.standing().filter(|standing| at > standing.until()) {
            Some(standing) => {
                Err(Misfit::Stood { until: standing.until(), jars: self.waiting().max(self.waiting_again()) })
            }
            None => Ok(()),
        }
    }

    /// How many jars that were not through the canner may be spoken of when jars come to an end.
    pub fn may_end_waiting(&self, at: DateTime<Utc>) -> u32 {
        let in_canner = self.heat.is_some() || self.heat_off.is_some();
        let others = self.undecided() > 0 && !self.is_too_late(at);
        if in_canner || others { 0 } else { self.waiting() }
    }

    /// Jars that were not through the canner come to an end elsewhere: all of them where no number is said. `None`
    /// where others are meant.
    pub(super) fn end_waiting(
        &mut self,
        fate: super::Fate,
        jars: Option<u32>,
        at: DateTime<Utc>,
    ) -> Option<Result<u32, Misfit>> {
        let there = self.may_end_waiting(at);
        if there == 0 {
            return None;
        }
        let ended = jars.unwrap_or(there);
        if ended > there {
            return Some(Err(Misfit::TooMany { said: ended, there }));
        }
        *self.fates.first.count(fate) += ended;
        self.lifted += ended;
        self.outs.push((at, ended));
        if self.waiting() == 0 {
            (self.stands, self.venting, self.restarted, self.doubt) = (None, None, false, None);
        }
        Some(Ok(ended))
    }
}
