//! Which jar's figures a jar takes when it has none of its own.

use super::tables::fact;
use crate::vocabulary::Jar;

/// Why a jar takes another size's time.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct JarNote {
    /// The size whose time it takes.
    pub takes: Jar,
    /// Who says so.
    pub source: &'static str,
}

/// The next size up that the tables print, for a jar that has no row of its own; `None` when there is no such rule.
///
/// Half-pints take the pint's and pint-and-a-half jars the quart's figures, as an extension bulletin says. Metric jars
/// take those of the next customary size that holds at least as much; a litre is more than a quart, and no table
/// reaches it.
pub(super) fn next_size_up(jar: Jar) -> Option<JarNote> {
    const METRIC: &str =
        "no public body says which time a metric jar takes; the next tested size up is common practice, not published";
    let (takes, source) = match jar {
        Jar::HalfPint => (Jar::Pint, fact("half_pint_uses_times_of")?.source.as_str()),
        Jar::PintAndHalf => (Jar::Quart, fact("pint_and_half_uses_times_of")?.source.as_str()),
        Jar::Ml250 => (Jar::Pint, METRIC),
        Jar::Ml500 | Jar::Ml750 => (Jar::Quart, METRIC),
        Jar::Pint | Jar::Quart | Jar::HalfGallon | Jar::L1 => return None,
    };
    Some(JarNote { takes, source })
}

/// Jars of the same system that hold less, largest first.
pub(super) fn smaller(jar: Jar) -> Vec<Jar> {
    let mut jars: Vec<Jar> =
        Jar::ALL.iter().copied().filter(|j| j.is_metric() == jar.is_metric() && j.volume() < jar.volume()).collect();
    jars.sort_by_key(|jar| std::cmp::Reverse(jar.volume()));
    jars
}

/// Of some jar sizes, the one closest in volume: by ratio, so that a jar of 24 oz is nearer the quart than the pint.
pub(super) fn nearest<T>(jar: Jar, rows: impl Iterator<Item = T>, size: impl Fn(&T) -> Jar) -> Option<T> {
    let distance = |row: &T| size(row).volume().ratio(jar.volume()).ln().abs();
    rows.min_by(|a, b| distance(a).total_cmp(&distance(b)))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The two rules of the extension bulletin as the reference table prints them.
    #[test]
    fn the_rules_are_those_of_the_table() {
        assert_eq!(fact("half_pint_uses_times_of").map(|fact| fact.value.as_str()), Some("pint"));
        assert_eq!(fact("pint_and_half_uses_times_of").map(|fact| fact.value.as_str()), Some("quart"));
    }

    #[test]
    fn no_jar_takes_the_time_of_a_smaller_one() {
        for jar in Jar::ALL {
            assert!(next_size_up(*jar).is_none_or(|note| note.takes.volume() > jar.volume()), "{jar}");
        }
        assert_eq!(next_size_up(Jar::L1), None);
        assert_eq!(smaller(Jar::Quart), [Jar::PintAndHalf, Jar::Pint, Jar::HalfPint]);
        assert_eq!(smaller(Jar::Ml750), [Jar::Ml500, Jar::Ml250]);
    }
}
