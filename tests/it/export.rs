//! Export and import.

#![allow(clippy::unwrap_used)]

use crate::store::sample::commit;
use crate::store::{all, waiting};
use chrono::DateTime;
use proptest::collection::vec;
use proptest::option;
use proptest::prelude::*;
use rackful::assistant::{Commit, OutKind, Outgoing};
use rackful::enclosure::{Calendar, Enclosure, Label, LabelSheet, Moment, Occasion};
use rackful::export::{ImportError, Imported, export, import};
use rackful::ledger::{Change, MessageId};
use rackful::picture::{Picture, Season, Unit, Week};
use rackful::sheet::Layout;
use rackful::store::{DiskStore, MemoryStore, Notes, Store};
use rackful::vocabulary::Table;

fn exported(store: &dyn Store) -> Vec<u8> {
    let mut bytes = Vec::new();
    export(store, &mut bytes).unwrap();
    bytes
}

/// A file of each kind, as data.
fn enclosure() -> impl Strategy<Value = Enclosure> {
    let moment = prop_oneof![
        any::<u32>().prop_map(|second| Moment::At(DateTime::from_timestamp(second.into(), 0).unwrap())),
        Just(Moment::Day("2027-08-14".parse().unwrap())),
    ];
    let occasion = (".{0,9}", ".{0,9}", ".{0,9}", moment).prop_map(|(subject, summary, detail, when)| Occasion {
        subject,
        summary,
        detail,
        when,
    });
    let label = (".{0,9}", option::of(".{0,9}")).prop_map(|(product, acid)| Label {
        product,
        jar: "quart".into(),
        on: "Aug 14".into(),
        batch: None,
        best: "best by Aug 2027".into(),
        acid,
    });
    prop_oneof![
        Just(Enclosure::Ledger),
        Just(Enclosure::Table { table: Table::Pantry }),
        (label, 1u32..99, 0u32..9).prop_map(|(label, count, used)| {
            Enclosure::Labels(LabelSheet { layout: Layout::parse("3x7 a4").unwrap(), used, label, count })
        }),
        vec(occasion, 0..3)
            .prop_map(|occasions| Enclosure::Calendar(Calendar { made: DateTime::UNIX_EPOCH, occasions })),
        (any::<f64>().prop_filter("a number", |figure| figure.is_finite()), any::<bool>()).prop_map(
            |(picked, dark)| {
                let week = Week { from: "2026-08-10".parse().unwrap(), picked, frozen: 1.5, put_up: 7 };
                let season = Season {
                    year: 2026,
                    unit: Unit::Kilogram,
                    weeks: vec![week],
                    open: dark,
                    picked,
                    frozen: 1.5,
                    put_up: 7,
                };
                Enclosure::Picture { picture: Picture::Season(season), dark }
            }
        ),
    ]
}

fn outgoing() -> impl Strategy<Value = Outgoing> {
    let facts = vec((".{0,8}", any::<f64>()), 0..4);
    (".{0,12}", any::<i32>(), option::of(".{0,6}"), ".{0,30}", facts, any::<bool>(), vec(enclosure(), 0..2)).prop_map(
        |(key, at, re, text, facts, mention, files)| Outgoing {
            key,
            room: "home".into(),
            at: DateTime::from_timestamp(at.into(), 0).unwrap().into(),
            out: OutKind::Alert,
            re: re.map(|id| MessageId::new(&id)),
            topic: "froze".into(),
            text,
            facts: facts.into_iter().map(|(name, value)| (name, value.into())).collect(),
            mention,
            thread: None,
            alert: None,
            files,
        },
    )
}

fn any_commit() -> impl Strategy<Value = Commit> {
    let told = (".{0,20}", any::<u32>())
        .prop_map(|(alert, due)| Change::Told { alert, due: DateTime::from_timestamp(due.into(), 0).unwrap() });
    let armed = ".{0,20}".prop_map(|alert| Change::Rearmed { alert });
    let entered = (0_u64..99).prop_map(|n| commit(n).changes.remove(0));
    let changes = vec(prop_oneof![told, armed, entered], 0..4);
    ("[a-c]", any::<u32>(), 0_u32..1_000_000_000, option::of(".{0,4}"), changes, vec(outgoing(), 0..3)).prop_map(
        |(room, at, nanos, message, changes, out)| Commit {
            room: room.as_str().into(),
            at: DateTime::from_timestamp(at.into(), nanos).unwrap(),
            message: message.map(|id| MessageId::new(&id)),
            said: DateTime::from_timestamp(i64::from(nanos), 0),
            changes,
            out,
        },
    )
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    #[test]
    fn export_import_export_gives_the_same_bytes(
        commits in vec(any_commit(), 0..12),
        sent in vec(any::<prop::sample::Index>(), 0..6),
    ) {
        let mut first = MemoryStore::new();
        first.keep(&commits, &Notes::new()).unwrap();
        let keys = waiting(&first);
        for index in sent.iter().filter(|_| !keys.is_empty()) {
            first.sent(index.get::<String>(&keys)).unwrap();
        }
        let bytes = exported(&first);
        let folder = tempfile::tempdir().unwrap();
        let mut second = DiskStore::open(folder.path()).unwrap();
        let done = import(&bytes[..], &mut second).unwrap();
        prop_assert_eq!(done, Imported { taken: commits.len() as u64, known: 0 });
        drop(second);
        let second = DiskStore::open(folder.path()).unwrap();
        prop_assert_eq!(all(&second), commits);
        prop_assert_eq!(waiting(&second), waiting(&first));
        prop_assert_eq!(exported(&second), bytes);
    }
}

