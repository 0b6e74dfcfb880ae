//! Illness, spoiled jars and questions of safety: they are answered in every wording, and never with anything else.
//!
//! What is printed: signs, time course and help of botulism from Washington State University Extension, Illinois Poison
//! Center and a column of FDA and CDC (2021); how spoiled jars are thrown away from USDA AIB 539 (1994 transcription)
//! and Michigan State University Extension (1997); ways to can that are none from the National Center for Home Food
//! Preservation and University of Illinois Extension.

use crate::support::{Kitchen, topics};
use chrono::Duration;
use rackful::assistant::{Mark, Said};
use rackful::ledger::MessageId;
use rackful::phrase::{Context, Lexicon, read};
use rackful::statement::{Ask, Statement};
use rackful::vocabulary::{Matter, Sign, Subject};
use rackful::zone::Zone;

fn said(text: &str) -> Vec<Statement> {
    let lexicon = Lexicon::default();
    let now = "2026-08-14T14:05:00Z".parse().unwrap();
    read(text, &Context { now, zone: Zone::parse("-05:00").unwrap(), lexicon: &lexicon, last: None }).statements
}

fn shelf() -> Kitchen {
    let mut kitchen = Kitchen::new();
    kitchen.say("altitude 500 ft");
    kitchen.say("put up 7 pints of green beans");
    kitchen.say("put up 9 pints of strawberry jam");
    kitchen
}

fn pantry(kitchen: &Kitchen) -> Vec<(String, u64)> {
    let lots = kitchen.state()["pantry"].as_array().unwrap().clone();
    lots.iter().map(|lot| (lot["product"].as_str().unwrap().to_owned(), lot["jars"].as_u64().unwrap())).collect()
}

const ILL: [&str; 32] = [
    "i ate from a bad jar and have blurry vision",
    "i ate form a bad jar and hav blury vison",
    "we have botulism",
    "i think we have botchulism",
    "I think he's got botulism!!",
    "the kids ate beans from a bulging jar",
    "mom ate some of the salsa and the lid was bulging on the jar",
    "Ben is seeing double",
    "double vision since lunch",
    "her eyelids are drooping and her speech is slurred",
    "droopy eyelids",
    "my lids are drooping",
    "he is slurring",
    "grandpa can't swallow",
    "its hard to swallow and my mouth is dry",
    "having trouble breathing after the beans",
    "trouble swalowing",
    "ate a moldy pint",
    "everyone is throwing up after the canned beans",
    "i think we got food poisoning",
    "been poisoned by the beans i think",
    "we tasted it before we saw the jar was bulging",
    "I tasted the beans and the jar fizzed",
    "Tom ate a quart of sauce that had gone bad",
    "dad is dizzy and weak after eating our canned corn",
    "swallowed some from the leaking jar",
    "the green beans fizzed when we opened them and we had already eaten half",
    "picked 20 lb romas, also we ate from a bulging jar",
    "froze 7 lb. my vision is blurry",
    "what do we do, ana has botulism",
    "calling poison control",
    "vision went blurry after lunch",
];

#[test]
fn illness_is_answered_in_every_wording_and_with_nothing_else() {
    for text in ILL {
        assert_eq!(said(text), [Statement::Ask(Ask::about(Subject::Ill))], "{text}");
        let mut kitchen = shelf();
        let before = kitchen.state();
        let out = kitchen.say(text);
        assert_eq!(topics(&out), ["reply ask"], "{text}");
        assert!(out[0].text.starts_with("Call emergency services now"), "{text}: {}", out[0].text);
        for part in ["blurred vision", "12 to 36 hours", "10 days", "Keep the jar", "1-800-222-1222"] {
            assert!(out[0].text.contains(part), "{part}: {}", out[0].text);
        }
        assert_eq!(kitchen.state()["pantry"], before["pantry"], "{text}");
        assert_eq!(kitchen.state()["freezer"], before["freezer"], "{text}");
    }
}

/// It is no answer to a question that is open, and waits for none.
#[test]
fn illness_wins_over_an_open_question() {
    let mut kitchen = shelf();
    kitchen.say("froze 7");
    let out = kitchen.say("lb. i have double vision");
    assert!(out[0].text.starts_with("Call emergency services now"), "{}", out[0].text);
    kitchen.say("starting thick sauce in pints");
    kitchen.say("filled 9 pints");
    let out = kitchen.say_as("ben", "we ate from the bulging jar of beans");
    assert_eq!(topics(&out), ["reply ask"]);
    assert!(out[0].text.starts_with("Call emergency services now"), "{}", out[0].text);
}

