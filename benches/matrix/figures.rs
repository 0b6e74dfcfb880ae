//! Figures and how they are printed.

use std::time::Duration;

/// A number from the environment.
pub fn number(name: &str) -> Option<usize> {
    std::env::var(name).ok().map(|text| text.parse().unwrap())
}

/// The time that this many of a hundred stay within.
pub fn percentile(sorted: &[Duration], percent: usize) -> Duration {
    sorted[(sorted.len() * percent).div_ceil(100).saturating_sub(1)]
}

/// One line: the program's figure, the other's, their ratio, and what it should be.
pub fn compare(what: &str, unit: &str, ours: f64, theirs: f64, aim: &str) {
    println!("{what:<24} {ours:>9.1} {unit:<3} {theirs:>9.1} {unit:<3} {:>6.3}   {aim}", ours / theirs);
}

/// The head of such lines.
pub fn head(title: &str, other: &str) {
    println!("\n{title}\n{:<24} {:>13} {other:>13} {:>6}   aim", "", "rackful", "ratio");
}

/// A figure of `/proc/PID/status` in MiB: what a process has resident (`VmRSS`), or had at most (`VmHWM`).
pub fn memory(pid: u32, name: &str) -> f64 {
    let status = std::fs::read_to_string(format!("/proc/{pid}/status")).unwrap();
    let line = status.lines().find_map(|line| line.strip_prefix(name)).unwrap();
    let kib: f64 = line.trim_matches([':', ' ', '\t']).split_whitespace().next().unwrap().parse().unwrap();
    kib / 1024.0
}

/// The processor time of a process so far, from `/proc/PID/stat`, which counts in hundredths of a second.
pub fn processor(pid: u32) -> Duration {
    let stat = std::fs::read_to_string(format!("/proc/{pid}/stat")).unwrap();
    let after_name = stat.rsplit(')').next().unwrap();
    let ticks = after_name.split_whitespace().skip(11).take(2).map(|ticks| ticks.parse::<u64>().unwrap());
    Duration::from_millis(10 * ticks.sum::<u64>())
}
