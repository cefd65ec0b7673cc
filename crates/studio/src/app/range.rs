//! Ranges at work: drafted as a job, kept at hand while the studio runs, asked about.

use std::sync::{Arc, Mutex};

use body::{BodyForm, WaistLevel, Wearer};
use range::{Candidates, TableFaults, Tolerance, choose, cover};
use serde::{Deserialize, Serialize};
use sheet::{PieceForm, Roll};
use store::{DocumentId, Kind, Store as _, StoreError};
use ts_rs::TS;
use units::{LengthUnit, Mm, parse_length};
use utoipa::ToSchema;

use super::jobs::Made;
use super::papers::{blocking, name_of};
use super::{App, locked};
use crate::document::Paper;
use crate::version::fingerprint;
use crate::view::{
    CoverView, MadeRange, RangeFile, RangeOf, RangeSuitView, RangeView, RangeWearerView, RangesView,
    SizeChoiceView, SizeTableView, TableSource, alone, built_in_tables, cover_view, range_view,
    size_choice_view, size_table_view, table_of,
};

/// Ranges kept at hand; one that is gone is drafted again.
const RANGES_AT_HAND: usize = 8;

/// The nest goes to a plotter of this width.
const ROLL: Roll = Roll::Inch36;

/// A range that was drafted, with its files.
pub(crate) struct KeptRange {
    id: String,
    made: MadeRange,
    files: Result<Vec<RangeFile>, String>,
}

impl KeptRange {
    fn view(&self) -> RangeView {
        let (names, why) = match &self.files {
            Ok(files) => (
                files
                    .iter()
                    .map(|f| (f.name.clone(), f.what.to_owned()))
                    .collect(),
                None,
            ),
            Err(why) => (Vec::new(), Some(why.as_str())),
        };
        range_view(&self.id, &self.made, &names, why)
    }
}

/// The ranges of a run of the studio, the latest last.
#[derive(Default)]
pub(crate) struct Ranges(Mutex<Vec<Arc<KeptRange>>>);

impl Ranges {
    /// Forgets them: one may have been chosen from for a wearer who is gone.
    pub(crate) fn forget(&self) {
        locked(&self.0).clear();
    }

    fn get(&self, id: &str) -> Option<Arc<KeptRange>> {
        locked(&self.0).iter().find(|r| r.id == id).cloned()
    }

    fn keep(&self, range: KeptRange) {
        let mut kept = locked(&self.0);
        kept.retain(|r| r.id != range.id);
        if kept.len() >= RANGES_AT_HAND {
            kept.remove(0);
        }
        kept.push(Arc::new(range));
    }
}

/// Which size table.
#[derive(Clone, Debug, Default, Deserialize, Serialize, TS, ToSchema)]
#[serde(deny_unknown_fields, default)]
pub struct SizesRequest {
    /// `women`, `men`, `children`, or `own`.
    pub table: String,
    /// The maker's own table as CSV, for `own`.
    pub csv: String,
    /// What her table is called.
    pub name: String,
    /// Whose bodies it holds: `woman`, `man`, `child`.
    pub form: String,
    /// Unit of its bare numbers where its heads do not say: `cm`, `mm`, `in`; empty for none.
    pub unit: String,
    /// The stature of sizes that have none, as typed: `168 cm`; empty for an estimate.
    pub stature: String,
    /// Only these sizes; all when empty.
    pub only: Vec<String>,
}

/// A range to draft.
#[derive(Clone, Debug, Default, Deserialize, Serialize, TS, ToSchema)]
#[serde(deny_unknown_fields, default)]
pub struct RangeRequest {
    /// The suit whose cloth and design it has.
    pub suit: String,
    /// The table.
    pub sizes: SizesRequest,
}

/// Whom to choose a size for.
#[derive(Clone, Debug, Default, Deserialize, Serialize, TS, ToSchema)]
#[serde(deny_unknown_fields, default)]
pub struct SizeRequest {
    /// Her id.
    pub wearer: String,
}

