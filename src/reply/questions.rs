//! What is asked back where a phrase is not finished, or has a word that may change what is in a jar.

use super::{Facts, Reply};
use crate::statement::Clarify;
use crate::vocabulary::{Kind, Missing};

/// The one short question for an unfinished phrase.
pub fn clarify(question: &Clarify) -> Reply {
    let amount = question.amount.map(|amount| super::words::plain(amount.as_f64(), 2));
    let amount = amount.as_deref();
    if let Some(word) = question.word.as_deref().filter(|_| question.partial.is_some()) {
        let short: String = word.split_whitespace().collect::<Vec<_>>().join(" ").chars().take(60).collect();
        let then = if matches!(question.about, Kind::Began | Kind::Ask) {
            "no time is tested for it"
        } else {
            "it does not count"
        };
        return asked_for(format!(
            "I can't place '{short}'. Is it in the jars, or in how they are heated? Say 'no' if it is neither; \
             if it is, {then}."
        ));
    }
    let asked = match (question.missing, question.about, amount) {
        (Missing::Unit, Kind::Froze | Kind::Thawed | Kind::Tossed | Kind::Counted, Some(n)) => {
            format!("{n} what: lb, kg or bags?")
        }
        (Missing::Unit, Kind::Picked, Some(n)) => format!("{n} what: lb or kg?"),
        (Missing::Unit, Kind::Opened | Kind::PutUp | Kind::Filled, Some(n)) => format!("{n} what: pints or quarts?"),
        (Missing::Unit, Kind::Bought, Some(n)) => format!("{n} of what?"),
        (Missing::Unit, Kind::Set, Some(n)) => format!("{n} what: ft or m?"),
        (Missing::Unit, Kind::TimerStart, Some(n)) => format!("{n} what: minutes or hours?"),
        (Missing::Unit, _, Some(n)) => format!("{n} what: lb, bags or jars?"),
        (Missing::Unit, _, None) => "In what: lb, kg, bags or jars?".to_owned(),
        (Missing::Amount, Kind::TimerStart, _) => "For how long?".to_owned(),
        (Missing::Amount, _, _) => "How much was it?".to_owned(),
        (Missing::Product, _, _) => "Of what?".to_owned(),
        (Missing::Jar, _, Some(n)) => format!("{n} what: pints or quarts?"),
        (Missing::Jar, _, None) => "In which jars: pints or quarts?".to_owned(),
        (Missing::Canner, _, _) => "Dial gauge or weighted gauge?".to_owned(),
        (Missing::Altitude, _, _) => "What is your altitude? ('2400 ft' or '730 m')".to_owned(),
    };
    asked_for(asked)
}

fn asked_for(text: String) -> Reply {
    Reply { text, facts: Facts::default() }
}
