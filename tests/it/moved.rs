//! A planned canning day moved or called off in few words, which are talk where none is planned.

use rackful::{
    phrase::{Context, Lexicon, complete, read},
    statement::Statement,
    vocabulary::Product,
    zone::Zone,
};

/// Read on Friday 14 August 2026, with a canning day planned for the 15th or with none.
fn said(text: &str, planned: bool) -> String {
    let day = "2026-08-15".parse().unwrap();
    let planned = if planned { vec![(day, Product::THICK_SAUCE)] } else { Vec::new() };
    let lexicon = Lexicon { planned, ..Lexicon::default() };
    let context = Context {
        now: "2026-08-14T14:05:00Z".parse().unwrap(),
        zone: Zone::parse("-05:00").unwrap(),
        lexicon: &lexicon,
        last: None,
    };
    // What is proposed is as good here: a yes moves the day.
    let said = match read(text, &context).statements {
        said if matches!(&said[..], [Statement::Propose(_)]) => match said.into_iter().next() {
            Some(Statement::Propose(proposed)) => proposed.statements,
            _ => Vec::new(),
        },
        said => said,
    };
    serde_json::to_string(&said).unwrap()
}

#[test]
fn a_planned_day_is_moved_in_few_words() {
    for (text, day) in [
        ("make it Monday", "2026-08-17"),
        ("actually, make it sunday", "2026-08-16"),
        ("let's make it sunday instead", "2026-08-16"),
        ("actually Sunday", "2026-08-16"),
        ("not Saturday, Sunday", "2026-08-16"),
        ("not saturday but sunday", "2026-08-16"),
        ("sunday instead", "2026-08-16"),
        ("sorry, make it tuesday", "2026-08-18"),
    ] {
        let wanted = format!(r#"[{{"kind":"planned","day":"{day}","product":"tomato-sauce-thick"}}]"#);
        assert_eq!(said(text, true), wanted, "{text}");
        assert_eq!(said(text, false), "[]", "{text}");
    }
}

#[test]
fn a_planned_day_is_called_off_by_its_name() {
    for text in ["cancel Saturday", "cancel saturday please", "let's skip saturday", "scrap saturday"] {
        assert_eq!(said(text, true), r#"[{"kind":"called_off","day":"2026-08-15"}]"#, "{text}");
        assert_eq!(said(text, false), "[]", "{text}");
    }
}

#[test]
fn other_talk_of_days_moves_nothing() {
    for text in [
        "make it monday, not tuesday, for the dentist",
        "can you make it monday?",
        "they can't make it monday",
        "actually friday was lovely",
        "cancel tuesday",
        "cancel saturday's dinner",
        "don't cancel saturday",
        "i can't make it sunday",
        "not sunday again",
        "actually yesterday",
    ] {
        assert_eq!(said(text, true), "[]", "{text}");
    }
}

#[test]
fn a_command_answers_no_question() {
    let lexicon = Lexicon::default();
    let context = Context {
        now: "2026-08-14T14:05:00Z".parse().unwrap(),
        zone: Zone::parse("-05:00").unwrap(),
        lexicon: &lexicon,
        last: None,
    };
    let asked = read("put up 4 pints", &context).statements;
    let Some(Statement::Clarify(pending)) = asked.first() else { panic!("{asked:?}") };
    for text in ["labels 63.5x38.1 mm", "labels 3x8 a4", "units metric", "undo", "canning on saturday"] {
        assert!(complete(pending, text, &context).is_none(), "{text}");
    }
    for text in ["salsa", "sauce", "zucchini relish", "dilly beans"] {
        assert!(complete(pending, text, &context).is_some(), "{text}");
    }
}
