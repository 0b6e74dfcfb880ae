//! Where log lines go: standard error, so that results can be piped. Message text is logged at debug level or below only,
//! secrets never.

use tracing_subscriber::EnvFilter;

/// Starts it with this filter, which the settings have checked. A log that cannot be started is no reason not to work.
pub(super) fn start(filter: &str) {
    let filter = EnvFilter::builder().parse_lossy(filter);
    let _ = tracing_subscriber::fmt().with_env_filter(filter).with_writer(std::io::stderr).try_init();
}