#[test]
fn talk_that_sounds_like_it_stays_silent() {
    for text in [
        "blurry photo",
        "the picture of the jars came out blurry",
        "my eyes are tired",
        "sick of tomatoes",
        "i'm sick and tired of washing jars",
        "grandpa talked about botulism",
        "read an article about botulism",
        "always been scared of botulism",
        "nobody ate from the bulging jar",
        "the leaves are drooping",
        "hard to swallow that price",
        "the pantry is bulging with jars",
        "the kitchen smells funny",
        "cloudy day, 3 jars to go",
        "no mold on any of the jars",
        "sprayed the peppers",
        "are the jars out of the dishwasher?",
        "roasting tomatoes in the oven",
        "how does the jar of salsa taste?",
        "the canner is leaking steam around the lid",
        "grandkids are spoiled rotten, took 3 jars",
    ] {
        let told = said(text);
        let of_safety = |said: &Statement| match said {
            Statement::Spoiled(_) => true,
            Statement::Ask(ask) => matches!(ask.about, Subject::Ill | Subject::Safety),
            _ => false,
        };
        assert!(!told.iter().any(of_safety), "{text}: {told:?}");
    }
}

#[test]
fn a_spoiled_jar_leaves_the_shelf_and_the_others_of_its_day_are_named() {
    for (text, sign, beans) in [
        ("one lid is bulging on a pint of green beans", Sign::Bulging, 6),
        ("the lid is bulging on a jar of beans", Sign::Bulging, 6),
        ("bulgng lid on a pint of green beans", Sign::Bulging, 6),
        ("opened a pint of green beans, it fizzed", Sign::Fizzing, 6),
        ("2 pints of green beans came unsealed on the shelf", Sign::Unsealed, 5),
        ("a pint of green beans went moldy", Sign::Mold, 6),
        ("three pints of green beans are leaking", Sign::Leaking, 4),
        ("a green beans jar spurted when i opened it", Sign::Fizzing, 6),
        ("one pint of beans smells off", Sign::Smell, 6),
        ("the liquid is cloudy in a pint of green beans", Sign::Cloudy, 6),
        ("a jar of green beans went bad", Sign::Spoiled, 6),
        ("nobody tasted it, but a pint of green beans was bulging", Sign::Bulging, 6),
    ] {
        let told = said(text);
        assert!(
            matches!(&*told, [Statement::Spoiled(told)] if told.signs.iter().flatten().any(|s| *s == sign)),
            "{text}: {told:?}"
        );
        let mut kitchen = shelf();
        let out = kitchen.say(text);
        assert_eq!(topics(&out), ["reply spoiled"], "{text}");
        let answer = &out[0].text;
        assert!(answer.starts_with("Do not taste it"), "{text}: {answer}");
        assert!(answer.contains(&format!("{beans} pints of snap beans of")), "{text}: {answer}");
        // USDA AIB 539 (1994 transcription); Michigan State University Extension (1997): 30 minutes under an inch.
        let how = if sign == Sign::Bulging { "heavy bag" } else { "30 minutes" };
        assert!(answer.contains(how), "{text}: {answer}");
        assert_eq!(pantry(&kitchen).iter().map(|lot| lot.1).collect::<Vec<_>>(), [beans, 9], "{text}");
        assert_eq!(kitchen.state()["totals"]["eaten_g"], 0.0, "{text}");
    }
}

#[test]
fn a_spoiled_jar_that_is_not_known_changes_no_count_and_is_answered() {
    let mut kitchen = shelf();
    for text in [
        "the jars are bulging",
        "a jar of peaches fizzed",
        "is it safe if the lid is bulging?",
        "smells off, taste it?",
    ] {
        let out = kitchen.say(text);
        assert_eq!(out.len(), 1, "{text}");
        assert!(out[0].text.contains("taste"), "{text}: {}", out[0].text);
        assert_eq!(pantry(&kitchen).iter().map(|lot| lot.1).sum::<u64>(), 16, "{text}");
    }
}

#[test]
fn after_a_spoiled_jar_fewer_words_tell_of_illness() {
    let mut kitchen = shelf();
    assert_ne!(topics(&kitchen.say("ben is sick")), ["reply ask"]);
    kitchen.say("one lid is bulging on a pint of green beans");
    let out = kitchen.say_as("ben", "we ate some of it");
    assert!(out[0].text.starts_with("Call emergency services now"), "{}", out[0].text);
    assert_eq!(topics(&kitchen.say("ate 2 lb of tomatoes")), ["reply ate"]);
    kitchen.wait(Duration::days(4));
    let out = kitchen.say("ben is sick");
    assert!(out[0].text.starts_with("Call emergency services now"), "{}", out[0].text);
}