/// Three commits, the second sent.
fn three() -> MemoryStore {
    let mut store = MemoryStore::new();
    store.keep(&[commit(1), commit(2), commit(3)], &Notes::new()).unwrap();
    store.sent(&commit(2).out[0].key).unwrap();
    store
}

#[test]
fn nothing_that_was_sent_waits_after_an_import() {
    let mut store = MemoryStore::new();
    import(&exported(&three())[..], &mut store).unwrap();
    assert_eq!(waiting(&store), waiting(&three()));
}

#[test]
fn known_messages_are_skipped_and_counted() {
    let mut alert = commit(9);
    alert.message = None;
    let mut from = three();
    from.keep(&[alert.clone()], &Notes::new()).unwrap();
    let mut store = MemoryStore::new();
    store.keep(&[commit(2), alert], &Notes::new()).unwrap();
    store.sent(&commit(2).out[0].key).unwrap();
    assert_eq!(import(&exported(&from)[..], &mut store).unwrap(), Imported { taken: 2, known: 2 });
    assert_eq!(import(&exported(&from)[..], &mut store).unwrap(), Imported { taken: 0, known: 4 });
    assert_eq!(all(&store).len(), 4);
    assert_eq!(waiting(&store).len(), 3);
}

#[test]
fn first_broken_line_is_named_and_nothing_is_imported() {
    let good = String::from_utf8(exported(&three())).unwrap();
    let lines: Vec<_> = good.lines().collect();
    let with = |at: usize, line: &str| {
        let mut lines = lines.clone();
        lines[at] = line;
        lines.join("\n")
    };
    let cases = [
        (with(0, lines[1]), 1),
        (with(0, ""), 1),
        (String::new(), 1),
        (with(2, &lines[2][..40]), 3),
        (with(1, "{}"), 2),
        (with(3, ""), 4),
        (with(3, &lines[3].replace("froze", "frozen")), 4),
        (with(1, lines[0]), 2),
        (lines[..3].join("\n"), 4),
        (format!("{good}{}", lines[3]), 6),
        (format!("{good}{good}"), 5),
    ];
    for (text, expected) in cases {
        let mut store = MemoryStore::new();
        match import(text.as_bytes(), &mut store) {
            Err(ImportError::Line { line, .. }) => assert_eq!(line, expected, "{text}"),
            other => panic!("{other:?} for {text}"),
        }
        assert!(all(&store).is_empty());
    }
    let newer = import(&b"{\"rackful_export\":2,\"commits\":0}\n"[..], &mut MemoryStore::new());
    assert!(matches!(newer, Err(ImportError::Newer(2))));
}

/// What no household can have said is no line of an export: folding it would fill the memory, or leave the calendar.
#[test]
fn entries_that_cannot_be_are_refused_by_their_line() {
    let good = String::from_utf8(exported(&three())).unwrap();
    for (from, to) in [
        (r#""bags":1"#, r#""bags":4000000000"#),
        (r#""mass_g":3175.14659"#, r#""mass_g":5e8"#),
        (r#""mass_g":3175.14659"#, r#""mass_g":-3175.14659"#),
        (r#""happened":"2026-"#, r#""happened":"+262142-"#),
        (r#""said":"2026-"#, r#""said":"+262142-"#),
    ] {
        let hostile = good.replace(from, to);
        let mut store = MemoryStore::new();
        match import(hostile.as_bytes(), &mut store) {
            Err(ImportError::Line { why, .. }) => assert!(why.contains("cannot be"), "{why}"),
            other => panic!("{other:?} for {to}"),
        }
    }
}

#[test]
fn a_file_cut_short_at_any_byte_is_noticed() {
    let good = exported(&three());
    for at in 0..good.len() - 1 {
        let mut store = MemoryStore::new();
        assert!(import(&good[..at], &mut store).is_err(), "cut at {at}");
        assert!(all(&store).is_empty());
    }
}
