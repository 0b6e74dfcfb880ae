//! Plain words as HTML. Everything in them is escaped, so nothing that anybody typed becomes markup. Lines that are a
//! table or a list as they stand become one; a client that shows no tables still shows every cell with what separates
//! it.

/// The least lines that make a table or a list; two read well as they are.
const LEAST: usize = 3;

/// The widest first column, in characters: beyond it a colon is one of a sentence.
const WIDEST: usize = 40;

/// The longest cell, in characters: beyond it a line reads better across the whole screen of a phone.
const LONGEST: usize = 120;

/// What a line is part of.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Shape {
    Words,
    /// `what: how much`, or columns set apart by two spaces or more.
    Row,
    /// `- item`.
    Item,
}

/// The words as HTML.
pub(super) fn html(text: &str) -> String {
    let lines: Vec<&str> = text.lines().collect();
    let mut blocks: Vec<String> = Vec::new();
    // Whether the block before ends without a line break of its own.
    let mut open = false;
    for run in lines.chunk_by(|a, b| shape(a) == shape(b)) {
        let kind = run.first().map_or(Shape::Words, |line| shape(line));
        let made = match kind {
            Shape::Row if run.len() >= LEAST => Some(table(run)),
            Shape::Item if run.len() >= LEAST => Some(list(run)),
            _ => None,
        };
        match made {
            Some(block) => {
                blocks.push(block);
                open = false;
            }
            None => {
                let words: Vec<_> = run.iter().map(|line| escape(line)).collect();
                blocks.push(format!("{}{}", if open { "<br>" } else { "" }, words.join("<br>")));
                open = true;
            }
        }
    }
    blocks.concat()
}

fn shape(line: &str) -> Shape {
    if item(line).is_some() {
        Shape::Item
    } else if cells(line).len() > 1 {
        Shape::Row
    } else {
        Shape::Words
    }
}

fn item(line: &str) -> Option<&str> {
    let line = line.trim_start();
    ["- ", "• ", "· ", "* "].iter().find_map(|dash| line.strip_prefix(dash))
}

/// The cells of a line, each with the sign that ends it.
fn cells(line: &str) -> Vec<&str> {
    let line = line.trim();
    let columns: Vec<_> = line.split("  ").map(str::trim).filter(|cell| !cell.is_empty()).collect();
    if columns.len() > 1 {
        return columns;
    }
    match line.split_once(": ") {
        Some((what, how)) if !what.is_empty() && what.chars().count() <= WIDEST && is_short(how) => {
            let (first, _) = line.split_at(what.len() + 1);
            vec![first, how.trim()]
        }
        _ => vec![line],
    }
}

/// Whether words fit into a cell: one sentence at most, and no long one.
fn is_short(words: &str) -> bool {
    let starts = |rest: &str| rest.starts_with(char::is_uppercase);
    words.chars().count() <= LONGEST && !words.split(". ").skip(1).any(starts)
}

fn table(lines: &[&str]) -> String {
    let row = |line: &&str| {
        let cells: Vec<_> = cells(line).into_iter().map(|cell| format!("<td>{}</td>", escape(cell))).collect();
        format!("<tr>{}</tr>", cells.join(" "))
    };
    let rows: Vec<_> = lines.iter().map(row).collect();
    format!("<table>\n{}\n</table>", rows.join("\n"))
}

fn list(lines: &[&str]) -> String {
    let items = lines.iter().filter_map(|line| item(line)).map(|item| format!("<li>{}</li>", escape(item)));
    format!("<ul>\n{}\n</ul>", items.collect::<Vec<_>>().join("\n"))
}

fn escape(words: &str) -> String {
    html_escape::encode_text(words).into_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_few_lines_stay_lines() {
        assert_eq!(html("Froze 7 lb.\nThe freezer holds: 14 lb"), "Froze 7 lb.<br>The freezer holds: 14 lb");
        assert_eq!(html(""), "");
        assert_eq!(html("a: 1\nb: 2"), "a: 1<br>b: 2");
    }

    #[test]
    fn many_lines_of_one_shape_are_a_table_with_words_before_and_after() {
        assert_eq!(
            html("This year:\npicked: 155 lb\nfrozen: 132 lb\neaten: 6 lb\nA good year."),
            "This year:<table>\n<tr><td>picked:</td> <td>155 lb</td></tr>\n<tr><td>frozen:</td> <td>132 lb</td></tr>\n\
             <tr><td>eaten:</td> <td>6 lb</td></tr>\n</table>A good year."
        );
        assert_eq!(
            html("jar    7  40\npint   9  35\nquart  7  40"),
            "<table>\n<tr><td>jar</td> <td>7</td> <td>40</td></tr>\n<tr><td>pint</td> <td>9</td> <td>35</td></tr>\n\
             <tr><td>quart</td> <td>7</td> <td>40</td></tr>\n</table>"
        );
        assert_eq!(html("- a\n- b\n- <c>"), "<ul>\n<li>a</li>\n<li>b</li>\n<li>&lt;c&gt;</li>\n</ul>");
    }

    #[test]
    fn a_clock_time_is_no_column_and_a_log_is_a_table_by_its_first_colon() {
        let log = "8:05 am on Sat Sep 6: picked 8 lb\n11:00 am: froze 7 lb\n5:30 pm: gave 2 quarts";
        assert!(html(log).contains("<td>8:05 am on Sat Sep 6:</td> <td>picked 8 lb</td>"), "{}", html(log));
    }

    #[test]
    fn sentences_with_a_colon_are_no_table_where_one_is_long_or_another_follows() {
        let long = format!("Source: {}\nAcid: 2 tablespoons\nNext: fill the jars", "a table ".repeat(20));
        assert!(!html(&long).contains("<table>"), "{}", html(&long));
        let begun =
            "Batch begun: 7 quarts. Process 45 min.\nSource: a guide.\nAcid: 2 tablespoons. Next: fill the jars.";
        assert!(!html(begun).contains("<table>"), "{}", html(begun));
    }

    #[test]
    fn nothing_that_was_typed_becomes_markup() {
        let hostile = "<b>a</b>: 1\n<script>: 2\n\"><img src=x>: & 3\n- </ul><h1>";
        let made = html(hostile);
        for tag in ["<b>", "<script", "<img", "<h1>"] {
            assert!(!made.contains(tag), "{made}");
        }
    }
}
