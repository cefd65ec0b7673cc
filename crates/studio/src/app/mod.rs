//! The studio at work: documents from the store, worked out by the engine, kept at hand while they do not change.
//!
//! [`App`] is a value made from a store; the server is a function of it, so that tests drive the whole studio without a
//! socket.

mod adding;
mod bin;
mod drawer;
mod edit;
mod example;
mod forms;
mod home;
mod jobs;
mod kits;
mod lays;
mod order;
mod pairing;
mod papers;
mod range;
mod remove;
mod room;
mod settings;
mod suits;
mod worn;

use std::collections::BTreeMap;
use std::net::SocketAddr;
use std::sync::{Arc, Mutex};

use store::{SqliteStore, Timestamp};

pub use adding::Added;
pub use bin::InBin;
pub(crate) use edit::preview_bodies;
pub use edit::{EditPart, EditRequest};
pub use jobs::{Job, JobEvent, JobState, Jobs};
pub(crate) use kits::file_safe;
pub use lays::{PackLayRequest, PlaceAnswer, PlaceRequest};
pub use pairing::{Pairing, PairingRefusal, new_token, token_hash};
pub(crate) use papers::{blocking, name_of};
pub use range::{CoverRequest, RangeRefusal, RangeRequest, RangeStarted, SizeRequest, SizesRequest};
pub use remove::GoesAlong;
pub(crate) use remove::count;
pub use settings::{Scale, Settings, SettingsChange};
pub use suits::NewSuitRequest;

use crate::document::Worked;

/// Where documents are kept. A second database would stand here and nowhere else.
pub type Kept = SqliteStore;

/// How a studio is run.
#[derive(Clone, Debug)]
pub struct RunOptions {
    /// The address it listens on.
    pub address: SocketAddr,
    /// Whether other machines of the house may ask.
    pub lan: bool,
    /// The address the tablet is to use, with `--lan`: `http://192.0.2.7:8380`.
    pub lan_url: Option<String>,
}

/// The studio.
pub struct App {
    pub(crate) store: Kept,
    pub(crate) options: RunOptions,
    pub(crate) jobs: Jobs,
    pub(crate) pairing: Pairing,
    worked: Mutex<BTreeMap<String, Arc<Worked>>>,
    made: Mutex<BTreeMap<String, u64>>,
    page_maps: Mutex<BTreeMap<String, crate::view::PageMap>>,
    forms: forms::Forms,
    copies: drawer::Copies,
    pub(crate) ranges: range::Ranges,
    fits: worn::Fits,
    class_lays: kits::ClassLaysAtHand,
    clock: store::Clock,
}

/// Suits kept worked out; more are worked out anew when they are asked for.
const SUITS_AT_HAND: usize = 200;

impl App {
    /// A studio over this store.
    pub fn new(store: Kept, options: RunOptions, clock: store::Clock) -> Arc<App> {
        Arc::new(App {
            store,
            options,
            jobs: Jobs::default(),
            pairing: Pairing::default(),
            worked: Mutex::new(BTreeMap::new()),
            made: Mutex::new(BTreeMap::new()),
            page_maps: Mutex::new(BTreeMap::new()),
            forms: forms::Forms::default(),
            copies: drawer::Copies::default(),
            ranges: range::Ranges::default(),
            fits: worn::Fits::default(),
            class_lays: kits::ClassLaysAtHand::default(),
            clock,
        })
    }

    /// The store.
    pub fn store(&self) -> &Kept {
        &self.store
    }

    /// Now.
    pub(crate) fn now(&self) -> Timestamp {
        (self.clock)()
    }

    /// Today, `2026-11-26`, in UTC.
    pub(crate) fn today(&self) -> String {
        let mut text = self.now().to_string();
        text.truncate(10);
        text
    }
}

/// A mutex of ours guards plain maps that are whole between statements: a panic elsewhere does not spoil them.
pub(crate) fn locked<T>(mutex: &Mutex<T>) -> std::sync::MutexGuard<'_, T> {
    mutex.lock().unwrap_or_else(std::sync::PoisonError::into_inner)
}

impl App {
    /// The computed form of a body.
    pub(crate) fn form_of(
        &self,
        body: &body::Body,
        unit: units::LengthUnit,
    ) -> Result<Arc<crate::view::FormView>, String> {
        self.forms.of(body, unit)
    }

    /// A middling form of that sort of body.
    pub(crate) fn middling_form(&self, form: body::BodyForm) -> Result<Arc<crate::view::FormView>, String> {
        self.forms.middling(form)
    }
}
