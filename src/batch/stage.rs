//! Where a batch stands.

use super::Batch;
use crate::vocabulary::Stage;
use chrono::{DateTime, Utc};

impl Batch {
    /// The stage at an instant.
    pub fn stage(&self, now: DateTime<Utc>) -> Stage {
        if self.heat.is_some() {
            let is_done = self.ends_at(now).is_some_and(|end| now >= end);
            return if is_done { Stage::Done } else { Stage::Processing };
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
        let cooled =
            self.outs.first().is_some_and(|(out, _)| now >= *out + crate::processes::facts::SEAL_CHECK_FROM.value);
        if looked || cooled { Stage::Checking } else { Stage::Cooling }
    }
}
