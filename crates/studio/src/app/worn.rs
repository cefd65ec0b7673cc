//! Suits put on their forms by a job that is watched: the last result of a suit is kept at hand, with what a change of it would do.
//!
//! What is kept is what is shown: words, the lines to turn, drawings. The mesh itself goes when the job ends. A result belongs to the
//! version of the draft it was made of and says so when that is an older one. Nothing of it is stored: it is worked out again.
//! How far the suit is stretched, standing, is known longer: the making plan is made from it as long as the draft is the same.

use std::collections::BTreeMap;
use std::sync::{Arc, Mutex};

use make::WornStretch;
use solve::Found;
use store::{DocumentId, StoreError};
use units::Progress;

use super::jobs::{JobState, Made, Reporter};
use super::{App, locked};
use crate::document::Worked;
use crate::order::Order;
use crate::suit_file::SuitFile;
use crate::version::fingerprint;
use crate::view::{
    Basis, FitView, ProposedView, PutOnRequest, Why, WornDrawing, WornView, WornWork, better_view,
    fit_guesses, fit_view, fit_whys, told_capital, try_view,
};
use crate::worn::drawing::{Isolines, Side, draw, draw_isolines};
use crate::worn::{CORRECTING_MESH_MM, OnForm, SceneKind, Trier, WornChoice, propose, put_on_in, rings};

/// Suits whose result is kept at hand; a megabyte or two each, most of it drawings.
const KEPT: usize = 4;
/// Steps a suit takes at most times, for the strip: the example's one-pieces take 57 and 63 with friction, loose ones many more.
const USUAL_STEPS: u64 = 60;
/// Where the strip stays when steps go past the usual.
const NEARLY: u64 = 57;

/// A result, with all that is shown of it.
struct KeptFit {
    suit: String,
    view: FitView,
    rings: Vec<u8>,
    drawings: Vec<(String, String)>,
    found: Vec<Found>,
    basis: Basis,
    whys: Vec<(String, Why)>,
    room: u64,
    proposed: Option<(String, ProposedView)>,
}

/// The results of a run of the studio, and what is at work.
#[derive(Default)]
pub(crate) struct Fits {
    /// The latest last.
    kept: Mutex<Vec<KeptFit>>,
    /// By suit: a version of its draft, and how far that is stretched as it is worn standing.
    stretched: Mutex<BTreeMap<String, (String, WornStretch)>>,
    /// Job and kind by suit.
    at_work: Mutex<BTreeMap<String, WornWork>>,
}

impl Fits {
    /// Forgets them: they are bodies.
    pub(crate) fn forget(&self) {
        locked(&self.kept).clear();
        locked(&self.stretched).clear();
    }

    /// How far that version of a suit's draft is stretched as it is worn, if it was put on.
    pub(crate) fn stretches(&self, suit: &str, version: &str) -> Option<WornStretch> {
        let stretched = locked(&self.stretched);
        let (of, worn) = stretched.get(suit)?;
        (of == version).then(|| worn.clone())
    }

    fn keep(&self, fit: KeptFit) {
        let mut kept = locked(&self.kept);
        kept.retain(|k| k.suit != fit.suit);
        while kept.len() >= KEPT {
            kept.remove(0);
        }
        kept.push(fit);
    }

    /// Something of the result of a suit, if there is one.
    fn of<T>(&self, suit: &str, take: impl FnOnce(&mut KeptFit) -> T) -> Option<T> {
        let mut kept = locked(&self.kept);
        kept.iter_mut().find(|k| k.suit == suit).map(take)
    }
}

/// What of a workroom the seams of a worn suit are judged by, as a key: machines, needles, threads and the sample book.
fn room_key(worked: &Worked) -> u64 {
    let room = &worked.room.room;
    fingerprint(format!("{:?} {:?}", room.workroom, room.samples).as_bytes())
}

/// A job's progress in a maker's words.
struct Steps<'a>(&'a Reporter);

