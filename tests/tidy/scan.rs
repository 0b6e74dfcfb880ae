//! Rust as text: where comments, literals and attributes stand, how long functions are, and what a file imports.

/// A source file without its test modules.
pub(crate) struct Source {
    /// Below `src`: `phrase/lex.rs`.
    pub(crate) name: String,
    /// Its letters, with blanks for comments, literals and attributes.
    pub(crate) code: String,
    /// Its text and character literals.
    pub(crate) literals: Vec<Literal>,
}

/// A text or a character that stands in the code.
pub(crate) struct Literal {
    /// Its line.
    pub(crate) line: usize,
    /// Its letters.
    pub(crate) text: String,
    /// Whether what parses values is told it: `context("mass", …)`, `input.fail("mass")`.
    pub(crate) names_a_rule: bool,
}

/// A function: its name, its first line and how many it has.
pub(crate) type Function = (String, usize, usize);

impl Source {
    /// Takes a file apart.
    pub(crate) fn new(name: String, text: &str) -> Self {
        let text = text.split("\n#[cfg(test)]").next().unwrap_or_default();
        let letters: Vec<char> = text.chars().collect();
        let mut scan = Scan { letters: &letters, at: 0, code: String::with_capacity(text.len()), literals: Vec::new() };
        scan.run();
        let (code, literals) = (scan.code, scan.literals);
        Self { name, code, literals }
    }

    /// The path of its module: `["phrase", "lex"]`.
    pub(crate) fn module(&self) -> Vec<String> {
        let path = self.name.trim_end_matches(".rs");
        path.strip_suffix("/mod").unwrap_or(path).split('/').map(str::to_owned).collect()
    }

    /// Its functions; one that stands in another counts for both.
    pub(crate) fn functions(&self) -> Vec<Function> {
        let mut functions = Vec::new();
        for (at, _) in self.code.match_indices("fn ") {
            if self.code[..at].ends_with(|c: char| c.is_alphanumeric() || c == '_') {
                continue;
            }
            let rest = &self.code[at + 3..];
            let name: String = rest.chars().take_while(|c| c.is_alphanumeric() || *c == '_').collect();
            if let Some(end) = body_end(rest) {
                let line = |at: usize| self.code[..at].matches('\n').count() + 1;
                functions.push((name, line(at), line(at + 3 + end) - line(at) + 1));
            }
        }
        functions
    }

    /// Every path of the crate that it names, from the crate's root; `children` are the modules right below its own.
    pub(crate) fn paths(&self, children: &[String]) -> Vec<Vec<String>> {
        let own = self.module();
        let code = self.code.replace("(in super", "(in_super").replace("$crate", "crate");
        let mut all = Vec::new();
        let word = |c: char| c.is_alphanumeric() || c == '_';
        let mut at = 0;
        while let Some(found) = code[at..].find(word).map(|found| at + found) {
            let end = code[found..].find(|c| !word(c)).map_or(code.len(), |end| found + end);
            at = end;
            let first = &code[found..end];
            let heads = ["crate", "super", "self"].contains(&first) || children.iter().any(|child| child == first);
            if !heads || !code[end..].starts_with("::") || code[..found].ends_with("::") {
                continue;
            }
            let mut paths = Vec::new();
            at = tree(&code, found, &[], &mut paths);
            all.extend(paths.iter().filter_map(|path| absolute(&own, path)));
        }
        all
    }
}

/// A path from the root of the crate.
fn absolute(own: &[String], path: &[String]) -> Option<Vec<String>> {
    let mut base = own.to_vec();
    let mut rest = path;
    match path.first()?.as_str() {
        "crate" => {
            base.clear();
            rest = &path[1..];
        }
        _ => {
            while let Some((first, tail)) =
                rest.split_first().filter(|(first, _)| *first == "super" || *first == "self")
            {
                if first == "super" {
                    base.pop();
                }
                rest = tail;
            }
        }
    }
    base.extend(rest.iter().filter(|part| *part != "self").cloned());
    Some(base)
}

/// Reads a path, or a tree of paths in braces, from a place on; the place behind it.
fn tree(code: &str, from: usize, before: &[String], out: &mut Vec<Vec<String>>) -> usize {
    let mut path = before.to_vec();
    let mut at = from;
    loop {
        at += code[at..].len() - code[at..].trim_start().len();
        if code[at..].starts_with('{') {
            at += 1;
            while !code[at..].starts_with('}') && at < code.len() {
                at = tree(code, at, &path, out);
                at += code[at..].find([',', '}']).unwrap_or(code.len() - at);
                at += usize::from(code[at..].starts_with(','));
                at += code[at..].len() - code[at..].trim_start().len();
            }
            return at + 1;
        }
        let end = code[at..].find(|c: char| !(c.is_alphanumeric() || c == '_')).map_or(code.len(), |end| at + end);
        if end > at {
            path.push(code[at..end].to_owned());
        }
        at = end;
        if !code[at..].starts_with("::") {
            out.push(path);
            return at;
        }
        at += 2;
    }
}

