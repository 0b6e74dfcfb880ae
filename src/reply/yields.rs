//! The household's own yield beside the handbook's.

use super::{Facts, Reply, Scene, Words};
use crate::batch::Batch;
use crate::ledger::{Refusal, made};
use crate::planning::{self, OwnYield, handbook_yield, own_for_loads, own_yield, yield_to_offer};
use crate::statement::{Ask, Set};
use crate::vocabulary::{Product, SettingKey};

/// What is offered with the third batch: the line for its reply, and what a "yes" to it sets.
pub fn offer(scene: Scene<'_>, closed: &Batch) -> Option<(String, Set)> {
    let own = yield_to_offer(scene.state, closed)?;
    let words = Words::of(&scene.state.settings);
    let product = words.product(&closed.product);
    let text = format!(
        "That was your third batch of {product} with a known weight: yours takes {} of raw fruit, {}. \
         Say 'yes', or 'use our own yield for {product}' any time, and loads go by yours.",
        words.per_quart(own.per_quart),
        handbook(words, &closed.product)
    );
    let set = Set { product: Some(closed.product.clone()), word: Some("own".to_owned()), ..Set::of(SettingKey::Yield) };
    Some((text, set))
}

fn handbook(words: Words, product: &Product) -> String {
    match handbook_yield(product) {
        Some((mass, source)) => format!("the handbook's {} ({source})", words.per_quart(mass)),
        None => "and the handbook prints no weight".to_owned(),
    }
}

/// Both yields, and which one loads go by.
pub(super) fn answer(scene: Scene<'_>, ask: &Ask) -> Result<Reply, Refusal> {
    let (state, words) = (scene.state, Words::of(&scene.state.settings));
    let product = made(state, ask.product.as_ref())?.product();
    let name = words.product(&product);
    let mut facts = Facts::default();
    if let Some((mass, source)) = handbook_yield(&product) {
        facts.mass("handbook_g_per_quart", mass).set("source", source);
    }
    let Some(own) = own_yield(state, &product) else {
        let text = format!(
            "{}: no batch of yours with a known raw weight yet; {}.",
            super::capitalised(&name),
            handbook(words, &product)
        );
        return Ok(Reply { text, facts });
    };
    facts.mass("own_g_per_quart", own.per_quart).set("batches", own.known);
    let goes_by = match (own_for_loads(state, &product), own.counts()) {
        (Some(_), _) => "Loads go by yours.".to_owned(),
        (None, true) => format!("Loads go by the handbook's; say 'use our own yield for {name}' for yours."),
        (None, false) => format!("Yours counts for loads from {} batches on.", planning::ENOUGH),
    };
    let text = format!(
        "{}: yours takes {} of raw fruit ({}), {}. {goes_by}",
        super::capitalised(&name),
        words.per_quart(own.per_quart),
        basis(&own, &mut facts),
        handbook(words, &product)
    );
    Ok(Reply { text, facts })
}

/// `the median of your last 5 batches; 24 % drained off; cooked down to 40 %`.
fn basis(own: &OwnYield, facts: &mut Facts) -> String {
    let mut parts = vec![match own.of {
        1 => "one batch".to_owned(),
        of => format!("the median of your last {of} batches"),
    }];
    if let Some(share) = own.drained {
        facts.set("drained_share", super::round(share));
        parts.push(format!("{:.0} % drained off", 100.0 * share));
    }
    if let Some(share) = own.cooked {
        facts.set("cooked_share", super::round(share));
        parts.push(format!("{:.0} % left after cooking", 100.0 * share));
    }
    parts.join("; ")
}

/// The reply to choosing whose yield loads go by.
pub(super) fn chosen(scene: Scene<'_>, said: &Set, facts: &mut Facts) -> String {
    let (state, words) = (scene.state, Words::of(&scene.state.settings));
    let product = said.product.as_ref().unwrap_or(&state.settings.product);
    let name = words.product(product);
    let load = planning::target(state, Some(product), None).map(|target| planning::load_state(state, target));
    let mut text = match (said.word.as_deref(), own_for_loads(state, product)) {
        (Some("own"), Some(own)) => {
            format!("A load of {name} goes by your own yield, {}", words.per_quart(own.per_quart))
        }
        (Some("own"), None) => {
            let known = own_yield(state, product).map_or(0, |own| own.known);
            format!(
                "A load of {name} goes by your own yield once {} batches have a known raw weight ({known} so far), \
                 until then by the handbook's",
                planning::ENOUGH
            )
        }
        _ => format!("A load of {name} goes by the handbook's yield"),
    };
    if let Some(load) = load {
        facts.load(&load);
        text.push_str(&format!(
            ": {} for {}",
            words.mass(load.target.mass),
            words.jars(load.target.jars, load.target.jar)
        ));
    }
    text.push('.');
    text
}
