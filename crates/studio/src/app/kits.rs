//! Packs of many files as jobs: everything of one suit, and the kits of a class; and a class worked out for its page.
//!
//! A class is several wearers and one design: each gets a suit of that design drafted for her, as `slackwater class` makes it.

use std::io::{Cursor, Write};
use std::sync::{Arc, Mutex};
use std::time::Instant;

use booklet::Edition;
use make::{ClothInBag, Pace, Phase};
use serde_json::Value;
use store::{Document, DocumentId, Kind, Store as _, StoreError};
use units::Progress;
use words::Language;
use zip::write::SimpleFileOptions;

use super::jobs::Made;
use super::papers::{blocking, name_of};
use super::{App, locked};
use crate::class::{
    ClassLays, ClassSetting, Person, WorkedClass, counted, folders, lay_class, make_kits, room_of, suit_name,
    work as work_class,
};
use crate::cli::folder::Sheet;
use crate::document::{Linked, Paper, Worked, work};
use crate::paper::{choice_of, make_pack};
use crate::view::{ClassView, class_view};

/// Lays of classes that were made in this run, the latest last: they are as good as long as what they rest on is the same.
#[derive(Default)]
pub(super) struct ClassLaysAtHand {
    made: Mutex<Vec<LaidClass>>,
}

#[derive(Clone)]
struct LaidClass {
    of: String,
    lays: Arc<ClassLays>,
    seconds: f64,
}

/// So many classes.
const CLASSES_AT_HAND: usize = 12;

impl ClassLaysAtHand {
    fn of(&self, class: &WorkedClass) -> Option<LaidClass> {
        let of = class.lays_of();
        locked(&self.made).iter().find(|l| l.of == of).cloned()
    }

    /// Those at hand, or made now.
    fn made(&self, class: &WorkedClass, progress: &(dyn Progress + Sync)) -> Result<LaidClass, String> {
        if let Some(known) = self.of(class) {
            return Ok(known);
        }
        let start = Instant::now();
        let lays = lay_class(class, progress).map_err(|_| "stopped".to_owned())?;
        let laid = LaidClass {
            of: class.lays_of(),
            lays: Arc::new(lays),
            seconds: start.elapsed().as_secs_f64(),
        };
        let mut all = locked(&self.made);
        if all.len() >= CLASSES_AT_HAND {
            all.remove(0);
        }
        all.push(laid.clone());
        Ok(laid)
    }
}

impl App {
    /// Starts making everything of a suit as one archive. Returns the job's id.
    ///
    /// # Errors
    /// [`StoreError`] for a suit that is not there; the inner error is a sentence for the maker.
    pub async fn start_pack(&self, suit: &DocumentId) -> Result<Result<String, String>, StoreError> {
        let worked = self.worked(suit).await?;
        let name = file_safe(name_of(&worked.suit.body));
        Ok(self.jobs.start("Making the paper", move |progress| {
            let sheets = pack(&worked, progress)?;
            Ok(Made {
                name: format!("{name}.zip"),
                mime: "application/zip",
                bytes: zipped(&sheets)?,
            })
        }))
    }

    /// Starts making the kits of a class. Returns the job's id.
    ///
    /// # Errors
    /// As [`App::start_pack`].
    pub async fn start_kits(
        self: &Arc<App>,
        class: &DocumentId,
    ) -> Result<Result<String, String>, StoreError> {
        let class = match self.class(class).await? {
            Ok(class) => class,
            Err(why) => return Ok(Err(why)),
        };
        let name = file_safe(&class.setting.name);
        let app = Arc::clone(self);
        Ok(self.jobs.start("Making the kits", move |progress| {
            let people = class.people();
            let worked = work_class(class.setting, people, progress).map_err(|_| "stopped".to_owned())?;
            let laid = app.class_lays.made(&worked, progress)?;
            let worked = worked.with_lays(laid.lays);
            let kits = make_kits(&worked, progress).map_err(|fault| fault.to_string())?;
            Ok(Made {
                name: format!("{name}-kits.zip"),
                mime: "application/zip",
                bytes: zipped(&kits.sheets)?,
            })
        }))
    }

