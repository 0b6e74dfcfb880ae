//! What must never get a time, a pressure, a dose of acid or a place on the shelf: a tested product with something in
//! it, in a jar, or made in a way that was not tested. And what must not stop it: words that say how big, how good or
//! whose something is.
//!
//! The additions are those that the National Center for Home Food Preservation and the USDA Complete Guide to Home
//! Canning (AIB 539, 2015) warn of: meat, fat, dairy, starch and other thickeners, more low-acid vegetables than
//! tested, food that lies more densely, and oven, open-kettle, dishwasher, microwave, inversion and wax methods; and
//! jars larger than tested.

use crate::support::{Kitchen, topics};
use rackful::assistant::Outgoing;
use rackful::phrase::{Context, Lexicon, read};
use rackful::processes::{ProductInfo, Resolved, products, resolve};
use rackful::statement::{Began, Statement};
use rackful::vocabulary::{CannerKind, Jar, Kind, Pack, Product, Subject};
use rackful::zone::Zone;

/// What changes the food, the jar or the method, and a sentence behind the first that says so.
const ADDITIONS: [(&str, &str); 64] = [
    ("chicken", "There is chicken in it"),
    ("bacon", "It has bacon in it"),
    ("galangal", "There is galangal in it"),
    ("sausage", "There's sausage in there"),
    ("venison", "We added venison"),
    ("shrimp", "Shrimp went in too"),
    ("cream", "There is cream in it"),
    ("milk", "I stirred in milk"),
    ("butter", "It's got butter in it"),
    ("cheese", "There is cheese in it"),
    ("olive oil", "There is olive oil in it"),
    ("oil", "I put a cup of oil in"),
    ("squid", "I put squid in it"),
    ("flour", "It is thickened with flour"),
    ("cornstarch", "I used cornstarch to thicken it"),
    ("raisins", "We added raisins"),
    ("pasta", "There is pasta in it"),
    ("tahini", "It has tahini in it"),
    ("rice", "I put rice in the jars"),
    ("gochujang", "I stirred gochujang into it"),
    ("black beans", "There are black beans in it"),
    ("lentils", "It has lentils in it"),
    ("mushrooms", "We added mushrooms"),
    ("garlic", "There are whole heads of garlic in it"),
    ("onions", "I put onions in"),
    ("extra onions", "I put in extra onions"),
    ("more bell peppers", "There are more bell peppers in it than the recipe says"),
    ("celery", "There is celery in it"),
    ("zucchini", "There is zucchini in it"),
    ("eggplant", "It has eggplant in it"),
    ("squash", "It has squash in it"),
    ("cabbage", "There's cabbage in it"),
    ("potatoes", "I put potatoes in it"),
    ("bananas", "There are bananas in it"),
    ("coconut milk", "It has coconut milk in it"),
    ("nuts", "There are nuts in it"),
    ("eggs", "There are eggs in it"),
    ("pesto", "I put pesto in every jar"),
    ("bread", "There is bread in it"),
    ("kohlrabi", "There is kohlrabi in it"),
    ("paneer", "There is paneer in it"),
    ("pureed", "It is pureed"),
    ("mashed", "It's all mashed"),
    ("blended smooth", "I blended it smooth"),
    ("stuffed", "They are stuffed"),
    ("refried", "They are refried"),
    ("thickened", "I thickened it"),
    ("soy curls", "There are soy curls in there"),
    ("half the vinegar", "I used half the vinegar"),
    ("no lemon juice", "I left out the lemon juice"),
    ("quadrupled", "I quadrupled the recipe"),
    ("in the oven", "They go in the oven"),
    ("open kettle", "I do it open kettle"),
    ("in the dishwasher", "The jars go in the dishwasher"),
    ("microwave", "I do them in the microwave"),
    ("in the multi-cooker", "They go in the multi-cooker"),
    ("multicooker", "I use the multicooker"),
    ("turned upside down", "Then I turn the jars upside down"),
    ("inversion", "I seal by inversion"),
    ("paraffin", "I seal it with paraffin"),
    ("wax seal", "Under a wax seal"),
    ("half-gallon jars", "The jars are half-gallon jars"),
    ("3-litre jars", "It goes in 3-litre jars"),
    ("used mayonnaise jars", "They go in used mayonnaise jars"),
];

