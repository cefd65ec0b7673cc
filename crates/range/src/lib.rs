//! Ranges: a size table to a redrafted, nested set of sizes, and which size fits whom.
//!
//! A size is a body like any other, drafted from its own row and never scaled from a neighbour ([`Range::draft`]). The
//! range then says how it grows, where a size took another way through the draft, what it is cut for, which size a wearer
//! takes and which few sizes cover a group of people.
//!
//! **Shapes and units.** mm inside; cm and inches only in CSV files and charts.
//! **Limits.** Tables of designations are labels with half their figures from memory: they carry their provenance.

mod branch;
mod built_in;
mod chart;
mod choose;
mod cover;
mod fault;
mod growth;
mod miss;
mod nest;
mod people;
mod read;
mod size_body;
mod sizes;
mod table;

pub use branch::{Branch, BranchChange, BranchReport, branches_of};
pub use built_in::BuiltIn;
pub use chart::{ChartCell, ChartRow, SizeChart};
pub use choose::{Advice, Choice, ChooseError, LevelChoice, SizeMiss, choose};
pub use cover::{
    Candidates, Cover, CoverError, CoverMethod, CoveringSize, NotCovered, Placed, Tolerance, cover,
};
pub use fault::{TableFault, TableFaults};
pub use growth::{GrowthFault, GrowthKind, GrowthReport, KeyGrowth, UNEVEN_MM};
pub use miss::{Gauge, Miss};
pub use nest::{Nest, NestLayer, NestPiece, Stacked};
pub use people::{PeopleNotes, read_people};
pub use read::{MOST_ROWS, TableNotes, read_table};
pub use size_body::{BodyRefusal, SizeBody, SizeSource};
pub use sizes::{DraftedSize, Key, Range, Size, SizeRefusal, keys_of};
pub use table::{Figure, Grade, Interval, SizeRow, SizeTable};
