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
        // The seals of jars that are just out are not looked at yet, whatever is known of earlier rounds.
        let looked = self.fates.open + self.fates.open_again > 0;
        let earliest =
            self.open_rounds().next().map(|(out, _)| out).or(self.again_out.filter(|_| self.undecided() == 0));
        let cooled = earliest.is_none_or(|out| now >= out + crate::processes::facts::SEAL_CHECK_FROM.value);
        if looked || cooled { Stage::Checking } else { Stage::Cooling }
    }
}