impl Progress for Steps<'_> {
    fn at(&self, done: u64, of: u64, words: &str) {
        // The solver tells its force as well, which is nothing to a maker.
        if words.starts_with("step ") {
            let says = format!("Letting it settle: step {done} of about {USUAL_STEPS}, at most {of}");
            self.0.at(done.min(NEARLY), USUAL_STEPS, &says);
            return;
        }
        let plain = words.replace("figure.", "").replace('_', " ");
        self.0.at(done, of, &crate::view::sentence(&plain));
    }

    fn should_stop(&self) -> bool {
        self.0.should_stop()
    }
}

/// What a job needs of a suit.
struct Ready {
    worked: Arc<Worked>,
    unit: units::LengthUnit,
}

impl Ready {
    fn parts(&self) -> Result<(&SuitFile, &Order), String> {
        match (&self.worked.file, &self.worked.order) {
            (Some(file), Some(order)) => Ok((file, order)),
            _ => Err(NOT_DRAFTED.to_owned()),
        }
    }
}

const NOT_DRAFTED: &str = "There is nothing to put on before the suit is drafted.";

impl App {
    /// The computed fit of a suit as it is known now.
    ///
    /// # Errors
    /// [`StoreError::NotFound`] when there is no such suit.
    pub async fn worn(&self, suit: &DocumentId) -> Result<WornView, StoreError> {
        let worked = self.worked(suit).await?;
        let version = worked.order.as_ref().map(|o| o.version.clone());
        let room = room_key(&worked);
        let shown = self.fits.of(suit.as_str(), |kept| {
            let mut view = kept.view.clone();
            view.is_current = Some(&view.version) == version.as_ref();
            view.is_of_workroom = kept.room == room;
            let proposed = kept.proposed.as_ref().map(|(of, proposed)| ProposedView {
                is_current: Some(of) == version.as_ref(),
                ..proposed.clone()
            });
            // Once taken, or the draft changed otherwise, a proposal is no more than paper.
            (view, proposed.filter(|p| p.is_current))
        });
        let (fit, proposed) = shown.unzip();
        Ok(WornView {
            cannot: version.is_none().then(|| NOT_DRAFTED.to_owned()),
            work: self.worn_at_work(suit.as_str()),
            fit,
            proposed: proposed.flatten(),
            guesses: fit_guesses(worked.unit()),
        })
    }

    fn worn_at_work(&self, suit: &str) -> Option<WornWork> {
        let mut at_work = locked(&self.fits.at_work);
        let work = at_work.get(suit)?.clone();
        let is_running = self
            .jobs
            .get(&work.job)
            .is_some_and(|job| job.events().borrow().state == JobState::Running);
        if !is_running {
            at_work.remove(suit);
            return None;
        }
        Some(work)
    }

    /// Starts a job for a suit; one at a time.
    fn start_worn(
        self: &Arc<App>,
        suit: &DocumentId,
        kind: &str,
        says: &str,
        work: impl FnOnce(&Reporter) -> Result<Made, String> + Send + 'static,
    ) -> Result<String, String> {
        if self.worn_at_work(suit.as_str()).is_some() {
            return Err("This suit is being put on already; wait for it, or stop it.".into());
        }
        let job = self.jobs.start_telling(says, work)?;
        let at_work = WornWork {
            job: job.clone(),
            kind: kind.to_owned(),
        };
        locked(&self.fits.at_work).insert(suit.as_str().to_owned(), at_work);
        Ok(job)
    }

