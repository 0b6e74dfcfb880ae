//! What rules ask for besides, and why a sentence that they make may not be read.

use super::super::derived::Recogniser;
use super::super::grammar::is_under;
use super::super::today;
use super::{Case, Stretch, Sub};
use rackful::phrase::training::{tokens_of, values_of};
use std::collections::BTreeSet;

/// The number that a text is, where it is one as a whole.
fn number(text: &str) -> Option<f64> {
    let tokens = tokens_of(text).len();
    let values = values_of(text, today(), false);
    values.iter().find(|value| value.kind == "number" && value.from == 0 && value.to == tokens)?.amount
}

fn is_count(text: &str, low: f64, high: f64) -> bool {
    number(text).is_some_and(|n| n.fract() == 0.0 && (low..=high).contains(&n))
}

/// Whether the second article of a measured amount stands behind less than one.
fn article_behind_part(sub: &Sub<'_>) -> bool {
    let figure = sub.stretches("figure").first().copied();
    let first = figure.map_or(0, |figure| figure.to);
    let articles: Vec<&Stretch> = sub.parts[1..].iter().filter(|part| part.name == "<small.article>").collect();
    let own = |part: &&&Stretch| {
        part.from >= first && !sub.stretches("and-part").iter().any(|of| of.from <= part.from && part.to <= of.to)
    };
    let behind = articles.iter().filter(own).count();
    match figure {
        Some(figure) => behind == 0 || number(&sub.text[figure.from..figure.to]).is_some_and(|n| n < 1.0),
        None => behind < 2,
    }
}

/// Whether a unit's dot is behind an abbreviation.
fn short(sub: &Sub<'_>) -> bool {
    let said = sub.said().trim_start_matches('-');
    !said.contains('.')
        || said.find('.').is_some_and(|at| said[..at].rsplit(' ').next().is_some_and(|word| word.len() <= 3))
}

fn mass_unit(text: &str) -> &'static str {
    let is = |unit: &str| tokens_of(text).iter().any(|token| token.names.iter().any(|(_, path)| path == unit));
    let all = [
        "unit.mass.lb",
        "unit.mass.oz",
        "unit.mass.stone",
        "unit.mass.kg",
        "unit.mass.dag",
        "unit.mass.mg",
        "unit.mass.g",
    ];
    all.into_iter().find(|unit| is(unit)).unwrap_or("unit.mass.lb")
}

fn two_units(sub: &Sub<'_>) -> bool {
    let units = sub.all("unit");
    let order = ["unit.mass.stone", "unit.mass.lb", "unit.mass.oz"];
    let metric = ["unit.mass.kg", "unit.mass.dag", "unit.mass.g", "unit.mass.mg"];
    let large = mass_unit(units[0]);
    let last = sub.stretches("exact").last().map(|part| &sub.text[part.from..part.to]).unwrap_or_default();
    let behind = sub.stretches("unit")[0].to;
    let joined = sub.text[behind..].trim_start();
    let ands = sub.parts[1..]
        .iter()
        .any(|part| part.name == "<small.and>" && part.from >= behind && sub.text[behind..part.from].trim().is_empty());
    let loose = !joined.starts_with([',', '-']) && !ands;
    match units.get(1).map(|unit| mass_unit(unit)) {
        Some("unit.mass.lb") => large == "unit.mass.stone",
        Some("unit.mass.oz") => {
            large != "unit.mass.oz" && (order.contains(&large) || ["unit.mass.kg"].contains(&large))
        }
        Some(small) => {
            let place = |unit: &str| metric.iter().position(|known| *known == unit);
            place(large).zip(place(small)).is_some_and(|(large, small)| large < small)
        }
        None if large == "unit.mass.lb" => {
            loose
                && is_count(last, 1.0, 15.0)
                && (last.bytes().all(|c| c.is_ascii_digit())
                    || sub
                        .parts
                        .last()
                        .is_some_and(|part| part.name == "<num.ones>" && part.from + last.len() == sub.parts[0].to))
        }
        None => loose && large == "unit.mass.kg" && last.len() == 3 && last.bytes().all(|c| c.is_ascii_digit()),
    }
}

