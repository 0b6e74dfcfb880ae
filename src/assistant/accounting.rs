//! Every figure of a message must have come to something, or be said to have come to nothing: an amount that is passed over in
//! silence is worse than a question.

use crate::quantity::{Length, Mass, Volume};
use crate::statement::{Statement, When};
use chrono::{Datelike, Timelike};
use serde_json::Value;

/// The figures of a message that none of its statements holds in any unit, as they were written.
pub(super) fn unexplained(words: &str, statements: &[Statement]) -> Vec<String> {
    // A question back is asked about the figures already; a question changes nothing that a figure could be missing from.
    let asks = |statement: &Statement| matches!(statement, Statement::Ask(_));
    if statements.iter().any(|statement| matches!(statement, Statement::Clarify(_))) || statements.iter().all(asks) {
        return Vec::new();
    }
    let mut explained: Vec<f64> = Vec::new();
    for statement in statements {
        if let Ok(Value::Object(fields)) = serde_json::to_value(statement) {
            fields.iter().for_each(|(name, value)| explain(name, value, &mut explained));
        }
        if let Some(when) = statement.on() {
            explain_when(when, &mut explained);
        }
    }
    // `2 crates of 22 lb`: the weight is what both come to.
    let weighed = statements
        .iter()
        .any(|statement| matches!(statement, Statement::Picked(_) | Statement::Counted(_) | Statement::Bought(_)));
    if weighed {
        let said: Vec<f64> =
            figures(words).take(8).filter_map(|figure| figure.replace(',', ".").parse().ok()).collect();
        let pairs = said.iter().enumerate().flat_map(|(at, a)| said[at + 1..].iter().map(move |b| (*a, *b)));
        let both: Vec<_> = pairs
            .filter(|(a, b)| {
                *a != 1.0 && *b != 1.0 && explained.iter().any(|known| (known - a * b).abs() <= 1e-6 * known.abs())
            })
            .collect();
        explained.extend(both.into_iter().flat_map(|(a, b)| [a, b]));
    }
    // `20 lb, half of it pink, rest red`: both together.
    let picked = statements.iter().filter_map(|statement| match statement {
        Statement::Picked(said) => said.mass,
        _ => None,
    });
    let total: Mass = picked.sum();
    explained.extend([total.as_pounds(), total.as_kilograms()]);
    // `7 put up, 1 did not seal`: six of seven.
    for statement in statements {
        if let Statement::PutUp(said) = statement
            && let (Some(of), Some(jars)) = (said.of, said.jars)
        {
            explained.push(f64::from(of.saturating_sub(jars)));
        }
    }
    let is_explained = |figure: &str| {
        let value = figure.replace(',', ".").parse::<f64>().ok();
        value.is_none_or(|value| explained.iter().any(|known| (known - value).abs() <= 1e-3 * value.abs().max(1.0)))
    };
    figures(words).filter(|figure| !is_explained(figure)).map(str::to_owned).collect()
}

/// Plain figures of a message. Dates, clock times, fractions and names with digits are read by rules of their own.
fn figures(words: &str) -> impl Iterator<Item = &str> {
    let part_of_more = |word: &str| word.contains(['/', ':', '-', '#', '@', '½', '¼', '¾', '⅓', '⅔']);
    words.split_whitespace().filter(move |word| !part_of_more(word)).flat_map(|word| {
        let is_figure = |c: char| c.is_ascii_digit() || c == '.' || c == ',';
        let plain = word.trim_matches(|c: char| !c.is_ascii_digit());
        // "2lb6" and "3x7lb" hold several figures, "7lb" one.
        plain
            .split(move |c| !is_figure(c))
            .map(|figure| figure.trim_matches(['.', ',']))
            .filter(|figure| !figure.is_empty())
    })
}

