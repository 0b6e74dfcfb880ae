//! Whether what was read is what a line wants: by all fields, or by those that the line names.

use serde_json::Value;

/// How exactly a line gives its statements.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Wants {
    /// Every field, and no other.
    AllFields,
    /// The fields that are given; open words may be said in other forms.
    GivenFields,
}

/// `6 lb 8 oz`, `3 qt`, `2400 ft` in grams, millilitres or metres.
pub fn converted(text: &str) -> Option<f64> {
    let words: Vec<&str> = text.split_whitespace().collect();
    if !words.len().is_multiple_of(2) || words.is_empty() {
        return None;
    }
    let mut sum = 0.0;
    for pair in words.chunks(2) {
        let per = match pair[1] {
            "lb" | "lbs" => 453.59237,
            "oz" => 28.349523125,
            "g" | "ml" | "m" => 1.0,
            "kg" | "l" => 1000.0,
            "qt" => 946.352946,
            "cups" | "cup" => 236.5882365,
            "pt" => 473.176473,
            "gal" => 3785.411784,
            "ft" => 0.3048,
            "tbsp" => 14.78676478125,
            "tsp" => 4.92892159375,
            "floz" | "fl_oz" => 29.5735295625,
            _ => return None,
        };
        sum += pair[0].parse::<f64>().ok()? * per;
    }
    Some(sum)
}

const MEASURED: [&str; 4] = ["mass_g", "each_g", "volume_ml", "length_m"];
const OPEN: [&str; 11] =
    ["crop", "variety", "place", "ripeness", "prep", "what", "label", "name", "product", "word", "batch"];
const DAYS: [&str; 4] = ["on", "since", "until", "day"];

fn number(value: &Value, field: &str) -> Option<f64> {
    match value {
        Value::String(text) if MEASURED.contains(&field) => converted(text),
        other => other.as_f64(),
    }
}

/// Whether a field has the wanted value.
pub fn same_field(wanted: &Value, got: &Value, field: &str, wants: Wants) -> bool {
    if field == "was" {
        // `18 lb`: the figure, in its unit.
        let figure = |value: &Value| value.as_f64().or_else(|| value.as_str()?.split(' ').next()?.parse().ok());
        return figure(wanted) == figure(got);
    }
    if let (Some(a), Some(b)) = (number(wanted, field), number(got, field)) {
        return (a - b).abs() <= 1e-6 * a.abs().max(b.abs()).max(1e-9);
    }
    if wants == Wants::AllFields {
        return wanted == got;
    }
    match (wanted, got) {
        (Value::String(wanted), Value::String(got)) if DAYS.contains(&field) => wanted.get(..10) == got.get(..10),
        (Value::String(wanted), Value::String(got)) if field == "product" => same_product(wanted, got),
        (Value::String(wanted), Value::String(got)) if OPEN.contains(&field) => same_words(wanted, got),
        (Value::Array(wanted), Value::Array(got)) => same_statements(wanted, got, wants),
        _ => wanted == got,
    }
}

fn same_product(wanted: &str, got: &str) -> bool {
    wanted == got
        || rackful::phrase::training::products_named(wanted).iter().any(|id| id == got)
        || same_words(wanted, got)
}

fn same_words(wanted: &str, got: &str) -> bool {
    let crop = |word: &str| rackful::phrase::training::crop_named(word);
    let (mut a, b) = (words(wanted), words(got));
    // `tomato skins` are skins.
    if a.len() > 1 {
        a.retain(|word| word != "tomato");
    }
    if a.is_empty() || b.is_empty() {
        return false;
    }
    if a.iter().all(|word| b.contains(word))
        || crop(wanted).is_some_and(|known| known == got || Some(known) == crop(got))
    {
        return true;
    }
    a.concat() == b.concat()
}