/// Ways to join an addition to what it is added to; `{s}` is its sentence.
const JOINED: [&str; 8] = [" with {x}", " & {x}", " + {x}", "/{x}", ", {x}", " ({x})", " w/ {x}", ". {s}"];

/// What a message may be for; the addition stands in place of `{+}`, the product in that of `{p}`.
const FRAMES: [&str; 7] = [
    "starting {p}{+} in pints",
    "starting {p} in pints{+}",
    "process for {p}{+} in pints?",
    "how long do I process pints of {p}{+}?",
    "put up 7 pints of {p}{+}",
    "filled 7 pints of {p}{+}",
    "how much lemon juice for {p}{+}?",
];

/// What leaves a tested product what it is, before its name and behind it.
const BEFORE: [&str; 22] = [
    "big",
    "small",
    "ripe",
    "fresh",
    "homegrown",
    "delicious",
    "organic",
    "my first",
    "another",
    "our",
    "nice",
    "lovely",
    "local",
    "homemade",
    "good",
    "new",
    "some",
    "more of the",
    "a batch of",
    "a second batch of",
    "the best",
    "garden",
];
/// Whose it is: of fruit it changes nothing, of a sauce it names a recipe of their own, which is not the tested one.
const OWNERS: [&str; 2] = ["grandma's", "mom's"];
const BEHIND: [&str; 10] = [
    "from the garden",
    "this morning",
    "tonight",
    "today",
    "now",
    "with the kids",
    "for the winter",
    "again",
    "with grandma",
    "finally",
];

/// Fruit that goes into jars under its own name.
const FRUIT: [(&str, &str); 12] = [
    ("peach", "peaches"),
    ("pear", "pears"),
    ("plum", "plums"),
    ("apricot", "apricots"),
    ("nectarine", "nectarines"),
    ("fig", "figs"),
    ("pea", "peas"),
    ("carrot", "carrots"),
    ("beet", "beets"),
    ("okra", "okra"),
    ("asparagus", "asparagus"),
    ("pepper", "peppers"),
];

/// As people wrote them; none may count.
const REAL: [&str; 26] = [
    "starting sauce with chicken in pints",
    "starting thick sauce with chicken in pints",
    "process for blended squash in pints?",
    "starting blended squash in pints",
    "starting crushed tomatoes, oven, in quarts",
    "process for crushed tomatoes in the oven?",
    "process for pumpkin fruit puree in boiling water?",
    "starting pumpkin fruit puree in pints",
    "process for white peaches in pints?",
    "starting white peaches in quarts",
    "starting thick sauce in 2-quart jars",
    "starting crushed tomatoes in 3-litre jars",
    "starting a batch in pints with chicken",
    "starting a batch in quarts, bacon in it",
    "starting thick sauce in quarts, open kettle",
    "starting overripe crushed tomatoes in pints",
    "starting crushed tomatoes from frost-killed vines in pints",
    "starting thin sauce in pints, then the jars go upside down",
    "starting mashed sweet potatoes in pints",
    "starting refried snap beans in pints",
    "starting thick sauce in gallon jars",
    "starting whole tomatoes in water, one big 5 litre jar",
    "starting thick sauce in pints, no acid",
    "starting thick sauce in quarts without lemon juice",
    "starting peaches in pints, sealed under wax",
    "starting thick sauce in pints, Sunday gravy style with meatballs",
];

