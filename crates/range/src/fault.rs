//! What is wrong with a size table: line, column, what and what to do, all faults of a file at once.

use std::fmt;

/// One fault of a size table.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct TableFault {
    /// Line of the file, from 1.
    pub line: u64,
    /// Column of the table, from 1; `None` when the whole line or file is meant.
    pub column: Option<usize>,
    /// The column's head as written; empty when there is none.
    pub head: String,
    /// What is wrong and what to do: lower case, no full stop.
    pub message: String,
}

impl TableFault {
    pub(crate) fn file(message: impl Into<String>) -> TableFault {
        TableFault::line(1, message)
    }

    pub(crate) fn line(line: u64, message: impl Into<String>) -> TableFault {
        TableFault {
            line,
            column: None,
            head: String::new(),
            message: message.into(),
        }
    }

    pub(crate) fn cell(line: u64, column: usize, head: &str, message: impl Into<String>) -> TableFault {
        TableFault {
            line,
            column: Some(column + 1),
            head: head.to_owned(),
            message: message.into(),
        }
    }
}

impl fmt::Display for TableFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "line {}", self.line)?;
        if let Some(column) = self.column {
            write!(f, ", column {column}")?;
            if !self.head.is_empty() {
                write!(f, " ({})", self.head)?;
            }
        }
        write!(f, ": {}", self.message)
    }
}

impl std::error::Error for TableFault {}

/// All faults of one size table, in the order of the file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TableFaults {
    /// At least one.
    pub faults: Vec<TableFault>,
}

impl fmt::Display for TableFaults {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (i, fault) in self.faults.iter().enumerate() {
            if i > 0 {
                writeln!(f)?;
            }
            write!(f, "{fault}")?;
        }
        Ok(())
    }
}

impl std::error::Error for TableFaults {}
