//! Heat that is not sure: `almost at 11 pounds`, `rolling boil? no`, `the kettle's boiling` start no clock; it is asked
//! whether the canner is up to heat. The words stand in `english/heat.txt` and have the last word over the learned
//! reading, since minutes that are counted from too early make jars unsafe.

use super::context::Reading;
use super::lists::{Words, lists};
use super::readings::Read;
use crate::statement::{Propose, Statement};
use std::sync::OnceLock;

const WORDS: &str = include_str!("english/heat.txt");

/// The lists of the file, by their place in it.
#[derive(Clone, Copy)]
enum List {
    Unsure,
    Boils,
    Pressure,
}

fn list(list: List) -> &'static [&'static str] {
    static READ: OnceLock<Vec<Vec<&'static str>>> = OnceLock::new();
    READ.get_or_init(|| lists(WORDS)).get(list as usize).map_or(&[], Vec::as_slice)
}

/// Whether a message says that it boils, and nothing of pressure.
pub(super) fn only_boils(text: &str) -> bool {
    let words = Words::of(text);
    words.have(list(List::Boils)) && !words.have(list(List::Pressure))
}

impl Read<'_> {
    /// Proposes heat that is not sure rather than enter it.
    pub(super) fn watch_heat(&self, reading: &mut Reading) {
        let is_heat = |said: &Statement| matches!(said, Statement::AtHeat(_));
        if !reading.statements.iter().any(is_heat) {
            return;
        }
        if !Words::of(self.text.text).have(list(List::Unsure)) {
            return;
        }
        let (heat, mut rest): (Vec<_>, Vec<_>) = std::mem::take(&mut reading.statements).into_iter().partition(is_heat);
        rest.push(Statement::Propose(Propose { statements: heat }));
        reading.statements = rest;
    }
}
