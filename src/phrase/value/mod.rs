//! How values are written: numbers, weights, jars, days, times, heights.
//!
//! Every rule is a combinator over tokens (`nom`), named by `context`; a value is read at every token at which one can
//! begin, in every way in which it can be read, and what is meant is decided later.
//!
//! # Grammar
//!
//! `<unit.mass>` is a name of that class of the lexicon, `<a - b>` one of `a` that is not of `b`; `d` are digits (`d3`
//! three of them, `d(1..31)` of such a value), `vulgar` is a fraction in one sign, `letter` a single letter, `'x'` a
//! mark, `hyphen` a dash with nothing beside it, and what follows `_` stands right behind what is before. Each rule
//! reads in one way, with the first of its alternatives that fits and as long a name as there is; behind `--` stands
//! what a rule asks for besides. Lines that are indented go on with the rule before. The tests run the grammar both
//! ways: sentences that are made from it are read whole, and what is read in the examples can be made from it.
//!
//! ```text
//! number        = figure | of-them | exact _'.'                             -- four tokens and the end of the message
//! figure        = between | [ '~' | rough ] ( range | exact )
//! rough         = <small.approx> [ <small.approx> ]
//! between       = <between> exact <small.and> exact
//! range         = exact ( '-' | <clock.to> | <small.prep.to> | <small.or> ) exact  -- low < high <= 4 low
//! exact         = mixed [ <num.dozen> ] | ratio | grouped | decimal | d <num.point> d | d <num.dozen> | d | vulgar
//!                 | '.' _d | spelled
//! mixed         = d [ hyphen ] vulgar | d [ hyphen ] ratio | d <small.and> [ <small.article> ] fraction
//! ratio         = d _'/' _d(2..16)                                          -- less than one
//! grouped       = d _',' _d3 [ _',' _d3 ] | d _'.' _d3
//!                 -- thousands, and decimals of a metric unit; not behind a zero
//! decimal       = d ( _',' | _'.' ) _d
//! spelled       = another | heard | dozens
//!                 | words <small.and> [ <small.article> ] fraction [ <num.dozen> ]
//!                 | [ <small.article> ] fraction
//!                 | words <num.point> ( digit { digit } | tens | <num.ones> | d )
//!                 | words
//! digit         = <num.ones>                                                -- below ten
//! another       = <num.another> [ exact ]
//! heard         = <heard>                                                   -- behind a deed and before what it counts
//! dozens        = [ [ <small.article> ] <num.part> | words | <small.article> ] <num.dozen>
//! fraction      = [ <num.ones> [ hyphen ] ] <num.part>                      -- less than one
//! words         = ( below | [ <small.article> ] scaled ) { scaled }
//!                 -- scales that descend, each with something before it
//! scaled        = <num.scale> [ [ <small.and> ] [ hyphen ] below ]
//! below         = tens | [ <small.article> ] <num.ones>                     -- two behind an article
//! tens          = <num.tens> [ [ hyphen ] <num.ones> ]                      -- one to nine
//! whole         = d | words
//! mass          = two-units | unit-and-part | part-of-unit | one-unit
//! one-unit      = ( figure | <small.article> ) [ <extra> ] unit [ ( '-' | <small.prep.to> | <small.or> ) exact unit ]
//! two-units     = ( exact | <small.article> ) unit [ <small.and> | _',' | '-' ] exact [ unit ]
//!                 -- of one system; bare ounces behind pounds, three digits behind kilograms
//! unit-and-part = ( exact | <small.article> ) unit and-part | <unit.mass> [ _'.' ] and-part
//! part-of-unit  = exact [ <small.of> ] <small.article> unit                 -- less than one
//! unit          = [ hyphen ] _'#' | [ hyphen ] <unit.mass> [ _'.' ]
//!                 -- a dot behind an abbreviation and before a space
//! and-part      = <small.and> [ <small.article> ] <num.part>
//! measure       = [ ( figure | <small.article> ) [ <small.of> ] [ <small.article> ] ] <unit.measure> [ and-part ]
//! volume        = ( figure | <small.article> ) [ <small.of> ] [ <small.article> ] [ hyphen ]
//!                 <unit.volume> [ _'.' ] [ and-part ]                       -- the article less than one
//! count         = counted | <container> d(0..199)
//! counted       = ( figure | <small.article> ) [ size-word [ size-word ] ] [ hyphen ] <container>
//!                 -- no article before a plural
//! size-word     = <harmless> | <extra>
//! portions      = listed | unlike | count-each | each-count | sized | times-mass  -- no unit first
//! listed        = counted [ ',' | ':' | '-' | <at> | <small.of> ] weighed { also weighed } [ each ]
//!                 -- as many as counted, with a unit
//! unlike        = [ counted [ ',' | ':' | '-' ] ] one-weighed also one-weighed { also one-weighed } [ each ]
//!                 -- one each, with a unit
//! one-weighed   = ( exact | <small.article> ) [ <container> ] [ <small.of> | <at> | '@' ] weighed
//! weighed       = mass | exact
//! also          = ( ',' | '+' | '/' ) [ <small.and> ] | <small.and>
//! count-each    = counted joint mass [ each ]                               -- an each or an of in it
//! each-count    = mass [ hyphen ] [ <container> ] ( ( '×' | <times> ) exact [ <container> ] | each [ ',' ] counted )
//! sized         = [ ( exact | <small.article> ) [ size-word [ size-word ] ] ] mass [ hyphen ] <container>
//!                 -- no article before the mass
//! times-mass    = exact joint mass [ each ]                                 -- an each or an of in it
//! joint         = [ ',' | '-' | ':' | '(' ] [ by [ by ] [ <small.of> ] ] | <small.of> | <small.prep.with> | <weighing>
//! by            = '@' | '×' | <times> | <at> | <each>
//! each          = [ ',' ] [ '/' ] <each>
//! count-of      = counted joint exact [ each ]                              -- an each in it, no unit behind
//! jars          = volume jar-word | jars-of-size | sized-jars | of-them | size-alone | <jar - jar.word> d(0..199)
//! jars-of-size  = jars-counted [ size-word [ size-word ] ] jar-word [ [ <small.of> | '(' | <at> ] size [ '(' ] ]
//! sized-jars    = jars-counted [ '×' | <times> ] [ size-word [ size-word ] ] size [ _'.' ] [ jar-word ]
//! size-alone    = jar-size [ jar-word ]
//! jars-counted  = figure | <num.ones> | <small.article>                     -- a whole number, or more than one
//! size          = [ hyphen ] jar-size
//! jar-size      = <jar - jar.word> | volume                                 -- of a metric jar
//! jar-word      = [ hyphen ] <jar.word>
//! of-them       = exact <small.of> [ <small.article> | <voice.self> ] [ size-word [ size-word ] ]
//!                 ( size [ jar-word | <small.pron> ] | jar-word | <small.pron> )
//! out-of        = ( whole ( '/' | <small.of> | <small.prep.from> | <outof> ) [ <small.article> | <voice.self> ] whole
//!                   | <share.all> [ <small.article> ] whole )
//!                 [ size [ jar-word ] | jar-word ]                          -- at most all, and 200
//! day           = ( <day.night> | date ) [ <daypart> ]
//! date          = <day.ago> | <day.ahead> | days <day.ended> | <small.prep.in> days | month-day | written
//!                 | dated-weekday | weekday | weekend | <holiday> | calendar | of-any
//! weekday       = [ which ] <weekday> [ [ <small.of> ] which <unit.time.week> ] [ _'.' ]
//! dated-weekday = weekday [ ',' ] ( month-day | written | [ <small.article> ] day-number )  -- behind the second
//! weekend       = [ which ] [ <small.article> ] <day.weekend>
//! which         = <day.last> | <day.next> | <day.this>
//! days          = ( exact | <small.article> )
//!                 ( <unit.time.day> | <unit.time.week> | <unit.time.fortnight>
//!                   | <unit.time.month> | <unit.time.year> )
//! month-day     = month [ <small.article> ] day-number [ year ]
//!                 | [ <small.article> ] day-number [ _'.' ] [ <small.of> ] month [ year ]
//! month         = <month> [ _'.' ]
//! year          = [ ',' ] d4(1990..2099)
//! day-number    = <ordinal - ordinal.suffix> | d(1..31) [ _<ordinal.suffix> ]
//! of-any        = <small.article> <ordinal - ordinal.suffix> | [ <small.article> ] d(1..31) _<ordinal.suffix>
//!                 -- behind the third in words
//! written       = d4 apart _d(0..99) apart _d
//!                 | d(0..99) apart _d(0..99) apart _( d2 | d4(1990..2099) )
//!                 | d(1..31) _( '-' | '/' ) _d(1..31)
//!                 | d(1..31) _'.' _d(1..12) _'.'
//!                 -- one sign, and a month among them; a dash alone at the head of a message
//! apart         = _( '-' | '/' | '.' )
//! calendar      = <ytd>
//!                 | ( <day.last> | <day.this> ) ( <unit.time.week> | <unit.time.month> | <unit.time.year> )
//!                 | [ which ] <month>
//! clock         = [ '~' | <small.approx> ]
//!                 ( off-hour [ half ]
//!                   | clock-digits
//!                   | <num.ones> ( <num.tens> | <num.ones> ) [ half ]
//!                   | exact ( half | <clock.oclock> [ half ] )
//!                   | <clock.noon> | <clock.midnight> )                     -- an hour and minutes
//! clock-digits  = d(0..23) _':' _d2(0..59) [ half ]
//!                 | d(0..23) _'.' _d2(0..59) half
//!                 | d(0..23) _<unit.time.hour> [ _d2(0..59) ]               -- the hour in one letter
//! off-hour      = ( <clock.half> | <clock.quarterpast> | <clock.quarterto>
//!                   | exact [ <unit.time.minute> ] ( <clock.past> | <clock.to> ) )
//!                 exact
//! half          = <clock.am> | <clock.pm> | <daypart>
//! duration      = time-span [ [ <small.and> | ',' ] ( time-span | exact ) ]
//!                 -- the smaller unit behind; bare minutes behind hours
//! time-span     = ( figure | <small.article> ) [ <small.of> ] [ <small.article> ] [ hyphen ]
//!                 ( <unit.time.hour> | <unit.time.minute> | <unit.time.second> ) [ and-part ]
//! ago           = duration <day.ended>
//! temperature   = figure ( '°' [ scale ] | scale | [ '°' ] [ hyphen ] <unit.temp.degree> scale )
//! scale         = [ hyphen ] <unit.temp>
//! pressure      = figure <unit.pressure>
//! height        = [ '-' | <sea.below> ] ( d(1..99) d3 | figure ) [ hyphen ] ( _'"' | <unit.length> )
//!                 [ <sea.above> | <sea.below> ] [ <sea.level> ]
//!                 | <sea.level>
//! share         = ( exact percent | exact | <share> ) [ <small.of> ] [ <share.it> | <small.article> ]
//!                 -- less than one
//! percent       = '%' | <unit.percent>
//! colour        = figure [ percent ] [ <small.of> ] [ <share.it> ] <ripe.colour>  -- at most all of it
//! grid          = exact ( '×' | <times> ) exact                             -- no sign first, no mass behind
//! entry         = '#' _d
//! place         = code [ code ]
//!                 | [ side [ side [ side ] ] ] <place.noun> [ label | named [ label | named [ label | named ] ] ]
//! named         = [ label ] <place.noun>
//! side          = <place.side>
//! code          = letter [ hyphen ] _d(0..99)                               -- no unit
//! label         = [ '#' ] ( d(0..999) [ _letter ] | letter [ hyphen _d | _d ] | <num.ones> )
//!                 -- no figure that counts what follows
//! ```

