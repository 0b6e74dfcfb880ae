//! Paper and other programs: label sheets, the calendar as an independent parser reads it, files that go with answers.

use crate::support::Kitchen;
use calcard::common::PartialDateTime;
use calcard::icalendar::{ICalendar, ICalendarComponent, ICalendarComponentType, ICalendarProperty};
use chrono::{DateTime, Datelike, NaiveDate, Timelike, Utc};
use proptest::prelude::*;
use rackful::enclosure::{Calendar, Enclosure, Label, LabelSheet, Moment, Occasion};
use rackful::paper::{PaperError, calendar, card, labels};
use rackful::sheet::{Layout, SheetSize};
use rackful::statement::{Ask, Statement};
use rackful::vocabulary::Subject;
use std::collections::BTreeSet;

fn label(product: &str) -> Label {
    Label {
        product: product.to_owned(),
        jar: "quart".into(),
        on: "Aug 14, 2026".into(),
        batch: Some("batch 3".into()),
        best: "best by Aug 2027".into(),
        acid: Some("citric acid added".into()),
    }
}

fn sheet(words: &str, count: u32, used: u32) -> LabelSheet {
    LabelSheet { layout: Layout::parse(words).unwrap(), used, label: label("Jalapeño ketchup"), count }
}

fn count(bytes: &[u8], what: &str) -> usize {
    bytes.windows(what.len()).filter(|window| *window == what.as_bytes()).count()
}

#[test]
fn a_sheet_of_labels_is_as_many_pages_as_it_takes_true_to_size_with_its_font_in_it() {
    for (words, jars, used, pages, size) in [
        ("3x8 a4", 7, 0, 1, "[0 0 595.27"),
        ("3x8 a4", 24, 0, 1, "[0 0 595.27"),
        ("3x8 a4", 24, 1, 2, "[0 0 595.27"),
        ("3x10 letter", 61, 29, 3, "[0 0 612 792]"),
    ] {
        let pdf = labels(&sheet(words, jars, used)).unwrap();
        assert!(pdf.starts_with(b"%PDF-") && pdf.trim_ascii_end().ends_with(b"%%EOF"));
        assert_eq!(count(&pdf, "/Type /Page\n"), pages, "{words} {jars} {used}");
        assert_eq!(count(&pdf, &format!("/MediaBox {size}")), pages, "{words}");
        assert!(count(&pdf, "/FontFile3") >= 2 && count(&pdf, "/ToUnicode") >= 2, "the font, and its letters");
    }
    assert!(matches!(labels(&sheet("3x8 a4", 0, 0)), Err(PaperError::Count(0))));
}

#[test]
fn the_kitchen_card_is_one_page_with_its_font_in_it() {
    for (sheet, size) in [(SheetSize::A4, "[0 0 595.27"), (SheetSize::Letter, "[0 0 612 792]")] {
        let pdf = card("rackful", sheet).unwrap();
        assert_eq!((count(&pdf, "/Type /Page\n"), count(&pdf, &format!("/MediaBox {size}"))), (1, 1));
        assert!(count(&pdf, "/FontFile3") >= 2 && count(&pdf, "/ToUnicode") >= 2, "the font, and its letters");
    }
}

/// An event as an independent parser reads it, with its alarms.
struct Read {
    event: ICalendarComponent,
    alarms: Vec<ICalendarComponent>,
}

impl Read {
    fn text(&self, property: ICalendarProperty) -> String {
        text(&self.event, property)
    }

    fn time(&self, property: ICalendarProperty) -> PartialDateTime {
        let entry = self.event.property(&property).unwrap();
        entry.values[0].as_partial_date_time().unwrap().clone()
    }
}

fn text(component: &ICalendarComponent, property: ICalendarProperty) -> String {
    let entry = component.property(&property).unwrap();
    assert!(entry.values.len() <= 1, "a comma was not escaped");
    entry.values.first().and_then(|value| value.as_text()).unwrap_or_default().to_owned()
}