fn words(text: &str) -> Vec<String> {
    let plain: String = text
        .to_lowercase()
        .replace(['\'', '\u{2019}'], "")
        .replace('ñ', "n")
        .replace(['é', 'è'], "e")
        .replace('ü', "u");
    plain
        .split(|c: char| !c.is_alphanumeric())
        .filter(|word| !word.is_empty() && !matches!(*word, "the" | "a" | "of" | "my" | "our" | "la" | "el"))
        .map(singular)
        .collect()
}

fn singular(word: &str) -> String {
    const SAME: [(&str, &str); 21] = [
        ("cubed", "diced"),
        ("saint", "st"),
        ("snapped", "trimmed"),
        ("tom", "tomato"),
        ("cuke", "cucumber"),
        ("courgette", "zucchini"),
        ("chilli", "pepper"),
        ("chili", "pepper"),
        ("chile", "pepper"),
        ("quarter", "quartered"),
        ("half", "halved"),
        ("halve", "halved"),
        ("slice", "sliced"),
        ("dice", "diced"),
        ("core", "cored"),
        ("mater", "tomato"),
        ("ripe", "red"),
        ("stoned", "pitted"),
        ("unripe", "green"),
        ("strip", "strips"),
        ("toma", "tomato"),
    ];
    let stem = match word {
        "halves" => "half".to_owned(),
        "chillies" | "chilies" => "chilli".to_owned(),
        _ if word.ends_with("ie") && word.len() > 5 => format!("{}y", &word[..word.len() - 2]),
        _ if word.ends_with("ies") && word.len() > 4 => format!("{}y", &word[..word.len() - 3]),
        _ if ["oes", "ches", "shes", "sses", "xes"].iter().any(|end| word.ends_with(end)) => {
            word[..word.len() - 2].to_owned()
        }
        _ if word.ends_with('s') && !word.ends_with("ss") && !word.ends_with("us") && word.len() > 3 => {
            word[..word.len() - 1].to_owned()
        }
        _ => word.to_owned(),
    };
    SAME.iter().find(|(from, _)| *from == stem).map_or(stem, |(_, to)| (*to).to_owned())
}

/// Whether a statement is the wanted one.
pub fn same_statement(wanted: &Value, got: &Value, wants: Wants) -> bool {
    let (Some(want), Some(have)) = (wanted.as_object(), got.as_object()) else { return false };
    let given = want.iter().all(|(field, value)| {
        // Written another way, or by another name, in some lines.
        let other = match (want["kind"].as_str(), field.as_str()) {
            (Some("planned" | "called_off"), "on") => "day",
            _ => field,
        };
        let no_variety =
            matches!(want["kind"].as_str(), Some("froze" | "thawed" | "ate" | "gave" | "tossed" | "counted" | "dried"));
        // What a share comes to is reckoned where the whole is known.
        let of_share = want.contains_key("share") && matches!(field.as_str(), "mass_g" | "of");
        if wants == Wants::GivenFields
            && (of_share
                || field == "means"
                || field == "variety" && no_variety
                || field == "crop" && is_tomato(value) && !have.contains_key("crop"))
        {
            return true;
        }
        have.get(other).is_some_and(|got| same_field(value, got, field, wants))
    });
    // What these say is new: older lines do not name it.
    let dated = ["picked", "froze", "thawed", "ate", "gave", "tossed", "put_up", "opened", "planted", "correct"];
    let undated = want["kind"].as_str().is_some_and(|kind| !dated.contains(&kind));
    let newer = |field: &str| {
        (matches!(field, "was" | "approx" | "entry") || field == "on" && undated) && !want.contains_key(field)
    };
    let extra = have.keys().filter(|field| newer(field)).count();
    given && (wants == Wants::GivenFields || want.len() == have.len() - extra)
}

fn is_tomato(value: &Value) -> bool {
    value.as_str().is_some_and(|crop| rackful::phrase::training::crop_named(crop).as_deref() == Some("tomato"))
}

/// Whether all statements are the wanted ones, in order.
pub fn same_statements(wanted: &[Value], got: &[Value], wants: Wants) -> bool {
    wanted.len() == got.len() && wanted.iter().zip(got).all(|(a, b)| same_statement(a, b, wants))
}
