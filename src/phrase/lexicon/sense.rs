//! What a word can mean: a path such as `deed.freeze.past`, and for closed words the thing itself.
//!
//! Paths are sorted, so that all senses under a path (`deed.freeze`, `deed`) are one range of numbers, and asking
//! whether a sense is of a class is two comparisons.

use crate::processes::Measure;
use crate::quantity::{Length, Mass, Volume};
use crate::vocabulary::{CannerKind, Crop, Jar, Pack, Prep, Product, Ripeness, Stock, Supply};

/// A sense, by its place among the sorted paths.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub(in super::super) struct Sense(pub(in super::super) u16);

/// All senses under a path.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub(in super::super) struct Class {
    pub(in super::super) from: u16,
    pub(in super::super) to: u16,
}

impl Class {
    /// Whether a sense is under the path.
    pub(in super::super) const fn has(self, sense: Sense) -> bool {
        self.from <= sense.0 && sense.0 < self.to
    }

    /// Whether all of it is under another path.
    pub(in super::super) const fn within(self, other: Self) -> bool {
        other.from <= self.from && self.to <= other.to
    }

    /// Whether no word has it.
    pub(in super::super) const fn is_empty(self) -> bool {
        self.from >= self.to
    }
}

/// A unit of measure.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(in super::super) enum Unit {
    /// Of mass; whether it is metric, which decides what a dot or comma before three digits means.
    Mass(Mass, bool),
    /// An ounce, which is a fluid ounce of a liquid.
    Ounce,
    /// Of volume, metric or not.
    Volume(Volume, bool),
    /// So many seconds.
    Seconds(u32),
    /// Days, weeks, months, years: so many days.
    Days(u32),
    /// Of length.
    Length(Length, bool),
    /// Degrees Fahrenheit.
    Fahrenheit,
    /// Degrees Celsius.
    Celsius,
    /// Degrees of the household's own scale.
    Degree,
    /// Pounds per square inch.
    Psi,
    /// Hundredths.
    Percent,
    /// A measure of a harvest, whose weight depends on the crop.
    Measure(Measure),
    /// Something that the ledger does not measure.
    Other,
}

/// What bags and trays are counted in.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub(in super::super) enum Container {
    /// A freezer bag.
    Bag,
    /// A dryer tray.
    Tray,
    /// A box of supplies.
    Box,
    /// A jar of a size that was not said.
    Jar,
    /// A tub, bucket, crate, …: counts, but not in bags.
    Tub,
    /// A bottle or jug: holds no one knows how much.
    Bottle,
}

