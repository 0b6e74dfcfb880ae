//! From which probability on to act, to propose, and to be silent: chosen on lines by writers that were not learned
//! from.

use crate::compare::same_statements;
use crate::corpus::Line;
use crate::model::Reading;
use rackful::phrase::training;

/// What it costs to be wrong in each way.
struct Costs {
    wrong: f32,
    talk_entered: f32,
    talk_answered: f32,
    silent: f32,
    proposed: f32,
    other_question: f32,
}

fn costs() -> Costs {
    let of = |name: &str, default: f32| std::env::var(name).ok().and_then(|n| n.parse().ok()).unwrap_or(default);
    Costs {
        wrong: of("WRONG", 4.0),
        talk_entered: of("ENTERED", 8.0),
        talk_answered: of("ANSWERED", 3.5),
        silent: of("SILENT", 1.0),
        proposed: of("PROPOSED", 0.3),
        other_question: of("OTHER", 0.8),
    }
}

/// What is known of a line's likeliest reading that says something.
pub struct Case {
    pub line: usize,
    pub talk: bool,
    pub unfinished: bool,
    /// How likely what it says is.
    pub p: f32,
    /// How likely that it says anything.
    pub says: f32,
    pub group: usize,
    pub right: bool,
    /// Whether it enters something that the line does not say.
    pub wrong: bool,
    /// An own deed in the past or the making, with an amount, and no word of doubt.
    pub plain: bool,
}

/// Thresholds by group, behind the groups those of questions back.
pub type Chosen = Vec<Threshold>;

/// From where on to act and to propose.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Threshold {
    /// So likely it must be that the message says something.
    pub says: f32,
    /// And so likely, if it does, that it says this.
    pub this: f32,
    /// From this probability of both on it is proposed.
    pub propose: f32,
}

pub fn cases(lines: &[Line], results: &[(usize, Vec<Reading>)]) -> Vec<Case> {
    let back = training::groups().len();
    results
        .iter()
        .filter(|(n, _)| judged(&lines[*n]))
        .map(|(n, readings)| {
            let line = &lines[*n];
            let said = readings.iter().find(|r| !r.statements.is_empty());
            let kind = |s: &serde_json::Value| s["kind"].as_str().unwrap_or_default().to_owned();
            let asks_back = said.is_some_and(|r| r.statements.iter().all(|s| kind(s) == "clarify"));
            let entry = |k: &str| !matches!(k, "ask" | "clarify");
            let enters: Vec<_> =
                said.map_or(Vec::new(), |r| r.statements.iter().filter(|s| entry(&kind(s))).cloned().collect());
            let wrong = enters.iter().any(|s| {
                !line
                    .wanted
                    .iter()
                    .any(|w| same_statements(std::slice::from_ref(w), std::slice::from_ref(s), line.wants))
            });
            let group = said.map_or(0, |r| if asks_back { back } else { dearest(&r.groups) });
            Case {
                line: *n,
                talk: line.wanted.is_empty(),
                unfinished: line.group == "unfinished",
                p: said.map_or(0.0, |r| r.probability),
                says: 1.0 - readings.iter().filter(|r| r.statements.is_empty()).map(|r| r.probability).sum::<f32>(),
                group,
                right: said.is_some_and(|r| same_statements(&line.wanted, &r.statements, line.wants)),
                wrong,
                plain: said.is_some_and(|r| r.plain),
            }
        })
        .collect()
}

/// Lines of writers and of natural talk; the older corpora are near misses by design.
fn judged(line: &Line) -> bool {
    !line.joined && (line.natural || line.writer.starts_with('w'))
}

/// Of several groups the one that is a deed, if any.
fn dearest(groups: &[usize]) -> usize {
    let ask = training::groups().iter().position(|g| g == "ask").unwrap_or(0);
    groups.iter().copied().find(|g| *g != ask).or(groups.first().copied()).unwrap_or(0)
}

#[derive(Clone, Copy, PartialEq)]
enum Outcome {
    Act,
    Propose,
    Silent,
}

fn outcome(case: &Case, chosen: &Chosen) -> Outcome {
    let chosen = chosen[case.group];
    if case.says >= chosen.says && case.p >= chosen.this * case.says {
        Outcome::Act
    } else if case.p >= chosen.propose || case.plain && case.p >= 0.12 && chosen.propose <= 1.0 {
        Outcome::Propose
    } else {
        Outcome::Silent
    }
}

fn cost(case: &Case, outcome: Outcome, ask: usize, back: usize, costs: &Costs) -> f32 {
    let question = case.group == ask || case.group == back;
    match (outcome, case.talk) {
        (Outcome::Silent, true) => 0.0,
        (Outcome::Silent, false) => costs.silent,
        (Outcome::Act, true) if !question => costs.talk_entered,
        (_, true) => costs.talk_answered,
        (Outcome::Act, false) if case.right => 0.0,
        (Outcome::Propose, false) if case.right => costs.proposed,
        (Outcome::Act, false) if case.wrong => costs.wrong,
        (_, false) => costs.other_question,
    }
}

