//! Text to statements.