pub(super) mod amount;
pub(super) mod clock;
pub(super) mod date;
pub(super) mod day;
pub(super) mod input;
pub(super) mod jars;
pub(super) mod kinds;
pub(super) mod measure;
pub(super) mod number;
pub(super) mod place;
pub(super) mod portions;

use super::lex::{Mark, Shape};
use crate::processes::Measure;
use crate::quantity::{Number, Pressure, Volume};
use crate::vocabulary::Ripeness;
use clock::Clock;
use day::Dated;
use input::{Known, Tokens};
use jars::{Jars, OutOf};
use kinds::{Count, Figure, Weight};
use measure::{Height, Share};
use portions::Portions;

/// Something said with a figure, or a day.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(super) enum Value {
    /// A bare number.
    Number(Figure),
    /// A weight.
    Weight(Weight),
    /// A measure of a harvest.
    Measure(Number, Measure),
    /// A volume; whether it is `a quart`.
    Volume(Volume, bool),
    /// Containers.
    Count(Count),
    /// Containers of a weight each.
    Portions(Portions),
    /// Containers of so much each, the unit not said.
    CountOf(Count, Number),
    /// Jars.
    Jars(Jars),
    /// Some out of how many.
    OutOf(OutOf),
    /// A day.
    Day(Dated),
    /// A time of day.
    Clock(Clock),
    /// A span of time, in seconds.
    Duration(u32),
    /// So many seconds before now.
    Ago(u32),
    /// A temperature: its figure, and whether it is Celsius if that was said.
    Temperature(Number, Option<bool>),
    /// A pressure.
    Pressure(Pressure),
    /// A height.
    Height(Height),
    /// A part of something.
    Share(Share),
    /// How much of the skin shows colour.
    Colour(Ripeness),
    /// Two figures of a grid.
    Grid(Number, Number),
    /// The number of an entry: `#4`.
    Entry(u32),
    /// A place in the garden.
    Place,
}