/// As people wrote them; none may be held back. Behind each what must come of it.
const HARMLESS: [(&str, &str); 28] = [
    ("starting a batch, thick sauce, 6 half litres", "began"),
    ("Starting a batch in pints", "asks"),
    ("starting a batch in quarts", "asks"),
    ("Beginning a batch of thick sauce, 7 quarts, from 46 lb.", "began"),
    ("starting a batch of salsa nine pints", "began"),
    ("starting ketchup now in 250 ml jars, apron on", "began"),
    ("starting a batch of thick sauce, 8 one-litre jars, 14 kilos going in the kaldero", "began"),
    ("filled 8 one-litre jars no spill, captain would be proud", "filled"),
    ("altitude here is 20 m lang", "set"),
    ("altitude's 650 ft up here", "set"),
    ("canner is steam holds 7 qts", "set"),
    ("Filled 7 quarts, headspace measured.", "filled"),
    ("Filled 7 quarts. Wiped every rim with VINEGAR like you are supposed to.", "filled"),
    ("What pressure and time for quarts of crushed tomatoes at our altitude, dial gauge?", "ask"),
    ("How much citric acid goes in a quart?", "ask"),
    ("how much lemon juice does a quart take?", "ask"),
    ("process for asparagus in pints in the weighted gauge canner?", "ask"),
    ("process for crushed tomatoes in quarts in a dial gauge canner?", "ask"),
    ("Starting tomato juice in quarts, 21 lb of tomatoes in the kettle", "began"),
    ("Starting crushed tomatoes in 1 l jars, 9,5 kg in the casserole.", "began"),
    ("Beginning thin sauce in pints, 28 lb in the kettle", "began"),
    ("Starting crushed tomatoes in quarts with 3rd period", "began"),
    ("Put up 14 pints of chow-chow today, Grandmother's receipt", "put-up"),
    ("Canned 12 half-pints of ketchup on Wednesday. STORE ketchup is sugar water.", "put-up"),
    ("starting thick sauce in quarts", "began"),
    ("starting crushed tomatoes in pints, wish us luck", "began"),
    ("starting peaches in quarts with Grandma and the kids", "began"),
    ("put up 7 quarts of thick sauce tonight, all sealed", "put-up"),
];

/// A reader without a household.
#[derive(Default)]
pub(crate) struct Reader(Lexicon);

impl Reader {
    pub(crate) fn statements(&self, text: &str) -> Vec<Statement> {
        let now = "2026-08-14T12:00:00-05:00".parse().unwrap();
        let context = Context { now, zone: Zone::parse("-05:00").unwrap(), lexicon: &self.0, last: None };
        read(text, &context).statements
    }
}

fn is_tested(product: Option<&Product>) -> bool {
    product.is_none_or(|product| resolve(product) != Resolved::Unknown)
}

/// Whether a time, a dose or a place on the shelf may come of a statement, at once or when what it lacks is told.
pub(crate) fn counts(statement: &Statement) -> bool {
    match statement {
        Statement::Began(Began { product, .. }) => is_tested(product.as_ref()),
        Statement::Filled(said) => is_tested(said.product.as_ref()),
        Statement::PutUp(said) => is_tested(said.product.as_ref()),
        Statement::Ask(ask) => matches!(ask.about, Subject::Process | Subject::Acid) && is_tested(ask.product.as_ref()),
        Statement::Clarify(asked) => {
            let partial = asked.partial.as_deref().is_none_or(|partial| {
                !matches!(partial, Statement::Began(_) | Statement::Filled(_) | Statement::PutUp(_) | Statement::Ask(_))
                    || counts(partial)
            });
            asked.word.is_none()
                && matches!(asked.about, Kind::Began | Kind::Filled | Kind::PutUp | Kind::Ask)
                && partial
        }
        Statement::Propose(proposed) => proposed.statements.iter().any(counts),
        _ => false,
    }
}

/// The stem by which a word of an addition is looked for in a product's name.
fn stem(word: &str) -> &str {
    let end = word.len() - usize::from(word.len() > 3 && word.ends_with('s'));
    word.get(..end.min(5)).unwrap_or(word)
}

