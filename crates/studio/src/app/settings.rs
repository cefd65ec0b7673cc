//! What the studio remembers of its screens and its maker's habits.

use serde::{Deserialize, Serialize};
use store::{Store as _, StoreError};
use ts_rs::TS;
use utoipa::ToSchema;

use super::App;

/// Settings of this workroom.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, TS, ToSchema)]
#[serde(default)]
pub struct Settings {
    /// Unit of new suits: `cm` or `in`.
    pub units: String,
    /// `day`, `night` or `system`.
    pub light: String,
    /// The screen, calibrated with a bank card.
    pub screen: Scale,
    /// The projector, calibrated with a square.
    pub projector: Scale,
    /// Whether single keys jump between sections.
    pub keys: bool,
}

/// How large a screen draws.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize, TS, ToSchema)]
#[serde(default)]
pub struct Scale {
    /// Pixels in a millimetre; none before it was calibrated.
    pub px_per_mm: Option<f64>,
}

impl Default for Settings {
    fn default() -> Self {
        Settings {
            units: "cm".into(),
            light: "system".into(),
            screen: Scale::default(),
            projector: Scale::default(),
            keys: true,
        }
    }
}

/// Settings to change; what is left out stays.
#[derive(Clone, Debug, Default, Deserialize, Serialize, TS, ToSchema)]
#[serde(deny_unknown_fields, default)]
pub struct SettingsChange {
    /// See [`Settings`].
    pub units: Option<String>,
    /// See [`Settings`].
    pub light: Option<String>,
    /// See [`Settings`].
    pub screen: Option<Scale>,
    /// See [`Settings`].
    pub projector: Option<Scale>,
    /// See [`Settings`].
    pub keys: Option<bool>,
}

const NAME: &str = "studio";
/// A screen from a wall display to the densest telephone has between half and forty pixels in a millimetre.
const PX_PER_MM: (f64, f64) = (0.2, 40.0);

impl App {
    /// The settings; the usual ones before any were made.
    ///
    /// # Errors
    /// Those of the store.
    pub async fn settings(&self) -> Result<Settings, StoreError> {
        let kept = self.store.setting(NAME).await?;
        // A field of a later version is passed over, one it does not know yet is as usual.
        kept.map_or_else(
            || Ok(Settings::default()),
            |value| serde_json::from_value(value).map_err(unreadable),
        )
    }

    /// Changes settings; the inner error is a sentence for the maker.
    ///
    /// # Errors
    /// Those of the store.
    pub async fn change_settings(
        &self,
        change: SettingsChange,
    ) -> Result<Result<Settings, String>, StoreError> {
        let mut settings = self.settings().await?;
        let word = |slot: &mut String, value: Option<String>, name: &str, allowed: &[&str]| match value {
            Some(value) if allowed.contains(&value.as_str()) => {
                *slot = value;
                Ok(())
            }
            Some(value) => Err(format!("{name} \"{value}\" is none of {}", allowed.join(", "))),
            None => Ok(()),
        };
        let scale = |slot: &mut Scale, value: Option<Scale>, name: &str| match value {
            Some(Scale { px_per_mm: Some(v) }) if !(PX_PER_MM.0..=PX_PER_MM.1).contains(&v) => Err(format!(
                "{v} pixels in a millimetre is no {name}: lay the card on the outline again"
            )),
            Some(value) => {
                *slot = value;
                Ok(())
            }
            None => Ok(()),
        };
        let checked = word(&mut settings.units, change.units, "units", &["cm", "in"])
            .and_then(|()| {
                word(
                    &mut settings.light,
                    change.light,
                    "light",
                    &["day", "night", "system"],
                )
            })
            .and_then(|()| scale(&mut settings.screen, change.screen, "screen"))
            .and_then(|()| scale(&mut settings.projector, change.projector, "projector"));
        if let Err(says) = checked {
            return Ok(Err(says));
        }
        if let Some(keys) = change.keys {
            settings.keys = keys;
        }
        let value = serde_json::to_value(&settings).map_err(unreadable)?;
        self.store.set_setting(NAME, &value).await?;
        Ok(Ok(settings))
    }
}

fn unreadable(error: serde_json::Error) -> StoreError {
    StoreError::Unreadable {
        what: "the settings".into(),
        source: Box::new(error),
    }
}