fn in_joint(sub: &Sub<'_>, loose: bool) -> bool {
    let joint = sub.all("joint").first().copied().unwrap_or_default();
    let by = sub.has("by");
    by || !loose && joint.chars().any(char::is_alphabetic) || loose && sub.has("each")
}

fn counts(sub: &Sub<'_>, rule: &str) -> bool {
    sub.all(rule).first().is_some_and(|text| is_counted(text))
}

/// Whether containers are counted by a whole number up to 500.
fn is_counted(text: &str) -> bool {
    let tokens = tokens_of(text).len();
    values_of(text, today(), false).iter().any(|value| {
        value.kind == "count"
            && value.from == 0
            && value.to == tokens
            && value.amount.is_some_and(|n| n.fract() == 0.0 && (1.0..=500.0).contains(&n))
    })
}

fn listed(sub: &Sub<'_>) -> bool {
    let count = sub.all("counted").first().and_then(|text| {
        values_of(text, today(), false).iter().find(|value| value.kind == "count").and_then(|value| value.amount)
    });
    let weighed = sub.all("weighed");
    let unit = sub.has("mass");
    unit && count.is_none_or(|count| count == weighed.len() as f64)
}

pub(super) type Asked = (&'static str, &'static str, fn(&Sub<'_>) -> bool);

/// What rules ask for besides: the words behind `--`.
pub(super) const ASKED: &[Asked] = &[
    ("number", "four tokens", |sub| {
        !sub.said().ends_with('.')
            || !sub.has("exact")
            || tokens_of(sub.said()).len() == 4 && !sub.has("figure") && !sub.has("of-them")
    }),
    ("range", "low < high <= 4 low", |sub| {
        let ends: Vec<Option<f64>> = sub.all("exact").into_iter().map(number).collect();
        matches!(ends[..], [Some(low), Some(high)] if low < high && high <= 4.0 * low.max(2.0))
    }),
    ("ratio", "less than one", |sub| {
        sub.said().split_once('/').is_some_and(|(a, b)| a.parse::<u32>().ok() < b.parse().ok())
    }),
    ("fraction", "less than one", |sub| {
        sub.numbers("<num.ones>").first().is_none_or(|above| (1..sub.numbers("<num.part>")[0]).contains(above))
    }),
    ("words", "scales that descend, each with something before it", |sub| {
        let belows = sub.stretches("below");
        let scales = sub.stretches("<num.scale>");
        let values = sub.numbers("<num.scale>");
        let between = |from: usize, to: usize| belows.iter().any(|below| from <= below.from && below.to <= to);
        let zero = sub.parts[1..].iter().any(|part| part.path == "num.ones.0");
        let gaps = scales.windows(2).map(|pair| between(pair[0].to, pair[1].from));
        let pairs = values.windows(2).zip(gaps);
        scales.is_empty()
            || !zero
                && values.iter().filter(|scale| **scale == 1_000).count() < 2
                && values.iter().filter(|scale| **scale == 100).count() < 3
                && pairs.into_iter().all(|(pair, gap)| match pair {
                    [100, 100] => false,
                    [1_000, 100] => gap,
                    _ => true,
                })
    }),
    ("digit", "below ten", |sub| sub.numbers("<num.ones>")[0] < 10),
    ("below", "two behind an article", |sub| !sub.has("<small.article>") || sub.numbers("<num.ones>") == [2]),
    ("tens", "one to nine", |sub| sub.numbers("<num.ones>").iter().all(|ones| (1..10).contains(ones))),
    ("one-unit", "the same unit on both ends", |sub| {
        let units = sub.all("unit");
        units.len() < 2 || mass_unit(units[0]) == mass_unit(units[1])
    }),
    ("unit", "an abbreviation", short),
    ("unit-and-part", "an abbreviation", |sub| sub.has("unit") || short(sub)),
    ("two-units", "of one system", two_units),
    ("part-of-unit", "less than one", |sub| {
        sub.all("exact").first().and_then(|text| number(text)).is_some_and(|n| n < 1.0)
    }),
    ("volume", "an article behind less than one", article_behind_part),
    ("volume", "an abbreviation", |sub| {
        let unit = sub.stretches("<unit.volume>")[0];
        !sub.text[unit.to..].starts_with('.')
            || sub.text[unit.from..unit.to].rsplit(' ').next().is_some_and(|word| word.len() <= 3)
    }),
    ("time-span", "an article behind less than one", article_behind_part),
    ("counted", "no article before a plural", |sub| {
        sub.has("figure") && !sub.has("another") || !sub.said().ends_with('s')
    }),
    ("count-each", "an each or an of", |sub| in_joint(sub, true) || in_joint(sub, false)),
    ("count-each", "a count", |sub| counts(sub, "counted")),
    ("times-mass", "an each or an of", |sub| in_joint(sub, false)),
    ("times-mass", "a count", |sub| is_count(sub.all("exact")[0], 1.0, 500.0)),
    ("each-count", "a count", |sub| {
        if sub.has("counted") {
            counts(sub, "counted")
        } else {
            sub.all("exact").last().is_some_and(|text| is_count(text, 1.0, 500.0))
        }
    }),
    ("sized", "a count", |sub| {
        sub.stretches("exact")
            .first()
            .is_none_or(|part| part.from > sub.parts[0].from || is_count(&sub.text[part.from..part.to], 1.0, 500.0))
    }),
    ("sized", "no article before the mass", |sub| !sub.all("mass")[0].is_empty() && !article_first(sub)),
    ("count-of", "an each", |sub| sub.has("by")),
    ("listed", "as many as counted, with a unit", |sub| listed(sub) && sub.all("weighed").len() > 1),
    ("unlike", "one each, with a unit", listed),
    ("one-weighed", "one", |sub| {
        sub.all("exact").first().is_none_or(|text| sub.parts[1].name != "exact" || number(text) == Some(1.0))
    }),
    ("jars", "of a metric jar", |sub| sub.parts[1].name != "volume" || metric(sub)),
    ("jar-size", "of a metric jar", |sub| !sub.has("volume") || metric(sub)),
    ("sized-jars", "an abbreviation", |sub| {
        let size = sub.stretches("size")[0];
        let behind = &sub.text[size.to..];
        !behind.starts_with('.')
            || !behind.starts_with(".-")
                && sub.text[size.from..size.to].rsplit([' ', '-']).next().is_some_and(|word| word.len() <= 3)
    }),
    ("portions", "no unit first", |sub| {
        !sub.parts.iter().any(|part| part.name == "<unit.mass>" && part.from == sub.parts[0].from)
    }),
    ("sized", "no part of a unit behind an article", |sub| {
        !sub.has("part-of-unit")
            || !sub.parts.iter().any(|part| part.name == "<small.article>" && part.from == sub.parts[0].from)
    }),
    ("sized", "no bare ounces before a container", |sub| !bare(sub)),
    ("each-count", "no bare ounces before a container", |sub| !bare(sub)),
    ("of-them", "no range", |sub| !sub.said().ends_with(" one")),
    ("jars-counted", "a whole number, or more than one", |sub| {
        !sub.has("figure") || number(sub.said()).is_some_and(|n| n >= 1.0 || n == 0.0)
    }),
    ("of-them", "a whole number", |sub| is_count(sub.all("exact")[0], 0.0, 1e6)),
    ("out-of", "at most all, and 200", |sub| {
        let all: Vec<f64> = sub.all("whole").into_iter().filter_map(number).collect();
        all.iter().all(|n| *n <= 200.0) && all.windows(2).all(|pair| pair[0] <= pair[1]) && !all.is_empty()
    }),
    ("days", "a count", |sub| sub.all("exact").first().is_none_or(|text| is_count(text, 0.0, 400.0))),
    ("written", "one sign, and a month among them", |sub| {
        let signs: BTreeSet<char> = sub.said().chars().filter(|c| !c.is_ascii_digit()).collect();
        let figures: Vec<u32> =
            sub.said().split(|c: char| !c.is_ascii_digit()).filter_map(|n| n.parse().ok()).collect();
        signs.len() == 1 && (figures.len() > 2 || figures.iter().min() <= Some(&12))
    }),
    ("dated-weekday", "a dash alone at the head of a message", |sub| {
        !sub.all("written").iter().any(|said| said.matches('-').count() == 1)
    }),
    ("dated-weekday", "a day behind the second", |sub| {
        let digits = |text: &&str| text.trim_end_matches(char::is_alphabetic).parse::<u32>().is_ok_and(|n| n < 3);
        sub.has("month-day")
            || sub.has("written")
            || sub.numbers("<ordinal>").iter().all(|n| *n > 2) && !sub.all("day-number").iter().any(digits)
    }),
    ("of-any", "a day behind the third", |sub| sub.numbers("<ordinal>").iter().all(|n| *n > 3)),
    ("clock", "an hour and minutes", |sub| {
        let ones = sub.numbers("<num.ones>");
        if sub.has("off-hour") || sub.has("clock-digits") {
            return true;
        }
        match sub.all("exact").first() {
            Some(hour) => is_count(hour, 0.0, 23.0),
            None if ones.is_empty() => true,
            None => {
                (1..=12).contains(&ones[0])
                    && ones.get(1).is_none_or(|n| *n == 15)
                    && sub.numbers("<num.tens>").iter().all(|n| *n < 60)
            }
        }
    }),
    ("clock-digits", "the hour in one letter", |sub| sub.all("<unit.time.hour>").iter().all(|word| word.len() == 1)),
    ("off-hour", "minutes and an hour", |sub| {
        let all = sub.all("exact");
        is_count(all[all.len() - 1], 1.0, 12.0) && (all.len() == 1 || is_count(all[0], 1.0, 59.0))
    }),
    ("duration", "the smaller unit behind", |sub| {
        let unit = |text: &str| {
            let tokens = tokens_of(text);
            let is = |unit: &str| tokens.iter().any(|token| token.names.iter().any(|(_, path)| path == unit));
            if is("unit.time.hour") {
                2
            } else if is("unit.time.minute") {
                1
            } else {
                0
            }
        };
        let spans = sub.all("time-span");
        let behind = sub.parts[1..].iter().any(|part| {
            part.name == "exact"
                && part.to == sub.parts[0].to
                && !spans.iter().any(|span| {
                    span.as_ptr() as usize <= sub.text[part.from..].as_ptr() as usize
                        && sub.text[part.from..].as_ptr() as usize <= span.as_ptr() as usize + span.len()
                })
        });
        match spans[..] {
            [one] => !behind || unit(one) == 2 && !sub.said()[one.len()..].trim_start().starts_with(','),
            [large, small] => unit(large) > unit(small),
            _ => false,
        }
    }),
    ("share", "less than one", |sub| {
        sub.has("percent")
            || sub.has("<share>")
            || sub.all("exact").first().and_then(|text| number(text)).is_some_and(|n| n < 1.0 && n > 0.0)
                && !sub.has("decimal")
                && !sub.has("grouped")
    }),
    ("colour", "at most all of it", |sub| {
        number(sub.all("figure")[0]).is_some_and(|n| if sub.has("percent") { n <= 100.0 } else { n < 1.0 })
    }),
    ("grid", "more than nothing", |sub| number(sub.all("exact")[0]).is_some_and(|n| n > 0.0)),
    ("grid", "no sign first", |sub| {
        sub.all("exact").iter().all(|text| text.starts_with(|c: char| c.is_ascii_alphanumeric()))
    }),
    ("label", "a capital, or a small number", |sub| {
        let said = sub.said().trim_start_matches('#').trim();
        !(said.len() == 1 && said.starts_with(|c: char| c.is_ascii_lowercase()))
            && sub.numbers("<num.ones>").iter().all(|n| *n < 13)
            && !(sub.has("<num.ones>") && said.contains(' '))
    }),
];

/// Whether a mass begins with an article.
fn article_first(sub: &Sub<'_>) -> bool {
    let mass = sub.stretches("mass")[0];
    sub.parts.iter().any(|part| ["<small.article>", "another"].contains(&part.name.as_str()) && part.from == mass.from)
}

/// Whether a mass ends with ounces or grams that are not named.
fn bare(sub: &Sub<'_>) -> bool {
    let two = sub.stretches("two-units");
    two.iter()
        .any(|two| sub.stretches("unit").iter().filter(|unit| two.from <= unit.from && unit.to <= two.to).count() == 1)
}

/// Whether a volume is that of a metric jar, with its figure.
fn metric(sub: &Sub<'_>) -> bool {
    let volume = sub.stretches("volume")[0];
    let text = &sub.text[volume.from..volume.to];
    let article = sub
        .parts
        .iter()
        .any(|part| ["<small.article>", "another"].contains(&part.name.as_str()) && part.from == volume.from);
    let tokens = tokens_of(text).len();
    let values = values_of(text, today(), false);
    let litres =
        values.iter().find(|value| value.kind == "volume" && value.to == tokens).and_then(|value| value.amount);
    !article && litres.is_some_and(|litres| [0.25, 0.5, 0.75, 1.0].iter().any(|jar| (jar - litres).abs() < 1e-9))
}

pub(super) type Reason = (&'static str, fn(&Case<'_>) -> bool);

/// Why a sentence that the rules make may not be read.
pub(super) const REASONS: &[Reason] = &[
    ("a misheard number counts behind a deed", |case| case.has("heard")),
    ("the dot at the end belongs to the sentence", |case| case.made.text.ends_with('.')),
    ("a rule reads in one way", |case| {
        let grammar = case.grammar;
        let (kind, _) = grammar.rules.get_key_value(case.kind).unwrap();
        Recogniser::new(grammar, case.tokens).first(kind, 0) != Some(case.tokens.len())
    }),
    ("a figure goes on as long as it can", |case| {
        let figures = case.made.parts.iter().filter(|part| ["exact", "figure"].contains(&part.name.as_str()));
        figures.into_iter().any(|part| {
            let (Some(at), Some(behind)) = (case.token_at(part.from), case.behind(part.to)) else { return false };
            case.values.iter().any(|value| value.kind == "number" && value.from == at && value.to > behind)
        })
    }),
    ("a million is too large for a unit", |case| {
        let figures = case.made.parts.iter().filter(|part| part.name == "exact");
        figures.into_iter().any(|part| number(&case.made.text[part.from..part.to]).is_some_and(|n| n >= 1e6))
    }),
    ("a count that stands first counts the weights of a list", |case| {
        let counted = case.values.iter().any(|value| value.kind == "count" && value.from == 0);
        case.has("unlike") && !case.has("counted") && counted
    }),
    ("a dot before another mark is none of an abbreviation", |case| {
        case.made.text.contains(".-") || case.made.text.contains(".,")
    }),
    ("a size that is a container counts", |case| {
        let is = |part: &Stretch, classes: [&str; 2]| {
            let names = case.token_at(part.from).map_or(&[][..], |at| &case.tokens[at].names);
            names.iter().any(|(_, path)| classes.iter().any(|class| is_under(path, class)))
        };
        let both = |part: &Stretch| match part.name.as_str() {
            "size-word" => is(part, ["container", "jar"]),
            "<container>" | "<jar.word>" => is(part, ["harmless", "extra"]),
            _ => false,
        };
        case.made.parts.iter().any(both)
    }),
    ("back behind a figure may be bags", |case| case.kind == "ago" && case.made.text.ends_with("back")),
];