impl Value {
    /// Whether it says how much of something.
    pub(super) const fn is_amount(&self) -> bool {
        match self {
            Self::Weight(weight) => !weight.article,
            Self::Measure(..) | Self::Portions(_) | Self::CountOf(..) | Self::OutOf(_) => true,
            Self::Count(count) => !count.article,
            Self::Jars(jars) => jars.count.is_some() && !jars.article,
            Self::Volume(_, article) => !*article,
            _ => false,
        }
    }

    /// Whether it says when.
    pub(super) const fn is_day(&self) -> bool {
        matches!(self, Self::Day(_) | Self::Clock(_) | Self::Ago(_))
    }
}

/// A value and the token behind its last one.
pub(super) type Ending = (usize, Value);

/// All values that begin at a token.
pub(super) fn values_at(known: &Known<'_>, at: usize, out: &mut Vec<Ending>) {
    let end = known.lexed.tokens.len();
    let input = Tokens { known, at, end };
    let Some(first) = input.first() else { return };
    let classes = known.classes();
    let starts = |class: super::lexicon::sense::Class| input.hits().iter().any(|hit| class.has(hit.sense));
    let figure_first = match first.shape {
        Shape::Digits(..) | Shape::Vulgar(..) => true,
        Shape::Mark(Mark::Dot) => input::glued_digits(input.skip(1)).is_ok(),
        Shape::Mark(Mark::Tilde) => true,
        Shape::Mark(Mark::Dash) => !first.glued || at == 0,
        Shape::Mark(Mark::Hash) => {
            entry_number(input, out);
            false
        }
        Shape::Mark(_) => false,
        Shape::Word => {
            starts(classes.num)
                || starts(classes.heard)
                || starts(classes.article)
                || starts(classes.approx)
                || starts(classes.between)
        }
    };
    if figure_first {
        amounts(input, out);
        spans(input, out);
    }
    if first.shape == Shape::Word {
        words(input, &starts, out);
    }
}

