//! `rackful labels`.

use super::Call;
use super::output::{Room, put};
use crate::files;
use crate::reply;
use anyhow::anyhow;
use clap::Args;
use std::path::PathBuf;

/// The words of the call.
#[derive(Args, Debug)]
pub struct Labels {
    /// The batch, by name, product or number [default: the latest]
    #[arg(value_name = "BATCH")]
    batch: Option<String>,
    /// Labels beside and below each other, as 3x8
    #[arg(long, value_name = "GRID")]
    grid: Option<String>,
    /// The paper: a4, a5, letter or legal
    #[arg(long, value_name = "SHEET")]
    sheet: Option<String>,
    /// The size of a label in millimetres, as 63.5x38.1
    #[arg(long, value_name = "SIZE")]
    label: Option<String>,
    /// From the paper's left and upper edge to the first label in millimetres, as 7x15
    #[arg(long, value_name = "SIZE")]
    margin: Option<String>,
    /// Between labels in millimetres, as 2.5x0
    #[arg(long, value_name = "SIZE")]
    gap: Option<String>,
    /// How many labels of the first sheet are used already
    #[arg(long, value_name = "COUNT", default_value_t = 0)]
    used: u32,
    /// How many to print [default: one for each jar]
    #[arg(long, value_name = "COUNT")]
    count: Option<u32>,
    /// Where to; - is standard output [default: a file of the product's name here]
    #[arg(long, value_name = "FILE")]
    out: Option<PathBuf>,
    #[command(flatten)]
    room: Room,
}

impl Labels {
    pub(super) fn run(&self, call: &Call) -> anyhow::Result<()> {
        let (desk, room, now) = self.room.open(call)?;
        let ledger = room.ledger(&desk)?;
        let scene = reply::Scene { state: ledger.state(), now };
        let said = self.layout();
        let words = said.as_deref().or(ledger.state().settings.labels.as_deref());
        let mut sheet = reply::label_sheet(scene, ledger, self.batch.as_deref(), words)?;
        sheet.used = self.used;
        sheet.count = self.count.unwrap_or(sheet.count);
        let told = format!("{} labels, {}", sheet.count, sheet.layout);
        let file = files::alone(&crate::enclosure::Enclosure::Labels(sheet), room.name())?;
        let file = file.ok_or_else(|| anyhow!("no sheet was made; this is a fault of the program"))?;
        put(self.out.as_deref(), &file.name, &file.bytes, &told)
    }

    /// What was said of the sheet, in the words of a room.
    fn layout(&self) -> Option<String> {
        let measure = |name: &str, said: &Option<String>| said.as_ref().map(|said| format!("{name} {said}"));
        let parts = [
            self.grid.clone(),
            measure("label", &self.label),
            measure("margin", &self.margin),
            measure("gap", &self.gap),
            self.sheet.clone(),
        ];
        let said: Vec<String> = parts.into_iter().flatten().collect();
        (!said.is_empty()).then(|| said.join(" "))
    }
}
