//! Looking ahead and back: against published figures, worked examples, a reference library, and plain restatements of
//! the rules.

mod alerts;
mod bags;
mod calibration;
mod canning_day;
mod planned;
mod ripening;
mod seasons;
mod shelf;
mod thaw;
mod wording;
