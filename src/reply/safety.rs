//! Illness, spoiled jars, and the handbook's answers to questions whether something is safe. What to do stands first.

use super::{Facts, Reply, Scene, Words};
use crate::ledger::Effect;
use crate::ledger::state::Lot;
use crate::processes::facts::printed;
use crate::processes::{self, Acidity};
use crate::statement::{Ask, Spoiled};
use crate::vocabulary::{Condition, Crop, Matter, Product, Sign};

/// What is printed under a key; nothing where no page was seen.
fn value(key: &str) -> &'static str {
    printed(key).map_or("", |(value, _)| value)
}

/// The first of the publishers that print it.
pub(super) fn source(key: &str) -> &'static str {
    printed(key).map_or("", |(_, source)| source.split(';').next().unwrap_or(source))
}

/// Somebody ate of a bad jar or has the signs: help, the signs and when they come, the jar, and nothing else.
pub(super) fn ill() -> Reply {
    with_signs(
        "Call emergency services now, or go to a hospital at once: say it may be botulism from home-canned food. \
         Do not wait for more signs.",
    )
}

fn botulism() -> Reply {
    with_signs(
        "Anyone who ate home-canned food and has one of these signs goes to a hospital at once, \
         before the signs are complete.",
    )
}

fn with_signs(first: &str) -> Reply {
    let mut facts = Facts::default();
    facts.set("source", source("botulism_action")).set("help_line", value("us_poison_help_line"));
    let text = format!(
        "{first}\nSigns: {}. They usually begin {} to {} hours after eating, but may within {} or as late as {} days.\n\
         Keep the jar and what is left in it for the doctors, closed and away from everybody; nobody eats of it. \
         Poison help line in the United States, day and night: {}. ({})",
        value("botulism_symptoms"),
        value("botulism_onset_usual_h_low"),
        value("botulism_onset_usual_h_high"),
        value("botulism_onset_earliest"),
        value("botulism_onset_latest_days"),
        value("us_poison_help_line"),
        source("botulism_action"),
    );
    Reply { text, facts }
}

/// How a suspect jar is thrown away, as published for low-acid food and tomatoes.
fn discard(open: Option<bool>) -> String {
    let shut = "Still sealed: leave it shut, put it into a heavy bag, close that, and into the bin.";
    let opened = format!(
        "Open, leaking or unsealed: lay jar and lid in a pot, cover them by {} inch of water or more and boil \
         {} minutes, \
         then throw it all away.",
        value("suspect_jar_detox_water_above_in"),
        value("suspect_jar_open_detox_boil_min")
    );
    let how = match open {
        Some(true) => opened,
        Some(false) => shut.to_owned(),
        None => format!("{shut} {opened}"),
    };
    format!("{how} Nothing of it into {}.", value("suspect_food_never_into").replace("compost", "or compost"))
}

/// What is left to say of jars that are spoiled: the others, and who ate of them.
pub(super) fn spoiled(scene: Scene<'_>, said: &Spoiled, effect: &Effect) -> Reply {
    let (state, words) = (scene.state, Words::of(&scene.state.settings));
    let signs = said.signs.as_deref().unwrap_or_default();
    let open = signs.iter().any(|sign| matches!(sign, Sign::Fizzing | Sign::Unsealed | Sign::Leaking | Sign::Smell));
    let shut = signs == [Sign::Bulging];
    let named = effect.jars.first().map(|(product, ..)| product).or(said.product.as_ref());
    let mut text = "Do not taste it, not even a little, and let nobody else.".to_owned();
    // Jam and pickles with mould go into the bin; what may hold the toxin is made harmless first.
    if named.is_none_or(may_hold_toxin) {
        let how = if open { Some(true) } else { shut.then_some(false) };
        text.push_str(&format!("\n{} ({})", discard(how), source("suspect_jar_open_detox_boil_min")));
    } else {
        text.push_str(" Throw it away where neither people nor animals get at it.");
    }
    let mut facts = Facts::default();
    facts.pantry(state).set("fridge_jars", state.fridge.jars(None, None));
    match effect.jars.as_slice() {
        [] => {
            text.push_str("\nI don't know which jar it was, so my count is unchanged; say 'tossed 1 pint of salsa'.");
        }
        gone => {
            let total: u32 = gone.iter().map(|(.., jars)| jars).sum();
            if let Some((_, jar, _)) = gone.first() {
                facts.jars(total, *jar);
            }
            let gone: Vec<_> = gone.iter().map(|(product, jar, jars)| words.jars_of(*jars, *jar, product)).collect();
            text.push_str(&format!("\nTaken off the shelf: {}.", gone.join(", ")));
        }
    }
    if !effect.look_at.is_empty() {
        let lots = effect.look_at.iter();
        let left: Vec<_> = lots
            .map(|lot| format!("{} of {}", words.jars_of(lot.jars, lot.jar, &lot.product), words.day(lot.on)))
            .collect();
        facts.set("look_at", effect.look_at.iter().map(|lot| lot.jars).sum::<u32>());
        text.push_str(&format!(" Put up with it: {}. Look at each now, and taste none.", left.join("; ")));
    }
    text.push_str("\nIf anybody ate of it, tell me at once.");
    Reply { text, facts }
}

