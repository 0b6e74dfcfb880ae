//! Looking ahead and back: against published figures, worked examples, a reference library, and plain restatements of the rules.

mod bags;
mod calibration;
mod ripening;
mod seasons;
mod thaw;