/// Where the body of a function ends, from behind the word `fn`; `None` where it has no body.
fn body_end(code: &str) -> Option<usize> {
    let (mut brackets, mut braces) = (0_i32, 0_i32);
    if code.starts_with('(') {
        return None;
    }
    for (at, c) in code.char_indices() {
        match c {
            '(' | '[' => brackets += 1,
            ')' | ']' => brackets -= 1,
            ';' if brackets == 0 && braces == 0 => return None,
            '{' => braces += 1,
            '}' => {
                braces -= 1;
                if braces == 0 {
                    return Some(at);
                }
            }
            _ => {}
        }
    }
    None
}

struct Scan<'a> {
    letters: &'a [char],
    at: usize,
    code: String,
    literals: Vec<Literal>,
}

impl Scan<'_> {
    fn run(&mut self) {
        while let Some(c) = self.peek(0) {
            let before = self.at.checked_sub(1).map(|n| self.letters[n]);
            let starts_word = !before.is_some_and(|c| c.is_alphanumeric() || c == '_');
            match c {
                '/' if self.peek(1) == Some('/') => self.blank_while(|scan| scan.peek(0) != Some('\n')),
                '/' if self.peek(1) == Some('*') => {
                    let mut last = (' ', ' ');
                    self.blank_while(|scan| {
                        last = (last.1, scan.letters[scan.at.saturating_sub(1)]);
                        last != ('*', '/')
                    });
                }
                '#' if self.peek(1) == Some('[') || self.peek(1) == Some('!') && self.peek(2) == Some('[') => {
                    self.attribute();
                }
                'b' if starts_word && matches!(self.peek(1), Some('"' | '\'')) => self.keep(' '),
                'r' if starts_word && self.is_raw() => self.raw(),
                '"' => self.text('"'),
                '\'' if self.peek(1) == Some('\\') || self.peek(2) == Some('\'') => self.text('\''),
                c => self.keep(c),
            }
        }
    }

    fn peek(&self, ahead: usize) -> Option<char> {
        self.letters.get(self.at + ahead).copied()
    }

    fn keep(&mut self, c: char) {
        self.code.push(c);
        self.at += 1;
    }

    /// Passes over a letter that is no code; lines stay lines.
    fn blank(&mut self) {
        let c = if self.peek(0) == Some('\n') { '\n' } else { ' ' };
        self.keep(c);
    }

    fn blank_while(&mut self, mut more: impl FnMut(&Self) -> bool) {
        while self.at < self.letters.len() && more(self) {
            self.blank();
        }
    }

    fn attribute(&mut self) {
        let mut depth = 0;
        while let Some(c) = self.peek(0) {
            if c == '"' {
                let literals = self.literals.len();
                self.text('"');
                self.literals.truncate(literals);
                continue;
            }
            self.blank();
            depth += i32::from(c == '[') - i32::from(c == ']');
            if c == ']' && depth == 0 {
                return;
            }
        }
    }

    /// A literal that begins here.
    fn literal(&self) -> Literal {
        let line = self.code.matches('\n').count() + 1;
        let code = self.code.trim_end();
        Literal { line, text: String::new(), names_a_rule: code.ends_with("fail(") || code.ends_with("context(") }
    }

    fn is_raw(&self) -> bool {
        let hashes = self.letters[self.at + 1..].iter().take_while(|c| **c == '#').count();
        self.peek(1 + hashes) == Some('"')
    }

    fn raw(&mut self) {
        let hashes = self.letters[self.at + 1..].iter().take_while(|c| **c == '#').count();
        let mut literal = self.literal();
        (0..hashes + 2).for_each(|_| self.blank());
        let end: Vec<char> = std::iter::once('"').chain(std::iter::repeat_n('#', hashes)).collect();
        while self.at < self.letters.len() && !self.letters[self.at..].starts_with(&end) {
            literal.text.extend(self.peek(0));
            self.blank();
        }
        (0..=hashes).for_each(|_| self.blank());
        self.literals.push(literal);
    }

    /// A literal between two of the same sign.
    fn text(&mut self, sign: char) {
        let mut literal = self.literal();
        self.blank();
        while let Some(c) = self.peek(0).filter(|c| *c != sign) {
            if c == '\\' {
                self.blank();
                let unicode = self.peek(0) == Some('u');
                self.blank();
                if unicode {
                    self.blank_while(|scan| scan.letters[scan.at - 1] != '}');
                }
                literal.text.push(' ');
                continue;
            }
            literal.text.push(c);
            self.blank();
        }
        self.blank();
        self.literals.push(literal);
    }
}
