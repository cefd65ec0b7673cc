//! What the pages show of a suit: the engine's results in her words and units, one module a section of the work order.
//!
//! Pure: documents in, plain values out. No store, no HTTP, no clock.

mod build;
mod class;
mod cloth;
mod common;
mod drawer;
#[cfg(test)]
pub(crate) mod examples;
mod form;
mod home;
mod lay;
mod not_yet;
mod order;
mod paper;
mod quantity;
mod range;
mod room;
mod sew;
mod shape;
mod shopping;
mod told;
mod try_on;
mod typescript;
mod wear;
mod wearer;
mod why;

pub use build::{Around, KeptVersion, order_view};
pub use class::{
    ClassBarView, ClassBuyView, ClassClothView, ClassHourView, ClassLayView, ClassPersonView, ClassRowView,
    ClassSessionView, ClassView, class_view,
};
pub use cloth::{ClothView, ElasticView, LayerView, LookView, PullView, SwatchView, TogetherView, WetView};
pub use common::{
    Choice, ChoiceOption, Field, Frame, Head, Named, Note, Proposal, Quantity, Set, Spot, State,
};
pub use drawer::{
    ChangeLine, ChangeSheetView, CopiedSuit, CopyView, DrawerAround, DrawerCloth, DrawerMeasure,
    DrawerPapers, DrawerSize, DrawerTape, DrawerView, DrawnPath, DrawnSide, DrawnWords, EaseLine, FoundLine,
    LINKS as DRAWER_LINKS, MetLine, SheetView, SizeLine, StretchLine, SuspectLine, TrueLine, copy_view,
    drawer_view, sheet_view, suit_of_drawer,
};
pub use form::{form_view, middling_body, middling_form_view};
pub use home::{ClothCard, HomeView, ShelfLine, Shelves, Silhouette, SilhouettePart, SuitCard, home};
pub use lay::{
    AtHandView, CanMakeView, CutView, FitsView, FlawView, KeepView, LaidCloth, LaidPiece, LaidWith,
    LayDrawing, LayInForce, LayMark, LayNow, LayView, RestBox,
};
pub(crate) use lay::{by, fits_view, laid_piece, lay_now, stock_of, stretch_is_across};
pub use order::{CautionView, OrderView, Stamp, SuitHead};
pub use paper::{FileView, OutlineView, PageMap, PaperView, TileView, page_map_key};
pub use quantity::{as_sold, length, percent, plain, small_length};
pub use range::{
    CoverSizeView, CoverView, LeftOutView, LevelChoiceView, MadeRange, NestLayerView, NestPieceView,
    RangeCellView, RangeFile, RangeFileView, RangeOf, RangeRowView, RangeSizeView, RangeSuitView, RangeView,
    RangeWearerView, RangesView, RefusedSizeView, SizeChoiceView, SizeNameView, SizeTableView, TableSource,
    built_in_tables, chart_csv, cover_view, range_view, size_choice_view, size_table_view, table_of,
};
pub use room::{MachineStart, RoomFaultView, RoomView, ScrapStart, TestView, room_view, scrap_start};
pub use sew::{
    ArcView, BuyView, EdgeView, HandView, RingPassView, ScrapView, SettingView, SewView, StepView, StitchView,
};
pub use shape::{
    AmountView, BesidesView, Drag, FinishedView, HandleView, MarkView, NamedEdge, PieceView, Preview,
    SeamView, ShapeView, StyleCard, StyleFamily, StylesView, dragged, shape_moved, shape_view, styles_view,
};
pub(crate) use shape::{at_path, usual_of, words_of};
pub use shopping::{
    ASSUMED, BuyLineView, QuoteRow, QuoteView, ShoppingSheet, ShoppingView, quote_list, shopping_list,
    shopping_sheet, shopping_view,
};
pub(crate) use told::{capital as told_capital, list as told_list, sentence};
pub use try_on::{
    ComplaintView, CorrectionView, DifferenceView, OverlayLine, OverlayView, RemedyView, TryOnEntry,
    TryOnView, VersionView,
};
pub use typescript::typescript;
pub use wear::{
    Basis, ChangedView, ComparedLevelView, ComparedView, FitView, ProposedView, PutOnRequest, RailView,
    RungView, TryRequest, UseView, WayInView, WearView, WornDrawing, WornEdgeView, WornFound, WornLevelView,
    WornView, WornWork, better_view, fit_guesses, fit_view, fit_whys, try_view, wear_view,
};
pub(crate) use wearer::alone;
pub use wearer::{
    DimensionView, FormView, ProtocolView, ResidualView, RingView, SidedView, TapeView, WearerView, form_key,
    is_minor, wearer_view,
};
pub use why::{Why, WhyInput, why};