    /// Starts laying all kits of a class, cloth by cloth. What comes of it is an archive of the lay plans; the lays are kept at hand for
    /// the class's page and its kits. Returns the job's id.
    ///
    /// # Errors
    /// As [`App::start_pack`].
    pub async fn start_class_lay(
        self: &Arc<App>,
        class: &DocumentId,
    ) -> Result<Result<String, String>, StoreError> {
        let class = match self.class(class).await? {
            Ok(class) => class,
            Err(why) => return Ok(Err(why)),
        };
        let name = file_safe(&class.setting.name);
        let app = Arc::clone(self);
        Ok(self.jobs.start("Laying the cloth", move |progress| {
            let people = class.people();
            let worked = work_class(class.setting, people, progress).map_err(|_| "stopped".to_owned())?;
            let laid = app.class_lays.made(&worked, progress)?;
            let plans = laid.lays.together.laid.iter().map(|l| {
                let printed = sheet::lay_plan::pdf(&l.plan()).map_err(|e| e.to_string())?;
                Ok(Sheet {
                    name: l.file("pdf"),
                    bytes: printed.bytes,
                })
            });
            let plans: Vec<Sheet> = plans.collect::<Result<_, String>>()?;
            if plans.is_empty() {
                let why: Vec<String> = laid.lays.together.not_laid.iter().map(|n| n.says()).collect();
                return Err(if why.is_empty() {
                    "nobody’s suit could be drafted, so there is nothing to lay".to_owned()
                } else {
                    why.join("; ")
                });
            }
            Ok(Made {
                name: format!("{name}-lay-plans.zip"),
                mime: "application/zip",
                bytes: zipped(&plans)?,
            })
        }))
    }

    /// A class worked out; the inner error says what it still lacks.
    ///
    /// # Errors
    /// As [`App::start_pack`].
    pub async fn class_view(
        self: &Arc<App>,
        class: &DocumentId,
    ) -> Result<Result<ClassView, String>, StoreError> {
        let class = match self.class(class).await? {
            Ok(class) => class,
            Err(why) => return Ok(Err(why)),
        };
        let room = class.room_says.clone();
        let app = Arc::clone(self);
        Ok(blocking(move || {
            let people = class.people();
            let worked =
                work_class(class.setting, people, &units::Silent).map_err(|_| "stopped".to_owned())?;
            let known = app.class_lays.of(&worked);
            let (worked, seconds) = match known {
                Some(laid) => (worked.with_lays(laid.lays), Some(laid.seconds)),
                None => (worked, None),
            };
            Ok(class_view(&worked, &room, seconds))
        })
        .await)
    }

    /// The papers of a class, or what it still lacks.
    async fn class(&self, class: &DocumentId) -> Result<Result<ClassPapers, String>, StoreError> {
        let class = self.store.get(class).await?;
        if class.kind != Kind::Class {
            return Err(StoreError::NotFound(class.id));
        }
        let Some(design) = class.body.get("design_of").and_then(Value::as_str) else {
            return Ok(Err("the class has no design yet: choose the suit it sews".into()));
        };
        let design = self.worked(&design.parse()?).await?;
        let mut wearers = Vec::new();
        let chosen = class.body.get("wearers").and_then(Value::as_array);
        for id in chosen.into_iter().flatten().filter_map(Value::as_str) {
            let wearer = self.store.get(&id.parse()?).await?;
            if wearer.deleted_at.is_none() {
                wearers.push(Paper {
                    id: wearer.id.as_str().to_owned(),
                    kind: wearer.kind.key(),
                    revision: wearer.revision,
                    body: wearer.body,
                });
            }
        }
        if wearers.is_empty() {
            return Ok(Err("the class has no wearers yet: tick who takes part".into()));
        }
        Ok(
            setting_of(&class, &design).map(|(setting, room_says)| ClassPapers {
                setting,
                room_says,
                design,
                wearers,
            }),
        )
    }
}

/// What a class is made of.
struct ClassPapers {
    setting: ClassSetting,
    room_says: String,
    design: Arc<Worked>,
    wearers: Vec<Paper>,
}

