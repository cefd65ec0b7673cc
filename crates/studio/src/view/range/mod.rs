//! Ranges: a suit's cloth and design in every size of a table, as the pages and the command line show them.

mod asked;
mod made;
mod page;
mod table;

pub use asked::{
    CoverSizeView, CoverView, LeftOutView, LevelChoiceView, SizeChoiceView, cover_view, size_choice_view,
};
pub use made::{MadeRange, RangeFile, RangeOf, chart_csv};
pub use page::{
    NestLayerView, NestPieceView, RangeCellView, RangeFileView, RangeRowView, RangeSizeView, RangeSuitView,
    RangeView, RangeWearerView, RangesView, RefusedSizeView, SizeNameView, SizeTableView, built_in_tables,
    range_view, size_table_view,
};
pub use table::{TableSource, table_of};
