//! What the commands write to: the two streams, and what is known of them.
//!
//! Results go to standard output, faults and progress to standard error. Colour, frames and moving bars appear only on a
//! terminal; a pipe gets plain text, and `--json` gets one JSON document on standard output, faults included.

use std::io::{self, IsTerminal, Write};

use miette::{GraphicalReportHandler, GraphicalTheme, LabeledSpan, MietteDiagnostic, NamedSource, Report};
use serde::Serialize;
use units::Severity;

use crate::suit_file::{Fault, Faults};

/// How the streams are to be written.
#[derive(Clone, Copy, Debug, Default)]
pub struct Manner {
    /// JSON instead of text.
    pub json: bool,
    /// Colour on standard output.
    pub colour_out: bool,
    /// Frames and colour on standard error.
    pub fancy_err: bool,
    /// Colour on standard error.
    pub colour_err: bool,
    /// A person watches standard error: show progress.
    pub progress: bool,
}

impl Manner {
    /// From the real streams and the environment: `NO_COLOR` set to anything but nothing forbids colour.
    pub fn of_streams(json: bool) -> Manner {
        let no_colour = std::env::var_os("NO_COLOR").is_some_and(|v| !v.is_empty());
        let err = io::stderr().is_terminal();
        Manner {
            json,
            colour_out: io::stdout().is_terminal() && !no_colour,
            fancy_err: err,
            colour_err: err && !no_colour,
            progress: err,
        }
    }
}

/// The two streams of a running command.
pub struct Console<'a> {
    out: &'a mut dyn Write,
    err: &'a mut dyn Write,
    /// How they are written.
    pub manner: Manner,
}

impl<'a> Console<'a> {
    /// A console on two streams.
    pub fn new(out: &'a mut dyn Write, err: &'a mut dyn Write, manner: Manner) -> Console<'a> {
        Console { out, err, manner }
    }

    /// Writes text to standard output.
    ///
    /// # Errors
    /// Those of the stream.
    pub fn print(&mut self, text: &str) -> io::Result<()> {
        self.out.write_all(text.as_bytes())
    }

    /// Writes a value to standard output as JSON, indented, with a line end.
    ///
    /// # Errors
    /// Those of the stream.
    pub fn print_json(&mut self, value: &impl Serialize) -> io::Result<()> {
        let mut text = to_json(value);
        text.push('\n');
        self.print(&text)
    }

    /// Writes a line to standard error.
    ///
    /// # Errors
    /// Those of the stream.
    pub fn note(&mut self, text: &str) -> io::Result<()> {
        writeln!(self.err, "{text}")
    }

    /// Writes faults: as JSON to standard output, or as text to standard error.
    ///
    /// # Errors
    /// Those of the stream.
    pub fn faults(&mut self, faults: &Faults) -> io::Result<()> {
        if self.manner.json {
            return self.print_json(&faults.to_json());
        }
        if !self.manner.fancy_err {
            return self.err.write_all(faults.to_plain().as_bytes());
        }
        for fault in &faults.list {
            let text = framed(faults, fault, self.manner.colour_err);
            self.err.write_all(text.as_bytes())?;
        }
        Ok(())
    }

    /// Flushes both streams.
    ///
    /// # Errors
    /// Those of the streams.
    pub fn flush(&mut self) -> io::Result<()> {
        self.out.flush()?;
        self.err.flush()
    }

    /// The severity as a word, in its colour on a terminal. The word says it all; the colour only helps the eye.
    pub fn severity(&self, severity: Severity) -> String {
        let word = severity.word();
        if !self.manner.colour_out {
            return word.to_owned();
        }
        let code = match severity {
            Severity::Good => "32",
            Severity::Watch => "33",
            Severity::Stop => "1;31",
        };
        format!("\x1b[{code}m{word}\x1b[0m")
    }

    /// A heading, bold on a terminal.
    pub fn heading(&self, text: &str) -> String {
        if self.manner.colour_out {
            format!("\x1b[1m{text}\x1b[0m")
        } else {
            text.to_owned()
        }
    }
}

/// A value as indented JSON.
pub(crate) fn to_json(value: &impl Serialize) -> String {
    // Our own types have string keys and finite numbers, so this can't fail; if it did, say so in JSON all the same.
    serde_json::to_string_pretty(value)
        .unwrap_or_else(|error| format!("{{\"faults\":[{{\"kind\":\"report\",\"message\":\"{error}\"}}]}}"))
}

/// A fault as a framed excerpt for a terminal.
fn framed(faults: &Faults, fault: &Fault, colour: bool) -> String {
    let mut help = fault.help.clone();
    if !fault.allowed.is_empty() {
        let allowed = format!("allowed: {}", fault.allowed.join(", "));
        help = if help.is_empty() {
            allowed
        } else {
            format!("{help}\n{allowed}")
        };
    }
    let mut diagnostic = MietteDiagnostic::new(fault.message.clone());
    if !help.is_empty() {
        diagnostic = diagnostic.with_help(help);
    }
    let Some(span) = &fault.at else {
        let report = Report::new(diagnostic.with_code(faults.file.clone()));
        return rendered(&report, colour);
    };
    let diagnostic = diagnostic.with_label(LabeledSpan::at(span.clone(), fault.label.clone()));
    let report =
        Report::new(diagnostic).with_source_code(NamedSource::new(&faults.file, faults.text.clone()));
    rendered(&report, colour)
}

fn rendered(report: &Report, colour: bool) -> String {
    let theme = if colour {
        GraphicalTheme::unicode()
    } else {
        GraphicalTheme::unicode_nocolor()
    };
    let mut text = String::new();
    let handler = GraphicalReportHandler::new_themed(theme);
    match handler.render_report(&mut text, report.as_ref()) {
        Ok(()) => text + "\n",
        Err(_) => format!("{report}\n"),
    }
}