impl ClassPapers {
    /// Everyone with a suit of the design.
    fn people(&self) -> Vec<Person> {
        let names: Vec<&str> = self.wearers.iter().map(|w| name_of(&w.body)).collect();
        let of = self.wearers.iter().zip(folders(&names));
        of.map(|(wearer, folder)| {
            let name = name_of(&wearer.body).to_owned();
            let mut suit = self.design.suit.clone();
            if let Some(map) = suit.body.as_object_mut() {
                map.insert("name".into(), Value::String(suit_name(&self.setting.name, &name)));
            }
            let carer = wearer.body.pointer("/protocol/carer").and_then(Value::as_str);
            let carer = carer.unwrap_or_default().to_owned();
            let linked = Linked {
                wearer: Some(wearer.clone()),
                ..self.design.linked()
            };
            let worked = work(suit, linked);
            Person {
                name,
                folder,
                carer,
                suit: worked.file.ok_or(worked.faults),
                text: worked.text,
            }
        })
        .collect()
    }
}

/// Hours of a session when nothing is written.
const USUAL_HOURS: f64 = 3.0;
/// Most machines of one kind.
const MOST_MACHINES: u64 = 40;

/// What the class document says of room and sessions; what it does not say is as usual, and the room is then the workroom.
fn setting_of(class: &Document, design: &Worked) -> Result<(ClassSetting, String), String> {
    let word = |key: &str| class.body.get(key).and_then(Value::as_str).unwrap_or_default();
    let count = |kind: &str| -> Result<Option<u32>, String> {
        let Some(value) = class
            .body
            .pointer(&format!("/machines/{kind}"))
            .filter(|v| !v.is_null())
        else {
            return Ok(None);
        };
        let typed = match value {
            Value::Number(number) => number.as_u64(),
            Value::String(text) => text.trim().parse().ok(),
            _ => None,
        };
        typed
            .filter(|n| *n <= MOST_MACHINES)
            .map(|n| Some(n as u32))
            .ok_or_else(|| {
                format!(
                    "“{}” is no count of machines: write a whole number up to {MOST_MACHINES}",
                    told(value)
                )
            })
    };
    let counts = [
        count("straight")?,
        count("zigzag")?,
        count("overlocker")?,
        count("coverstitch")?,
    ];
    let of = |at: usize| counts.get(at).copied().flatten().unwrap_or(0);
    let (room, says) = if counts.iter().all(Option::is_none) {
        let own = counted(design.room.room.clone());
        let says = if design.room.room.is_assumed {
            "No machine is written down in the workroom: one zigzag machine is taken."
        } else {
            "The machines of the workroom."
        };
        (own, says)
    } else {
        let mut room = room_of(of(0), of(1), of(2), of(3));
        if room.0.workroom.machines.is_empty() {
            return Err("the room has no machine: write how many there are of each".into());
        }
        // Machines of the class, everything else of the workroom.
        let own = &design.room.room;
        room.0.workroom.needles.clone_from(&own.workroom.needles);
        room.0.workroom.threads.clone_from(&own.workroom.threads);
        room.0.samples = own.samples.clone();
        room.0.stock.clone_from(&own.stock);
        room.0.prices.clone_from(&own.prices);
        room.0.cloths.clone_from(&own.cloths);
        (room, "The machines written down for this class.")
    };
    let name = match word("name").trim() {
        "" => "Class",
        name => name,
    };
    let mut setting = ClassSetting::new(name, room);
    word("when").trim().clone_into(&mut setting.when);
    setting.session = session_minutes(class.body.get("hours"))?;
    setting.units = design.unit();
    setting.printer = design.parts.as_ref().map(|p| p.printer).unwrap_or_default();
    setting.language = Language::of_tag(word("language")).unwrap_or_default();
    if word("edition") == "maker" {
        setting.edition = Edition::Maker;
    }
    if word("pace") == "slow" {
        setting.pace = Pace::Slow;
    }
    if word("bags") == "pieces" {
        setting.bags = ClothInBag::Pieces;
        setting.before.push(Phase::Cut);
    }
    if class.body.get("proved_before").and_then(Value::as_bool) == Some(true) {
        setting.before.push(Phase::Prove);
    }
    Ok((setting, says.to_owned()))
}