fn events(bytes: &[u8]) -> Vec<Read> {
    let calendar = ICalendar::parse(std::str::from_utf8(bytes).unwrap()).unwrap();
    let root = &calendar.components[0];
    assert_eq!(root.component_type, ICalendarComponentType::VCalendar);
    assert!(root.has_property(&ICalendarProperty::Version) && root.has_property(&ICalendarProperty::Prodid));
    let child = |id: &u32| calendar.components[*id as usize].clone();
    let read = |event: ICalendarComponent| Read { alarms: event.component_ids.iter().map(child).collect(), event };
    root.component_ids.iter().map(child).map(read).collect()
}

fn instant(at: DateTime<Utc>) -> PartialDateTime {
    let part = |part: u32| Some(u8::try_from(part).unwrap());
    PartialDateTime {
        hour: part(at.hour()),
        minute: part(at.minute()),
        second: part(at.second()),
        tz_hour: Some(0),
        tz_minute: Some(0),
        ..whole_day(at.date_naive())
    }
}

fn whole_day(day: NaiveDate) -> PartialDateTime {
    let part = |part: u32| Some(u8::try_from(part).unwrap());
    PartialDateTime {
        year: Some(u16::try_from(day.year()).unwrap()),
        month: part(day.month()),
        day: part(day.day()),
        ..PartialDateTime::default()
    }
}

/// Lines end in CRLF and are at most 75 octets (RFC 5545, section 3.1).
fn well_folded(bytes: &[u8]) -> bool {
    let text = std::str::from_utf8(bytes).unwrap();
    let lines: Vec<&str> = text.split_terminator("\r\n").collect();
    lines.iter().all(|line| line.len() <= 75 && !line.contains(['\r', '\n'])) && text.ends_with("END:VCALENDAR\r\n")
}

