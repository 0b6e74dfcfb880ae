//! Where log lines go: standard error, so that results can be piped. Message text is logged at debug level or below
//! only, secrets never.

use std::io::IsTerminal;
use tracing_subscriber::EnvFilter;

/// Starts it with this filter, which the settings have checked. A log that cannot be started is no reason not to work.
pub(super) fn start(filter: &str) {
    let filter = EnvFilter::builder().parse_lossy(filter);
    // Colours are for people at a terminal, not for a service's journal.
    let colours = std::io::stderr().is_terminal();
    let log = tracing_subscriber::fmt().with_env_filter(filter).with_ansi(colours).with_writer(std::io::stderr);
    let _ = log.try_init();
}
