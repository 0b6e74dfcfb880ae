//! `rackful chart`.

use super::Call;
use super::output::{Room, put};
use crate::drawing::{Theme, WIDTH, draw};
use crate::reply;
use crate::statement::Ask;
use crate::vocabulary::{Product, Subject};
use anyhow::anyhow;
use clap::Args;
use clap::builder::PossibleValuesParser;
use std::path::PathBuf;

/// The words of the call.
#[derive(Args, Debug)]
pub struct Chart {
    /// Which picture
    #[arg(value_name = "WHAT", value_parser = PossibleValuesParser::new(["season", "freezer", "pantry", "day"]))]
    what: String,
    /// Of `day`: the batch, by name or number [default: the latest]
    #[arg(long, value_name = "BATCH")]
    batch: Option<String>,
    /// Of `freezer`: the product whose load is drawn [default: the usual one]
    #[arg(long, value_name = "PRODUCT")]
    product: Option<String>,
    /// Of `season`: the year [default: the last one with anything in it]
    #[arg(long, value_name = "YEAR", value_parser = clap::value_parser!(i32).range(1900..=9999))]
    year: Option<i32>,
    /// Light or dark [default: as the room has set]
    #[arg(long, value_name = "THEME")]
    theme: Option<Theme>,
    /// How wide, in pixels
    #[arg(long, value_name = "PIXELS", default_value_t = WIDTH)]
    #[arg(value_parser = clap::value_parser!(u32).range(200..=4000))]
    width: u32,
    /// Where to; - is standard output [default: a file of the picture's name here]
    #[arg(long, value_name = "FILE")]
    out: Option<PathBuf>,
    #[command(flatten)]
    room: Room,
}

impl Chart {
    pub(super) fn run(&self, call: &Call) -> anyhow::Result<()> {
        let (desk, room, now) = self.room.open(call)?;
        let ledger = room.ledger(&desk)?;
        let scene = reply::Scene { state: ledger.state(), now };
        let ask = Ask {
            product: self.product.as_deref().map(Product::named),
            batch: self.batch.clone(),
            since: self.year.and_then(|year| chrono::NaiveDate::from_ymd_opt(year, 1, 1)),
            ..Ask::about(Subject::Chart)
        };
        let picture = reply::picture(scene, ledger, &self.what, &ask).map_err(|sentence| anyhow!(sentence))?;
        let usual = if ledger.state().settings.dark_pictures { Theme::Dark } else { Theme::Light };
        let drawn = draw(&picture, self.theme.unwrap_or(usual), self.width)?;
        put(self.out.as_deref(), &format!("{}.png", picture.name()), &drawn.png, &picture.alt())
    }
}
