//! Where a batch stands.

use super::Batch;
use crate::vocabulary::Stage;
use chrono::{DateTime, Utc};

impl Batch {
    /// The stage at an instant.
    pub fn stage(&self, now: DateTime<Utc>) -> Stage {
        if let Some(heat) = self.heat {
            return match self.timing.minutes {
                Some(_) if self.ends_at(now).is_some_and(|end| now >= end) => Stage::Done,
                Some(_) => Stage::Processing,
                // Without a tested time there is no clock that could run out.
                None if now >= heat.since => Stage::Processing,
                None => Stage::Filled,
            };
        }
        if self.heat_off.is_some() {
            let down = !self.canner.is_pressure() || self.pressure_down.is_some();
            return if down { Stage::Resting } else { Stage::Depressurising };
        }
        if self.waiting() > 0 {
            return if self.venting.is_some() { Stage::Venting } else { Stage::Filled };
        }
        if self.filled == 0 {
            return Stage::Begun;
        }
        let looked = self.fates.sealed + self.fates.unsealed + self.fates.refrigerated + self.fates.reprocessed > 0;
        let cooled = self.lifted_at.is_some_and(|out| now >= out + crate::processes::facts::SEAL_CHECK_FROM.value);
        if looked || cooled { Stage::Checking } else { Stage::Cooling }
    }
}
