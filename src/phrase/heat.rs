//! Heat that is not sure: `almost at 11 pounds`, `rolling boil? no`, `the kettle's boiling` start no clock; it is asked
//! whether the canner is up to heat. The words stand in `english/heat.txt` and have the last word over the learned
//! reading, since minutes that are counted from too early make jars unsafe.

use super::context::Reading;
use super::lists::lists;
use super::readings::Read;
use crate::statement::{Propose, Statement};
use std::sync::OnceLock;

const WORDS: &str = include_str!("english/heat.txt");

fn unsure() -> &'static [&'static str] {
    static READ: OnceLock<Vec<Vec<&'static str>>> = OnceLock::new();
    READ.get_or_init(|| lists(WORDS)).first().map_or(&[], Vec::as_slice)
}

impl Read<'_> {
    /// Proposes heat that is not sure rather than enter it.
    pub(super) fn watch_heat(&self, reading: &mut Reading) {
        let is_heat = |said: &Statement| matches!(said, Statement::AtHeat(_));
        if !reading.statements.iter().any(is_heat) {
            return;
        }
        let plain = self.text.text.chars().filter(|c| !matches!(c, '\'' | '\u{2019}'));
        let plain: String = plain.map(|c| if c.is_alphanumeric() { c } else { ' ' }).collect();
        let words: Vec<String> = plain.split_whitespace().map(str::to_lowercase).collect();
        let words = format!(" {} ", words.join(" "));
        if !unsure().iter().any(|entry| words.contains(&format!(" {entry} "))) {
            return;
        }
        let (heat, mut rest): (Vec<_>, Vec<_>) = std::mem::take(&mut reading.statements).into_iter().partition(is_heat);
        rest.push(Statement::Propose(Propose { statements: heat }));
        reading.statements = rest;
    }
}