/// How jars that were thrown away because they were spoiled are made harmless; nothing of others.
pub(super) fn thrown_away(effect: &Effect, own: &str) -> String {
    let toxic = effect.jars.iter().any(|(product, ..)| may_hold_toxin(product));
    if !toxic || !crate::phrase::is_spoiled(own) {
        return String::new();
    }
    format!(
        "\n{} ({}) Look at the others put up with it, and taste none.",
        discard(None),
        source("suspect_jar_open_detox_boil_min")
    )
}

/// Whether a product is low in acid, or of tomatoes, or not known: that an acid one is meant must be sure.
fn may_hold_toxin(product: &Product) -> bool {
    let Some(info) = processes::product(product.as_str()) else { return true };
    info.acidity == Acidity::LowAcid || info.crop == Some(Crop::Tomato)
}

/// The handbook's answer to a question whether something is safe.
pub(super) fn answer(scene: Scene<'_>, ask: &Ask) -> Reply {
    let Some(matter) = ask.what.as_deref().and_then(Matter::named) else { return Reply::default() };
    let (text, key) = match matter {
        Matter::Botulism => return botulism(),
        Matter::Spoiled => {
            (format!("No. Do not taste it and do not eat it. {}", discard(None)), "suspect_jar_open_detox_boil_min")
        }
        Matter::Tasting => (
            format!(
                "No: never taste to find out, for the poison has no taste, smell or colour. \
                 When in doubt, throw it out. {}",
                discard(None)
            ),
            "spoilage_taste_to_test",
        ),
        Matter::ReuseLids => ("No: a flat metal lid is used once.".to_owned(), "flat_lid_reuse"),
        Matter::ReuseBands => (
            "Yes, bands may be used again if they are neither rusty nor bent; flat lids not.".to_owned(),
            "bands_reuse",
        ),
        Matter::OldJars => (
            "If the seal is good and nothing shows spoilage it is still safe, though not at its best after a year. \
             If it bulges, leaks, spurts, smells wrong or looks odd, throw it away untasted."
                .to_owned(),
            "older_than_a_year_safe_if_sealed",
        ),
        Matter::LowAcidBoiling => (
            "No: low-acid food is canned only in a pressure canner. Boiling water and steam do not make it safe, \
             however long."
                .to_owned(),
            "canada_low_acid",
        ),
        doubt if amiss(doubt).is_some() => amiss(doubt).unwrap_or_default(),
        Matter::ThawCounter => (format!("{}{}", thawing_rule(scene), stood_warm()), "thaw_on_counter"),
        Matter::FreezerOff => (freezer_off(), "refreeze_if"),
        Matter::StillIcy => (
            "Then it may be frozen again: leave it in and the door shut. My count is unchanged.".to_owned(),
            "refreeze_if",
        ),
        Matter::Refreeze => (refreezing_rule(), "refreeze_if"),
        method => (no_method(method).to_owned(), method_key(method)),
    };
    let mut facts = Facts::default();
    facts.set("source", source(key));
    let text = match source(key) {
        "" => text,
        source => format!("{text} ({source})"),
    };
    Reply { text, facts }
}

