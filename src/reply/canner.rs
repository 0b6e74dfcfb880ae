//! Replies to what happens in the canner: venting, heat, pressure, resting, jars out; and to a batch that is set aside.

use super::canning::{next, next_step, process, title};
use super::{Facts, Reply, Scene, Words};
use crate::batch::{Batch, Clock, Stage};
use crate::ledger::Effect;
use crate::processes::facts as figures;
use crate::statement::{AcidMissing, Lifted};
use crate::vocabulary::CannerKind;

fn timed(batch: &Batch) -> Facts {
    let mut facts = Facts::default();
    facts.timing(&batch.timing);
    facts
}

pub(super) fn venting(scene: Scene<'_>, batch: &Batch) -> Reply {
    let text = format!("{}: venting. {}", title(batch), next(scene, batch, batch.stage(scene.now)));
    Reply { text, facts: timed(batch) }
}

pub(super) fn pressure_down(scene: Scene<'_>, batch: &Batch) -> Reply {
    let text = format!(
        "{}: pressure down. Take the weight off and wait 10 minutes before the lid. {}",
        title(batch),
        next(scene, batch, batch.stage(scene.now))
    );
    Reply { text, facts: timed(batch) }
}

pub(super) fn at_heat(scene: Scene<'_>, batch: &Batch) -> Reply {
    let (state, words) = (scene.state, Words::of(&scene.state.settings));
    let mut facts = timed(batch);
    facts.jars(batch.in_round(), batch.jar);
    let Some(ends) = batch.ends_at(scene.now) else {
        let text = format!("{}: there is no tested time for it any more, so no clock runs.", title(batch));
        return Reply { text, facts };
    };
    let mut text =
        format!("{}: clock started, {}, until {}.", title(batch), process(scene, batch), words.moment(ends, scene.now));
    if batch.restarted {
        text.push_str(" The full time counts from now.");
    }
    if let Some(source) = &batch.timing.source {
        text.push_str(&format!(" ({source})"));
    }
    text.push_str(&format!("\n{}", next(scene, batch, batch.stage(scene.now))));
    text.push_str(&vented(batch));
    if batch.fill_untold && batch.outs.is_empty() && !batch.restarted {
        text.push_str(&format!(
            "\nI was not told of the filling and take it that {} are in the canner; if they are not, say '{}'.",
            words.jars(batch.in_round(), batch.jar),
            lost(batch.canner.is_pressure())
        ));
    }
    // Once is a reminder, twice is nagging.
    let untold = !batch.is_acidified() && batch.acid_missing.is_none();
    if untold && batch.restarts == 0 && batch.lifted == 0 {
        text.push_str("\nIs the acid in? I have not heard so; it goes into every jar before the lid.");
    }
    if batch.needs_acid && batch.acid_missing.is_some() {
        text.push('\n');
        text.push_str(&super::acid::missing(scene, batch, &AcidMissing::default()).text);
    }
    facts.time("ends_at", ends, state);
    Reply { text, facts }
}

/// Air that was not driven out keeps a pressure canner too cold, whatever its gauge says: ten minutes of steam from the
/// vent (USDA AIB 539 (2015), Guide 1) come before the weight goes on.
fn vented(batch: &Batch) -> String {
    if !batch.canner.is_pressure() || batch.venting.is_some() {
        return String::new();
    }
    let needed = figures::PRESSURE_VENT.value;
    let again = "if it was less, let it vent again and say 'venting' and 'at pressure' once more";
    format!(
        "\nSteam must have flowed from the vent for {} min before: {again} after 'lost pressure'.",
        needed.num_minutes()
    )
}

/// What people say of a canner that lost its heat.
pub(super) const fn lost(pressure: bool) -> &'static str {
    if pressure { "lost pressure" } else { "lost the boil" }
}

pub(super) fn lost_heat(scene: Scene<'_>, batch: &Batch) -> Reply {
    let (again, say) = if batch.canner.is_pressure() {
        ("at pressure again", "Bring it back, with steam from the vent for 10 minutes first if it fell to zero")
    } else {
        ("at heat again", "Bring it back")
    };
    let mut facts = timed(batch);
    let text = format!(
        "{}: clock stopped. {say}; the full {} starts over{}. Say so when it is {again}.",
        title(batch),
        process(scene, batch),
        super::mishaps::by(scene, batch, &mut facts)
    );
    Reply { text, facts }
}

