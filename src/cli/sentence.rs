//! A statement told in one plain sentence: what was understood, figure by figure.

use crate::statement::Statement;
use serde_json::Value;

/// One sentence for one statement, made of its fields so that none can be left out.
///
/// Grams come with pounds beside them, millilitres with quarts, metres with feet.
pub(super) fn sentence(statement: &Statement) -> String {
    let Ok(Value::Object(fields)) = serde_json::to_value(statement) else { return statement.kind().to_string() };
    let told: Vec<String> =
        fields.iter().filter(|(name, _)| *name != "kind").map(|(name, value)| clause(name, value)).collect();
    let kind = statement.kind().as_str().replace('_', " ");
    if told.is_empty() { format!("{kind}.") } else { format!("{kind}: {}.", told.join(", ")) }
}

fn clause(name: &str, value: &Value) -> String {
    match (name, value.as_f64()) {
        ("mass_g", Some(grams)) => mass(grams),
        ("each_g", Some(grams)) => format!("{} each", mass(grams)),
        ("volume_ml", Some(ml)) => format!("{} qt ({} ml)", short(ml / 946.352_946), short(ml)),
        ("length_m", Some(metres)) => format!("{} ft ({} m)", short(metres / 0.3048), short(metres)),
        ("temp_c", Some(celsius)) => format!("{} °C", short(celsius)),
        ("seconds", Some(seconds)) => format!("{} min", short(seconds / 60.0)),
        ("bags" | "jars" | "trays", Some(count)) => format!("{} {name}", short(count)),
        (_, Some(number)) => format!("{} {}", name.replace('_', " "), short(number)),
        (_, None) => format!("{} {}", name.replace('_', " "), value.as_str().unwrap_or_default()),
    }
}

fn mass(grams: f64) -> String {
    format!("{} lb ({} kg)", short(grams / 453.592_37), short(grams / 1000.0))
}

/// Three decimals at most, and no more than needed.
fn short(number: f64) -> String {
    let text = format!("{number:.3}");
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_field_is_told_with_its_unit() -> anyhow::Result<()> {
        let read = |json: &str| anyhow::Ok(sentence(&serde_json::from_str(json)?));
        assert_eq!(
            read(r#"{"kind":"froze","mass_g":9525.43977,"bags":3,"each_g":3175.14659,"on":"2026-08-13"}"#)?,
            "froze: 21 lb (9.525 kg), 3 bags, 7 lb (3.175 kg) each, on 2026-08-13."
        );
        assert_eq!(read(r#"{"kind":"lost_heat"}"#)?, "lost heat.");
        assert_eq!(
            read(r#"{"kind":"set","key":"altitude","length_m":731.52}"#)?,
            "set: key altitude, 2400 ft (731.52 m)."
        );
        assert_eq!(
            read(r#"{"kind":"timer_start","seconds":2700,"label":"roast"}"#)?,
            "timer start: 45 min, label roast."
        );
        Ok(())
    }
}
