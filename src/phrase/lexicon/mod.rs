//! What words can mean. `english/*.txt` holds every word and name with its senses; here they are loaded, checked and
//! looked up.
//!
//! A line of a data file is `path: name, name of several words, …`; a `*` behind a name adds the same with an s, `**`
//! with es. A name may have any number of senses, all of which are kept: which one is meant, the reading of the whole
//! decides. The names that the process tables print are names of their products too.
//!
//! A word that no file has is looked for among the ordinary words of the language, and if it is none of them, among the
//! misspellings of the trade's words ([`spelling`]).

mod mistake;
pub(super) mod ordinary;
mod read;
pub(super) mod sense;
mod spelling;
mod word;
mod words;

pub use mistake::Mistake;
pub(super) use word::{Hit, Spellings, WordId, is_hyphen, letters_of};
pub(super) use words::Words;
