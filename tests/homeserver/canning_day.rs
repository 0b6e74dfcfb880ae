//! A whole canning day in a room, played by a raw client against the program itself, on a clock that runs faster.

use crate::bot::{Bot, USER};
use crate::person::{Message, Person, wait_long};
use crate::synapse::{Rations, Synapse};
use std::time::{Duration, SystemTime, UNIX_EPOCH};

/// Half an hour a second: a day takes under a minute, and what a person does takes the minutes that it takes in a
/// kitchen.
const SPEED: u32 = 1800;

/// The longest wait: twelve hours until the seals are looked at, or the night if it got late.
const PATIENCE: Duration = Duration::from_secs(120);

struct Kitchen {
    ana: Person,
    room: String,
}

impl Kitchen {
    /// Says something, and returns the answer's words.
    fn say(&self, words: &str) -> String {
        self.ana.ask(&self.room, words).body
    }

    /// What was announced so far: what answers nothing.
    fn alerts(&self) -> Vec<Message> {
        self.ana.said_by(&self.room, USER).into_iter().filter(|said| said.re.is_none()).collect()
    }

    /// Waits for the alert that has all of these words.
    fn wait_alert(&self, words: &[&str]) -> Message {
        let mut found = None;
        wait_long(&format!("the alert {words:?}"), PATIENCE, || {
            found = self.alerts().into_iter().find(|alert| words.iter().all(|word| alert.body.contains(word)));
            found.is_some()
        });
        found.unwrap()
    }
}

/// A clock that shows half past three in the morning of an invented September day now, so that the jars are out well
/// before nine in the morning and their seals are due the same evening.
fn rehearsal(bot: &Bot) -> std::path::PathBuf {
    let file = bot.file("rehearsal.toml");
    std::fs::create_dir_all(file.parent().unwrap()).unwrap();
    let now = SystemTime::now().duration_since(UNIX_EPOCH).unwrap().as_secs();
    let now = chrono::DateTime::from_timestamp(i64::try_from(now).unwrap(), 0).unwrap().to_rfc3339();
    let text = format!(
        "timezone = \"America/Chicago\"\n\
         altitude = \"2400 ft\"\n\n\
         [rehearsal]\n\
         speed = {SPEED}\n\
         from = \"{now}\"\n\
         shows = \"2031-09-20T03:30:00-05:00\"\n"
    );
    std::fs::write(&file, text).unwrap();
    file
}

#[test]
fn a_canning_day_goes_from_the_thawed_bags_to_the_shelf() {
    let server = Synapse::start(Rations::None);
    let ana = server.register("ana");
    server.register("rackful");
    let mut bot = Bot::new(&server);
    let settings = rehearsal(&bot);
    bot.set("RACKFUL_CONFIG", settings.to_str().unwrap());
    bot.start();
    let room = ana.room("12", &[USER]);
    ana.wait_member(&room, USER, "join");
    let kitchen = Kitchen { ana, room };

    kitchen.say("canner is steam, holds 7 quarts");
    kitchen.say("bought 8 lids");
    kitchen.say("got a pound of citric acid");
    // 46 lb make seven quarts of thick sauce (USDA AIB 539 (2015), Guide 3, standard tomato sauce).
    kitchen.say("froze 7 bags at 7 lb");
    kitchen.wait_alert(&["load", "49 lb"]);
    kitchen.say("thawing 7 bags");
    let begun = kitchen.say("starting thick sauce in quarts");
    // Quarts in boiling water or steam at 1001 to 3000 ft: 45 minutes (the same guide, the same table).
    assert!(begun.contains("45 min") && begun.contains("Guide 3"), "{begun}");
    let filled = kitchen.say("filled 7 quarts");
    // Half a teaspoon of citric acid a quart (the same guide, acidification).
    assert!(filled.contains("½ tsp") || filled.contains("1/2 tsp"), "{filled}");
    kitchen.say("citric acid is in");

    // The heat goes off too soon: the jars are processed again in full.
    kitchen.say("steam's up");
    let early = kitchen.say("heat's off");
    assert!(early.contains("too soon") || early.contains("full") || early.contains("again"), "{early}");
    assert!(kitchen.alerts().iter().all(|alert| !alert.body.contains("45 min")), "{:?}", kitchen.alerts());

    // The program dies while the clock runs, and the clock is none the worse.
    kitchen.say("steam's up");
    bot.kill();
    bot.start();
    let done = kitchen.wait_alert(&["45 min"]);
    assert_eq!(done.content["m.mentions"]["user_ids"][0], "@ana:home.test", "{done:?}");
    kitchen.say("heat's off");
    kitchen.wait_alert(&["rest"]);
    kitchen.say("jars are out");
    kitchen.wait_alert(&["seal"]);
    let sealed = kitchen.say("6 of 7 sealed");
    assert!(sealed.contains('6'), "{sealed}");
    kitchen.say("put 1 in the fridge");

    let pantry = kitchen.say("what's in the pantry?");
    assert!(pantry.contains("6 quarts"), "{pantry}");
    let lids = kitchen.say("how many lids are left?");
    assert!(lids.contains('1'), "{lids}");
    let freezer = kitchen.say("what's in the freezer?");
    assert!(!freezer.contains("49 lb"), "{freezer}");
    for words in ["45 min", "seal"] {
        let told = kitchen.alerts().into_iter().filter(|alert| alert.body.contains(words)).count();
        assert_eq!(told, 1, "{words}: {:?}", kitchen.alerts());
    }
    assert!(bot.stop().success(), "{}", bot.log());
}
