//! `rackful parse`.

use super::Call;
use super::sentence::sentence;
use crate::clock::{Clock, SystemClock, machine_zone};
use crate::config::Units;
use crate::phrase::{self, Context, Explanation, Lexicon, Reading};
use crate::statement::Statement;
use crate::zone::Zone;
use chrono::{DateTime, FixedOffset};
use clap::Args;
use serde::Serialize;
use std::io::{BufRead, Write};

/// The words of the call.
#[derive(Args, Debug)]
pub struct Parse {
    /// The phrase; without one, each line of standard input is one
    #[arg(value_name = "TEXT")]
    text: Vec<String>,
    /// One JSON object a phrase
    #[arg(long)]
    json: bool,
    /// Also why: what each word counted as, the likeliest readings with their reasons, and why nothing was read
    #[arg(long)]
    explain: bool,
    /// What 'now' is for words such as yesterday, with its offset: 2026-08-14T09:05:00-05:00
    #[arg(long, value_name = "TIME", value_parser = DateTime::parse_from_rfc3339)]
    at: Option<DateTime<FixedOffset>>,
}

/// How a phrase was read, as other programs see it.
#[derive(Serialize)]
struct Printed<'a> {
    text: &'a str,
    statements: &'a [Statement],
    unread: &'a str,
    #[serde(flatten, skip_serializing_if = "Option::is_none")]
    why: Option<Explanation>,
}

impl Parse {
    pub(super) fn run(&self, call: &Call) -> anyhow::Result<()> {
        let zone = match self.at {
            Some(at) => Zone::Fixed(*at.offset()),
            None => call.config.timezone.unwrap_or_else(machine_zone),
        };
        let lexicon = Lexicon {
            name: call.config.name.clone(),
            metric: call.config.units == Units::Metric,
            ..Lexicon::default()
        };
        let now = self.at.map_or_else(|| SystemClock.now(), |at| at.to_utc());
        let context = Context { now, zone, lexicon: &lexicon, last: None };
        let mut out = std::io::stdout().lock();
        if !self.text.is_empty() {
            return self.print(&self.text.join(" "), &context, &mut out);
        }
        let mut input = std::io::stdin().lock();
        let mut line = Vec::new();
        while input.read_until(b'\n', &mut line)? > 0 {
            let text = String::from_utf8_lossy(&line);
            let text = text.strip_suffix('\n').map_or(&*text, |text| text.strip_suffix('\r').unwrap_or(text));
            self.print(text, &context, &mut out)?;
            line.clear();
        }
        Ok(())
    }

    fn print(&self, text: &str, context: &Context<'_>, out: &mut dyn Write) -> anyhow::Result<()> {
        let Reading { statements, unread, refusal, .. } = phrase::read(text, context);
        let why = if self.explain { phrase::explain(text, context) } else { None };
        if self.json {
            serde_json::to_writer(&mut *out, &Printed { text, statements: &statements, unread: &unread, why })?;
            return Ok(writeln!(out)?);
        }
        if refusal.is_some() {
            writeln!(out, "Too long to be read: say it in several messages.")?;
        } else if statements.is_empty() {
            writeln!(out, "Nothing for the ledger.")?;
        }
        for statement in &statements {
            writeln!(out, "{}", sentence(statement))?;
        }
        if !statements.is_empty() && !unread.is_empty() {
            writeln!(out, "Left over: {unread}")?;
        }
        if let Some(why) = why {
            write!(out, "{}", explained(&why))?;
        }
        Ok(())
    }
}

/// Why a phrase was read so, in lines for people.
fn explained(why: &Explanation) -> String {
    let mut text = String::new();
    for span in &why.spans {
        let senses = if span.senses.is_empty() { String::new() } else { format!(": {}", span.senses.join(", ")) };
        text.push_str(&format!("  {}..{} '{}' {}{senses}\n", span.at.0, span.at.1, span.text, span.kind));
    }
    for reading in &why.readings {
        let said: Vec<String> = reading.statements.iter().map(sentence).collect();
        let said = if said.is_empty() { "nothing.".to_owned() } else { said.join(" ") };
        text.push_str(&format!("{:.3} {said}\n", reading.probability));
        for clause in &reading.clauses {
            let left = if clause.unaccounted.is_empty() {
                String::new()
            } else {
                format!(", left: {}", clause.unaccounted.join(", "))
            };
            text.push_str(&format!("    '{}' as {}{left}\n", clause.text, clause.frame));
            for (feature, weight) in &clause.features {
                text.push_str(&format!("      {weight:+.2} {feature}\n"));
            }
        }
    }
    if let Some(because) = &why.silent_because {
        text.push_str(&format!("Silent: {because}.\n"));
    }
    text
}
