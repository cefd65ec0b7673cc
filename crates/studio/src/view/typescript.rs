//! The pages' side of every type that crosses the wire, as one TypeScript file.
//!
//! `web/api/types.ts` is this text; a test holds the two together. `UPDATE_TYPES=1 cargo test -p slackwater-studio
//! --test types` writes it anew.

use ts_rs::{Config, TS};

macro_rules! declared {
    ($cfg:ident, $($type:ty),+ $(,)?) => {
        vec![$(format!("{}export {}\n", docs::<$type>(), <$type>::decl($cfg))),+]
    };
}

fn docs<T: TS>() -> String {
    T::docs().unwrap_or_default()
}

/// The whole file.
pub fn typescript() -> String {
    use crate::{app, http, view as v};
    let config = Config::new().with_large_int("number");
    let cfg = &config;
    let declarations = declared!(
        cfg,
        v::Quantity,
        v::State,
        v::Note,
        v::Proposal,
        v::Set,
        v::Head,
        v::Choice,
        v::ChoiceOption,
        v::Field,
        v::Named,
        v::Spot,
        v::Frame,
        v::OrderView,
        v::SuitHead,
        v::CautionView,
        v::Stamp,
        v::WearerView,
        v::ProtocolView,
        v::DimensionView,
        v::FormView,
        v::RingView,
        v::TapeView,
        v::ResidualView,
        v::ClothView,
        v::LayerView,
        v::SwatchView,
        v::LookView,
        v::PullView,
        v::WetView,
        v::TogetherView,
        v::ElasticView,
        v::ShapeView,
        v::StyleCard,
        v::StyleFamily,
        v::StylesView,
        v::PieceView,
        v::MarkView,
        v::NamedEdge,
        v::HandleView,
        v::Drag,
        v::Preview,
        v::SeamView,
        v::FinishedView,
        v::WearView,
        v::RungView,
        v::UseView,
        v::RailView,
        v::WayInView,
        v::LayView,
        v::LaidCloth,
        v::CutView,
        v::SewView,
        v::EdgeView,
        v::ArcView,
        v::BuyView,
        v::StepView,
        v::SettingView,
        v::PaperView,
        v::PageMap,
        v::TileView,
        v::OutlineView,
        v::FileView,
        v::TryOnView,
        v::VersionView,
        v::TryOnEntry,
        v::CorrectionView,
        v::OverlayView,
        v::OverlayLine,
        v::HomeView,
        v::SuitCard,
        v::Silhouette,
        v::SilhouettePart,
        v::ClothCard,
        v::ShelfLine,
        v::Why,
        v::WhyInput,
        app::EditRequest,
        app::EditPart,
        app::NewSuitRequest,
        app::JobEvent,
        app::JobState,
        app::GoesAlong,
        app::Settings,
        app::Scale,
        app::SettingsChange,
        http::BackupView,
        http::Restored,
        http::Binned,
        http::DocumentView,
        http::NewDocument,
        http::Kept,
        http::Done,
        http::Started,
        http::DeviceView,
        http::PairRequest,
        http::PairingView,
        http::ClashView,
        http::Problem,
        http::Problems,
        http::SettingsView,
        http::HistoryLine,
        http::Made,
        http::PreviewRequest,
        http::VersionMade,
        http::VersionRequest,
    );
    format!(
        "// Made from the Rust types of the studio; see view/typescript.rs. Do not edit.\n\n{}",
        declarations.join("\n")
    )
}