/// What holds for jars of which something may be amiss, and how to say it, with the key of its source.
fn amiss(doubt: Matter) -> Option<(String, &'static str)> {
    let hours = value("deviation_redo_within_h");
    let (text, key) = match doubt {
        Matter::AcidDoubt => (
            format!(
                "Is the full dose of bottled lemon juice or citric acid in every jar? A jar with none, with less or \
                 with fresh juice is not safe to shelve: say which ('no acid in 3'). Within {hours} hours it may be \
                 opened, given its acid and processed again in full; else refrigerate it, or throw it away."
            ),
            "deviation_redo_within_h",
        ),
        Matter::VentDoubt => (
            format!(
                "Steam must flow from the vent for {} minutes before the weight goes on, or the jars stay too cold at \
                 any pressure. Take the weight off with care and vent again, and say 'venting'. If jars were processed \
                 without it, say 'skipped the vent'.",
                value("pressure_vent_min")
            ),
            "pressure_vent_min",
        ),
        Matter::OpenedDoubt => (
            "A pressure canner cools by itself, with weight and lid on, until the pressure is at zero: cooled by force \
             or opened before, jars lose liquid and part of their time. If that happened, say 'opened the vent'."
                .to_owned(),
            "force_cool_pressure_canner",
        ),
        Matter::LidDoubt => (
            format!(
                "A lid that flexes, clicks, is buckled or loose, or a jar that leaks, has not sealed: say how many \
                 ('2 didn't seal'). Within {} hours process it again with a new lid for the full time, or refrigerate \
                 or freeze it. One that only lost liquid and sealed is used first ('1 lost liquid').",
                value("reprocess_within_h")
            ),
            "reprocess_within_h",
        ),
        Matter::SpoiledDoubt => (
            format!("If it bubbles, spurts, smells wrong, is cloudy or mouldy: do not taste it. {}", discard(None)),
            "suspect_jar_open_detox_boil_min",
        ),
        Matter::StoodDoubt => (
            format!(
                "Jars that stand filled without their process, or cool in the canner without it, may be processed in \
                 full within {hours} hours, and are thrown away after that. Say since when: 'filled 7 quarts at 9:30', \
                 'lost the boil at 10:15'."
            ),
            "deviation_redo_within_h",
        ),
        _ => return None,
    };
    Some((text, key))
}

/// Why a way to can is none, and that there is no time for it.
const fn no_method(matter: Matter) -> &'static str {
    match matter {
        Matter::Oven => "No: jars are not processed in an oven. Its heat is not reliable, and the jars can burst.",
        Matter::Dishwasher => "No: a dishwasher does not process jars.",
        Matter::Microwave => "No: a microwave does not process jars.",
        Matter::OpenKettle => {
            "No: hot food with a lid on it and no process is not canned. Process it in a canner for its tested time."
        }
        Matter::Inversion => {
            "No: turning hot jars over is no process, whatever the lids do. \
             Process them in a canner for the tested time."
        }
        Matter::Paraffin => "No: wax does not seal, and mould gets in. Use a two-piece lid and the tested process.",
        Matter::Sun => "No: the sun does not process jars.",
        Matter::SlowCooker => "No: a slow cooker does not process jars.",
        _ => {
            "No: no tested pressure process is for an electric multi-cooker, whatever its buttons say. \
             Use a pressure canner."
        }
    }
}

const fn method_key(matter: Matter) -> &'static str {
    match matter {
        Matter::Oven => "method_oven_allowed",
        Matter::Dishwasher => "method_dishwasher_allowed",
        Matter::Microwave => "method_microwave_allowed",
        Matter::OpenKettle => "method_open_kettle_allowed",
        Matter::Inversion => "method_inversion_allowed",
        Matter::Paraffin => "method_paraffin_allowed",
        Matter::Sun => "method_sun_allowed",
        Matter::SlowCooker => "method_slow_cooker_allowed",
        _ => "method_electric_multi_cooker_allowed",
    }
}