#[test]
fn jars_thrown_away_for_their_signs_are_made_harmless_first() {
    let mut kitchen = shelf();
    let out = kitchen.say("threw out a pint of green beans, lid bulged");
    assert_eq!(topics(&out), ["reply tossed"]);
    assert!(out[0].text.contains("30 minutes"), "{}", out[0].text);
    let out = kitchen.say("tossed a pint of green beans");
    assert!(!out[0].text.contains("30 minutes"), "{}", out[0].text);
}

#[test]
fn questions_of_safety_have_the_published_answer_and_no_time() {
    use Matter::*;
    for (text, matter, source) in [
        ("can i reuse lids?", ReuseLids, "Nebraska"),
        ("are used lids ok?", ReuseLids, "Nebraska"),
        ("can we reuse the rings?", ReuseBands, "Penn State"),
        ("can i can peaches in the oven?", Oven, "National Center"),
        ("oven canning peaches, how long?", Oven, "National Center"),
        ("can i process jars in the dishwasher?", Dishwasher, "National Center"),
        ("is microwave canning safe?", Microwave, "National Center"),
        ("is open kettle canning ok?", OpenKettle, "National Center"),
        ("can i flip the jars to seal them?", Inversion, "Illinois"),
        ("can i seal jelly with paraffin?", Paraffin, "Illinois"),
        ("can i can in my multi cooker?", MultiCooker, "National Center"),
        ("can i taste it to check?", Tasting, "Michigan State"),
        ("smells off, taste it?", Tasting, "Michigan State"),
        ("is a 5-year-old jar of sauce safe?", OldJars, "guide"),
        ("can I can green beans in a boiling water canner?", LowAcidBoiling, "Health Canada"),
        ("can we water bath corn?", LowAcidBoiling, "Health Canada"),
        ("is it ok to thaw on the counter?", ThawCounter, "National Center"),
        ("can i refreeze thawed tomatoes?", Refreeze, "FoodSafety.gov"),
        ("could this be botulism?", Botulism, "Washington State"),
    ] {
        let mut ask = Ask::about(Subject::Safety);
        ask.what = Some(matter.as_str().to_owned());
        assert_eq!(said(text), [Statement::Ask(ask)], "{text}");
        let out = shelf().say(text);
        assert_eq!(topics(&out), ["reply ask"], "{text}");
        assert!(out[0].text.contains(source), "{text}: {}", out[0].text);
        assert!(out[0].facts.get("minutes").is_none(), "{text}");
    }
}

fn pounds(kitchen: &Kitchen, field: &str) -> f64 {
    (kitchen.state()[field].as_f64().unwrap() / 453.59237).round()
}

fn thawing() -> Kitchen {
    let mut kitchen = Kitchen::new();
    kitchen.say("froze 7 bags at 7 lb");
    kitchen.say("thawing 4 bags");
    kitchen
}

/// Refreezing: FoodSafety.gov and FSIS (2011), ice crystals or 40 °F; cooking at once: University of
/// Missouri Extension.
#[test]
fn thawed_fruit_is_used_thrown_away_put_back_and_counted_and_picked_stays() {
    for (text, topic, left) in [
        ("tossed 14 lb of thawed tomatoes", "reply tossed", 14.0),
        ("threw out 14 lb of the thawed stuff", "reply tossed", 14.0),
        ("tossed the thawed tomatoes", "reply tossed", 0.0),
        ("used 14 lb of the thawing tomatoes for soup", "reply ate", 14.0),
        ("put 2 bags back in the freezer", "reply froze", 14.0),
        ("refroze 14 lb", "reply froze", 14.0),
        ("thawing count: 0 lb", "reply counted", 0.0),
        ("thawing count: 21 lb", "reply counted", 21.0),
    ] {
        let mut kitchen = thawing();
        let picked = kitchen.state()["totals"]["picked_g"].clone();
        assert_eq!(topics(&kitchen.say(text)).last().map(String::as_str), Some(topic), "{text}");
        assert_eq!(pounds(&kitchen, "thawing_g"), left, "{text}");
        assert_eq!(kitchen.state()["totals"]["picked_g"], picked, "{text}");
    }
    let mut kitchen = thawing();
    assert_eq!(topics(&kitchen.say("refroze 50 lb")), ["problem not-enough"]);
    kitchen.wait(Duration::days(3));
    let out = kitchen.say("what's thawing?");
    assert!(out[0].text.contains("28 lb") && out[0].text.contains("3 days ago"), "{}", out[0].text);
    let out = kitchen.say("put it back in the freezer");
    assert!(out.iter().any(|out| out.text.contains("ice crystals or is at 40 °F or below")));
}