/// The cheapest thresholds.
pub fn choose(cases: &[Case]) -> Chosen {
    let groups = training::groups();
    let ask = groups.iter().position(|g| g == "ask").unwrap_or(0);
    let back = groups.len();
    let steps: Vec<f32> = [
        0.05, 0.08, 0.12, 0.16, 0.2, 0.25, 0.3, 0.35, 0.4, 0.45, 0.5, 0.55, 0.6, 0.65, 0.7, 0.75, 0.8, 0.85, 0.88, 0.9,
        0.92, 0.94, 0.96, 0.98,
    ]
    .to_vec();
    let this: Vec<f32> =
        [0.4, 0.5, 0.6, 0.7, 0.75, 0.8, 0.85, 0.88, 0.9, 0.92, 0.94, 0.95, 0.96, 0.97, 0.98, 0.99].to_vec();
    let costs = costs();
    (0..=back)
        .map(|group| {
            let own: Vec<&Case> = cases.iter().filter(|case| case.group == group && case.p > 0.0).collect();
            let question = group == ask || group == back;
            let mut best =
                (f32::INFINITY, Threshold { says: 0.9, this: 0.9, propose: if question { 2.0 } else { 0.5 } });
            if own.len() < 20 {
                return best.1;
            }
            for says in &steps {
                for this in &this {
                    let proposes: Vec<f32> = if question { vec![2.0] } else { steps.clone() };
                    for propose in proposes {
                        let one = Threshold { says: *says, this: *this, propose };
                        let mut trial = vec![one; back + 1];
                        trial[group] = one;
                        let sum: f32 =
                            own.iter().map(|case| cost(case, outcome(case, &trial), ask, back, &costs)).sum();
                        if sum < best.0 {
                            best = (sum, one);
                        }
                    }
                }
            }
            best.1
        })
        .collect()
}

pub fn report(cases: &[Case], chosen: &Chosen) {
    let groups = training::groups();
    let ask = groups.iter().position(|g| g == "ask").unwrap_or(0);
    let back = groups.len();
    let share = |n: usize, of: usize| 100.0 * n as f32 / of.max(1) as f32;
    let told: Vec<&Case> = cases.iter().filter(|c| !c.talk && !c.unfinished).collect();
    let count = |f: &dyn Fn(&Case) -> bool| told.iter().filter(|c| f(c)).count();
    let exact = count(&|c| c.right && outcome(c, chosen) != Outcome::Silent);
    let proposed = count(&|c| outcome(c, chosen) == Outcome::Propose);
    let proposed_right = count(&|c| c.right && outcome(c, chosen) == Outcome::Propose);
    let silent = count(&|c| outcome(c, chosen) == Outcome::Silent);
    let wrong = count(&|c| c.wrong && !c.right && outcome(c, chosen) == Outcome::Act);
    println!(
        "told {}: exact {:.1} % (proposals {:.1} %, right of them {:.1} %), wrong {:.2} %, silent {:.1} %",
        told.len(),
        share(exact, told.len()),
        share(proposed, told.len()),
        share(proposed_right, proposed),
        share(wrong, told.len()),
        share(silent, told.len())
    );
    let unfinished: Vec<&Case> = cases.iter().filter(|c| c.unfinished).collect();
    let fitting = unfinished.iter().filter(|c| c.right && outcome(c, chosen) == Outcome::Act).count();
    println!("unfinished {}: fitting {:.1} %", unfinished.len(), share(fitting, unfinished.len()));
    let talk: Vec<&Case> = cases.iter().filter(|c| c.talk).collect();
    let entered =
        talk.iter().filter(|c| outcome(c, chosen) == Outcome::Act && c.group != ask && c.group != back).count();
    let answered = talk.iter().filter(|c| outcome(c, chosen) != Outcome::Silent).count();
    println!(
        "talk {}: entered {:.2} %, answered {:.2} %",
        talk.len(),
        share(entered, talk.len()),
        share(answered, talk.len())
    );
    for (n, Threshold { says, this, propose }) in chosen.iter().enumerate() {
        print!("{} {says} {this} {propose}; ", groups.get(n).map_or("back", |g| g));
    }
    println!();
}

/// The thresholds as they stand in the data file.
pub fn file(chosen: &Chosen) -> String {
    let groups = training::groups();
    let mut out = "group,says,this,propose\n".to_owned();
    for (n, Threshold { says, this, propose }) in chosen.iter().enumerate() {
        out.push_str(&format!("{},{says},{this},{propose}\n", groups.get(n).map_or("clarify", |g| g)));
    }
    out
}

/// Prints every line that came out otherwise than wanted.
pub fn show(lines: &[Line], results: &[(usize, Vec<Reading>)], cases: &[Case], chosen: &Chosen) {
    for case in cases {
        let how = outcome(case, chosen);
        let word = match (how, case.talk) {
            (Outcome::Silent, true) => continue,
            (_, true) if how == Outcome::Act => "TALK",
            (_, true) => "TALKP",
            (Outcome::Silent, false) => "SILENT",
            (Outcome::Act, false) if case.right => continue,
            (Outcome::Propose, false) if case.right => continue,
            (Outcome::Act, false) if case.wrong => "WRONG",
            (Outcome::Act, false) => "OTHER",
            (Outcome::Propose, false) => "PROPOSED",
        };
        let line = &lines[case.line];
        println!("{word} {}: {}", line.writer, line.text);
        println!("   wants {}", serde_json::to_string(&line.wanted).unwrap_or_default());
        if let Some((_, readings)) = results.iter().find(|(n, _)| *n == case.line) {
            for reading in readings.iter().take(3) {
                println!(
                    "   {:.2} {}",
                    reading.probability,
                    serde_json::to_string(&reading.statements).unwrap_or_default()
                );
            }
        }
    }
}
