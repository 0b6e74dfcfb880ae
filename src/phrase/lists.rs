//! Lists of words in a data file: a name, a colon, and entries with commas between them; lines that begin with `#` are
//! comments. Code knows a list by its place in the file.

/// The entries of every list of a file.
pub(super) fn lists(text: &'static str) -> Vec<Vec<&'static str>> {
    let lines = text.lines().filter(|line| !line.starts_with('#')).filter_map(|line| line.split_once(':'));
    lines.map(|(_, all)| all.split(',').map(str::trim).collect()).collect()
}