fn push<'a, T>(read: input::Read<'a, T>, out: &mut Vec<Ending>, value: impl FnOnce(T) -> Value) {
    if let Ok((rest, found)) = read {
        out.push((rest.at, value(found)));
    }
}

fn amounts(input: Tokens<'_>, out: &mut Vec<Ending>) {
    push(number::figure(input), out, Value::Number);
    push(amount::weight(input), out, Value::Weight);
    push(amount::measure(input), out, |(n, measure)| Value::Measure(n, measure));
    push(amount::volume(input), out, |(volume, article)| Value::Volume(volume, article));
    push(amount::count(input), out, Value::Count);
    push(portions::portions(input), out, Value::Portions);
    push(portions::count_then_number(input), out, |(count, n)| Value::CountOf(count, n));
    push(jars::jars(input), out, Value::Jars);
    // `3 of them` may be pounds, where pounds were spoken of.
    push(jars::of_them(input), out, |jars| Value::Number(Figure::of(jars.count.unwrap_or(Number::whole(0)))));
    push(jars::out_of(input), out, Value::OutOf);
    push(measure::height(input), out, Value::Height);
    push(measure::temperature(input), out, |(n, celsius)| Value::Temperature(n, celsius));
    push(measure::pressure(input), out, Value::Pressure);
    push(measure::coloured(input), out, Value::Colour);
    push(measure::grid(input), out, |(a, b)| Value::Grid(a, b));
    push(measure::share(input), out, Value::Share);
    if let Some((end, figure)) = number_at_stop(input) {
        out.push((end, Value::Number(figure)));
    }
}

