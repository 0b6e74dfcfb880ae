//! The command line: one file per subcommand, and the rules they share.
//!
//! ```
//! use rackful::cli::{Cli, Command};
//! use clap::Parser;
//! let cli = Cli::try_parse_from(["rackful", "--data", "/tmp/x", "parse", "--json", "froze", "7", "lb"])?;
//! assert!(matches!(cli.command, Command::Parse(_)));
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```
//!
//! Exit codes: 0 well, 1 the work failed, 2 the words of the call are wrong. What is wrong goes to standard error in
//! one plain sentence with what to do next; standard output holds results alone. A reader that goes away early (`|
//! head`) is not an error.
//!
//! Subcommands open things and hand them to the drivers; what a driver does is not known here.

mod calendar;
mod card;
mod chart;
mod chat;
mod check;
mod export;
mod import;
mod labels;
mod logging;
mod move_kitchen;
mod output;
mod parse;
mod places;
mod replay;
mod restore;
mod sentence;
mod serve;

use crate::config::{Config, Environment};
use clap::error::ErrorKind;
use clap::{Parser, Subcommand};
use std::path::PathBuf;
use std::process::ExitCode;

/// Keeps the ledger of a household that puts up more tomatoes than it can eat at once: say what you picked, froze and
/// canned, and it says when the freezer holds a canner load and runs the clock of the batch.
#[derive(Parser, Debug)]
#[command(name = "rackful", version, disable_help_subcommand = true)]
pub struct Cli {
    /// The settings file [default: config/rackful.toml when it exists]
    #[arg(long, global = true, value_name = "FILE")]
    pub config: Option<PathBuf>,
    /// The folder of the store [default: the user's data directory]
    #[arg(long, global = true, value_name = "DIR")]
    pub data: Option<PathBuf>,
    /// What to do.
    #[command(subcommand)]
    pub command: Command,
}

/// The subcommands.
#[derive(Subcommand, Debug)]
pub enum Command {
    /// Talk to it here: type phrases, read replies; alerts appear when due
    Chat(chat::Chat),
    /// Serve rooms on a Matrix homeserver
    Serve(serve::Serve),
    /// Run a script of messages on a virtual clock, one JSON object a line in and out
    Replay(replay::Replay),
    /// Say how a phrase is read
    Parse(parse::Parse),
    /// Write the whole ledger as JSON lines, or tables for a spreadsheet
    Export(export::Export),
    /// Draw a picture of the season, the freezer, the pantry or a batch's day
    Chart(chart::Chart),
    /// Make a sheet of jar labels for a batch
    Labels(labels::Labels),
    /// Make a page for the kitchen wall with what can be said
    Card(card::Card),
    /// Write what is due as a calendar
    Calendar(calendar::Calendar),
    /// Take an exported ledger in
    Import(import::Import),
    /// Say whether `serve` could start, changing nothing
    Check(check::Check),
    /// Put a snapshot of the ledger back
    Restore(restore::Restore),
    /// Carry a room's ledger on in another room
    Move(move_kitchen::Move),
}

/// What every subcommand is handed.
pub(crate) struct Call {
    config: Config,
    /// `--data`, as it was said.
    data: Option<PathBuf>,
}

/// Reads the words of the call, does it, and says how it went.
pub fn main() -> ExitCode {
    let cli = match Cli::try_parse() {
        Ok(cli) => cli,
        Err(error) => return words_are_wrong(&error),
    };
    match run(cli) {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) if is_reader_gone(&error) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("rackful: {error}");
            ExitCode::from(1)
        }
    }
}

fn run(cli: Cli) -> anyhow::Result<()> {
    let lookup = |name: &str| std::env::var_os(name);
    let environment = Environment::of(&lookup);
    let config = Config::load(cli.config.as_deref(), &environment)?;
    let for_all = environment.path("RACKFUL_LOG").is_some();
    let long_running = matches!(cli.command, Command::Serve(_));
    logging::start(if long_running || for_all { &config.log } else { "warn" });
    let call = Call { config, data: cli.data };
    match cli.command {
        Command::Chat(chat) => chat.run(&call),
        Command::Serve(serve) => serve.run(&call),
        Command::Replay(replay) => replay.run(&call),
        Command::Parse(parse) => parse.run(&call),
        Command::Export(export) => export.run(&call),
        Command::Chart(chart) => chart.run(&call),
        Command::Labels(labels) => labels.run(&call),
        Command::Card(card) => card.run(&call),
        Command::Calendar(calendar) => calendar.run(&call),
        Command::Import(import) => import.run(&call),
        Command::Check(check) => check.run(&call),
        Command::Restore(restore) => restore.run(&call),
        Command::Move(kitchen) => kitchen.run(&call),
    }
}

/// Help and version are answers; anything else is one sentence, without the paragraphs of usage.
fn words_are_wrong(error: &clap::Error) -> ExitCode {
    if matches!(error.kind(), ErrorKind::DisplayHelp | ErrorKind::DisplayVersion) {
        // Nobody is left to tell if the terminal is gone.
        let _ = error.print();
        return ExitCode::SUCCESS;
    }
    if error.kind() == ErrorKind::DisplayHelpOnMissingArgumentOrSubcommand {
        let _ = error.print();
        return ExitCode::from(2);
    }
    let text = error.to_string();
    let before_usage = text.split("Usage:").next().unwrap_or_default();
    let sentence = before_usage.trim_start_matches("error:").split_whitespace().collect::<Vec<_>>().join(" ");
    eprintln!("rackful: {}; see rackful --help", sentence.trim_end_matches('.'));
    ExitCode::from(2)
}

/// Whether it failed only because nobody reads any more.
fn is_reader_gone(error: &anyhow::Error) -> bool {
    let source = error.chain().find_map(|cause| cause.downcast_ref::<std::io::Error>());
    source.is_some_and(|error| error.kind() == std::io::ErrorKind::BrokenPipe)
}

#[cfg(test)]
mod tests {
    use super::*;
    use clap::CommandFactory;

    #[test]
    fn the_grammar_of_the_command_line_is_sound() {
        Cli::command().debug_assert();
    }
}
