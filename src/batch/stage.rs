//! Where a batch stands.

use super::Batch;
use crate::vocabulary::Stage;
use chrono::{DateTime, Utc};

impl Batch {
    /// The stage at an instant. A batch that was set aside stands where it stood.
    pub fn stage(&self, now: DateTime<Utc>) -> Stage {
        if self.heat.is_some() {
            let is_done = self.ends_at(now).is_some_and(|end| now >= end);
            return if is_done { Stage::Done } else { Stage::Processing };
        }
        if self.heat_off.is_some() {
            let down = !self.canner.is_pressure() || self.pressure_down.is_some();
            return if down { Stage::Resting } else { Stage::Depressurising };
        }
        if self.venting.is_some() {
            return Stage::Venting;
        }
        if self.waiting() > 0 || self.is_again_under_way() {
            return Stage::Filled;
        }
        if self.filled == 0 {
            return Stage::Begun;
        }
        let looked = self.fates.first.sealed + self.fates.unsealed + self.fates.reprocessed > 0;
        let cooled =
            self.outs.first().is_some_and(|(out, _)| now >= *out + crate::processes::facts::SEAL_CHECK_FROM.value);
        if looked || cooled { Stage::Checking } else { Stage::Cooling }
    }
}