/// The thing that a sense names, where it is a closed word.
#[derive(Clone, PartialEq, Debug)]
pub(in super::super) enum Meaning {
    /// Nothing but the path.
    Path,
    /// A number.
    Number(i64),
    /// One over this.
    Part(i64),
    /// A unit.
    Unit(Unit),
    /// A container.
    Container(Container),
    /// A crop.
    Crop(Crop),
    /// A variety and the crop that its name alone tells.
    Variety(&'static str, Option<Crop>),
    /// A product.
    Product(Product),
    /// How fruit was cut.
    Prep(Prep),
    /// A colour class.
    Ripe(Ripeness),
    /// Where food is kept.
    Store(Stock),
    /// What canning uses up.
    Supply(Supply),
    /// A jar size.
    Jar(Jar),
    /// A canner.
    Canner(CannerKind),
    /// Hot or raw pack.
    Pack(Pack),
    /// The last part of the path, where it is a word that a setting or a question holds.
    Word(&'static str),
}

/// Classes that the grammar and the builders ask for, each by its path. `english/` gives them their words.
macro_rules! classes {
    ($($name:ident = $head:ident $(. $part:ident)*;)+) => {
        /// The classes that code asks for.
        #[derive(Clone, Copy, Debug, Default)]
        pub(in super::super) struct Classes { $(pub(in super::super) $name: Class),+ }

        impl Classes {
            /// Finds each; the path of one that no word has is the error. An underscore stands for a hyphen.
            pub(super) fn find(mut class_of: impl FnMut(&str) -> Class) -> Result<Self, String> {
                let mut found = Self::default();
                $({
                    let path = concat!(stringify!($head) $(, '.', stringify!($part))*).replace('_', "-");
                    found.$name = class_of(&path);
                    if found.$name.is_empty() {
                        return Err(path);
                    }
                })+
                Ok(found)
            }
        }
    };
}

classes! {
    num = num;
    ones = num.ones;
    another = num.another;
    tens = num.tens;
    scale = num.scale;
    heard = heard;
    dozen = num.dozen;
    part = num.part;
    point = num.point;
    vague = num.vague;
    ordinal = ordinal;
    ordinal_suffix = ordinal.suffix;
    unit_mass = unit.mass;
    unit_volume = unit.volume;
    unit_time = unit.time;
    unit_length = unit.length;
    unit_temp = unit.temp;
    unit_pressure = unit.pressure;
    unit_measure = unit.measure;
    unit_percent = unit.percent;
    unit = unit;
    unit_hour = unit.time.hour;
    container = container;
    container_bag = container.bag;
    each = each;
    times = times;
    at = at;
    weighing = weighing;
    holiday = holiday;
    out_of = outof;
    day_ago = day.ago;
    day_ahead = day.ahead;
    day_night = day.night;
    day_ended = day.ended;
    day_last = day.last;
    day_next = day.next;
    day_this = day.this;
    weekend = day.weekend;
    weekday = weekday;
    month = month;
    daypart = daypart;
    clock_am = clock.am;
    clock_pm = clock.pm;
    oclock = clock.oclock;
    half_past = clock.half;
    quarter_past = clock.quarterpast;
    quarter_to = clock.quarterto;
    clock_past = clock.past;
    clock_to = clock.to;
    sea_level = sea.level;
    sea_above = sea.above;
    sea_below = sea.below;
    share = share;
    share_it = share.it;
    share_rest = share.rest;
    share_all = share.all;
    share_half = share.half;
    crop = crop;
    variety = variety;
    place_noun = place.noun;
    place_side = place.side;
    ripe = ripe;
    ripe_colour = ripe.colour;
    product = product;
    dish = dish;
    jar = jar;
    jar_word = jar.word;
    store = store;
    thawing = store.thawing;
    freezer = store.freezer;
    supply = supply;
    acid = acid;
    acid_lemon = supply.lemon_juice;
    acid_citric = supply.citric_acid;
    prep = prep;
    dryable = dryable;
    canner = canner;
    canner_word = canner.word;
    pack = pack;
    batch = gear.batch;
    round = gear.batch.round;
    deed = deed;
    begin = deed.begin;
    deed_can = deed.can;
    deed_add = deed.add;
    set = set;
    pot = gear.pot;
    burner = gear.burner;
    oops = correct.oops;
    correct_not = correct.not;
    plan_day = plan.canningday;
    instead = plan.instead;
    plan_by = plan.by;
    recipe_takes = recipe.takes;
    recipe_makes = recipe.makes;
    recipe = recipe.word;
    teach_means = teach.means;
    article = small.article;
    of = small.of;
    prep_in = small.prep.in;
    prep_from = small.prep.from;
    prep_to = small.prep.to;
    prep_for = small.prep.for;
    prep_with = small.prep.with;
    without = small.prep.without;
    prep_time = small.prep.time;
    prep_place = small.prep.place;
    preposition = small.prep;
    and = small.and;
    or = small.or;
    approx = small.approx;
    aux = small.aux;
    pronoun = small.pron;
    filler = small.filler;
    small = small;
    total = small.total;
    again = small.again;
    of_course = small.ofcourse;
    food = food;
    form = form;
    method = method;
    gauge = gear.gauge;
    weight = gear.weight;
    because = small.because;
    bot = small.bot;
    that = small.that;
    voice = voice;
    subject = voice.subject;
    own = voice.self;
    you = voice.you;
    other = voice.other;
    kin = voice.kin;
    folk = voice.folk;
    not = voice.not;
    modal = voice.modal;
    want = voice.want;
    if_ = voice.if;
    hearsay = voice.hearsay;
    memory = voice.memory;
    price = voice.price;
    question = voice.question;
    harmless = harmless;
    harmless_state = harmless.state;
    beside = beside;
    beside_pot = beside.pot;
    beside_cleaned = beside.cleaned;
    beside_cooked = beside.cooked;
    beside_recipe = beside.recipe;
    water = gear.water;
    broth = broth;
    starch = starch;
    fermented = fermented;
    milled = milled;
    stirred = stirred;
    sugar = sugar;
    weakened = weakened;
    told = told;
    rim = rim;
    within = within;
    syrup = syrup;
    vinegar = supply.vinegar;
    salt = supply.salt;
    more_of = excess;
    alien = alien;
    household_recipe = household.recipe;
    household_batch = household.batch;
    household_name = household.name;
    household_word = household.word;
    between = between;
    noon = clock.noon;
    midnight = clock.midnight;
    single = single;
    single_size = single.size;
    mark_question = mark.question;
    say = say;
    ask = ask;
    liquid = liquid;
    keep = deed.keep;
    away = deed.away;
    powder = dryable.powder;
    set_own = set.yield.own;
    set_handbook = set.yield.handbook;
    set_metric = set.units.metric;
    set_us = set.units.us;
    set_brief = set.answers.brief;
    set_silent = set.answers.silent;
    set_full = set.answers.full;
    set_dark = set.pictures.dark;
    set_light = set.pictures.light;
    set_off = set.off;
    quiet = set.quiet;
    cancel = deed.cancel;
    chart_season = chart.season;
    chart_day = chart.day;
    everything = ask.everything;
    totals = ask.totals;
    log = ask.log;
    pantry = store.pantry;
    counter = store.counter;
    entry = ask.entry;
    correct = deed.correct;
    seal = deed.seal;
    dry_past = deed.dry.past;
    unseal = deed.unseal;
    paper = paper;
    label_part = labelpart;
    inch = inch;
    since = since;
    part_early = part.early;
    part_mid = part.mid;
    part_late = part.late;
    extra = extra;
    ytd = ytd;
    but = but;
    teach_place = teach.place;
    teach_variety = teach.variety;
    teach_crop = teach.crop;
    teach_lead = teach.lead;
    teach_is = teach.is;
    timer = gear.clock;
    deed_name = deed.name;
    deed_pick = deed.pick;
}
