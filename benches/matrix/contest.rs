//! Two bots answer in turns, and somebody keeps the time.

use crate::figures::{compare, head, memory, percentile, processor};
use std::time::{Duration, Instant};

/// So many messages to one bot, then as many to the other.
const BLOCK: usize = 10;

/// Messages to each that are not counted: connections are made and caches filled.
const WARM_UP: usize = 20;

/// Between an answer and the next message. People wait longer; this is enough for a bot to be listening again.
const PAUSE: Duration = Duration::from_millis(25);

/// Says the `n`-th message to a bot and returns when its answer has come.
pub type Ask<'a> = Box<dyn FnMut(usize) + 'a>;

/// A bot in the contest.
pub struct Side<'a> {
    pub ask: Ask<'a>,
    pub pid: u32,
}

/// Has both answer this many messages and prints what that took.
pub fn run(title: &str, messages: usize, ours: Side<'_>, theirs: Side<'_>) {
    let mut sides = [ours, theirs];
    let mut times = [Vec::new(), Vec::new()];
    let mut began = [Duration::ZERO; 2];
    for block in 0..(WARM_UP + messages).div_ceil(BLOCK) {
        if block * BLOCK == WARM_UP {
            began = [processor(sides[0].pid), processor(sides[1].pid)];
        }
        for (side, times) in sides.iter_mut().zip(&mut times) {
            for n in block * BLOCK..(block + 1) * BLOCK {
                let start = Instant::now();
                (side.ask)(n);
                if n >= WARM_UP {
                    times.push(start.elapsed());
                }
                std::thread::sleep(PAUSE);
            }
        }
    }
    head(&format!("{title}: {} messages to each", times[0].len()), "bare echo");
    times.iter_mut().for_each(|times| times.sort());
    for (percent, aim) in [(50, "1.05"), (95, "1.10"), (99, "1.10")] {
        let [ours, theirs] = [&times[0], &times[1]].map(|times| percentile(times, percent).as_secs_f64() * 1e3);
        compare(&format!("reply, p{percent}"), "ms", ours, theirs, aim);
    }
    let [ours, theirs] = [&sides[0], &sides[1]].map(|side| memory(side.pid, "VmRSS"));
    compare("resident", "MiB", ours, theirs, "1.2");
    let used = |side: usize| (processor(sides[side].pid) - began[side]).as_secs_f64() * 1e3 / times[side].len() as f64;
    compare("processor for a message", "ms", used(0), used(1), "-");
}
