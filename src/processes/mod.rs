//! The published tables.