/// What a field may have been written as.
fn explain(name: &str, value: &Value, explained: &mut Vec<f64>) {
    if let Some(text) = value.as_str() {
        let digits = text.split(|c: char| !c.is_ascii_digit()).filter_map(|part| part.parse::<f64>().ok());
        // A sheet of labels is kept in words: `3x8 letter, label 63.5x38.1`.
        let measures = text
            .split(|c: char| !(c.is_ascii_digit() || c == '.'))
            .filter(|part| name == "word" && part.contains('.'))
            .filter_map(|part| part.parse::<f64>().ok());
        explained.extend(measures);
        // "by 5 pm" is kept as 17:00.
        let is_clock = matches!(name, "by" | "from" | "to");
        explained.extend(digits.flat_map(|value| [Some(value), is_clock.then_some(value % 12.0)]).flatten());
        return;
    }
    let Some(number) = value.as_f64() else { return };
    explained.extend([number, number.abs()]);
    match name {
        "mass_g" | "each_g" => {
            let Some(mass) = Mass::from_grams(number) else { return };
            let pounds = mass.as_pounds();
            let ounces = mass.ratio(Mass::OUNCE);
            explained.extend([
                pounds,
                ounces,
                mass.as_kilograms(),
                pounds.floor(),
                (ounces - 16.0 * pounds.floor()).abs(),
            ]);
        }
        "volume_ml" => {
            let Some(volume) = Volume::from_millilitres(number) else { return };
            let units = [
                Volume::TEASPOON,
                Volume::TABLESPOON,
                Volume::FLUID_OUNCE,
                Volume::CUP,
                Volume::PINT,
                Volume::QUART,
                Volume::GALLON,
                Volume::LITRE,
            ];
            explained.extend(units.map(|unit| volume.ratio(unit)));
        }
        // What lies below the sea is written as `20 ft below` and `minus 600 m`.
        "length_m" => {
            let feet = Length::from_metres(number).map(Length::as_feet);
            explained.extend([Some(number.abs()), feet, feet.map(f64::abs)].into_iter().flatten());
        }
        "seconds" => {
            explained.extend([number / 60.0, number / 3600.0, (number / 3600.0).floor(), number % 3600.0 / 60.0])
        }
        "temp_c" => explained.push(number * 1.8 + 32.0),
        "count" => explained.push(number / 12.0),
        _ => {}
    }
}

fn explain_when(when: When, explained: &mut Vec<f64>) {
    let day = when.day();
    explained.extend([f64::from(day.day()), f64::from(day.month()), f64::from(day.year())]);
    if let When::At(at) = when {
        explained.extend([f64::from(at.hour()), f64::from(at.hour12().1), f64::from(at.minute())]);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Number;
    use crate::statement::{Froze, Set};
    use crate::vocabulary::SettingKey;

    fn froze(pounds: i64, bags: u32) -> Statement {
        Statement::Froze(Froze { mass: Mass::POUND.times(Number::whole(pounds)), bags: Some(bags), ..Froze::default() })
    }

    fn below(feet: i64) -> Statement {
        Statement::Set(Set { length: Length::FOOT.times(Number::whole(-feet)), ..Set::of(SettingKey::Altitude) })
    }

    #[test]
    fn a_figure_is_explained_in_any_unit_or_it_is_said() {
        for (words, statement, left) in [
            ("froze 2 bags, 14 lb", froze(14, 2), vec![]),
            ("froze 14lb in 2", froze(14, 2), vec![]),
            ("froze 4 bags: 7, 7, 6.5, 8", froze(28, 4), vec!["7", "7", "6.5", "8"]),
            ("froze 2 bags of 7", froze(14, 2), vec!["7"]),
            ("2lb6", froze(38, 1), vec!["2", "6"]),
            ("altitude 20 ft below sea level", below(20), vec![]),
            ("altitude minus 20 ft", below(20), vec![]),
            ("altitude 30 ft below sea level", below(20), vec!["30"]),
        ] {
            assert_eq!(unexplained(words, &[statement]), left, "{words}");
        }
    }
}
