//! An invented household that talks its way through a season: what it says follows from a seed, in the words of the
//! grammar.
//!
//! It keeps a rough count of what it has, so that most of what it says fits; that some does not is part of a season.

use super::words::{self, Said};
use crate::store::sample::Lots;
use chrono::{DateTime, FixedOffset, TimeDelta};
use serde_json::json;

/// One line of a script.
#[derive(Clone, Debug)]
pub(super) struct Line {
    pub(super) at: DateTime<FixedOffset>,
    /// The message's id; none for a look at the state.
    pub(super) id: Option<String>,
    /// The words, if it has any.
    pub(super) words: Option<String>,
    /// When they were said.
    pub(super) sent: DateTime<FixedOffset>,
    /// The kinds of statement that are meant; none for talk, deletions and marks.
    pub(super) meant: Vec<&'static str>,
    /// The line of the script.
    pub(super) json: String,
}

/// A message that can be changed later.
#[derive(Clone, Debug)]
struct Earlier {
    id: String,
    who: &'static str,
    said: Said,
}

/// What the household remembers, and what it has said so far.
pub(super) struct Household {
    lots: Lots,
    now: DateTime<FixedOffset>,
    lines: Vec<Line>,
    earlier: Vec<Earlier>,
    count: usize,
    /// Pounds in the freezer in bags of about seven, and jars on the shelf, by its own rough count.
    bags: u64,
    jars: u64,
    canner: Canner,
    /// Who is at the stove, and what the batch there is called.
    cook: &'static str,
    batch: &'static str,
}

/// What batches are called.
pub(super) const NAMES: [&str; 6] = ["big red", "marinara", "grandma", "thursday", "old smoky", "blue"];

#[derive(Clone, Copy, PartialEq, Eq, Debug)]
enum Canner {
    Steam,
    Boiling,
    Pressure,
}

/// All that is said in a season, in order, with a look at the state each Sunday evening.
pub(super) fn season(seed: u64) -> Vec<Line> {
    let mut lots = Lots(seed.wrapping_mul(0x5851_F42D_4C95_7F2D));
    let canner = [Canner::Steam, Canner::Boiling, Canner::Pressure][lots.below(3) as usize];
    let now = DateTime::parse_from_rfc3339("2026-06-20T08:00:00-05:00").unwrap();
    let mut household = Household {
        lots,
        now,
        lines: Vec::new(),
        earlier: Vec::new(),
        count: 0,
        bags: 0,
        jars: 0,
        canner,
        cook: "ana",
        batch: NAMES[0],
    };
    household.settles_in();
    for day in 1..=household.between(60, 130) {
        // A batch may have taken until the next day.
        let morning = now + TimeDelta::days(day as i64) - TimeDelta::minutes(household.lots.below(90) as i64);
        household.now = household.now.max(morning);
        household.lives_a_day(day);
    }
    household.now += TimeDelta::days(40);
    household.looks();
    household.lines
}

impl Household {
    fn between(&mut self, low: u64, high: u64) -> u64 {
        low + self.lots.below(high - low + 1)
    }

    fn one_in(&mut self, n: u64) -> bool {
        self.lots.below(n) == 0
    }