/// Whether the name of a product has a word of the addition in it: `cream`, `beans`, `butter`.
fn has_in_name(info: &ProductInfo, addition: &str) -> bool {
    const SMALL: [&str; 12] =
        ["in", "the", "no", "more", "extra", "half", "jars", "double", "used", "wax", "juice", "turned"];
    let crop = info.crop.map(|crop| crop.as_str().to_owned()).unwrap_or_default();
    let name = format!("{} {} {} {crop}", info.spoken, info.name, info.id).to_lowercase();
    let words = || name.split(|c: char| !c.is_alphanumeric());
    addition
        .split([' ', '-'])
        .filter(|word| !SMALL.contains(word))
        .any(|word| words().any(|known| known.starts_with(stem(word))))
}

/// Every message of the first test.
fn dangerous() -> Vec<String> {
    let mut all = Vec::with_capacity(50_000);
    for (p, info) in products().iter().enumerate() {
        for (a, (addition, sentence)) in ADDITIONS.iter().enumerate() {
            if has_in_name(info, addition) {
                continue;
            }
            for (j, joined) in JOINED.iter().enumerate() {
                let joined = joined.replace("{x}", addition).replace("{s}", sentence);
                let mut take = |frame: &str| {
                    all.push(
                        frame
                            .replace("{p}", info.spoken)
                            .replace("{+}", &joined)
                            .replace("? .", ".")
                            .replace(".?", "."),
                    )
                };
                let n = p + a + j;
                take(FRAMES[n % 2]);
                if n % 4 == 0 {
                    take(FRAMES[2 + (p * 3 + a + j / 3) % 5]);
                }
            }
        }
    }
    all.extend(REAL.map(str::to_owned));
    all
}

/// Those that a test finds at fault, on two threads.
fn faults(all: &[String], is_fault: impl Fn(&Reader, &str) -> bool + Sync) -> Vec<String> {
    std::thread::scope(|scope| {
        let halves = all.chunks(all.len().div_ceil(2).max(1));
        let threads: Vec<_> = halves
            .map(|half| {
                let is_fault = &is_fault;
                scope.spawn(move || {
                    let reader = Reader(Lexicon::default());
                    half.iter().filter(|text| is_fault(&reader, text)).cloned().collect::<Vec<_>>()
                })
            })
            .collect();
        threads.into_iter().flat_map(|thread| thread.join().unwrap()).collect()
    })
}

fn report(what: &str, all: usize, faults: &[String]) {
    let path = std::env::var("DANGER_OUT").map(|out| format!("{out}-{what}.txt"));
    println!("{what}: {} of {all}", faults.len());
    match path {
        Ok(path) => std::fs::write(path, faults.join("\n")).unwrap(),
        Err(_) => faults.iter().step_by(faults.len() / 60 + 1).for_each(|text| println!("  {text}")),
    }
}

pub(crate) fn let_through() -> Vec<String> {
    let all = dangerous();
    let faults = faults(&all, |reader, text| reader.statements(text).iter().any(counts));
    report("let-through", all.len(), &faults);
    faults
}

#[test]
fn what_was_not_tested_never_counts() {
    assert_eq!(let_through(), Vec::<String>::new());
}

/// Whether a reply carries what only a tested process may.
fn gives(out: &[Outgoing]) -> bool {
    let given = ["minutes", "psi", "acid", "acid_ml", "acid_g", "acid_total_ml", "acid_total_g"];
    out.iter().any(|out| given.iter().any(|key| out.facts.get(*key).is_some_and(|fact| !fact.is_null())))
}

fn kitchen() -> Kitchen {
    let mut kitchen = Kitchen::new();
    for words in ["altitude 1000 ft", "canner is boiling water", "canner is weighted gauge"] {
        kitchen.say(words);
    }
    kitchen
}

