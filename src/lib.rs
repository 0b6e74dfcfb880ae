#![doc = "Rackful: a chat assistant for people who grow more tomatoes than they can eat at once."]

pub mod alert;
pub mod assistant;
pub mod batch;
pub mod cli;
pub mod clock;
pub mod config;
pub mod console;
pub mod desk;
pub mod drawing;
pub mod enclosure;
pub mod export;
pub mod ledger;
pub mod matrix;
pub mod paper;
pub mod phrase;
pub mod picture;
pub mod planning;
pub mod processes;
pub mod quantity;
pub mod replay;
pub mod reply;
pub mod statement;
pub mod store;
pub mod vocabulary;
pub mod zone;