    /// Starts putting a suit on its form. Returns the job's id; the inner error is a sentence for the maker.
    ///
    /// # Errors
    /// [`StoreError::NotFound`] when there is no such suit.
    pub async fn start_put_on(
        self: &Arc<App>,
        suit: &DocumentId,
        request: PutOnRequest,
    ) -> Result<Result<String, String>, StoreError> {
        let worked = self.worked(suit).await?;
        let ready = Ready {
            unit: worked.unit(),
            worked,
        };
        let choice = match ready.parts().and_then(|_| request.choice(ready.unit)) {
            Ok(choice) => choice,
            Err(says) => return Ok(Err(says)),
        };
        let (app, id) = (Arc::clone(self), suit.as_str().to_owned());
        Ok(
            self.start_worn(suit, "put_on", "Fitting the form to her", move |job| {
                let (file, order) = ready.parts()?;
                let room = &ready.worked.room.room;
                let on = put_on_in(file, order, room, choice, &Steps(job)).map_err(|reason| {
                    format!("It can’t be put on the form. {}", crate::view::sentence(&reason))
                })?;
                if job.should_stop() {
                    return Err("stopped".into());
                }
                job.at(NEARLY, USUAL_STEPS, "Drawing it");
                // Reaching or breathing in is a moment; the plan counts movement for itself.
                if let Some(worn) = on
                    .stretches
                    .clone()
                    .filter(|_| choice.scene.kind == SceneKind::Standing)
                {
                    locked(&app.fits.stretched).insert(id.clone(), (order.version.clone(), worn));
                }
                let fit = kept(&ready.worked, (file, order), &on, &request, id);
                let made = told(&fit.view)?;
                app.fits.keep(fit);
                Ok(made)
            }),
        )
    }

    /// Starts looking for a better draft, put on in the same way as the result at hand. Returns the job's id; the inner error is a
    /// sentence for the maker.
    ///
    /// # Errors
    /// [`StoreError::NotFound`] when there is no such suit.
    pub async fn start_better(
        self: &Arc<App>,
        suit: &DocumentId,
    ) -> Result<Result<String, String>, StoreError> {
        let worked = self.worked(suit).await?;
        let (ready, choice, basis) = match self.as_put_on(suit, worked) {
            Ok(known) => known,
            Err(says) => return Ok(Err(says)),
        };
        let (app, id) = (Arc::clone(self), suit.as_str().to_owned());
        Ok(
            self.start_worn(suit, "better", "Trying the draft as it is", move |job| {
                let (file, order) = ready.parts()?;
                let found = propose(file, order, choice, &Steps(job)).map_err(|reason| {
                    format!(
                        "No better draft was looked for. {}",
                        crate::view::sentence(&reason)
                    )
                })?;
                if job.should_stop() {
                    return Err("stopped".into());
                }
                app.offer(&id, &order.version, better_view(&ready.worked, basis, &found))
            }),
        )
    }

    /// Starts trying the changes of one finding of the result at hand. Returns the job's id; the inner error is a sentence for the maker.
    ///
    /// # Errors
    /// [`StoreError::NotFound`] when there is no such suit.
    pub async fn start_try(
        self: &Arc<App>,
        suit: &DocumentId,
        finding: &str,
    ) -> Result<Result<String, String>, StoreError> {
        let worked = self.worked(suit).await?;
        let (ready, choice, basis) = match self.as_put_on(suit, worked) {
            Ok(known) => known,
            Err(says) => return Ok(Err(says)),
        };
        let found = self.fits.of(suit.as_str(), |kept| {
            let number: usize = finding.parse().ok()?;
            kept.found.get(number).filter(|f| !f.changes.is_empty()).cloned()
        });
        let Some(found) = found.flatten() else {
            return Ok(Err("There is nothing to try for this finding.".into()));
        };
        let (app, id, key) = (Arc::clone(self), suit.as_str().to_owned(), finding.to_owned());
        Ok(
            self.start_worn(suit, "try", "Fitting the form to her", move |job| {
                let (file, order) = ready.parts()?;
                let room = &ready.worked.room.room;
                let seen = Trier::new(file, order, room, choice, &Steps(job))
                    .and_then(|trier| trier.try_on(&found.changes, &Steps(job)))
                    .map_err(|reason| format!("It could not be tried. {}", crate::view::sentence(&reason)))?;
                if job.should_stop() {
                    return Err("stopped".into());
                }
                let proposed = try_view(&ready.worked, basis, &key, &found, &seen);
                app.offer(&id, &order.version, proposed)
            }),
        )
    }

