//! `chart`, `labels`, `calendar`, and files that go with the console's answers.

use super::Home;

const SAID: &str = "altitude 2400 ft\ncanner is steam, holds 7 quarts\npicked 50 lb romas\nfroze 14 lb in 2 bags\n\
                    starting thick sauce, 7 quarts\nfilled 7 quarts\nsteam's up\n";

fn kept() -> Home {
    let home = Home::new();
    home.run(&["chat"], SAID).well();
    home
}

fn bytes(home: &Home, name: &str) -> Vec<u8> {
    std::fs::read(home.path().join(name)).unwrap()
}

#[test]
fn each_picture_is_written_to_the_file_that_was_named_and_told_in_a_sentence() {
    let home = kept();
    for (what, says) in
        [("season", "50 lb picked"), ("freezer", "14 lb in 2 bags now"), ("day", "7 quarts of thick tomato sauce")]
    {
        let told = home.run(&["chart", what, "--theme", "dark", "--width", "400", "--out", "it.png"], "").well();
        assert!(told.starts_with("it.png: ") && told.contains(says), "{told}");
        assert!(bytes(&home, "it.png").starts_with(b"\x89PNG"));
    }
    home.run(&["chart", "pantry"], "").failed(1, "There is nothing to draw: the pantry is empty.");
    home.run(&["chart", "moon"], "").failed(2, "invalid value 'moon'");
    home.run(&["chart", "season", "--width", "10"], "").failed(2, "invalid value '10'");
    home.run(&["chart", "season", "--year", "1999"], "").failed(1, "nothing was picked, frozen or put up in 1999");
    home.run(&["chart", "day", "--batch", "plum jam"], "").failed(1, "I know no such batch");
    home.run(&["chart", "season", "--out", "no/such/folder.png"], "").failed(1, "cannot write no/such/folder.png");
    home.run(&["chart", "season", "--room", "shed"], "").failed(1, "there is no room 'shed'; there is home");
}

#[test]
fn labels_are_a_sheet_or_a_sentence_that_names_what_does_not_fit() {
    let home = kept();
    let told = home.run(&["labels", "sauce", "--grid", "3x8", "--sheet", "a4", "--out", "labels.pdf"], "").well();
    assert_eq!(told, "labels.pdf: 7 labels, 3x8 on A4, labels of 70 by 37 mm\n");
    assert!(bytes(&home, "labels.pdf").starts_with(b"%PDF-"));
    let told = home.run(&["labels", "--label", "80x40", "--margin", "10x10", "--gap", "4", "--used", "3"], "").well();
    assert!(told.starts_with("labels-thick-tomato-sauce.pdf: 7 labels, 2x6 on A4"), "{told}");
    home.run(&["labels", "--grid", "4x8", "--label", "63.5x38.1"], "")
        .failed(1, "4 labels of 63.5 mm take 254 mm across, and A4 is 210 mm wide.");
    home.run(&["labels", "--sheet", "parchment"], "").failed(1, "I don't know 'parchment' of a sheet of labels");
    home.run(&["labels", "plum jam"], "").failed(1, "I know no batch of plum jam");
    home.run(&["labels", "--count", "9000"], "").failed(1, "a sheet is for 1 to 2000 labels, not 9000");
}

#[test]
fn the_calendar_holds_the_batchs_clock_and_is_none_when_nothing_is_due() {
    let home = kept();
    home.run(&["calendar"], "").well();
    let calendar = String::from_utf8(bytes(&home, "due.ics")).unwrap();
    assert!(calendar.contains("SUMMARY:Process done: sauce\r\n"), "{calendar}");
    let idle = Home::new();
    idle.run(&["chat"], "froze 7 lb\nundo\n").well();
    idle.run(&["calendar"], "").failed(1, "nothing is due");
    Home::new().run(&["--data", "none", "calendar"], "").failed(1, "there is no ledger in none");
}

#[test]
fn the_kitchen_card_is_a_page_before_anything_was_entered_and_on_the_paper_of_the_rooms_units() {
    let home = Home::new();
    let told = home.run(&["card"], "").well();
    assert_eq!(told, "kitchen-card.pdf: 1 page, letter\n");
    assert!(bytes(&home, "kitchen-card.pdf").starts_with(b"%PDF-"));
    assert_eq!(home.run(&["card", "--paper", "a4", "--out", "c.pdf"], "").well(), "c.pdf: 1 page, A4\n");
    home.run(&["chat"], "units metric\n").well();
    assert_eq!(home.run(&["card", "--out", "c.pdf"], "").well(), "c.pdf: 1 page, A4\n");
    home.run(&["card", "--paper", "parchment"], "").failed(2, "invalid value 'parchment'");
    home.run(&["card", "--out", "no/such/card.pdf"], "").failed(1, "cannot write no/such/card.pdf");
}

#[test]
fn the_console_puts_files_into_a_folder_and_says_where() {
    let home = kept();
    let told =
        home.run(&["chat", "--files", "out"], "chart freezer\nlabels for the sauce\ncsv of the freezer\n").well();
    for name in ["labels-thick-tomato-sauce.pdf", "freezer.csv"] {
        assert!(told.contains(&format!("-> out/{name}")), "{told}");
        assert!(!bytes(&home, &format!("out/{name}")).is_empty());
    }
    assert_eq!(std::fs::read_dir(home.path().join("out")).unwrap().count(), 3);
    home.write("taken", "a file where the folder should be");
    let told = home.run(&["chat", "--files", "taken"], "chart freezer\n").well();
    assert!(told.contains("14 lb in 2 bags now") && told.contains("(No file: cannot make taken"), "{told}");
}
