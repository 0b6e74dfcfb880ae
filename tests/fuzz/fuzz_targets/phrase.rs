//! No text makes reading it, or answering with it, panic.
#![no_main]

use libfuzzer_sys::fuzz_target;
use rackful::{
    phrase::{Context, Lexicon, complete, mass_unit, nearest, read},
    statement::Statement,
    zone::Zone,
};

fuzz_target!(|text: &str| {
    let lexicon = Lexicon { recipes: vec!["fire salsa".to_owned()], ..Lexicon::default() };
    let now = chrono::DateTime::from_timestamp(1_786_716_300, 0).unwrap_or_default();
    let context = Context { now, zone: Zone::UTC, lexicon: &lexicon };
    let reading = read(text, &context);
    assert!(reading.statements.len() <= text.len());
    for statement in &reading.statements {
        if let Statement::Clarify(pending) = statement {
            for answer in ["lb", "7 lb", "2400 ft", "pints", "salsa", text] {
                let _ = complete(pending, answer, &context);
            }
        }
    }
    let _ = (nearest(text), mass_unit(text));
});
