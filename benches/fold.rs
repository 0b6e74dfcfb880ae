//! An answer must cost the same after a thousand entries and after a million: the fold goes on from its end, and what
//! is said late goes on from a kept state shortly before it.
#![allow(missing_docs, clippy::unwrap_used)]

use chrono::{DateTime, Duration, Utc};
use criterion::{Criterion, criterion_group, criterion_main};
use rackful::assistant::{Assistant, Commit, Defaults, Incoming, Said};
use rackful::ledger::{Change, Entry, MessageId};
use rackful::quantity::{Mass, Number};
use rackful::statement::{Froze, Picked, Statement, Taken, Thawed};
use rackful::zone::Zone;
use std::hint::black_box;

const STEP: Duration = Duration::minutes(7);

/// A day in the garden over and over, with a freezer that fills and empties.
fn statement(n: u64) -> Statement {
    let pounds = |pounds: i64| Mass::POUND.times(Number::whole(pounds));
    match n % 8 {
        0 | 3 => Statement::Picked(Picked { mass: pounds(20), ..Picked::default() }),
        1 | 4 | 6 => Statement::Froze(Froze { mass: pounds(7), bags: Some(1), ..Froze::default() }),
        2 => Statement::Ate(Taken { mass: pounds(2), ..Taken::default() }),
        5 => Statement::Thawed(Thawed { bags: Some(1), ..Thawed::default() }),
        _ => Statement::Tossed(Taken { bags: Some(2), ..Taken::default() }),
    }
}

fn season(entries: u64) -> (Assistant, DateTime<Utc>) {
    let mut at: DateTime<Utc> = "2010-05-01T08:00:00Z".parse().unwrap();
    let mut assistant = Assistant::new(Defaults { zone: Some(Zone::UTC), ..Defaults::default() });
    let commit =
        |at, message, changes| Commit { room: "home".into(), at, message, said: None, changes, out: Vec::new() };
    assistant.restore(&commit(at, None, vec![Change::Founded { zone: Zone::UTC }]));
    for n in 0..entries {
        at += STEP;
        let message = MessageId::new(&format!("$old{n}"));
        let entry = Entry {
            message: message.clone(),
            part: 0,
            who: "ana".into(),
            said: at,
            happened: at,
            words: "words".into(),
            statement: statement(n),
        };
        assistant.restore(&commit(at, Some(message), vec![Change::Entered { entries: vec![entry] }]));
    }
    (assistant, at)
}

fn hear(assistant: &mut Assistant, at: DateTime<Utc>, n: &mut u64, text: &str) -> Option<Commit> {
    *n += 1;
    let message = Incoming {
        room: "home".into(),
        who: "ana".into(),
        id: MessageId::new(&format!("$new{n}")),
        at: at.fixed_offset(),
        direct: false,
        thread: None,
        said: Said::Text { text: text.to_owned(), reply_to: None },
    };
    assistant.hear(&message, at)
}

fn fold(c: &mut Criterion) {
    for entries in [1_000, 1_000_000] {
        let (mut assistant, mut at) = season(entries);
        let mut n = 0;
        let mut group = c.benchmark_group(format!("after {entries} entries"));
        for (name, texts) in [
            // Taken back at once, so that the stock, and with it the state, stays as large as a household's.
            ("enter, answer, take back", ["froze 7 lb quartered", "undo"]),
            ("enter late, answer, take back", ["ate 1 lb yesterday", "undo"]),
            ("ask for the load, ask for the log", ["how close to a load?", "show the log"]),
        ] {
            for text in texts {
                assert!(!hear(&mut assistant, at, &mut n, text).unwrap().out.is_empty(), "{text} had no answer");
            }
            group.bench_function(name, |b| {
                b.iter(|| {
                    at += Duration::milliseconds(1);
                    for text in texts {
                        black_box(hear(&mut assistant, at, &mut n, text));
                    }
                });
            });
        }
    }
}

criterion_group! {
    name = benches;
    config = Criterion::default().sample_size(20).measurement_time(std::time::Duration::from_secs(2));
    targets = fold
}
criterion_main!(benches);
