//! The name of a crop that the program knows nothing else about.

/// A short name that is copied like a number: at most [`CropName::LONGEST`] bytes, the words beyond that are dropped.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct CropName {
    bytes: [u8; Self::LONGEST],
    len: u8,
}

impl CropName {
    /// Longest name, in bytes.
    pub const LONGEST: usize = 31;

    /// From a name in lower case.
    pub fn new(name: &str) -> Self {
        let fits = |end: &usize| *end <= Self::LONGEST;
        let words = name.match_indices(' ').map(|(at, _)| at).chain([name.len()]).rfind(fits);
        let letters = name.char_indices().map(|(at, c)| at + c.len_utf8()).rfind(fits);
        let kept = name.get(..words.or(letters).unwrap_or(0)).unwrap_or_default();
        let mut bytes = [0; Self::LONGEST];
        bytes.iter_mut().zip(kept.bytes()).for_each(|(to, from)| *to = from);
        Self { bytes, len: kept.len() as u8 }
    }

    /// The name.
    pub fn as_str(&self) -> &str {
        self.bytes.get(..usize::from(self.len)).and_then(|bytes| std::str::from_utf8(bytes).ok()).unwrap_or_default()
    }
}

impl std::fmt::Debug for CropName {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{:?}", self.as_str())
    }
}