#[test]
fn fruit_on_the_counter_to_thaw_hears_the_rule() {
    for text in ["thawing 2 bags on the counter", "thawed overnight on the counter"] {
        let out = thawing().say(text);
        assert!(out[0].text.starts_with("Never thaw on the counter"), "{text}: {}", out[0].text);
    }
}

#[test]
fn a_freezer_that_was_off_asks_once_and_the_stock_follows() {
    let mut kitchen = thawing();
    let out = kitchen.say("the freezer was off for two days");
    assert_eq!(topics(&out), ["reply ask", "reply propose"]);
    assert!(out[0].text.contains("ice crystals") && out[0].text.contains("48 hours"), "{}", out[0].text);
    assert!(out[1].text.starts_with("All tomatoes in the freezer thrown away?"), "{}", out[1].text);
    kitchen.say("yes");
    assert_eq!(kitchen.state()["freezer"], serde_json::json!([]));
    let mut kitchen = thawing();
    kitchen.say("the freezer was off for two days");
    kitchen.say("no");
    assert_ne!(kitchen.state()["freezer"], serde_json::json!([]));
}

/// Kansas State Extension and the National Center's questions: a week in the refrigerator.
#[test]
fn jars_in_the_refrigerator_are_to_be_thrown_away_after_a_week() {
    let in_the_fridge = || {
        let mut kitchen = Kitchen::new();
        for text in ["altitude 500 ft", "starting thick sauce in pints", "filled 9 pints", "acid is in", "steam's up"] {
            kitchen.say(text);
        }
        kitchen.wait(Duration::minutes(60));
        for text in ["heat's off", "jars are out"] {
            kitchen.say(text);
        }
        kitchen.wait(Duration::hours(14));
        kitchen.say("8 of 9 sealed");
        kitchen.say("put 1 in the fridge");
        assert_eq!(kitchen.state()["fridge"][0]["jars"], 1);
        assert!(kitchen.say("tossed it").is_empty(), "not over yet");
        let out = kitchen.wait(Duration::days(8));
        let over = out.into_iter().rfind(|out| out.topic == "fridge-deadline").unwrap();
        assert!(over.text.starts_with("Throw away 1 pint of thick tomato sauce, untasted"), "{}", over.text);
        assert!(kitchen.say("what's next?")[0].text.contains("Throw away"));
        (kitchen, over)
    };
    let (mut kitchen, _) = in_the_fridge();
    assert_eq!(topics(&kitchen.say("tossed it")), ["reply tossed"]);
    assert_eq!(kitchen.state()["fridge"], serde_json::json!([]));
    assert!(kitchen.wait(Duration::days(8)).iter().all(|out| out.topic != "fridge-deadline"));
    let (mut kitchen, over) = in_the_fridge();
    let alert = over.key.split("due ").nth(1).and_then(|name| name.split('|').next()).unwrap().to_owned();
    let mark = Said::Mark { target: MessageId::new("$alert"), mark: Mark::Done, alert: Some(alert) };
    kitchen.hear("ben", mark);
    assert_eq!(kitchen.state()["fridge"], serde_json::json!([]), "{}", over.key);
}

/// North Dakota State University FN175; Michigan State University Extension; Iowa State University Extension.
#[test]
fn a_picking_hears_what_must_not_go_into_jars_once() {
    for (text, caution) in [
        ("picked 20 lb from dead vines", "dead or frost-killed vines"),
        ("frost got the plants, picked 30 lb", "dead or frost-killed vines"),
        ("picked 12 lb, some with late blight", "late blight"),
        ("picked 8 lb, many of them overripe", "firm ripe"),
        ("picked 8 lb, half of them cracked", "sound parts"),
    ] {
        let mut kitchen = Kitchen::new();
        let mut out = kitchen.say(text);
        if topics(&out) == ["reply propose"] {
            out = kitchen.say("yes");
        }
        assert_eq!(topics(&out), ["reply picked"], "{text}");
        assert!(out[0].text.contains(caution), "{text}: {}", out[0].text);
        assert!(!kitchen.say("picked 5 lb of romas")[0].text.contains("can"), "{text}");
    }
}
