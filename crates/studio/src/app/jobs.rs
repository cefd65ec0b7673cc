//! Long work in the background: told how far it is, stopped when asked, its result kept until it is fetched.
//!
//! A job runs on a thread of its own and reports through [`units::Progress`]; pages listen to [`JobEvent`]s. Reports are
//! passed on at most ten times a second and at every end, so that a fast job does not flood a slow tablet.

use std::collections::BTreeMap;
use std::sync::atomic::{AtomicBool, AtomicU64, Ordering};
use std::sync::{Arc, Mutex};
use std::time::{Duration, Instant};

use serde::Serialize;
use tokio::sync::watch;
use ts_rs::TS;
use units::Progress;
use utoipa::ToSchema;

use super::locked;
use crate::view::LayNow;

/// How a job stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, TS, ToSchema)]
#[serde(rename_all = "snake_case")]
pub enum JobState {
    /// At work.
    Running,
    /// Done; there is a result.
    Done,
    /// Stopped by the maker.
    Stopped,
    /// It could not be done.
    Failed,
}

/// What is told of a job.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct JobEvent {
    /// Id of the job.
    pub job: String,
    /// How it stands.
    pub state: JobState,
    /// Steps done.
    pub done: u64,
    /// Of how many.
    pub of: u64,
    /// Their share, 0 to 1.
    pub share: f64,
    /// What is being done, or why it failed: one sentence.
    pub says: String,
    /// Where the result is fetched, when done.
    pub result: Option<String>,
    /// The lay found so far, of a job that packs one.
    pub lay: Option<LayNow>,
}

/// What a job made: a file to take away.
#[derive(Clone, Debug)]
pub struct Made {
    /// Its name.
    pub name: String,
    /// Its type.
    pub mime: &'static str,
    /// Its bytes.
    pub bytes: Vec<u8>,
}

/// One job.
pub struct Job {
    stop: AtomicBool,
    events: watch::Sender<JobEvent>,
    made: Mutex<Option<Arc<Made>>>,
}

impl Job {
    /// Asks it to stop at its next safe place.
    pub fn stop(&self) {
        self.stop.store(true, Ordering::Relaxed);
    }

    /// How it stands now, and how from now on.
    pub fn events(&self) -> watch::Receiver<JobEvent> {
        self.events.subscribe()
    }

    /// What it made, once it is done.
    pub fn made(&self) -> Option<Arc<Made>> {
        locked(&self.made).clone()
    }
}

/// The jobs of a run of the studio.
#[derive(Default)]
pub struct Jobs {
    next: AtomicU64,
    all: Mutex<BTreeMap<u64, Arc<Job>>>,
}

/// Jobs that are remembered after their end.
const KEPT: usize = 20;
/// Jobs that may run at once; a tablet that asks for more is told to wait.
const AT_ONCE: usize = 4;
/// Least time between two reports.
const REPORT_EVERY: Duration = Duration::from_millis(100);

impl Jobs {
    /// Starts a job. `work` gets the progress to report to; an error is a sentence for the maker.
    ///
    /// # Errors
    /// A sentence when too many are running.
    pub fn start(
        &self,
        says: &str,
        work: impl FnOnce(&(dyn Progress + Sync)) -> Result<Made, String> + Send + 'static,
    ) -> Result<String, String> {
        self.start_telling(says, |reporter| work(reporter))
    }

    /// The same for work that shows more of itself than how far it is.
    ///
    /// # Errors
    /// As [`Jobs::start`].
    pub(super) fn start_telling(
        &self,
        says: &str,
        work: impl FnOnce(&Reporter) -> Result<Made, String> + Send + 'static,
    ) -> Result<String, String> {
        let mut all = locked(&self.all);
        let running = all
            .values()
            .filter(|j| j.events.borrow().state == JobState::Running)
            .count();
        if running >= AT_ONCE {
            return Err(format!(
                "{running} jobs are running already; stop one, or wait for it"
            ));
        }
        let number = self.next.fetch_add(1, Ordering::Relaxed) + 1;
        let id = number.to_string();
        let (events, _) = watch::channel(JobEvent {
            job: id.clone(),
            state: JobState::Running,
            done: 0,
            of: 0,
            share: 0.0,
            says: says.to_owned(),
            result: None,
            lay: None,
        });
        let job = Arc::new(Job {
            stop: AtomicBool::new(false),
            events,
            made: Mutex::new(None),
        });
        while all.len() >= KEPT {
            let ended = all
                .iter()
                .find(|(_, j)| j.events.borrow().state != JobState::Running)
                .map(|(n, _)| *n);
            match ended {
                Some(number) => all.remove(&number),
                None => break,
            };
        }
        all.insert(number, Arc::clone(&job));
        drop(all);
        std::thread::spawn(move || run(&job, work));
        Ok(id)
    }

    /// Asks all to stop: the studio ends.
    pub fn stop_all(&self) {
        for job in locked(&self.all).values() {
            job.stop();
        }
    }

    /// Stops all and lets go of what they made: it holds bodies.
    pub(crate) fn forget(&self) {
        self.stop_all();
        for job in locked(&self.all).values() {
            *locked(&job.made) = None;
        }
    }