pub(crate) fn answered() -> Vec<String> {
    let all: Vec<String> = dangerous().into_iter().step_by(40).collect();
    let mut faults = Vec::new();
    let mut kitchen = kitchen();
    for text in &all {
        let mut out = kitchen.say(text);
        // What is offered must give none either when it is taken.
        if !gives(&out) && out.iter().any(|out| out.text.contains("or 'yes'")) {
            out = kitchen.say("yes");
        }
        let state = kitchen.state();
        let shelf = state["pantry"].as_array().is_some_and(|pantry| {
            pantry
                .iter()
                .any(|jars| jars["product"].as_str().is_some_and(|name| is_tested(Some(&Product::named(name)))))
        });
        if gives(&out) || shelf {
            faults.push(format!("{text} => {:?} {}", topics(&out), out.first().map_or("", |out| &out.text)));
        }
        if shelf || !state["batch"].is_null() || kitchen.commits.len() > 200 {
            kitchen = self::kitchen();
        }
    }
    report("answered", all.len(), &faults);
    faults
}

#[test]
fn what_was_not_tested_is_never_answered_with_a_time() {
    assert_eq!(answered(), Vec::<String>::new());
}

/// How a product is asked about so that its table gives a time.
fn asked(info: &ProductInfo) -> Option<(String, Product)> {
    let jar = *info.jars().first()?;
    let canner = match info.canners().first()? {
        CannerKind::BoilingWater => "in the boiling water canner",
        _ => "in the weighted gauge canner",
    };
    let pack = match info.packs().as_slice() {
        [_, _, ..] if !info.spoken.contains("pack") => {
            if info.packs().contains(&Pack::Hot) {
                " hot pack"
            } else {
                " raw pack"
            }
        }
        _ => "",
    };
    let jar = match jar {
        Jar::Quart => "quarts",
        Jar::HalfPint => "half-pints",
        Jar::PintAndHalf => "pint and a half jars",
        Jar::HalfGallon => "half-gallons",
        _ => "pints",
    };
    Some((format!("{{p}}{pack} in {jar} {canner}"), info.product()))
}

/// What of a statement a time depends on.
fn process_of(statements: &[Statement]) -> Vec<String> {
    // What is put to the household first is the same once it says yes.
    if let [Statement::Propose(offered)] = statements {
        return process_of(&offered.statements);
    }
    let shown = |statement: &Statement| match statement {
        Statement::Began(said) => format!("began {:?} {:?} {:?} {:?}", said.product, said.jar, said.pack, said.canner),
        Statement::Ask(said) => format!(
            "ask {} {:?} {:?} {:?} {:?} {:?}",
            said.about, said.product, said.jar, said.pack, said.canner, said.length
        ),
        other => serde_json::to_string(other).unwrap(),
    };
    statements.iter().map(shown).collect()
}

pub(crate) fn held_though_harmless() -> Vec<String> {
    let mut faults = Vec::new();
    let mut count = 0;
    let reader = Reader(Lexicon::default());
    for info in products() {
        for lead in ["starting {p} in pints", "process for {p} in pints?"] {
            let plain = process_of(&reader.statements(&lead.replace("{p}", info.spoken)));
            let mut check = |text: String| {
                count += 1;
                if process_of(&reader.statements(&text)) != plain {
                    faults.push(text);
                }
            };
            let is_fruit = info.crop.is_some_and(|crop| FRUIT.contains(&(crop.as_str(), info.spoken)));
            for owner in OWNERS.iter().filter(|_| is_fruit) {
                check(lead.replace("{p}", &format!("{owner} {}", info.spoken)));
            }
            for word in BEFORE {
                check(lead.replace("{p}", &format!("{word} {}", info.spoken)));
            }
            for word in BEHIND {
                check(match lead.strip_suffix('?') {
                    Some(lead) => format!("{} {word}?", lead.replace("{p}", info.spoken)),
                    None => format!("{} {word}", lead.replace("{p}", info.spoken)),
                });
            }
        }
    }
    report("held", count, &faults);
    faults
}