/// Where fruit thaws, and where it never does.
pub(super) fn thawing_rule(scene: Scene<'_>) -> String {
    let words = Words::of(&scene.state.settings);
    let cold = crate::processes::facts::refrigerator_limit().map(|limit| words.temperature(limit));
    format!(
        "Never thaw on the counter or in warm water. Thaw in the refrigerator{}, or in cold water that is changed \
         every {} \
         minutes, and then cook it at once.",
        cold.map(|cold| format!(" at {cold} or below")).unwrap_or_default(),
        value("thaw_cold_water_change_every_min")
    )
}

/// Jars that have been in the refrigerator longer than they keep there.
pub(super) fn fridge_over(words: Words, lot: &Lot) -> String {
    format!(
        "Throw away {}, untasted: in the refrigerator since {}, and an unsealed jar keeps {} days there ({}). \
         Say 'tossed it' when it is done, or 'used it' if it is gone already.",
        words.jars_of(lot.jars, lot.jar, &lot.product),
        words.day(lot.on),
        value("unsealed_refrigerate_max_days"),
        source("unsealed_refrigerate_max_days")
    )
}

/// What the handbook warns of at a picking; a line for each state of the fruit that was said.
pub(super) fn of_harvest(crop: Crop, own: &str) -> String {
    if crop != Crop::Tomato {
        return String::new();
    }
    let states = crate::phrase::conditions(own);
    let cautions = states.into_iter().map(|state| {
        let (text, key) = caution(state);
        format!("\n{text} ({})", source(key))
    });
    cautions.collect()
}

const fn caution(state: Condition) -> (&'static str, &'static str) {
    match state {
        Condition::DeadVines => (
            "Do not can these: tomatoes from dead or frost-killed vines have changed in acidity. \
             Eat them fresh or freeze them to eat.",
            "can_from_dead_or_frosted_vines",
        ),
        Condition::LateBlight => (
            "Do not can fruit with signs of late blight, not even with the bad part cut out. \
             Unblemished fruit of such a plant may be canned, at once.",
            "can_late_blight_fruit",
        ),
        Condition::Overripe => (
            "Do not can the overripe ones, they may be too low in acid: only firm ripe tomatoes. Freeze them to eat.",
            "can_overripe_tomatoes",
        ),
        Condition::Cracked => {
            ("Do not can the damaged ones; freeze their sound parts.", "can_decayed_or_damaged_tomatoes")
        }
    }
}

/// What lay in the warm too long. No chart names tomatoes, so they count as vegetables, the stricter line.
fn stood_warm() -> String {
    format!(
        " What thawed and was above {} °F for over {} hours is thrown away; tomatoes count as vegetables here.",
        value("refreeze_max_f"),
        value("power_cut_vegetables_discard_above_40_f_h_strict")
    )
}

/// Said before an entry of fruit that goes out to thaw on the counter.
pub(super) fn not_on_the_counter(scene: Scene<'_>) -> String {
    format!("{} ({})", thawing_rule(scene), source("thaw_on_counter"))
}

fn freezer_off() -> String {
    format!(
        "Keep the door shut and look: what still has ice crystals or is at {} °F or below may be frozen again. \
         A full freezer, shut, holds about {} hours, a half-full one {}.{} Fruit may be refrozen unless it has mould, \
         a yeasty smell or slime.\nIs everything thawed, with no ice crystals, and warmer than {0} °F?",
        value("refreeze_max_f"),
        value("freezer_full_holds_h"),
        value("freezer_half_full_holds_h"),
        stood_warm(),
    )
}

/// What has thawed may be frozen again, or may not.
pub(super) fn refreezing_rule() -> String {
    format!(
        "Only if it still has ice crystals or is at {} °F or below. What thawed in the refrigerator may be frozen \
         again; what thawed in water or in a microwave only after cooking.",
        value("refreeze_max_f")
    )
}