pub(super) fn heat_off(scene: Scene<'_>, batch: &Batch) -> Reply {
    let words = Words::of(&scene.state.settings);
    let text = match (batch.canner, batch.ends_at(scene.now)) {
        (canner, _) if canner.is_pressure() => {
            format!("{}: let it come down by itself, no cooling. Say 'pressure's down' at zero.", title(batch))
        }
        (CannerKind::BoilingWater, Some(ends)) => {
            format!("{}: lid off, and rest until {}. I'll call you.", title(batch), words.clock(ends))
        }
        (_, Some(ends)) => {
            format!("{}: leave it shut, and rest until {}. I'll call you.", title(batch), words.clock(ends))
        }
        (_, None) => format!("{}: noted. {}", title(batch), next(scene, batch, batch.stage(scene.now))),
    };
    Reply { text, facts: timed(batch) }
}

pub(super) fn lifted(scene: Scene<'_>, batch: &Batch, said: &Lifted) -> Reply {
    let (state, words) = (scene.state, Words::of(&scene.state.settings));
    let mut facts = Facts::default();
    let mut text = if batch.waiting() > 0 {
        facts.jars(batch.in_round(), batch.jar).set("rounds", batch.rounds());
        format!(
            "{}: {} out, {} to go. Next round of {}: {}.",
            title(batch),
            batch.lifted.saturating_sub(batch.fates.first.broken + batch.left_inside),
            batch.waiting(),
            batch.in_round(),
            next_step(words, batch, Stage::Filled, scene.now)
        ) + super::day::last_round(scene, batch, &mut facts).as_str()
    } else {
        facts.jars(batch.lifted.saturating_sub(batch.fates.first.broken), batch.jar);
        format!("{}: jars out. Leave them alone, no draught, no tightening.", title(batch))
    };
    if let (Some(out), left @ 1..) = (said.jars, batch.left_inside) {
        text.push_str(&format!(
            " You took out {out} of {}: what of the other {left}? If it broke, say '{left} broke'.",
            out + left
        ));
    }
    text.push_str(&to_fill(batch));
    let due = batch.clocks(state.settings.zone).into_iter().rfind(|(clock, _)| *clock == Clock::SealCheck);
    if let Some((_, at)) = due.filter(|_| batch.waiting() == 0) {
        facts.due(at, state);
        text.push_str(&format!(" I'll ask about the seals at {}.", words.moment(at, scene.now)));
    }
    Reply { text, facts }
}

/// Jars that were meant with the batch and are not filled yet.
pub(super) fn to_fill(batch: &Batch) -> String {
    match batch.to_fill() {
        0 => String::new(),
        left => format!(
            " Of the {} jars that were meant {left} are not filled: 'filled {left} more' when they are.",
            batch.filled + left
        ),
    }
}

/// The clock stands still. What that means for the clock, the fruit and the jars is said at once, not when it goes on.
pub(super) fn stopped(scene: Scene<'_>, batch: &Batch, effect: &Effect) -> Reply {
    let (state, words) = (scene.state, Words::of(&scene.state.settings));
    let mut facts = timed(batch);
    facts.set("stopped", true).mass("thawing_g", state.all_thawing());
    let mut text = format!("{} is set aside; I'll keep quiet about it.", title(batch));
    let stage = batch.stage(scene.now);
    if effect.lost_heat {
        text.push_str(&format!(
            " Its clock was running, and that counts as lost heat: when it goes on, the full {} starts over.",
            process(scene, batch)
        ));
    } else if matches!(stage, Stage::Resting | Stage::Depressurising) {
        text.push_str(" The jars in the canner have had their full time.");
    }
    if !batch.thawed.is_zero() {
        let limit = figures::refrigerator_limit().map(|limit| format!(", at {} or below", words.temperature(limit)));
        text.push_str(&format!(
            " The {} thawed for it stays with it: keep it in the refrigerator{}.",
            words.mass(batch.thawed),
            limit.unwrap_or_default()
        ));
    }
    if stage == Stage::Filled {
        text.push_str(
            " Don't leave filled jars standing warm: if it does not go on soon, refrigerate or freeze what is in them.",
        );
    }
    text.push_str(&format!(" Say 'back to the {}' when it goes on.", batch.name));
    Reply { text, facts }
}

pub(super) fn resumed(scene: Scene<'_>, batch: &Batch) -> Reply {
    let stage = batch.stage(scene.now);
    // Processing makes no food safe that stood warm for hours.
    let stood = batch.standing().filter(|standing| scene.now > standing.until());
    let stood = stood.map(|standing| format!(" {}", super::mishaps::stood(scene, batch, standing.until())));
    if let Some(stood) = stood {
        return Reply { text: format!("{} goes on.{stood}", title(batch)), facts: timed(batch) };
    }
    let again = if batch.restarted && stage == Stage::Filled {
        format!(" The full {} counts from when it is at heat again.", process(scene, batch))
    } else {
        String::new()
    };
    let text = format!("{} goes on.{again} {}", title(batch), next(scene, batch, stage));
    Reply { text, facts: timed(batch) }
}