    fn who(&mut self) -> &'static str {
        ["ana", "ben", "ida"][self.lots.below(3) as usize]
    }

    fn passes(&mut self, low: u64, high: u64) {
        let minutes = self.between(low, high);
        self.now += TimeDelta::minutes(minutes as i64);
    }

    fn push(&mut self, who: &str, said: Said, more: serde_json::Value, late: TimeDelta) -> String {
        self.count += 1;
        let id = format!("${}", self.count);
        let sent = self.now - late;
        let mut json = json!({"at": self.now.to_rfc3339(), "room": "home", "who": who, "id": id});
        let fields = json.as_object_mut().unwrap();
        if !said.words.is_empty() {
            fields.insert("say".into(), json!(said.words));
        }
        if !late.is_zero() {
            fields.insert("sent".into(), json!(sent.to_rfc3339()));
        }
        fields.extend(more.as_object().unwrap().clone());
        let words = Some(said.words).filter(|words| !words.is_empty());
        let line = Line { at: self.now, id: Some(id.clone()), words, sent, meant: said.meant, json: json.to_string() };
        self.lines.push(line);
        id
    }

    /// Somebody says something now.
    fn says(&mut self, said: Said) {
        // One message in twenty comes late: it was said up to two days ago.
        let late = if self.one_in(20) { self.between(20, 2_880) as i64 } else { 0 };
        self.says_late(said, late);
    }

    fn says_late(&mut self, said: Said, late: i64) {
        let who = self.who();
        self.says_as(who, said, late);
    }

    fn says_as(&mut self, who: &'static str, said: Said, late: i64) {
        let id = self.push(who, said.clone(), json!({}), TimeDelta::minutes(late));
        self.earlier.push(Earlier { id, who, said });
    }

    fn say(&mut self, words: String, meant: &[&'static str]) {
        self.says_late(Said { words, meant: meant.to_vec() }, 0);
    }

    /// The cook says something about the batch; when asked which one is meant, the cook says so.
    fn cook_says(&mut self, words: &str, kind: &'static str) {
        self.says_as(self.cook, Said { words: words.into(), meant: vec![kind] }, 0);
        if matches!(kind, "acid_added" | "venting" | "at_heat" | "lost_heat") {
            self.passes(1, 2);
            self.push(self.cook, Said { words: self.batch.into(), meant: Vec::new() }, json!({}), TimeDelta::zero());
        }
    }

    fn looks(&mut self) {
        let json = json!({"at": self.now.to_rfc3339(), "room": "home", "state": true}).to_string();
        self.lines.push(Line { at: self.now, id: None, words: None, sent: self.now, meant: Vec::new(), json });
    }

    fn settles_in(&mut self) {
        let altitude = self.between(0, 40) * 100;
        self.say(format!("altitude {altitude} ft"), &["set"]);
        match self.canner {
            Canner::Steam => self.say("canner is steam, holds 7 quarts".into(), &["set", "set"]),
            Canner::Boiling => self.say("canner is boiling water, holds 9 pints".into(), &["set", "set"]),
            Canner::Pressure => self.say("we have a dial gauge pressure canner".into(), &["set"]),
        }
        let lids = self.between(12, 90);
        self.say(format!("bought {lids} lids"), &["bought"]);
        if !self.one_in(4) {
            self.say("got a pound of citric acid".into(), &["bought"]);
        }
        if self.one_in(3) {
            self.say("recipe fire salsa takes 6 lb makes 4 pints".into(), &["recipe"]);
        }
    }

    fn lives_a_day(&mut self, day: u64) {
        for _ in 0..self.lots.below(4) {
            self.passes(1, 150);
            self.does_something();
        }
        if self.bags >= 6 && self.one_in(3) {
            self.cans();
        }
        if self.one_in(4) && !self.earlier.is_empty() {
            self.passes(1, 60);
            self.has_second_thoughts();
        }
        if day.is_multiple_of(7) {
            self.passes(1, 30);
            self.looks();
        }
    }

    fn does_something(&mut self) {
        let lots = &mut self.lots;
        let said = match lots.below(30) {
            0..=7 => words::picked(lots),
            8..=13 => {
                let bags = 1 + lots.below(3);
                self.bags += bags;
                words::froze(lots, bags)
            }
            14..=16 => words::used(lots),
            17 => {
                let bags = 1 + lots.below(3);
                self.bags = self.bags.saturating_sub(bags);
                words::thawed(lots, bags)
            }
            18 => {
                self.bags = 4 + lots.below(6);
                words::counted(lots, self.bags)
            }
            19 | 20 if self.jars > 3 => {
                self.jars -= 1;
                words::opened(lots)
            }
            21 => {
                self.jars += 5;
                words::put_up(lots)
            }
            22 => words::dried(lots),
            23 => words::bought(lots),
            24 => words::set(lots),
            25 => words::timer(lots),
            26 => words::planned(lots),
            27 | 28 => words::asked(lots),
            _ => words::talk(lots),
        };
        self.says(said);
    }

    /// A batch from the thawing to the last seal, with what goes wrong.
    fn cans(&mut self) {
        let bags = self.bags.min(self.between(5, 8));
        let jars = self.between(5, 7);
        self.cook = self.who();
        self.say(format!("thawing {bags} bags"), &["thawed"]);
        self.bags -= bags;
        self.passes(30, 200);
        let start = match self.canner {
            Canner::Pressure => "starting crushed tomatoes in quarts",
            _ => ["starting thick sauce in quarts", "starting crushed tomatoes in quarts"][self.lots.below(2) as usize],
        };
        self.cook_says(start, "began");
        self.passes(1, 3);
        self.batch = NAMES[self.lots.below(NAMES.len() as u64) as usize];
        self.cook_says(&format!("call this batch {}", self.batch), "named");
        if self.one_in(2) {
            self.passes(10, 60);
            let pounds = self.between(2, 12);
            self.cook_says(&format!("drained {pounds} lb of juice"), "drained");
        }
        self.passes(60, 200);
        self.cook_says(&format!("filled {jars} quarts"), "filled");
        if !self.one_in(4) {
            self.passes(1, 3);
            self.cook_says("citric acid is in", "acid_added");
        }
        self.heats();
        if self.one_in(6) {
            self.passes(3, 20);
            self.cook_says("lost the boil", "lost_heat");
            self.heats();
        }
        if self.one_in(8) {
            self.passes(5, 20);
            self.cook_says("heat's off", "heat_off");
            self.heats();
        }
        self.passes(100, 120);
        self.cook_says("heat's off", "heat_off");
        if self.canner == Canner::Pressure {
            self.passes(20, 40);
            self.cook_says("pressure's down", "pressure_down");
        }
        self.passes(11, 30);
        self.cook_says("jars are out", "lifted");
        self.passes(12 * 60, 15 * 60);
        self.checks_seals(jars);
    }

    fn heats(&mut self) {
        self.passes(5, 20);
        match self.canner {
            Canner::Steam => self.cook_says("steam's up", "at_heat"),
            Canner::Boiling => self.cook_says("rolling boil", "at_heat"),
            Canner::Pressure => {
                self.cook_says("steam's coming out of the vent", "venting");
                self.passes(10, 12);
                self.cook_says("at 14 pounds", "at_heat");
            }
        }
    }

    fn checks_seals(&mut self, jars: u64) {
        let failed = if self.one_in(2) { 0 } else { self.between(1, 2) };
        self.jars += jars - failed;
        if failed == 0 {
            return self.cook_says("all sealed", "sealed");
        }
        self.cook_says(&format!("{} of {jars} sealed", jars - failed), "sealed");
        for _ in 0..failed {
            self.passes(1, 200);
            let (words, kind) = [
                ("put 1 in the fridge", "refrigerated"),
                ("froze the one that didn't seal", "froze"),
                ("ate the one that didn't seal", "ate"),
                ("tossed the one that didn't seal", "tossed"),
                ("a jar broke", "broke"),
            ][self.lots.below(5) as usize];
            self.cook_says(words, kind);
        }
    }

    /// Edits, deletions, marks, undos and corrections of something said before, not always of the last.
    fn has_second_thoughts(&mut self) {
        let back = self.between(1, 12).min(self.earlier.len() as u64) as usize;
        let Earlier { id, who, said } = self.earlier[self.earlier.len() - back].clone();
        let none = Said { words: String::new(), meant: Vec::new() };
        match self.lots.below(7) {
            0 | 1 => {
                let said = words::other_amount(&said, &mut self.lots);
                self.push(who, said, json!({"edit": id}), TimeDelta::zero());
            }
            2 => {
                self.push(who, none, json!({"redact": id}), TimeDelta::zero());
            }
            3 => {
                let marked = self.push(who, none.clone(), json!({"mark": "undo", "on": id}), TimeDelta::zero());
                if self.one_in(2) {
                    self.passes(1, 30);
                    self.push(who, none, json!({"redact": marked}), TimeDelta::zero());
                }
            }
            4 => {
                let reply = if self.one_in(2) { json!({"reply_to": id}) } else { json!({}) };
                self.push(who, Said { words: "undo".into(), meant: vec!["undo"] }, reply, TimeDelta::zero());
            }
            5 => {
                let pounds = self.between(1, 9);
                let said = Said { words: format!("make that {pounds}.5 lb"), meant: vec!["correct"] };
                self.push(who, said, json!({"reply_to": id}), TimeDelta::zero());
            }
            _ => {
                let edit = words::other_amount(&said, &mut self.lots);
                let edit = self.push(who, edit, json!({"edit": id}), TimeDelta::zero());
                self.passes(1, 30);
                self.push(who, none, json!({"redact": edit}), TimeDelta::zero());
            }
        }
    }
}