    /// How a suit was put on last, if that was of the draft in force and came to an end.
    fn as_put_on(
        &self,
        suit: &DocumentId,
        worked: Arc<Worked>,
    ) -> Result<(Ready, WornChoice, Basis), String> {
        let ready = Ready {
            unit: worked.unit(),
            worked,
        };
        let version = ready.parts()?.1.version.clone();
        let known = self.fits.of(suit.as_str(), |kept| {
            let is_good = kept.view.version == version && kept.view.why_not.is_none();
            is_good.then(|| (kept.view.asked.clone(), kept.basis))
        });
        let (asked, basis) = known
            .flatten()
            .ok_or("The draft as it is now was not put on yet. Put it on first.")?;
        let choice = WornChoice {
            mesh_mm: CORRECTING_MESH_MM,
            ..asked.choice(ready.unit)?
        };
        Ok((ready, choice, basis))
    }

    /// Keeps a proposal with the result it is of.
    fn offer(&self, suit: &str, version: &str, proposed: ProposedView) -> Result<Made, String> {
        let made = told(&proposed)?;
        self.fits
            .of(suit, |kept| {
                kept.proposed = Some((version.to_owned(), proposed));
            })
            .ok_or("What it was tried on is gone. Put the suit on again.")?;
        Ok(made)
    }

    /// Drops what was proposed.
    pub fn leave_proposed(&self, suit: &DocumentId) {
        self.fits.of(suit.as_str(), |kept| kept.proposed = None);
    }

    /// The reason of a number of the last result of a suit.
    pub fn worn_why(&self, suit: &DocumentId, key: &str) -> Option<Why> {
        let found = self.fits.of(suit.as_str(), |kept| {
            let mut whys = kept.whys.iter();
            whys.find(|(known, _)| known == key).map(|(_, why)| why.clone())
        });
        found.flatten()
    }

    /// The lines of the last result, if this is it.
    pub fn worn_rings(&self, suit: &DocumentId, of: &str) -> Option<Vec<u8>> {
        let found = self.fits.of(suit.as_str(), |kept| {
            (kept.view.id == of && kept.view.why_not.is_none()).then(|| kept.rings.clone())
        });
        found.flatten()
    }

    /// A drawing of the last result, if this is it.
    pub fn worn_drawing(&self, suit: &DocumentId, of: &str, name: &str) -> Option<String> {
        let found = self.fits.of(suit.as_str(), |kept| {
            let mut drawings = kept.drawings.iter().filter(|_| kept.view.id == of);
            drawings.find(|(key, _)| key == name).map(|(_, svg)| svg.clone())
        });
        found.flatten()
    }
}

/// What is kept of a result.
fn kept(
    worked: &Worked,
    (file, order): (&SuitFile, &Order),
    on: &OnForm,
    request: &PutOnRequest,
    suit: String,
) -> KeptFit {
    let spelled = format!("{} {request:?}", order.version);
    let id = format!("{:016x}", fingerprint(spelled.as_bytes()));
    let mut view = fit_view(worked, order, on, request, &id);
    let mut drawings = Vec::new();
    let mut lines = Vec::new();
    if on.report.convergence.solved {
        lines = rings(on);
        for side in Side::ALL {
            let mut add = |key: String, shows: &str, svg: String| {
                view.drawings.push(WornDrawing {
                    key: key.clone(),
                    shows: shows.to_owned(),
                    from: told_capital(side.words()),
                });
                drawings.push((key, svg));
            };
            add(
                side.key().to_owned(),
                "Rings and ladder",
                draw(on, &file.name, side),
            );
            for what in Isolines::ALL {
                let shows = match what {
                    Isolines::Stretch => "Stretch around and lengthwise",
                    Isolines::Squeeze => "Squeeze in lines",
                };
                let svg = draw_isolines(on, &file.name, side, what);
                add(format!("{}-{}", what.key(), side.key()), shows, svg);
            }
        }
    }
    KeptFit {
        suit,
        view,
        rings: lines,
        drawings,
        found: on.found.clone(),
        whys: fit_whys(worked, on),
        room: room_key(worked),
        basis: Basis {
            shell_around: on.shell_stretch_around,
            is_relative: !on.report.cloth_weighed,
        },
        proposed: None,
    }
}

/// What a job gives to take away: the same as is shown.
fn told<T: serde::Serialize>(view: &T) -> Result<Made, String> {
    Ok(Made {
        name: "worn.json".to_owned(),
        mime: "application/json",
        bytes: serde_json::to_vec(view).map_err(|e| e.to_string())?,
    })
}