    /// The job of this id.
    pub fn get(&self, id: &str) -> Option<Arc<Job>> {
        let number: u64 = id.parse().ok()?;
        locked(&self.all).get(&number).cloned()
    }
}

fn run(job: &Arc<Job>, work: impl FnOnce(&Reporter) -> Result<Made, String>) {
    let reporter = Reporter {
        job: Arc::clone(job),
        last: Mutex::new(None),
    };
    let made = std::panic::catch_unwind(std::panic::AssertUnwindSafe(|| work(&reporter)));
    let stopped = job.stop.load(Ordering::Relaxed);
    job.events.send_modify(|event| match made {
        Ok(Ok(made)) if !stopped => {
            *locked(&job.made) = Some(Arc::new(made));
            event.state = JobState::Done;
            event.done = event.of;
            event.share = 1.0;
            event.says = "Done.".into();
            event.result = Some(format!("/api/v1/jobs/{}/result", event.job));
        }
        Ok(Ok(_)) => {
            event.state = JobState::Stopped;
            event.says = "Stopped.".into();
        }
        Ok(Err(_)) if stopped => {
            event.state = JobState::Stopped;
            event.says = "Stopped.".into();
        }
        Ok(Err(says)) => {
            event.state = JobState::Failed;
            event.says = says;
        }
        Err(_) => {
            event.state = JobState::Failed;
            event.says = "This failed by a fault of the program; nothing of yours was changed.".into();
        }
    });
}

/// What a job reports through.
pub(super) struct Reporter {
    job: Arc<Job>,
    last: Mutex<Option<Instant>>,
}

/// Steps told of work whose share of time is known.
const STEPS: u64 = 1000;

impl Reporter {
    /// How much of the time is gone, with the words that stand; as seldom as any report.
    pub(super) fn goes(&self, share: f64) {
        let mut last = locked(&self.last);
        if last.is_some_and(|at| at.elapsed() < REPORT_EVERY) {
            return;
        }
        *last = Some(Instant::now());
        let share = share.clamp(0.0, 1.0);
        self.job.events.send_modify(|event| {
            event.of = STEPS;
            event.done = (share * STEPS as f64) as u64;
            event.share = share;
        });
    }

    /// A lay found on the way, with how much of the time is gone.
    pub(super) fn shows(&self, share: f64, says: &str, lay: LayNow) {
        self.job.events.send_modify(|event| {
            event.of = STEPS;
            event.done = (share * STEPS as f64) as u64;
            event.share = share;
            event.says = says.to_owned();
            event.lay = Some(lay);
        });
    }
}

impl Progress for Reporter {
    fn at(&self, done: u64, of: u64, words: &str) {
        let mut last = locked(&self.last);
        if last.is_some_and(|at| at.elapsed() < REPORT_EVERY) && done < of {
            return;
        }
        *last = Some(Instant::now());
        self.job.events.send_modify(|event| {
            event.done = done;
            event.of = of;
            event.share = if of > 0 { done as f64 / of as f64 } else { 0.0 };
            event.says = words.to_owned();
        });
    }

    fn should_stop(&self) -> bool {
        self.job.stop.load(Ordering::Relaxed)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn wait(job: &Job) -> JobEvent {
        let events = job.events();
        let start = Instant::now();
        loop {
            let event = events.borrow().clone();
            if event.state != JobState::Running {
                return event;
            }
            assert!(start.elapsed() < Duration::from_secs(20), "the job does not end");
            std::thread::sleep(Duration::from_millis(2));
        }
    }

    fn made() -> Made {
        Made {
            name: "a.zip".into(),
            mime: "application/zip",
            bytes: vec![1],
        }
    }

    #[test]
    fn a_job_tells_how_far_it_is_and_keeps_what_it_made() {
        let jobs = Jobs::default();
        let id = jobs
            .start("Making", |progress| {
                for i in 0..=10 {
                    progress.at(i, 10, "page");
                }
                Ok(made())
            })
            .unwrap();
        let job = jobs.get(&id).unwrap();
        let end = wait(&job);
        assert_eq!(
            (end.state, end.done, end.of, end.share),
            (JobState::Done, 10, 10, 1.0)
        );
        assert_eq!(job.made().unwrap().bytes, [1]);
        assert!(jobs.get("99").is_none() && jobs.get("x").is_none());
    }

    #[test]
    fn a_stopped_job_gives_nothing_even_if_it_finishes() {
        let jobs = Jobs::default();
        let id = jobs
            .start("Making", |progress| {
                while !progress.should_stop() {
                    std::thread::yield_now();
                }
                Ok(made())
            })
            .unwrap();
        let job = jobs.get(&id).unwrap();
        job.stop();
        assert_eq!(wait(&job).state, JobState::Stopped);
        assert!(job.made().is_none());
    }

    #[test]
    fn a_job_that_fails_or_breaks_says_so() {
        let jobs = Jobs::default();
        let id = jobs
            .start("Making", |_| Err("no cloth is chosen".into()))
            .unwrap();
        assert_eq!(wait(&jobs.get(&id).unwrap()).says, "no cloth is chosen");
        let id = jobs.start("Making", |_| panic!("on purpose")).unwrap();
        assert_eq!(wait(&jobs.get(&id).unwrap()).state, JobState::Failed);
    }
}
