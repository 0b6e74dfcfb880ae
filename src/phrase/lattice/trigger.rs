//! Which frames the words of a message bring up, and by which of their triggers.

use super::super::frame::{Frames, Term, Types};
use super::super::item::Text;
use smallvec::SmallVec;

/// At most so many triggers of a message are looked at.
const TRIGGERS: usize = 600;

/// A trigger found in a message.
#[derive(Clone, Debug)]
pub(super) struct Found {
    pub(super) frame: u16,
    pub(super) trigger: u16,
    pub(super) items: SmallVec<[u16; 4]>,
    pub(super) low: u16,
    pub(super) high: u16,
    pub(super) rank: u16,
}

/// The triggers of a message, in the order of their first parts.
pub(super) fn triggers(text: &Text<'_>, types: &[Types], frames: &Frames, sentences: &[u16]) -> Vec<Found> {
    let mut found: Vec<Found> = Vec::with_capacity(16);
    for (n, item) in text.items.iter().enumerate() {
        let own_types = types.get(n).copied().unwrap_or_default();
        if item.mark.is_some() {
            continue;
        }
        frames.begun_by(item, own_types, |frame, trigger| {
            let said = frames.get(frame).and_then(|frame| frame.triggers.get(usize::from(trigger)));
            let either = said.is_some_and(|said| said.terms.len() > 1 && !said.ordered);
            let sides: &[bool] = if either { &[true, false] } else { &[true] };
            for behind in sides.iter().copied() {
                if found.len() < TRIGGERS
                    && let Some(one) = complete(text, types, frames, sentences, n, (frame, trigger), behind)
                    && found.last().is_none_or(|last: &Found| {
                        last.items != one.items || (last.frame, last.trigger) != (frame, trigger)
                    })
                {
                    found.push(one);
                }
            }
        });
    }
    found
}

/// Those triggers whose first part stands in a stretch; they are found in the order of their first parts.
pub(super) fn within(found: &[Found], start: u32, end: u32) -> &[Found] {
    let before = |at: u32| move |one: &Found| one.items.first().is_some_and(|first| u32::from(*first) < at);
    let from = found.partition_point(before(start));
    let rest = found.get(from..).unwrap_or_default();
    rest.get(..rest.partition_point(before(end))).unwrap_or_default()
}

/// The other parts of a trigger, each at the nearest place behind its first part, or else before it.
fn complete(
    text: &Text<'_>,
    types: &[Types],
    frames: &Frames,
    sentences: &[u16],
    n: usize,
    (frame, trigger): (u16, u16),
    behind: bool,
) -> Option<Found> {
    let said = frames.get(frame)?.triggers.get(usize::from(trigger))?;
    let mut items: SmallVec<[u16; 4]> = SmallVec::new();
    items.push(n as u16);
    let near = |a: usize, b: usize| sentences.get(a).zip(sentences.get(b)).is_some_and(|(a, b)| a.abs_diff(*b) <= 1);
    for term in said.terms.iter().skip(1) {
        let fits = |at: usize| {
            !items.contains(&(at as u16))
                && near(n, at)
                && text.items.get(at).is_some_and(|item| term.fits(item, types.get(at).copied().unwrap_or_default()))
        };
        let after = (n + 1..text.items.len().min(n + 30)).find(|at| fits(*at));
        let before = if said.ordered { None } else { (n.saturating_sub(30)..n).rev().find(|at| fits(*at)) };
        let place = match (after, before) {
            (Some(after), Some(before)) => {
                if behind {
                    after
                } else {
                    before
                }
            }
            (Some(at), None) | (None, Some(at)) => at,
            (None, None) => return None,
        };
        items.push(place as u16);
    }
    let low = items.iter().copied().min()?;
    let high = items.iter().copied().max()?;
    let letters: u32 =
        items.iter().filter_map(|at| text.items.get(usize::from(*at))).map(|item| item.to - item.from).sum();
    // A deed says more of its form than things that stand beside it.
    let classes = &text.words.classes;
    let deed = said
        .terms
        .iter()
        .any(|term| matches!(term, Term::Class(class) if class.within(classes.deed) || class.within(classes.say)));
    let rank = u16::from(deed) * 64 + (said.terms.len() as u16) * 8 + letters.min(7) as u16;
    Some(Found { frame, trigger, items, low, high, rank })
}
