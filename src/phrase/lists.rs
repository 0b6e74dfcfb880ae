//! Lists of words in a data file: a name, a colon, and entries with commas between them; lines that begin with `#` are
//! comments. Code knows a list by its place in the file.

/// The entries of every list of a file.
pub(super) fn lists(text: &'static str) -> Vec<Vec<&'static str>> {
    let lines = text.lines().filter(|line| !line.starts_with('#')).filter_map(|line| line.split_once(':'));
    lines.map(|(_, all)| all.split(',').map(str::trim).collect()).collect()
}

/// Words to look the entries of a list up in: in lower case and without apostrophes, a space before and behind each.
#[derive(Clone)]
pub(super) struct Words(String);

impl Words {
    pub(super) fn of(text: &str) -> Self {
        let plain = text.chars().filter(|c| !matches!(c, '\'' | '\u{2019}'));
        let plain: String = plain.map(|c| if c.is_alphanumeric() { c } else { ' ' }).collect();
        let words: Vec<String> = plain.split_whitespace().map(str::to_lowercase).collect();
        Self(format!(" {} ", words.join(" ")))
    }

    /// Whether one of the entries is among them.
    pub(super) fn have(&self, entries: &[&str]) -> bool {
        entries.iter().any(|entry| self.0.contains(&format!(" {entry} ")))
    }

    /// Whether they begin with one of the entries.
    pub(super) fn start(&self, entries: &[&str]) -> bool {
        entries.iter().any(|entry| self.0.starts_with(&format!(" {entry} ")))
    }

    /// Whether they are one of the entries.
    pub(super) fn are(&self, entries: &[&str]) -> bool {
        entries.contains(&self.0.trim())
    }

    /// All but the entries, the longest taken away first.
    pub(super) fn without(&self, entries: &[&str]) -> Self {
        let mut entries = entries.to_vec();
        entries.sort_by_key(|entry| std::cmp::Reverse(entry.len()));
        Self(entries.iter().fold(self.0.clone(), |words, entry| words.replace(&format!(" {entry} "), " ")))
    }

    pub(super) fn is_empty(&self) -> bool {
        self.0.trim().is_empty()
    }

    pub(super) fn iter(&self) -> impl Iterator<Item = &str> {
        self.0.split_whitespace()
    }
}
