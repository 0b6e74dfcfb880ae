//! Labels for the jars of a batch.

use crate::sheet::Layout;
use serde::{Deserialize, Serialize};

/// Equal labels on sheets.
#[derive(Clone, PartialEq, Debug, Serialize, Deserialize)]
pub struct LabelSheet {
    /// The sheet.
    pub layout: Layout,
    /// How many labels at the beginning of the first sheet are used already.
    #[serde(default, skip_serializing_if = "is_none")]
    pub used: u32,
    /// What is on each label.
    pub label: Label,
    /// One for each jar.
    pub count: u32,
}

#[allow(clippy::trivially_copy_pass_by_ref)] // serde hands a reference
fn is_none(count: &u32) -> bool {
    *count == 0
}

/// What is on a label, in the words of the household.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, Deserialize)]
pub struct Label {
    /// What is in the jar: `Thick tomato sauce`.
    pub product: String,
    /// The jar: `quart`.
    pub jar: String,
    /// When it was put up: `Aug 14, 2026`.
    pub on: String,
    /// The batch, where there is one: `batch 3`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub batch: Option<String>,
    /// Until when it is at its best: `best by Aug 2027`.
    pub best: String,
    /// The acid that was added, or none: `citric acid added`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub acid: Option<String>,
}

impl LabelSheet {
    /// How many sheets it takes.
    pub fn sheets(&self) -> u32 {
        (self.skipped() + self.count).div_ceil(self.layout.per_sheet()).max(1)
    }

    /// Labels passed over on the first sheet: a sheet that is used up is another one.
    pub fn skipped(&self) -> u32 {
        self.used % self.layout.per_sheet()
    }
}
