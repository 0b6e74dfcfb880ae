//! The ledger out of the program and back in.
//!
//! ```
//! use rackful::export::{export, import};
//! use rackful::store::MemoryStore;
//! let mut file = Vec::new();
//! export(&MemoryStore::new(), &mut file)?;
//! assert_eq!(String::from_utf8(file.clone())?, "{\"rackful_export\":1,\"commits\":0}\n");
//! assert_eq!(import(&file[..], &mut MemoryStore::new())?.taken, 0);
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```
//!
//! Everything here writes into any writer and reads from any reader; files and terminals are the command line's.

pub mod csv;
mod jsonl;

pub use jsonl::{ExportError, ImportError, Imported, export, export_room, import};