fn words() -> impl Strategy<Value = String> {
    // An escaped backslash before an n, and letters of several octets across a fold, are where writers fail.
    prop_oneof!["[a-z ]{0,20}", r"[,;:\\n \nN]{0,40}", "[é🍅ß ]{0,60}", r#"[A-Z="+-]{0,90}"#]
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    #[test]
    fn an_independent_parser_reads_what_was_written(
        said in prop::collection::vec((words(), words(), 0i64..4_000_000_000, any::<bool>()), 1..6),
    ) {
        let made: DateTime<Utc> = "2026-08-14T14:05:00Z".parse().unwrap();
        let occasions: Vec<Occasion> = said
            .iter()
            .enumerate()
            .map(|(n, (summary, detail, second, whole))| {
                let at = DateTime::from_timestamp(*second, 0).unwrap();
                let when = if *whole { Moment::Day(at.date_naive()) } else { Moment::At(at) };
                Occasion { subject: format!("é {n}"), summary: summary.clone(), detail: detail.clone(), when }
            })
            .collect();
        let bytes = calendar(&Calendar { made, occasions: occasions.clone() }, "!room:example.org");
        prop_assert!(well_folded(&bytes), "{}", String::from_utf8_lossy(&bytes));
        let read = events(&bytes);
        prop_assert_eq!(read.len(), occasions.len());
        let names: BTreeSet<String> = read.iter().map(|event| event.text(ICalendarProperty::Uid)).collect();
        prop_assert_eq!(names.len(), occasions.len());
        for (event, occasion) in read.iter().zip(&occasions) {
            prop_assert_eq!(event.text(ICalendarProperty::Summary), occasion.summary.clone());
            prop_assert_eq!(event.text(ICalendarProperty::Description), occasion.detail.clone());
            prop_assert_eq!(event.time(ICalendarProperty::Dtstamp), instant(made));
            match occasion.when {
                Moment::At(at) => {
                    prop_assert_eq!(event.time(ICalendarProperty::Dtstart), instant(at));
                    prop_assert_eq!(event.alarms.len(), 1);
                    let alarm = &event.alarms[0];
                    prop_assert_eq!(&alarm.component_type, &ICalendarComponentType::VAlarm);
                    prop_assert!(alarm.has_property(&ICalendarProperty::Action));
                    prop_assert!(alarm.has_property(&ICalendarProperty::Trigger));
                    prop_assert_eq!(text(alarm, ICalendarProperty::Description), occasion.summary.clone());
                }
                Moment::Day(day) => {
                    prop_assert_eq!(event.time(ICalendarProperty::Dtstart), whole_day(day));
                    prop_assert_eq!(event.time(ICalendarProperty::Dtend), whole_day(day.succ_opt().unwrap()));
                    prop_assert!(event.alarms.is_empty());
                }
            }
        }
    }
}

#[test]
fn the_same_occasion_at_another_time_keeps_its_name_and_another_room_has_others() {
    let occasion = |at: &str| Occasion {
        subject: "batch 1 ProcessDone".into(),
        summary: "Process done: sauce".into(),
        detail: "45 minutes are up.".into(),
        when: Moment::At(at.parse().unwrap()),
    };
    let uid = |at: &str, room: &str| {
        let made = "2026-08-14T14:05:00Z".parse().unwrap();
        let bytes = calendar(&Calendar { made, occasions: vec![occasion(at)] }, room);
        events(&bytes)[0].text(ICalendarProperty::Uid)
    };
    assert_eq!(uid("2026-08-14T15:00:00Z", "a"), uid("2026-08-14T15:20:00Z", "a"));
    assert_ne!(uid("2026-08-14T15:00:00Z", "a"), uid("2026-08-14T15:00:00Z", "b"));
}

/// What a room is answered to a question, however it would be worded.
fn ask(kitchen: &Kitchen, ask: Ask) -> (String, Vec<Enclosure>) {
    let ledger = kitchen.assistant.ledger("home").unwrap();
    let scene = rackful::reply::Scene { state: ledger.state(), now: kitchen.now };
    let (reply, files) = rackful::reply::answer_with(scene, ledger, &ask).unwrap();
    (reply.text, files)
}

fn batch_in_the_canner() -> Kitchen {
    let mut kitchen = Kitchen::new();
    for words in
        ["altitude 2400 ft", "canner is steam, holds 7 quarts", "starting thick sauce, 7 quarts", "filled 7 quarts"]
    {
        kitchen.say(words);
    }
    kitchen.say("the citric acid is in");
    kitchen.say("steam's up");
    kitchen
}

#[test]
fn a_batch_has_its_labels_and_its_deadlines_in_the_calendar() {
    let mut kitchen = batch_in_the_canner();
    let (text, files) = ask(&kitchen, Ask::about(Subject::Labels));
    assert_eq!(
        text,
        "7 labels for thick tomato sauce (Aug 14, 2026), 3x10 on letter, labels of 66.7 by 25.4 mm: 1 sheet."
    );
    let [Enclosure::Labels(sheet)] = &files[..] else { panic!("{files:?}") };
    assert_eq!((sheet.count, sheet.label.best.as_str()), (7, "best by Aug 2027"));
    assert_eq!(sheet.label.acid.as_deref(), Some("citric acid added"));

    let subject_of = |kitchen: &Kitchen| {
        let (_, files) = ask(kitchen, Ask::about(Subject::Calendar));
        let [Enclosure::Calendar(calendar)] = &files[..] else { panic!("{files:?}") };
        calendar.occasions.iter().map(|occasion| (occasion.subject.clone(), occasion.when)).collect::<Vec<_>>()
    };
    let before = subject_of(&kitchen);
    assert_eq!(before.len(), 1, "{before:?}");
    kitchen.say("lost the boil");
    kitchen.say("steam's up");
    let after = subject_of(&kitchen);
    assert_eq!(after[0].0, before[0].0, "the same deadline");
    assert_ne!(after[0].1, before[0].1, "at another time");
}

#[test]
fn jars_that_were_put_up_without_a_batch_have_labels_too_and_are_in_the_calendar() {
    let mut kitchen = Kitchen::new();
    kitchen.say("put up 5 pints of ketchup");
    let asked = Ask { batch: Some("tomato-ketchup".into()), ..Ask::about(Subject::Labels) };
    let (_, files) = ask(&kitchen, asked);
    let [Enclosure::Labels(sheet)] = &files[..] else { panic!("{files:?}") };
    assert_eq!((sheet.count, sheet.label.product.as_str(), sheet.label.batch.as_deref()), (5, "Tomato ketchup", None));
    let (_, files) = ask(&kitchen, Ask::about(Subject::Calendar));
    let [Enclosure::Calendar(calendar)] = &files[..] else { panic!("{files:?}") };
    assert!(calendar.occasions[0].summary.starts_with("Use first: 5 pints"), "{}", calendar.occasions[0].summary);
    assert_eq!(calendar.occasions[0].when, Moment::At("2027-07-31T09:00:00-05:00".parse().unwrap()));
    let (text, files) = ask(&kitchen, Ask { batch: Some("plum jam".into()), ..Ask::about(Subject::Labels) });
    assert_eq!((text.as_str(), files.len()), ("I know no batch of plum jam, and no jars of it on the shelf.", 0));
}

#[test]
fn each_step_of_a_planned_day_and_each_question_has_a_name_of_its_own_in_the_calendar() {
    let mut kitchen = Kitchen::new();
    for said in ["altitude 2400 ft", "canner is steam, holds 7 quarts", "froze 7 bags at 7 lb", "picked 5 lb pink"] {
        kitchen.say(said);
    }
    kitchen.say("canning sauce on wednesday by 6 pm");
    let (_, files) = ask(&kitchen, Ask::about(Subject::Calendar));
    let [Enclosure::Calendar(calendar)] = files.as_slice() else { panic!("{files:?}") };
    let summaries: Vec<&str> = calendar.occasions.iter().map(|occasion| occasion.summary.as_str()).collect();
    for summary in [
        "Move the bags to the refrigerator: thick tomato sauce",
        "Drain the thawed fruit: thick tomato sauce",
        "Start cooking: thick tomato sauce",
        "Heat the canner and the jars: thick tomato sauce",
        "Fill the jars: thick tomato sauce",
        "Canning day: thick tomato sauce",
        "5 lb of pink tomatoes, picked Fri Aug 14 should be red by Tue Aug 18",
        "Still there? 5 lb of pink tomatoes, picked Fri Aug 14",
    ] {
        assert!(summaries.contains(&summary), "{summary} in {summaries:?}");
    }
}

#[test]
fn a_grid_that_does_not_fit_is_refused_when_it_is_set() {
    let set = rackful::statement::Set {
        word: Some("12x30 a4".into()),
        ..rackful::statement::Set::of(rackful::vocabulary::SettingKey::Labels)
    };
    let now = crate::support::noon();
    let refusal = rackful::ledger::check_bounds(&Statement::Set(set), now, now).unwrap_err();
    let rackful::ledger::Refusal::Absurd(sentence) = refusal else { panic!("{refusal:?}") };
    assert!(sentence.contains("too small to read"), "{sentence}");
}

#[test]
fn what_is_asked_for_as_a_picture_or_a_table_comes_as_data_and_what_is_empty_as_a_sentence() {
    let mut kitchen = Kitchen::new();
    kitchen.say("froze 7 lb");
    let chart = |what: &str| Ask { what: Some(what.into()), ..Ask::about(Subject::Chart) };
    for (what, dark) in [("freezer", false), ("freezer dark", true), ("season", false), ("season light", false)] {
        let (text, files) = ask(&kitchen, chart(what));
        let [Enclosure::Picture { picture, dark: is_dark }] = &files[..] else { panic!("{files:?}") };
        assert_eq!((text, *is_dark), (picture.alt(), dark), "{what}");
    }
    for what in ["pantry", "day", "moon"] {
        assert!(ask(&kitchen, chart(what)).1.is_empty(), "{what}");
    }
    let table = |what: &str| ask(&kitchen, Ask { what: Some(what.into()), ..Ask::about(Subject::Table) }).1;
    assert!(matches!(&table("freezer")[..], [Enclosure::Table { .. }]));
    assert!(matches!(&table("ledger")[..], [Enclosure::Ledger]));
    assert!(table("moon").is_empty());
}
