//! Looking ahead and back: against published figures, worked examples, a reference library, and plain restatements of the rules.

mod calibration;
mod seasons;
