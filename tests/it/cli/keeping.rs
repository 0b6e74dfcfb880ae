//! `export` and `import`.

use super::Home;

const SAID: &str = "picked 20 lb romas\nfroze 2 bags at 7 lb\naltitude 2400 ft\n";

#[test]
fn a_ledger_moves_house_without_loss() {
    let (old, new) = (Home::new(), Home::new());
    old.run(&["chat"], SAID).well();
    let file = old.run(&["export"], "").well();
    new.write("ledger.jsonl", &file);
    assert!(new.run(&["import", "ledger.jsonl"], "").well().starts_with("Taken in: 3. "));
    assert_eq!(new.run(&["export"], "").well(), file);
    // A second time nothing is new.
    assert!(new.run(&["import", "-"], &file).well().starts_with("Taken in: 0. Here before: 3."));
    assert!(new.run(&["chat"], "freezer?").well().contains("14 lb"));
}

#[test]
fn a_broken_line_is_named_and_nothing_is_imported() {
    let home = Home::new();
    home.run(&["chat"], SAID).well();
    let file = home.run(&["export"], "").well();
    let mut lines: Vec<&str> = file.lines().collect();
    let half = &lines[2][..lines[2].len() / 2];
    lines[2] = half;
    home.run(&["--data", "new", "import", "-"], &lines.join("\n")).failed(1, "line 3: ");
    assert!(!home.run(&["--data", "new", "chat"], "freezer?").well().contains("14 lb"));
}

#[test]
fn tables_are_for_spreadsheets() {
    let home = Home::new();
    home.run(&["chat"], SAID).well();
    let bags = home.run(&["export", "--csv", "freezer"], "").well();
    assert_eq!(bags.lines().next(), Some("room,crop,on,mass_g,mass_lb"));
    assert_eq!(bags.lines().filter(|line| line.ends_with(",3175.147,7")).count(), 2, "{bags}");
    let log = home.run(&["export", "--csv", "log"], "").well();
    assert!(log.lines().any(|line| line.contains(",ana,picked,") && line.ends_with(",picked 20 lb romas")), "{log}");
    home.run(&["export", "--csv", "jam"], "").failed(2, "invalid value 'jam' for '--csv <TABLE>'");
}

#[test]
fn there_must_be_something_to_export() {
    Home::new().run(&["--data", "none", "export"], "").failed(1, "there is no ledger in none");
    Home::new().run(&["import", "none.jsonl"], "").failed(1, "cannot read none.jsonl");
}