#[test]
fn what_is_harmless_changes_no_process() {
    assert_eq!(held_though_harmless(), Vec::<String>::new());
}

pub(crate) fn answered_otherwise() -> Vec<String> {
    let mut faults = Vec::new();
    let mut kitchen = kitchen();
    let (mut count, mut given) = (0, 0);
    for (p, info) in products().iter().enumerate() {
        let Some((question, _)) = asked(info) else { continue };
        let ask = |kitchen: &mut Kitchen, name: &str| {
            let out = kitchen.say(&format!("process for {}?", question.replace("{p}", name)));
            (topics(&out), out.first().map(|out| serde_json::to_value(&out.facts).unwrap()))
        };
        let plain = ask(&mut kitchen, info.spoken);
        given += usize::from(plain.1.as_ref().is_some_and(|facts| facts.get("minutes").is_some()));
        for (n, word) in BEFORE.iter().enumerate() {
            if (n + p) % 3 == 0 {
                count += 1;
                let name = format!("{word} {}", info.spoken);
                let other = ask(&mut kitchen, &name);
                if other != plain {
                    faults.push(format!("{name}: {other:?}, plain: {plain:?}"));
                }
            }
        }
    }
    println!("{given} products with a time");
    report("answered-otherwise", count, &faults);
    faults
}

#[test]
fn what_is_harmless_is_answered_with_the_published_time() {
    assert_eq!(answered_otherwise(), Vec::<String>::new());
}

pub(crate) fn real_held() -> Vec<String> {
    let reader = Reader(Lexicon::default());
    let mut faults = Vec::new();
    for (text, wanted) in HARMLESS {
        let said = reader.statements(text);
        let inner = |statement: &Statement| match statement {
            Statement::Propose(offered) => offered.statements.first().cloned(),
            said => Some(said.clone()),
        };
        let kind = |statement: Statement| match &statement {
            Statement::Clarify(asked) if asked.word.is_some() => "held",
            Statement::Clarify(_) => "asks",
            Statement::Began(_) => "began",
            Statement::Filled(_) => "filled",
            Statement::PutUp(_) => "put-up",
            Statement::Set(_) => "set",
            Statement::Ask(_) => "ask",
            _ => "other",
        };
        let kinds: Vec<&str> = said.iter().filter_map(inner).map(kind).collect();
        if !kinds.contains(&wanted) || kinds.contains(&"held") {
            faults.push(format!("{text} => {}", serde_json::to_string(&said).unwrap()));
        }
    }
    report("real-held", HARMLESS.len(), &faults);
    faults
}

#[test]
fn real_lines_are_not_held_back() {
    assert_eq!(real_held(), Vec::<String>::new());
}

/// What is asked back is answered with words that are held to the same rule.
#[test]
fn an_answer_with_something_in_it_completes_nothing() {
    let asked = [
        ("starting a batch in pints", "thick sauce"),
        ("starting thick sauce", "pints"),
        ("starting thick sauce", "in quarts"),
        ("starting peaches in pints", "raw pack"),
        ("process for peaches in pints?", "hot pack"),
    ];
    let added = [
        " with chicken",
        ", with garlic in it",
        " and cream",
        ", pureed",
        " in the oven",
        " w/ galangal",
        ", open kettle",
    ];
    for (question, answer) in asked {
        // What is answered at once is asked nothing.
        let mut plain = kitchen();
        let first = plain.say(question);
        let then = plain.say(answer);
        assert!(gives(&first) || gives(&then), "{question} {answer}: {then:?}");
        if gives(&first) {
            continue;
        }
        for added in added {
            let mut kitchen = kitchen();
            kitchen.say(question);
            let began = kitchen.state()["batch"].clone();
            let out = kitchen.say(&format!("{answer}{added}"));
            assert!(!gives(&out), "{question} {answer}{added}: {}", out[0].text);
            assert_eq!(kitchen.state()["batch"], began, "{question} {answer}{added}");
        }
    }
}