/// Whom to cover with how few sizes.
#[derive(Clone, Debug, Default, Deserialize, Serialize, TS, ToSchema)]
#[serde(deny_unknown_fields, default)]
pub struct CoverRequest {
    /// Their ids.
    pub wearers: Vec<String>,
    /// How far a girth may be off, as typed.
    pub girth: String,
    /// How far trunk and stature may be off, as typed.
    pub length: String,
    /// `table` to choose among the sizes of the range, `people` to make new sizes of the people themselves.
    pub from: String,
}

/// A range that is being drafted.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, TS, ToSchema)]
pub struct RangeStarted {
    /// The job that drafts it.
    pub job: String,
    /// The range it will be.
    pub range: String,
}

/// Why a range was not begun or a question not answered.
#[derive(Clone, Debug)]
pub enum RangeRefusal {
    /// A sentence, and what to do.
    Says(String, &'static str),
    /// Faults of the table.
    Table(TableFaults),
}

fn says(what: impl Into<String>, next: &'static str) -> RangeRefusal {
    RangeRefusal::Says(what.into(), next)
}

fn unit_of(text: &str) -> Option<LengthUnit> {
    [LengthUnit::Cm, LengthUnit::Mm, LengthUnit::In]
        .into_iter()
        .find(|u| u.symbol() == text)
}

fn form_of(text: &str) -> Result<BodyForm, RangeRefusal> {
    match text {
        "woman" => Ok(BodyForm::Woman),
        "man" => Ok(BodyForm::Man),
        "child" => Ok(BodyForm::Child),
        _ => Err(says(
            "it is not said whose bodies the table holds",
            "Choose women, men or children.",
        )),
    }
}

fn typed(text: &str, unit: LengthUnit, name: &str) -> Result<Mm, RangeRefusal> {
    parse_length(text, unit).map_err(|_| {
        says(
            format!("{name} is no length: {text}"),
            "Write it as 4 cm or 1 1/2 in.",
        )
    })
}

/// Reads a request's table.
fn read(request: &SizesRequest, unit: LengthUnit) -> Result<range::SizeTable, RangeRefusal> {
    let stature = match request.stature.trim() {
        "" => None,
        text => {
            let mm = typed(text, unit, "the stature")?;
            if !(500.0..=2500.0).contains(&mm.get()) {
                return Err(says(
                    format!("a stature of {} is nobody's", mm.to_cm_text()),
                    "Write one from 50 cm to 250 cm.",
                ));
            }
            Some(mm)
        }
    };
    let only: Vec<&str> = request.only.iter().map(String::as_str).collect();
    let source = match range::BuiltIn::from_key(&request.table) {
        Some(built_in) => TableSource::BuiltIn(built_in),
        None if request.table == "own" => TableSource::Own {
            bytes: request.csv.as_bytes(),
            name: match request.name.trim() {
                "" => "own sizes",
                name => name,
            },
            form: form_of(&request.form)?,
            waist_level: WaistLevel::Natural,
            unit: unit_of(&request.unit),
        },
        None => {
            return Err(says("no size table is chosen", "Choose one, or bring your own."));
        }
    };
    table_of(&source, stature, &only).map_err(RangeRefusal::Table)
}

impl App {
    /// What a range can be made of.
    ///
    /// # Errors
    /// Those of the store.
    pub async fn ranges(&self) -> Result<RangesView, StoreError> {
        let form = |body: &serde_json::Value| {
            let form = body.get("form").and_then(serde_json::Value::as_str);
            form.unwrap_or_default().to_owned()
        };
        let wearers: Vec<RangeWearerView> = self
            .store
            .list(Kind::Wearer)
            .await?
            .iter()
            .map(|d| RangeWearerView {
                id: d.id.as_str().to_owned(),
                name: name_of(&d.body).to_owned(),
                form: form(&d.body),
            })
            .collect();
        let suits = self.store.list(Kind::Suit).await?;
        Ok(RangesView {
            suits: suits
                .iter()
                .map(|d| {
                    let wearer = d.body.get("wearer").and_then(serde_json::Value::as_str);
                    let number = d.body.get("number").and_then(serde_json::Value::as_u64);
                    RangeSuitView {
                        id: d.id.as_str().to_owned(),
                        name: format!(
                            "{} {}",
                            number.map_or(String::new(), |n| n.to_string()),
                            name_of(&d.body)
                        )
                        .trim()
                        .to_owned(),
                        form: wearers
                            .iter()
                            .find(|w| Some(w.id.as_str()) == wearer)
                            .map_or(String::new(), |w| w.form.clone()),
                    }
                })
                .collect(),
            wearers,
            tables: built_in_tables(),
            unit: self.settings().await?.units,
        })
    }

