//! The studio over HTTP: the API under `/api/v1`, the pages everywhere else.
//!
//! A handler reads a request, asks the [`App`] and shows what comes back; what it refuses becomes a [`Problem`] in one
//! place. The description of the API is made from the handlers.

mod archive;
mod bin;
mod booklet;
mod documents;
mod drawer;
mod edits;
mod events;
mod files;
mod guard;
mod home;
mod jobs;
mod lay;
mod pages;
mod pairing;
mod photos;
mod problem;
mod range;
mod room;
mod settings;
mod suits;
mod wearers;
mod worn;

use std::sync::Arc;
use std::time::Duration;

use axum::Router;
use axum::extract::DefaultBodyLimit;
use axum::middleware;
use tower_http::compression::CompressionLayer;
use tower_http::compression::predicate::{DefaultPredicate, NotForContentType, Predicate};
use utoipa::OpenApi;
use utoipa_axum::router::OpenApiRouter;
use utoipa_axum::routes;

use crate::app::App;

pub use archive::{BackupView, Restored};
pub use bin::BinView;
pub use booklet::BookletView;
pub use documents::{Binned, DocumentView, NewDocument};
pub use edits::Kept;
pub use home::Done;
pub use jobs::Started;
pub use pairing::{DeviceView, PairRequest, PairingView};
pub use problem::{ClashView, Problem, Problems};
pub use settings::SettingsView;
pub use suits::{HistoryLine, Made, PreviewRequest, VersionMade, VersionRequest};

/// Requests of the pages are small: this is ten times the largest edit. Uploads have limits of their own.
const LARGEST_BODY: usize = 3 << 20;

#[derive(OpenApi)]
#[openapi(info(
    title = "Slackwater studio",
    description = "The API behind the pages of the studio. Local to this machine unless started with --lan.",
    license(name = "Apache-2.0 OR MIT", identifier = "Apache-2.0 OR MIT"),
    contact()
))]
struct Description;

fn api() -> OpenApiRouter<Arc<App>> {
    OpenApiRouter::with_openapi(Description::openapi())
        .routes(routes!(home::home))
        .routes(routes!(home::put_example, home::remove_example))
        .routes(routes!(suits::begin))
        .routes(routes!(suits::order))
        .routes(routes!(suits::preview))
        .routes(routes!(suits::back))
        .routes(routes!(suits::forward))
        .routes(routes!(suits::history))
        .routes(routes!(suits::keep_version))
        .routes(routes!(suits::why))
        .routes(routes!(suits::styles))
        .routes(routes!(suits::import))
        .routes(routes!(edits::edit))
        .routes(routes!(documents::make, documents::list))
        .routes(routes!(documents::read, documents::delete))
        .routes(routes!(documents::restore))
        .routes(routes!(bin::show))
        .routes(routes!(bin::erase))
        .routes(routes!(drawer::read))
        .routes(routes!(drawer::copy))
        .routes(routes!(drawer::sheet))
        .routes(routes!(drawer::make))
        .routes(routes!(drawer::back))
        .routes(routes!(drawer::forward))
        .routes(routes!(range::show, range::start))
        .routes(routes!(range::sizes))
        .routes(routes!(range::read))
        .routes(routes!(range::file))
        .routes(routes!(range::size))
        .routes(routes!(range::cover))
        .routes(routes!(room::room))
        .routes(routes!(room::file))
        .routes(routes!(room::shopping))
        .routes(routes!(room::scrap))
        .routes(routes!(wearers::form))
        .routes(routes!(wearers::middling))
        .routes(routes!(wearers::goes_along))
        .routes(routes!(wearers::read, wearers::erase))
        .merge(
            OpenApiRouter::new()
                .routes(routes!(photos::put))
                .layer(photos::upload_limit()),
        )
        .routes(routes!(photos::read, photos::remove))
        .routes(routes!(files::file))
        .routes(routes!(booklet::show))
        .routes(routes!(booklet::file))
        .routes(routes!(lay::pack))
        .routes(routes!(lay::place))
        .routes(routes!(lay::fits))
        .routes(routes!(worn::show, worn::put_on))
        .routes(routes!(worn::try_on))
        .routes(routes!(worn::better))
        .routes(routes!(worn::leave))
        .routes(routes!(worn::rings))
        .routes(routes!(worn::drawing))
        .routes(routes!(jobs::pack))
        .routes(routes!(jobs::kits))
        .routes(routes!(jobs::class_lay))
        .routes(routes!(jobs::class_plan))
        .routes(routes!(jobs::state))
        .routes(routes!(jobs::events))
        .routes(routes!(jobs::stop))
        .routes(routes!(jobs::result))
        .routes(routes!(events::events))
        .merge(
            OpenApiRouter::new()
                .routes(routes!(archive::export, archive::import))
                .layer(archive::upload_limit()),
        )
        .routes(routes!(archive::backups, archive::back_up))
        .routes(routes!(archive::restore))
        .routes(routes!(settings::read, settings::change))
        .routes(routes!(pairing::show, pairing::pair))
        .routes(routes!(pairing::shut_out))
}

/// The description of the API, OpenAPI 3.1, as JSON text.
pub fn openapi() -> String {
    let (_, description) = api().split_for_parts();
    let mut value = serde_json::to_value(&description).unwrap_or_default();
    value["info"]["version"] = serde_json::json!("1");
    let mut text = serde_json::to_string_pretty(&value).unwrap_or_default();
    text.push('\n');
    text
}

/// The whole server as a function of the app: what the tests drive without a socket.
pub fn router(app: Arc<App>) -> Router {
    let (api, _) = api().split_for_parts();
    // What is compressed already, and what must arrive at once, is left alone.
    let worth = DefaultPredicate::new()
        .and(NotForContentType::new("application/zip"))
        .and(NotForContentType::new("application/pdf"))
        .and(NotForContentType::const_new("text/event-stream"));
    api.fallback(pages::page)
        .layer(DefaultBodyLimit::max(LARGEST_BODY))
        .layer(CompressionLayer::new().compress_when(worth))
        .layer(middleware::from_fn_with_state(Arc::clone(&app), guard::guard))
        .with_state(app)
}

/// How often an idle stream of events says that it is alive.
const KEEP_ALIVE: Duration = Duration::from_secs(15);
