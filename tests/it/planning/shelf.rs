//! The winter shelf and next year's rows, from an invented year.

use crate::support::{entry, lb};
use chrono::{DateTime, Days, NaiveDate, Utc};
use rackful::ledger::Ledger;
use rackful::planning::next_year::{Bears, PLANT_HIGH_LB, PLANT_LOW_LB, next_year};
use rackful::planning::shelf::{bag_best_until, old_bags, old_jars, use_first, use_rates};
use rackful::statement::{Froze, Jarred, Picked, Planted, Statement, Taken};
use rackful::vocabulary::{Jar, Product, Stock};
use rackful::zone::Zone;

fn date(text: &str) -> NaiveDate {
    text.parse().unwrap()
}

fn noon(day: NaiveDate) -> DateTime<Utc> {
    day.and_hms_opt(12, 0, 0).unwrap().and_utc()
}

/// A household's entries, a line a day.
#[derive(Default)]
struct Year(Vec<(NaiveDate, Statement)>);

impl Year {
    fn on(mut self, day: &str, statement: Statement) -> Self {
        self.0.push((date(day), statement));
        self
    }

    fn ledger(self) -> Ledger {
        let mut ledger = Ledger::new(Zone::UTC);
        for (n, (day, statement)) in self.0.into_iter().enumerate() {
            ledger.enter(vec![entry(&format!("${n}"), noon(day), statement)]);
        }
        ledger
    }
}

fn quarts(jars: u32) -> Jarred {
    Jarred { jars: Some(jars), jar: Some(Jar::Quart), product: Some(Product::THICK_SAUCE), ..Jarred::default() }
}

fn put_up(jars: u32) -> Statement {
    Statement::PutUp(quarts(jars))
}

fn opened(jars: u32) -> Statement {
    Statement::Opened(quarts(jars))
}

fn gave(jars: u32) -> Statement {
    let product = Some(Product::THICK_SAUCE);
    let from = Some(Stock::Pantry);
    Statement::Gave(Taken { jars: Some(jars), jar: Some(Jar::Quart), product, from, ..Taken::default() })
}

/// USDA AIB 539 (2015), Guide 1: best within 12 months; general pages on freezing: frozen tomatoes best within 8 to 12
/// months.
#[test]
fn stock_is_best_for_as_long_as_is_printed() {
    let froze = Statement::Froze(Froze { mass: Some(lb(14.0)), bags: Some(2), ..Froze::default() });
    let ledger = Year::default().on("2025-09-03", put_up(7)).on("2025-12-31", froze).ledger();
    let state = ledger.state();
    assert_eq!(state.pantry.lots()[0].best_by(), Some(date("2026-09-03")));
    let bag = state.freezer.crops().next().unwrap().1[0];
    assert_eq!(bag_best_until(&bag), date("2026-08-31"));
    assert_eq!((old_jars(state, date("2026-09-02")).len(), old_jars(state, date("2026-09-03")).len()), (0, 1));
    assert!(old_bags(state, date("2026-08-30")).is_empty());
    assert_eq!(old_bags(state, date("2026-08-31"))[0].1.len(), 2);
}

#[test]
fn what_is_past_its_best_in_one_month_is_one_message() {
    let ledger = Year::default()
        .on("2025-09-03", put_up(7))
        .on("2025-09-20", put_up(7))
        .on("2025-10-02", put_up(7))
        .on("2026-01-10", Statement::Froze(Froze { mass: Some(lb(7.0)), ..Froze::default() }))
        .ledger();
    let groups: Vec<_> =
        use_first(ledger.state()).into_iter().map(|group| (group.from, group.lots.len(), group.bags.len())).collect();
    assert_eq!(groups, [(date("2026-09-03"), 2, 0), (date("2026-09-10"), 0, 1), (date("2026-10-02"), 1, 0)]);
}

/// Two quarts every week from October on.
fn winter() -> Year {
    let mut year = Year::default().on("2025-08-20", put_up(42));
    let mut day = date("2025-10-01");
    while day < date("2026-02-01") {
        year.0.push((day, opened(2)));
        day = day + Days::new(7);
    }
    year
}

#[test]
fn the_rate_of_use_is_that_of_the_days_on_which_jars_were_opened() {
    let ledger = winter().ledger();
    let today = date("2026-01-28");
    let rates = use_rates(ledger.state(), today);
    assert_eq!(rates.len(), 1);
    assert!((rates[0].per_week - 2.0).abs() < 0.01, "{}", rates[0].per_week);
    // 18 weeks of two are 36 of 42.
    assert_eq!((rates[0].left, rates[0].runs_out), (6, today + Days::new(21)));
}