    /// Reads a maker's own table, without drafting anything.
    ///
    /// # Errors
    /// Those of the store; the inner error says what is wrong with the table.
    pub async fn read_sizes(
        &self,
        request: &SizesRequest,
    ) -> Result<Result<SizeTableView, RangeRefusal>, StoreError> {
        let unit = unit_of(&self.settings().await?.units).unwrap_or(LengthUnit::Cm);
        let key = request.table.clone();
        Ok(read(request, unit).map(|table| size_table_view(&key, &table)))
    }

    /// Starts drafting a range.
    ///
    /// # Errors
    /// [`StoreError::NotFound`] for a suit that is not there; the inner error says what keeps it from being drafted.
    pub async fn start_range(
        self: &Arc<Self>,
        request: RangeRequest,
    ) -> Result<Result<RangeStarted, RangeRefusal>, StoreError> {
        let suit: DocumentId = request.suit.parse()?;
        let worked = self.worked(&suit).await?;
        let table = match read(&request.sizes, worked.unit()) {
            Ok(table) => table,
            Err(refusal) => return Ok(Err(refusal)),
        };
        // Anything the design does not say well would stand as usual in every size.
        if let Some(fault) = worked.faults.iter().find(|f| f.field.starts_with("design"))
            && worked.file.is_none()
        {
            return Ok(Err(says(
                format!("the design does not read: {}", fault.message),
                "Mend it in the work order, under Shape.",
            )));
        }
        let of = match (&worked.file, &worked.parts, &worked.cloth) {
            (Some(file), _, Some(_)) => match RangeOf::of_suit(file) {
                Ok(of) => of,
                Err(_) => return Ok(Err(no_cloth())),
            },
            (None, Some(parts), Some(cloth)) => RangeOf {
                suit: name_of(&worked.suit.body).to_owned(),
                version: String::new(),
                cloth: cloth.clone(),
                design: parts.design.clone(),
                unit: worked.unit(),
            },
            _ => return Ok(Err(no_cloth())),
        };
        let spelled = format!("{}\n{:?}", worked.text, request.sizes);
        let id = format!("{:016x}", fingerprint(spelled.as_bytes()));
        let app = Arc::clone(self);
        let range = id.clone();
        let job = self.jobs.start("Drafting the sizes", move |progress| {
            let made = MadeRange::draft(of, &table, progress);
            if progress.should_stop() {
                return Err("stopped".into());
            }
            let files = if made.chart.sizes.is_empty() {
                Ok(Vec::new())
            } else {
                made.files(ROLL, PieceForm::Whole).map_err(|r| r.to_string())
            };
            let kept = KeptRange { id, made, files };
            let bytes = serde_json::to_vec(&kept.view()).map_err(|e| e.to_string())?;
            app.ranges.keep(kept);
            Ok(Made {
                name: "range.json".into(),
                mime: "application/json",
                bytes,
            })
        });
        Ok(match job {
            Ok(job) => Ok(RangeStarted { job, range }),
            Err(what) => Err(says(what, "")),
        })
    }

    /// A drafted range; none when it is no longer at hand.
    pub async fn range(&self, id: &str) -> Option<RangeView> {
        let kept = self.ranges.get(id)?;
        Some(blocking(move || kept.view()).await)
    }

