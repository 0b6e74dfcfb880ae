//! A bad line, and a homeserver that restarts meanwhile: everything counts once and is answered once.

use crate::bot::{Bot, USER};
use crate::faulty_line::FaultyLine;
use crate::person::{Person, wait_long};
use crate::synapse::{Rations, Synapse};
use crate::trouble::seed;
use std::time::Duration;

/// With waits that double and requests that hang, an answer may take long.
const PATIENCE: Duration = Duration::from_secs(120);

fn answers(ana: &Person, room: &str, event: &str, number: usize) {
    wait_long(&format!("{number} answers to {event}"), PATIENCE, || ana.answers(room, event).len() >= number);
}

#[test]
fn on_a_line_that_delays_rations_cuts_garbles_and_repeats_everything_counts_and_is_answered_once() {
    let seed = seed();
    let mut server = Synapse::start(Rations::None);
    let ana = server.register("ana");
    server.register("rackful");
    let mut line = FaultyLine::start(&server);
    let mut bot = Bot::new(&server);
    bot.set_address(&line.address());
    bot.start();
    let room = ana.room("12", &[USER]);
    ana.wait_member(&room, USER, "join");
    let first = ana.ask(&room, "froze 1 lb").re.unwrap();
    ana.ask(&room, "timer 20 seconds for the roast");

    line.storm(0.35, seed);
    let mut said = Vec::new();
    for round in 0..3 {
        for _ in 0..8 {
            said.push(ana.say(&room, "froze 1 lb"));
            std::thread::sleep(Duration::from_millis(150));
        }
        match round {
            0 => drop(ana.edit(&room, &first, "froze 2 lb")),
            1 => {
                server.down();
                server.up();
            }
            _ => ana.redact(&room, &said[3]),
        }
        // More at once would be answered by a summary.
        said.iter().for_each(|event| answers(&ana, &room, event, 1));
    }
    answers(&ana, &room, &first, 2);
    answers(&ana, &room, &said[3], 2);
    let spoilt = line.storm(0.0, 0);
    eprintln!("{spoilt}");
    assert!(spoilt["spoilt"].as_object().unwrap().values().all(|count| count.as_u64() > Some(0)), "{spoilt}");
    assert!(bot.is_running(), "it bears all of this without a new start");
    let total = ana.ask(&room, "what's in the freezer?");
    assert!(total.body.contains("25 lb"), "{}", total.body);
    // On a quick machine the storm is over before the timer rings.
    let roast =
        || ana.said_by(&room, USER).into_iter().filter(|said| said.re.is_none() && said.body.contains("roast")).count();
    wait_long("the timer", PATIENCE, || roast() > 0);
    std::thread::sleep(Duration::from_secs(3));
    for (event, number) in said.iter().map(|event| (event, if *event == said[3] { 2 } else { 1 })).chain([(&first, 2)])
    {
        assert_eq!(ana.answers(&room, event).len(), number, "answers to {event}");
    }
    assert_eq!(roast(), 1, "the timer rang once");
    assert!(bot.stop().success());
}