/// What was typed, without the quotes of JSON.
fn told(value: &Value) -> String {
    value.as_str().map_or_else(|| value.to_string(), str::to_owned)
}

fn session_minutes(hours: Option<&Value>) -> Result<u32, String> {
    let Some(value) = hours.filter(|v| !v.is_null()) else {
        return Ok((USUAL_HOURS * 60.0) as u32);
    };
    let typed = match value {
        Value::Number(number) => number.as_f64(),
        Value::String(text) => text
            .trim()
            .trim_end_matches('h')
            .trim()
            .replace(',', ".")
            .parse()
            .ok(),
        _ => None,
    };
    typed
        .filter(|h| (0.5..=12.0).contains(h))
        .map(|h| (h * 60.0).round() as u32)
        .ok_or_else(|| {
            format!(
                "“{}” is no length of a session: write its hours, from half an hour to twelve, as 2.5",
                told(value)
            )
        })
}

/// Everything of one suit.
fn pack(worked: &Worked, progress: &(dyn Progress + Sync)) -> Result<Vec<Sheet>, String> {
    let (Some(file), Some(order)) = (&worked.file, &worked.order) else {
        let says: Vec<String> = worked
            .faults
            .iter()
            .map(|f| {
                format!("{}: {}", f.message, f.help)
                    .trim_end_matches(": ")
                    .to_owned()
            })
            .collect();
        return Err(says.join("\n"));
    };
    let choice = choice_of(worked);
    let pack =
        make_pack(file, order, &worked.lays_in_force(), &choice, progress).map_err(|r| r.to_string())?;
    let mut sheets = pack.sheets;
    sheets.push(Sheet {
        name: "suit.toml".into(),
        bytes: worked.text.clone().into_bytes(),
    });
    Ok(sheets)
}

/// The sheets as one archive; same sheets, same bytes.
fn zipped(sheets: &[Sheet]) -> Result<Vec<u8>, String> {
    let failed = |e: zip::result::ZipError| format!("the archive could not be made: {e}");
    let mut archive = zip::ZipWriter::new(Cursor::new(Vec::new()));
    // No times of the clock: the archive's own zero.
    let options = SimpleFileOptions::default().last_modified_time(zip::DateTime::default());
    for sheet in sheets {
        archive.start_file(&sheet.name, options).map_err(failed)?;
        archive
            .write_all(&sheet.bytes)
            .map_err(|e| format!("the archive could not be made: {e}"))?;
    }
    Ok(archive.finish().map_err(failed)?.into_inner())
}

/// A name every file system takes: letters, digits, dashes.
pub(crate) fn file_safe(name: &str) -> String {
    let mut out = String::new();
    for c in name.chars().take(60) {
        if c.is_alphanumeric() {
            out.extend(c.to_lowercase());
        } else if !out.ends_with('-') && !out.is_empty() {
            out.push('-');
        }
    }
    let out = out.trim_matches('-').to_owned();
    if out.is_empty() { "suit".into() } else { out }
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::{file_safe, session_minutes};

    #[test]
    fn names_of_files_are_plain() {
        assert_eq!(file_safe("Maren, winter one-piece"), "maren-winter-one-piece");
        assert_eq!(file_safe("../../etc/passwd"), "etc-passwd");
        assert_eq!(file_safe("???"), "suit");
        assert_eq!(file_safe("Größe 38"), "größe-38");
    }

    #[test]
    fn hours_are_read_as_they_are_typed() {
        assert_eq!(session_minutes(None), Ok(180));
        assert_eq!(session_minutes(Some(&json!(2.5))), Ok(150));
        assert_eq!(session_minutes(Some(&json!("2,5 h"))), Ok(150));
        assert!(
            session_minutes(Some(&json!("a morning")))
                .unwrap_err()
                .contains("a morning")
        );
        assert!(session_minutes(Some(&json!(0))).is_err());
    }
}