/// `6.5.` at the end of a message: a day of a month, or a number and a full stop.
fn number_at_stop(input: Tokens<'_>) -> Option<(usize, Figure)> {
    let (rest, figure) = number::single(input).ok()?;
    let (rest, ()) = input::glued_mark(Mark::Dot)(rest).ok()?;
    (rest.first().is_none() && rest.at - input.at == 4).then_some((rest.at, figure))
}

fn spans(input: Tokens<'_>, out: &mut Vec<Ending>) {
    push(clock::clock(input), out, Value::Clock);
    push(clock::duration(input), out, Value::Duration);
    push(clock::seconds_ago(input), out, Value::Ago);
    push(date::dated(input), out, Value::Day);
}

fn words(input: Tokens<'_>, starts: &dyn Fn(super::lexicon::sense::Class) -> bool, out: &mut Vec<Ending>) {
    let classes = input.classes();
    if starts(classes.jar) {
        push(jars::jars(input), out, Value::Jars);
        push(jars::size_then_count(input), out, Value::Jars);
    }
    if starts(classes.place_side)
        || starts(classes.place_noun)
        || input.first().is_some_and(|first| first.to - first.from == 1)
    {
        push(place::place(input), out, |()| Value::Place);
    }
    if starts(classes.container) {
        push(amount::count_behind(input), out, Value::Count);
    }
    if starts(classes.share) {
        push(measure::share(input), out, Value::Share);
        push(jars::out_of(input), out, Value::OutOf);
    }
    if starts(classes.sea_below) || starts(classes.sea_level) {
        push(measure::height(input), out, Value::Height);
    }
    let day = [
        classes.day_ago,
        classes.day_ahead,
        classes.day_night,
        classes.day_last,
        classes.day_next,
        classes.day_this,
        classes.weekend,
        classes.weekday,
        classes.month,
        classes.ordinal,
        classes.prep_in,
        classes.ytd,
        classes.holiday,
    ];
    if day.into_iter().any(starts) {
        push(date::dated(input), out, Value::Day);
    }
    let clock = [classes.half_past, classes.quarter_past, classes.quarter_to, classes.daypart, classes.noon];
    if clock.into_iter().any(starts) {
        push(clock::clock(input), out, Value::Clock);
    }
    if starts(classes.unit) {
        push(amount::weight(input), out, Value::Weight);
        push(amount::measure(input), out, |(n, measure)| Value::Measure(n, measure));
    }
}

/// `#4`
fn entry_number(input: Tokens<'_>, out: &mut Vec<Ending>) {
    let read = input::mark(Mark::Hash)(input).and_then(|(rest, ())| input::glued_digits(rest));
    if let Ok((rest, (n, _))) = read
        && let Ok(n) = u32::try_from(n)
    {
        out.push((rest.at, Value::Entry(n)));
    }
}
