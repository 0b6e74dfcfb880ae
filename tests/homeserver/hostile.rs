//! People and programs that mean no good, or have been handed a keyboard by a cat.

use crate::bot::{Bot, USER};
use crate::person::wait;
use crate::synapse::{Rations, Synapse};
use serde_json::{Value, json};
use std::time::Duration;

/// Every message that is a trap of some kind; none of them is an entry.
fn traps() -> Vec<Value> {
    let text = |body: String| json!({"msgtype": "m.text", "body": body});
    let nested = (0..200).fold(json!({}), |inner, _| json!({"a": inner}));
    let tags = "<a ".repeat(2_000);
    vec![
        text("froze ".repeat(1365)),
        text("(".repeat(8_000)),
        text("a\u{202e}bl 7 ezorf\u{2066}\u{200b}\u{200d}\u{feff}\u{0}\u{7}\u{1b}[2J".into()),
        text("<img src=x onerror=alert(1)><script>froze</script>".into()),
        text("=HYPERLINK(\"http://example.invalid\",\"x\")".into()),
        text("froze 99999999999999999999999999999999999999 lb".into()),
        text("froze 1e400 lb".into()),
        text("froze -7 lb".into()),
        text("picked ½⅓¼¾ ٣٤ ７ lb".into()),
        json!({"msgtype": "m.text", "body": "x", "format": "org.matrix.custom.html", "formatted_body": tags}),
        json!({"msgtype": "m.text", "body": "x", "org.example": nested}),
        json!({"msgtype": "m.text", "body": "x", "m.relates_to": {"rel_type": "m.replace", "event_id": "no id"}}),
        json!({"msgtype": "m.text", "body": "x", "m.relates_to": {"m.in_reply_to": {"event_id": ["$1"]}}}),
        json!({"msgtype": "m.text", "body": "x", "m.relates_to": {"rel_type": "m.thread", "event_id": 7}}),
        json!({"msgtype": "m.text", "body": ["froze 7 lb"]}),
        json!({"body": "froze 7 lb"}),
    ]
}

#[test]
fn hostile_messages_do_no_harm_and_leave_no_trace_in_the_log() {
    let server = Synapse::start(Rations::None);
    let (ana, ben) = (server.register("ana"), server.register("ben"));
    server.register("rackful");
    let mut bot = Bot::new(&server);
    bot.set("RACKFUL_ALLOW", "home.test");
    bot.start();
    let room = ana.room("12", &[USER, &ben.id]);
    ben.join(&room);
    ana.wait_member(&room, USER, "join");
    ana.ask(&room, "froze 7 lb");
    let mut sent = 0;
    for trap in traps() {
        sent += usize::from(ana.try_send(&room, &trap));
    }
    assert!(sent >= 8, "the homeserver itself refuses some, but not most: {sent}");
    ana.react(&room, &ana.say(&room, "x"), &"👎".repeat(60));
    // Taken for a name, it comes back in what is said, and must come back as words.
    let odd = ana.ask(&room, "rackful, recipe <b>hot</b> takes 6 lb makes 4 pints");
    assert!(!odd.html.contains("<b") && odd.html.contains("&lt;/b"), "{}", odd.html);
    let total = ben.ask(&room, "rackful, what's in the freezer?");
    assert!(total.body.contains("7 lb"), "{}", total.body);
    assert!(bot.is_running(), "{}", bot.log());
    for said in ana.said_by(&room, USER) {
        assert!(!said.html.contains("<script") && !said.html.contains("<img"), "{}", said.html);
        assert!(said.body.len() < 4_000, "no answer grows with what it answers: {}", said.body.len());
    }
    assert!(bot.stop().success());
    let log = bot.log();
    for trace in ["HYPERLINK", "onerror", "froze", "\u{1b}[2J", "99999"] {
        assert!(!log.contains(trace), "{trace} in the log:\n{log}");
    }
    // Nor may a spreadsheet take words for a formula.
    let csv = bot.run(&["export", "--csv", "log"]);
    assert!(
        csv.lines().all(|line| line.split(',').all(|cell| !cell.trim_start_matches('"').starts_with('='))),
        "{csv}"
    );
}

#[test]
fn a_flood_from_one_is_taken_in_and_drowns_nobody_else() {
    let server = Synapse::start(Rations::None);
    let (ana, ben) = (server.register("ana"), server.register("ben"));
    server.register("rackful");
    let mut bot = Bot::new(&server);
    bot.set("RACKFUL_ALLOW", "home.test");
    bot.start();
    let room = ana.room("12", &[USER, &ben.id]);
    ben.join(&room);
    ana.wait_member(&room, USER, "join");
    // One after the other, so that each is a sync of its own or of a few.
    let flood: Vec<_> = (0..60)
        .map(|_| {
            std::thread::sleep(Duration::from_millis(120));
            ana.say(&room, "froze 1 lb")
        })
        .collect();
    let answer = ben.ask(&room, "froze 2 lb");
    assert!(answer.body.contains("62 lb"), "everything counts: {}", answer.body);
    wait("the one who floods to be told", || {
        ana.said_by(&room, USER).iter().any(|said| said.body.contains("a lot in a minute"))
    });
    std::thread::sleep(Duration::from_secs(2));
    let said = ana.said_by(&room, USER);
    let answered = said.iter().filter(|said| said.re.as_ref().is_some_and(|re| flood.contains(re))).count();
    assert!(answered <= 40, "{answered} answers to a flood of 60");
    assert_eq!(said.iter().filter(|said| said.body.contains("a lot in a minute")).count(), 1);
    assert!(bot.stop().success());
}
