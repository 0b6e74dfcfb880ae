//! When the season ends.
//!
//! ```text
//! season = "season ends" day | ( "first" | … ) "frost" [ "is" ] day | "last picking" … day
//! ```

use super::ways::{small, tokens};
use crate::phrase::{
    build::Carry,
    date::dated,
    facts::{Facts, has},
    scan::Item,
    token::{Tokens, one_of, says},
    words::{Verb, Word},
};
use crate::{
    statement::{Set, Statement},
    vocabulary::SettingKey,
};

/// `season ends October 10`, `first frost is usually oct 5`, `last picking will be around the end of september`.
pub(super) fn season(f: &Facts<'_>, carry: &Carry<'_, '_>) -> Option<Statement> {
    let ends = says!(f, "season" | "growing")
        && says!(
            f,
            "end"
                | "ends"
                | "ending"
                | "over"
                | "done"
                | "until"
                | "till"
                | "til"
                | "to"
                | "through"
                | "runs"
                | "goes"
                | "finishes"
                | "finish"
                | "closes"
        );
    let frost = says!(f, "frost" | "frosts" | "freeze")
        && !says!(f, "spring")
        && (says!(f, "first" | "date" | "killing" | "hard" | "get" | "expect" | "comes" | "usually")
            || f.has(has::AUX))
        && !f.chunks.windows(2).any(|w| one_of!(w[0].key, "last") && one_of!(w[1].key, "frost" | "frosts" | "freeze"));
    let picking = says!(f, "last" | "final") && says!(f, "picking" | "harvest" | "pick" | "pickings" | "tomatoes");
    if !(ends || frost || picking)
        || f.has(has::NOT | has::YOU | has::THEY | has::FOLK | has::KIN)
        || f.alien > 0
        || f.mass().is_some()
    {
        return None;
    }
    let all = tokens(f);
    let now = carry.context.zone.day(carry.context.now);
    let (at, used, until) =
        (0..all.len()).find_map(|at| dated(Tokens(&all[at..]), now).map(|(used, day)| (at, used, day)))?;
    let base = f.chunks.first()?.from as usize;
    let plain = f.chunks.iter().all(|c| {
        let dated = c.from as usize >= base + at && c.to as usize <= base + at + used;
        dated
            || small(c)
            || matches!(
                c.item,
                Item::Word(Word::Modal | Word::If | Word::Quality)
                    | Item::Verb(
                        Verb::Pick
                            | Verb::Go
                            | Verb::Come
                            | Verb::Run
                            | Verb::Set
                            | Verb::Get
                            | Verb::Finish
                            | Verb::Cancel
                            | Verb::Do
                            | Verb::Freeze
                            | Verb::Reach,
                        _
                    )
                    | Item::Crop(_)
            )
            || one_of!(
                c.key,
                "season"
                    | "growing"
                    | "ends"
                    | "end"
                    | "ending"
                    | "frost"
                    | "frosts"
                    | "picking"
                    | "pickings"
                    | "date"
                    | "killing"
                    | "average"
                    | "expect"
                    | "expected"
                    | "over"
                    | "closes"
                    | "finishes"
                    | "mid"
                    | "beginning"
                    | "runs"
                    | "garden"
                    | "first"
                    | "avg"
            )
    });
    plain.then(|| Statement::Set(Set { until: Some(until), ..Set::of(SettingKey::Season) }))
}
