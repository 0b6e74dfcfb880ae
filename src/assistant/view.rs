//! The state of a room as other programs read it.

use super::Assistant;
use crate::batch::Batch;
use crate::ledger::state::{Lot, Shelf, State, Units, Yield};
use crate::reply::{grams, iso};
use crate::vocabulary::{Jar, Product, Supply};
use chrono::{DateTime, Utc};
use serde_json::{Map, Value, json};

impl Assistant {
    /// The state of a room at an instant, as the contract names its parts; that of an empty room for one that was never
    /// heard.
    pub fn state_json(&self, room: &str, now: DateTime<Utc>) -> Value {
        match self.ledger(room) {
            Some(ledger) => state_json(ledger.state(), now),
            None => state_json(&State::default(), now),
        }
    }
}

fn state_json(state: &State, now: DateTime<Utc>) -> Value {
    let bag = |bag: &crate::ledger::state::Bag| json!({"mass_g": grams(bag.mass), "on": bag.on.to_string()});
    let counter: Vec<_> = state
        .counter
        .sums()
        .map(|(crop, mass)| json!({"crop": crop.as_str(), "mass_g": grams(mass), "bags": []}))
        .collect();
    let freezer: Vec<_> = state
        .freezer
        .crops()
        .map(|(crop, bags)| {
            let bags: Vec<_> = bags.iter().map(bag).collect();
            json!({"crop": crop.as_str(), "mass_g": grams(state.freezer.mass(crop)), "bags": bags})
        })
        .collect();
    let dryer: Vec<_> = state
        .dryer
        .iter()
        .map(|drying| json!({"what": drying.what, "mass_g": grams(drying.mass), "trays": drying.trays}))
        .collect();
    let dried: Vec<_> = state.dried.iter().map(|(what, mass)| json!({"what": what, "mass_g": grams(*mass)})).collect();
    let timers: Vec<_> = state
        .timers
        .iter()
        .filter(|timer| timer.ends > now)
        .map(|timer| json!({"label": timer.label, "ends_at": iso(timer.ends, state)}))
        .collect();
    let batches: Vec<_> = state.open_batches().map(|batch| batch_json(batch, state, now)).collect();
    let mut json = json!({
        "counter": counter,
        "freezer": freezer,
        "thawing_g": grams(state.all_thawing()),
        "pantry": shelf(&state.pantry),
        "fridge": shelf(&state.fridge),
        "dryer": dryer,
        "dried": dried,
        "supplies": supplies(state),
        "batch": batches.last().cloned().unwrap_or(Value::Null),
        "batches": batches,
        "timers": timers,
        "totals": totals(state, now),
        "settings": settings(state),
    });
    if let Some(fields) = json.as_object_mut() {
        if !state.freezer_jars.lots().is_empty() {
            fields.insert("freezer_jars".to_owned(), json!(shelf(&state.freezer_jars)));
        }
        if !state.pantry.lots().is_empty() {
            fields.insert("lots".to_owned(), json!(lots(&state.pantry)));
        }
    }
    json
}

/// The jars of the pantry once more, by the day and the batch they are from.
fn lots(pantry: &Shelf) -> Vec<Value> {
    let line = |lot: &Lot| {
        json!({
            "product": lot.product.as_str(),
            "jar": lot.jar.as_str(),
            "jars": lot.jars,
            "on": lot.on.to_string(),
            "batch": lot.batch,
            "best_by": lot.best_by().map(|best| best.to_string()),
        })
    };
    pantry.lots().iter().map(line).collect()
}

fn shelf(shelf: &Shelf) -> Vec<Value> {
    let kind = |(product, jar, jars): (Product, Jar, u32)| {
        let (product, jar) = (product.as_str(), jar.as_str());
        json!({"product": product, "jar": jar, "jars": jars})
    };
    shelf.sums().into_iter().map(kind).collect()
}

fn batch_json(batch: &Batch, state: &State, now: DateTime<Utc>) -> Value {
    let mut json = json!({
        "name": batch.name,
        "product": batch.product.as_str(),
        "jar": batch.jar.as_str(),
        "jars": batch.jars(),
        "stage": batch.stage(now).as_str(),
        "ends_at": batch.ends_at(now).map(|ends| iso(ends, state)),
    });
    if let (Some(since), Some(fields)) = (batch.stopped, json.as_object_mut()) {
        fields.insert("stopped_at".to_owned(), json!(iso(since, state)));
    }
    if let (true, Some(fields)) = (batch.fates.held > 0, json.as_object_mut()) {
        fields.insert("held".to_owned(), json!(batch.fates.held));
    }
    json
}

/// Pieces under the supply's name, weights and volumes under its name with the unit; jars by size.
fn supplies(state: &State) -> Map<String, Value> {
    let mut all = Map::new();
    for (key, left) in state.supplies.iter() {
        let name = match key.1 {
            Some(jar) => format!("{}-{jar}", key.0),
            None => key.0.to_string(),
        };
        match key.0 {
            Supply::Lids | Supply::Jars | Supply::Bags => all.insert(name, json!(left.count)),
            Supply::LemonJuice | Supply::Vinegar => {
                all.insert(format!("{name}_ml"), json!(crate::reply::round(left.volume.as_millilitres())))
            }
            Supply::CitricAcid | Supply::Salt => all.insert(format!("{name}_g"), grams(left.mass)),
        };
    }
    all
}

fn totals(state: &State, now: DateTime<Utc>) -> Value {
    let totals = state.totals(now);
    json!({
        "picked_g": grams(totals.picked),
        "frozen_g": grams(totals.frozen),
        "thawed_g": grams(totals.thawed),
        "used_fresh_g": grams(totals.used_fresh),
        "jars_put_up": totals.jars_put_up,
        "eaten_g": grams(totals.eaten),
        "given_g": grams(totals.given),
        "tossed_g": grams(totals.tossed),
    })
}

fn settings(state: &State) -> Value {
    let settings = &state.settings;
    let capacity: Vec<_> = settings
        .capacities
        .iter()
        .map(|capacity| {
            json!({
                "jars": capacity.jars,
                "jar": capacity.jar.map(|jar| jar.as_str()),
                "canner": capacity.canner.map(|canner| canner.as_str()),
            })
        })
        .collect();
    let quiet = settings.quiet.map(
        |quiet| json!({"from": quiet.from.format("%H:%M").to_string(), "to": quiet.until.format("%H:%M").to_string()}),
    );
    let whose = |whose: Yield| json!(if whose == Yield::Own { "own" } else { "handbook" });
    json!({
        "timezone": settings.zone.to_string(),
        "altitude_m": settings.altitude.map(|altitude| altitude.as_metres()),
        "canner": settings.canner.map(|canner| canner.as_str()),
        "capacity": capacity,
        "units": if settings.units == Units::Metric { "metric" } else { "us" },
        "bag_g": grams(settings.usual_bag()),
        "usual": {"product": settings.product.as_str(), "jar": settings.jar.as_str()},
        "quiet": quiet,
        "yields": settings
            .yields
            .iter()
            .map(|(product, yields)| (product.as_str().to_owned(), whose(*yields)))
            .collect::<Map<String, Value>>(),
        "room_c": settings.room.map(|room| room.as_celsius()),
    })
}
