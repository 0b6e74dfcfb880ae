//! Numbers as people write them.

use super::super::lex::{Mark, Shape};
use super::input::{Read, Tokens, digits, glued_digits, glued_mark, hyphen, mark, number_word, once, sense, vulgar};
use super::kinds::Figure;
use crate::quantity::Number;
use nom::Parser;
use nom::branch::alt;
use nom::combinator::{map_opt, opt, verify};
use nom::error::context;
use nom::sequence::{pair, preceded, terminated};

/// A number, exact or a range, with what makes it rough before and behind it.
pub(in super::super) fn figure(input: Tokens<'_>) -> Read<'_, Figure> {
    once(input, |kept| &kept.figure, rough_or_exact)
}

fn rough_or_exact(input: Tokens<'_>) -> Read<'_, Figure> {
    let rough = |i| opt(alt((tilde, sense_of_approx))).parse(i);
    context("figure", alt((between, preceded(rough, alt((range, single)))))).parse(input)
}

fn tilde(input: Tokens<'_>) -> Read<'_, ()> {
    mark(Mark::Tilde)(input)
}

fn sense_of_approx(input: Tokens<'_>) -> Read<'_, ()> {
    let approx = input.classes().approx;
    let (rest, _) = sense(approx)(input)?;
    // `a good about 12`: at most two of them.
    let (rest, _) = opt(sense(approx)).parse(rest)?;
    Ok((rest, ()))
}

/// `between 15 and 20`: the middle.
fn between(input: Tokens<'_>) -> Read<'_, Figure> {
    let classes = input.classes();
    let (rest, low) = preceded(sense(classes.between), single).parse(input)?;
    let (rest, high) = preceded(sense(classes.and), single).parse(rest)?;
    let middle = Number::new(1, 2).and_then(|half| low.number.checked_add(high.number)?.checked_mul(half));
    match middle {
        Some(number) => Ok((rest, Figure { range: true, ..Figure::of(number) })),
        None => input.fail(),
    }
}

/// `15-20`, `15 to 20`, `5 or 6`: the middle.
fn range(input: Tokens<'_>) -> Read<'_, Figure> {
    let classes = input.classes();
    let between = |i| {
        alt((
            |i| mark(Mark::Dash)(i),
            |i| sense(classes.clock_to)(i).map(|(rest, _)| (rest, ())),
            |i| sense(classes.prep_to)(i).map(|(rest, _)| (rest, ())),
            |i| sense(classes.or)(i).map(|(rest, _)| (rest, ())),
        ))
        .parse(i)
    };
    let (rest, low) = single(input)?;
    let (rest, ()) = between(rest)?;
    let (rest, high) = single(rest)?;
    let twice = low.number.checked_add(high.number);
    let middle = Number::new(1, 2).and_then(|half| twice?.checked_mul(half));
    match middle {
        // `7-1/2` is no range, nor is a year or a label.
        Some(number)
            if low.number.as_f64() < high.number.as_f64()
                && high.number.as_f64() <= 4.0 * low.number.as_f64().max(2.0) =>
        {
            Ok((rest, Figure { range: true, ..Figure::of(number) }))
        }
        _ => input.fail(),
    }
}

/// `picked for pounds`: a number as dictation hears it, right behind a deed and before what it counts.
pub(in super::super) fn heard(input: Tokens<'_>) -> Read<'_, Figure> {
    let classes = input.classes();
    // `had to bin`, `back to pounds`: a word that is small as well is no deed that is counted.
    let deed = input.at.checked_sub(1).is_some_and(|before| {
        let hits = input.known.hits_at(before);
        let small = hits.iter().any(|hit| classes.small.has(hit.sense));
        !small && hits.iter().any(|hit| classes.deed.has(hit.sense) && !hit.repaired)
    });
    let (rest, n) = number_word(classes.heard)(input)?;
    let counts = sense(classes.unit_mass)(rest).is_ok()
        || sense(classes.container)(rest).is_ok()
        || sense(classes.jar)(rest).is_ok();
    if deed && counts { Ok((rest, Figure::of(Number::whole(n)))) } else { input.fail() }
}

/// One number.
pub(in super::super) fn single(input: Tokens<'_>) -> Read<'_, Figure> {
    once(input, |kept| &kept.single, exact)
}

fn exact(input: Tokens<'_>) -> Read<'_, Figure> {
    match input.first().map(|token| token.shape) {
        Some(Shape::Digits(..)) => {
            alt((|i| dozened(mixed, i), ratio, grouped, decimal, said_point, digit_dozens, whole)).parse(input)
        }
        Some(Shape::Vulgar(..)) => vulgar_alone(input),
        Some(Shape::Mark(Mark::Dot)) => point_first(input),
        Some(Shape::Word) if begins(input) => spelled(input),
        _ => input.fail(),
    }
}

/// Whether a word is one with which a number in words begins; most words are not.
fn begins(input: Tokens<'_>) -> bool {
    let classes = input.classes();
    let first = [classes.num, classes.heard, classes.article];
    input.hits().iter().any(|hit| first.iter().any(|class| class.has(hit.sense)))
}

/// `2 1/2 dozen`, `two and a half dozen`: what a rule reads, and so many dozens where they are said behind it.
fn dozened<'a>(rule: impl Fn(Tokens<'a>) -> Read<'a, Figure>, input: Tokens<'a>) -> Read<'a, Figure> {
    let (rest, figure) = rule(input)?;
    let Ok((after, dozen)) = number_word(input.classes().dozen)(rest) else { return Ok((rest, figure)) };
    match figure.number.checked_mul(Number::whole(dozen)) {
        Some(number) => Ok((after, Figure::of(number))),
        None => input.fail(),
    }
}

/// `2 dozen`
fn digit_dozens(input: Tokens<'_>) -> Read<'_, Figure> {
    let (rest, n) = whole(input)?;
    let (rest, dozen) = number_word(input.classes().dozen)(rest)?;
    match n.number.checked_mul(Number::whole(dozen)) {
        Some(number) => Ok((rest, Figure::of(number))),
        None => input.fail(),
    }
}

fn whole(input: Tokens<'_>) -> Read<'_, Figure> {
    let (rest, (value, _)) = digits(input)?;
    match i64::try_from(value) {
        Ok(value) => Ok((rest, Figure::of(Number::whole(value)))),
        Err(_) => input.fail(),
    }
}

/// `7½`, `7 1/2`, `7-1/2`, `7 and a half`.
fn mixed(input: Tokens<'_>) -> Read<'_, Figure> {
    let classes = input.classes();
    let (rest, n) = whole(input)?;
    let sign = |i| preceded(hyphen, vulgar).parse(i).map(|(rest, (a, b))| (rest, (i64::from(a), i64::from(b))));
    let line = |i| {
        let (rest, ((above, _), (), (below, _))) =
            (preceded(hyphen, digits), glued_mark(Mark::Slash), glued_digits).parse(i)?;
        match (i64::try_from(above), i64::try_from(below)) {
            (Ok(above), Ok(below)) if above < below && below <= 16 => Ok((rest, (above, below))),
            _ => i.fail(),
        }
    };
    let spelled = |i| preceded(sense(classes.and), preceded(opt(sense(classes.article)), fraction_word)).parse(i);
    let (rest, (above, below)) = alt((sign, line, spelled)).parse(rest)?;
    match Number::new(above, below).and_then(|part| n.number.checked_add(part)) {
        Some(number) => Ok((rest, Figure::of(number))),
        None => input.fail(),
    }
}

/// `1/2`, `3/4`.
fn ratio(input: Tokens<'_>) -> Read<'_, Figure> {
    let (rest, ((above, _), (), (below, _))) = (digits, glued_mark(Mark::Slash), glued_digits).parse(input)?;
    match (i64::try_from(above), i64::try_from(below)) {
        (Ok(above), Ok(below)) if above < below && below <= 16 => match Number::new(above, below) {
            Some(number) => Ok((rest, Figure::of(number))),
            None => input.fail(),
        },
        _ => input.fail(),
    }
}

/// `1,150`, `2.400`, `1,150,000`: three digits behind a comma or dot.
fn grouped(input: Tokens<'_>) -> Read<'_, Figure> {
    let (rest, (head, count)) = digits(input)?;
    let (rest, dotted) = alt((
        |i| glued_mark(Mark::Comma)(i).map(|(rest, ())| (rest, false)),
        |i| glued_mark(Mark::Dot)(i).map(|(rest, ())| (rest, true)),
    ))
    .parse(rest)?;
    let three = |i| verify(glued_digits, |(_, count)| *count == 3).parse(i);
    let (rest, (tail, _)) = three(rest)?;
    // `0.125` is no number of thousands.
    let head = i64::try_from(head).ok().filter(|head| count <= 3 && *head > 0);
    let (Some(head), Ok(tail)) = (head, i64::try_from(tail)) else { return input.fail() };
    let large = head * 1000 + tail;
    // With more than one comma they can separate nothing but thousands.
    if !dotted && let Ok((rest, (last, _))) = preceded(glued_mark(Mark::Comma), three).parse(rest) {
        return Ok((rest, Figure::of(Number::whole(large * 1000 + last as i64))));
    }
    match Number::new(tail, 1000).and_then(|part| Number::whole(head).checked_add(part)) {
        Some(small) if dotted => Ok((rest, Figure { other: Some(Number::whole(large)), dotted, ..Figure::of(small) })),
        Some(small) => Ok((rest, Figure { other: Some(small), ..Figure::of(Number::whole(large)) })),
        None => input.fail(),
    }
}

/// `6.5`, `6,5`.
fn decimal(input: Tokens<'_>) -> Read<'_, Figure> {
    let (rest, (head, _)) = digits(input)?;
    let (rest, ()) = alt((glued_mark(Mark::Dot), glued_mark(Mark::Comma))).parse(rest)?;
    let (rest, tail) = glued_digits(rest)?;
    match decimals(head, tail) {
        Some(number) => Ok((rest, Figure::of(number))),
        None => input.fail(),
    }
}

/// `10 point 4`
fn said_point(input: Tokens<'_>) -> Read<'_, Figure> {
    let (rest, (head, _)) = digits(input)?;
    let (rest, _) = sense(input.classes().point)(rest)?;
    let (rest, tail) = digits(rest)?;
    match decimals(head, tail) {
        Some(number) => Ok((rest, Figure::of(number))),
        None => input.fail(),
    }
}

/// `.5`
fn point_first(input: Tokens<'_>) -> Read<'_, Figure> {
    let (rest, tail) = preceded(mark(Mark::Dot), glued_digits).parse(input)?;
    match decimals(0, tail) {
        Some(number) if !input.is_glued() => Ok((rest, Figure::of(number))),
        _ => input.fail(),
    }
}

fn decimals(head: u64, (tail, count): (u64, u8)) -> Option<Number> {
    let below = 10_i64.checked_pow(u32::from(count)).filter(|_| count <= MOST_DECIMALS)?;
    Number::whole(i64::try_from(head).ok()?).checked_add(Number::new(i64::try_from(tail).ok()?, below)?)
}

fn vulgar_alone(input: Tokens<'_>) -> Read<'_, Figure> {
    let number = |(above, below): (u8, u8)| Number::new(above.into(), below.into()).map(Figure::of);
    map_opt(vulgar, number).parse(input)
}

/// `half`, `a half`, `three quarters`, `one third`, `a quarter of`.
fn fraction_word(input: Tokens<'_>) -> Read<'_, (i64, i64)> {
    let classes = input.classes();
    let (rest, above) = opt(terminated(number_word(classes.ones), hyphen)).parse(input)?;
    let (rest, below) = number_word(classes.part)(rest)?;
    match above {
        None => Ok((rest, (1, below))),
        Some(above) if (1..below).contains(&above) => Ok((rest, (above, below))),
        Some(_) => input.fail(),
    }
}

fn spelled(input: Tokens<'_>) -> Read<'_, Figure> {
    alt((another, heard, dozens, |i| dozened(spelled_mixed, i), spelled_fraction, spelled_point, spelled_whole))
        .parse(input)
}

/// `seven and a half`, `two and three quarters`.
fn spelled_mixed(input: Tokens<'_>) -> Read<'_, Figure> {
    let classes = input.classes();
    let tail = preceded(sense(classes.and), preceded(opt(sense(classes.article)), fraction_word));
    let number = |(n, (above, below)): (i64, (i64, i64))| {
        Number::whole(n).checked_add(Number::new(above, below)?).map(Figure::of)
    };
    map_opt(pair(hundreds, tail), number).parse(input)
}

fn spelled_fraction(input: Tokens<'_>) -> Read<'_, Figure> {
    let classes = input.classes();
    // `a third`, but not `a quart`: the article belongs to the fraction.
    let number = |(above, below)| Number::new(above, below).map(Figure::of);
    map_opt(preceded(opt(sense(classes.article)), fraction_word), number).parse(input)
}

/// `six point five`, `six point two five`, `six point twenty-five`.
fn spelled_point(input: Tokens<'_>) -> Read<'_, Figure> {
    let classes = input.classes();
    let (rest, head) = hundreds(input)?;
    let (rest, _) = sense(classes.point)(rest)?;
    let in_words = |i| verify(hundreds, |n| (10..100).contains(n)).parse(i).map(|(rest, n)| (rest, (n as u64, 2)));
    let (rest, tail) = alt((one_by_one, in_words, digits)).parse(rest)?;
    match decimals(head.unsigned_abs(), tail) {
        Some(number) => Ok((rest, Figure::of(number))),
        None => input.fail(),
    }
}

/// Digits that are said one by one: what they make, and how many they are.
fn one_by_one(input: Tokens<'_>) -> Read<'_, (u64, u8)> {
    let digit = |i| verify(number_word(input.classes().ones), |n| (0..10).contains(n)).parse(i);
    let (mut rest, first) = digit(input)?;
    let (mut value, mut count) = (first as u64, 1);
    while count < MOST_DECIMALS
        && let Ok((after, next)) = digit(rest)
    {
        (rest, value, count) = (after, value * 10 + next as u64, count + 1);
    }
    Ok((rest, (value, count)))
}

/// So many decimals a number has at most.
const MOST_DECIMALS: u8 = 6;

/// `a dozen`, `two dozen`, `half a dozen`, `a half dozen`.
fn dozens(input: Tokens<'_>) -> Read<'_, Figure> {
    let classes = input.classes();
    let half = |i| {
        let (rest, _) = opt(sense(classes.article)).parse(i)?;
        number_word(classes.part)(rest).map(|(rest, below)| (rest, Number::new(1, below)))
    };
    let some = |i| hundreds(i).map(|(rest, n)| (rest, Some(Number::whole(n))));
    let article = |i| sense(classes.article)(i).map(|(rest, _)| (rest, Some(Number::whole(1))));
    let (rest, times) = opt(alt((half, some, article))).parse(input)?;
    let (rest, n) = number_word(classes.dozen)(rest)?;
    let times = times.unwrap_or(Some(Number::whole(1)));
    match times.and_then(|times| times.checked_mul(Number::whole(n))) {
        Some(number) => Ok((rest, Figure::of(number))),
        None => input.fail(),
    }
}

fn spelled_whole(input: Tokens<'_>) -> Read<'_, Figure> {
    alt((another, |i| hundreds(i).map(|(rest, n)| (rest, Figure::of(Number::whole(n)))))).parse(input)
}

/// `another 3` is three, `another bag` one.
fn another(input: Tokens<'_>) -> Read<'_, Figure> {
    let (rest, _) = sense(input.classes().another)(input)?;
    match single(rest) {
        Ok((rest, figure)) => Ok((rest, figure)),
        Err(_) => Ok((rest, Figure { article: true, ..Figure::of(Number::whole(1)) })),
    }
}

/// A whole number, in digits or words: neither a fraction nor a decimal.
pub(in super::super) fn counting(input: Tokens<'_>) -> Read<'_, i64> {
    let digits = |i| {
        let (rest, figure) = whole(i)?;
        match figure.number.as_whole() {
            Some(n) => Ok((rest, n)),
            None => i.fail(),
        }
    };
    alt((digits, hundreds)).parse(input)
}

/// Whole numbers in words: `twenty-two`, `a hundred and ten`, `seven hundred`, `two thousand four hundred`.
fn hundreds(input: Tokens<'_>) -> Read<'_, i64> {
    once(input, |kept| &kept.hundreds, in_words)
}

fn in_words(input: Tokens<'_>) -> Read<'_, i64> {
    let classes = input.classes();
    let (mut rest, mut sum) = match below_hundred(input) {
        Ok(found) => found,
        Err(fault) => {
            let (rest, _) = opt(sense(classes.article)).parse(input)?;
            if number_word(classes.scale)(rest).is_err() {
                return Err(fault);
            }
            (rest, 1)
        }
    };
    // What is complete, and the hundreds of what is not yet: `two hundred thousand`, `two thousand four hundred`.
    let (mut total, mut hundreds) = (0_i64, 0_i64);
    while let Ok((after, scale)) = number_word(classes.scale)(rest) {
        let thousands = scale >= 1_000;
        // `two hundred hundred` are two numbers, if they are any.
        if thousands && (total > 0 || hundreds + sum == 0) || !thousands && (hundreds > 0 || sum == 0) {
            break;
        }
        if thousands {
            (total, hundreds) = ((hundreds + sum) * scale, 0);
        } else {
            hundreds = sum * scale;
        }
        sum = 0;
        rest = after;
        let (joined, _) = opt(sense(classes.and)).parse(rest)?;
        let (joined, ()) = hyphen(joined)?;
        if let Ok((after, n)) = below_hundred(joined) {
            // `two hundred and three lb`, but `a hundred and 3 bags` are two things.
            (rest, sum) = (after, n);
        }
    }
    Ok((rest, total + hundreds + sum))
}

fn below_hundred(input: Tokens<'_>) -> Read<'_, i64> {
    let classes = input.classes();
    if let Ok((rest, tens)) = number_word(classes.tens)(input) {
        let (joined, ()) = hyphen(rest)?;
        return Ok(match number_word(classes.ones)(joined) {
            Ok((after, ones)) if (1..10).contains(&ones) => (after, tens + ones),
            _ => (rest, tens),
        });
    }
    let (start, _) = opt(verify(sense(classes.article), |_| true)).parse(input)?;
    let counted = |i| verify(number_word(classes.ones), |n| *n < 20).parse(i);
    match counted(input) {
        Ok(found) => Ok(found),
        // `a couple`: two.
        Err(_) => verify(counted, |n| *n == 2).parse(start),
    }
}