#[test]
fn a_few_jars_are_no_rate() {
    let few = Year::default().on("2025-08-20", put_up(42)).on("2025-10-01", opened(2)).on("2025-10-08", opened(2));
    assert_eq!(use_rates(few.ledger().state(), date("2025-11-20")), []);
    let quick = Year::default()
        .on("2025-08-20", put_up(42))
        .on("2025-10-01", opened(1))
        .on("2025-10-02", opened(1))
        .on("2025-10-03", opened(1));
    assert_eq!(use_rates(quick.ledger().state(), date("2025-10-20")), []);
}

#[test]
fn next_year_aims_for_what_is_used_and_given() {
    let ledger = winter().on("2025-12-20", gave(4)).ledger();
    let told = next_year(ledger.state(), date("2026-01-28"));
    let aim = &told.aims[0];
    assert_eq!((aim.year.put_up, aim.year.used, aim.year.given, aim.left), (42, 36, 4, 2));
    // 104.3 a year and 4 gifts; nothing will be left in August.
    assert_eq!((aim.jars, aim.loads()), (Some(109), Some(16)));
    let pounds = aim.mass().unwrap().as_pounds();
    assert!((pounds - 109.0 / 7.0 * 46.0).abs() < 1e-6, "USDA AIB 539, Guide 3: 46 lb for 7 quarts; {pounds}");
}

#[test]
fn while_little_is_used_there_is_no_aim() {
    let ledger = Year::default().on("2025-08-20", put_up(21)).on("2025-09-10", opened(1)).ledger();
    let told = next_year(ledger.state(), date("2025-09-20"));
    assert_eq!((told.aims[0].jars, told.plants.len()), (None, 0));
}

fn picked(pounds: f64, variety: Option<&str>) -> Statement {
    let variety = variety.map(str::to_owned);
    Statement::Picked(Picked { mass: Some(lb(pounds)), variety, ..Picked::default() })
}

fn planted(count: u32, variety: &str) -> Statement {
    Statement::Planted(Planted { count: Some(count), variety: Some(variety.to_owned()), ..Planted::default() })
}

/// University of Georgia extension, Gwinnett County (2007): each plant, properly cared for, yields 10 to 15 pounds or
/// more.
#[test]
fn without_plants_of_ones_own_the_printed_range_holds() {
    let told = next_year(winter().ledger().state(), date("2026-01-28"));
    let pounds = (told.for_jars + told.fresh).as_pounds();
    let plants = &told.plants[0];
    assert_eq!((PLANT_LOW_LB, PLANT_HIGH_LB, plants.bears), (10.0, 15.0, Bears::Published));
    assert_eq!((plants.low, plants.high), ((pounds / 15.0).ceil() as u32, (pounds / 10.0).ceil() as u32));
}

#[test]
fn plants_are_by_the_own_yield_of_each_kind() {
    let year = winter()
        .on("2025-05-20", planted(10, "roma"))
        .on("2025-05-20", planted(5, "brandywine"))
        .on("2025-08-20", picked(150.0, Some("roma")))
        .on("2025-08-21", picked(50.0, Some("brandywine")));
    let mut year = Year(year.0);
    year.0.sort_by_key(|(day, _)| *day);
    let ledger = year.ledger();
    let told = next_year(ledger.state(), date("2026-01-28"));
    let wanted = (told.for_jars + told.fresh).as_pounds();
    let found: Vec<_> = told.plants.iter().map(|plants| (plants.variety.as_deref().unwrap(), plants.low)).collect();
    // Three quarters of it were romas at 15 lb a plant, the rest brandywines at 10.
    let (romas, brandywines) = ((0.75 * wanted / 15.0).ceil() as u32, (0.25 * wanted / 10.0).ceil() as u32);
    assert_eq!(found, [("brandywine", brandywines), ("roma", romas)]);
}

#[test]
fn pickings_without_a_kind_make_one_yield_of_all_plants() {
    let mut year = winter().on("2025-05-20", planted(10, "roma")).on("2025-08-20", picked(120.0, None));
    year.0.sort_by_key(|(day, _)| *day);
    let told = next_year(year.ledger().state(), date("2026-01-28"));
    assert_eq!(told.plants.len(), 1);
    assert!(matches!(told.plants[0].bears, Bears::Own { each, plants: 10 } if each == lb(12.0)));
}