    /// A file of a range, with the name it is saved under.
    pub fn range_file(&self, id: &str, name: &str) -> Option<(String, RangeFile)> {
        let kept = self.ranges.get(id)?;
        let file = kept.files.as_ref().ok()?.iter().find(|f| f.name == name)?.clone();
        Some((kept.made.of.suit.clone(), file))
    }

    /// The size of a range for a wearer; `None` for a range that is no longer at hand.
    ///
    /// # Errors
    /// [`StoreError::NotFound`] for a wearer who is not there; the inner error says why there is no size.
    pub async fn size_for(
        &self,
        id: &str,
        request: &SizeRequest,
    ) -> Result<Option<Result<SizeChoiceView, RangeRefusal>>, StoreError> {
        let Some(kept) = self.ranges.get(id) else {
            return Ok(None);
        };
        let wearer = match self.wearer_of(&request.wearer).await? {
            Ok(wearer) => wearer,
            Err(refusal) => return Ok(Some(Err(refusal))),
        };
        let chosen = blocking(move || {
            choose(&wearer, &kept.made.range)
                .map(|choice| size_choice_view(&choice, &wearer, &kept.made))
                .map_err(|error| says(error.to_string(), ""))
        });
        Ok(Some(chosen.await))
    }

    /// The fewest sizes that cover these wearers; `None` for a range that is no longer at hand.
    ///
    /// # Errors
    /// As [`App::size_for`].
    pub async fn cover_of(
        &self,
        id: &str,
        request: &CoverRequest,
    ) -> Result<Option<Result<CoverView, RangeRefusal>>, StoreError> {
        let Some(kept) = self.ranges.get(id) else {
            return Ok(None);
        };
        let mut people = Vec::with_capacity(request.wearers.len());
        for id in &request.wearers {
            match self.wearer_of(id).await? {
                Ok(wearer) => people.push(wearer),
                Err(refusal) => return Ok(Some(Err(refusal))),
            }
        }
        let unit = kept.made.of.unit;
        let (girth, length) = match (
            typed(&request.girth, unit, "the tolerance of girths"),
            typed(&request.length, unit, "the tolerance of lengths"),
        ) {
            (Ok(girth), Ok(length)) => (girth, length),
            (Err(refusal), _) | (_, Err(refusal)) => return Ok(Some(Err(refusal))),
        };
        let tolerance = Tolerance { girth, length };
        let is_new = request.from == "people";
        let covered = blocking(move || {
            let from = if is_new {
                Candidates::People
            } else {
                Candidates::Table(&kept.made.range.table)
            };
            cover(&people, from, tolerance)
                .map(|cover| cover_view(&cover, &people))
                .map_err(|error| says(error.to_string(), ""))
        });
        Ok(Some(covered.await))
    }

    /// A wearer's dimensions as they read.
    async fn wearer_of(&self, id: &str) -> Result<Result<Wearer, RangeRefusal>, StoreError> {
        let document = self.store.get(&id.parse()?).await?;
        if document.kind != Kind::Wearer || document.deleted_at.is_some() {
            return Err(StoreError::NotFound(document.id));
        }
        let name = name_of(&document.body).to_owned();
        let units = self.settings().await?.units;
        let paper = Paper {
            id: document.id.as_str().to_owned(),
            kind: "wearer",
            revision: document.revision,
            body: document.body,
        };
        let worked = blocking(move || alone(paper, &units)).await;
        Ok(worked
            .parts
            .as_ref()
            .and_then(|p| p.wearer.as_ref())
            .map(|(wearer, _)| wearer.clone())
            .ok_or_else(|| {
                says(
                    format!("{name} has not been measured yet"),
                    "Take her girths first.",
                )
            }))
    }
}

fn no_cloth() -> RangeRefusal {
    says(
        "the suit has no cloth whose stretch is known",
        "Choose a cloth in the work order and test its stretch.",
    )
}
