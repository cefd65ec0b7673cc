//! A moment in UTC, to the millisecond, and the clock the store is opened with.
//!
//! Written as ISO 8601 text of fixed width, so that text order is time order in every database.
//!
//! **Shapes and units.** Milliseconds since 1970-01-01T00:00:00Z, no leap seconds.
//! **Source.** Proleptic Gregorian calendar of ISO 8601; the day count over 400-year eras is common practice.
//! **Limits.** Years 0000 to 9999; anything outside is held at the nearer end.

use std::fmt;
use std::str::FromStr;
use std::sync::Arc;
use std::time::{SystemTime, UNIX_EPOCH};

use serde::{Deserialize, Deserializer, Serialize, Serializer};

/// Milliseconds of a day.
const DAY_MS: i64 = 86_400_000;
/// 0000-01-01T00:00:00.000Z.
const FIRST: i64 = -719_528 * DAY_MS;
/// 9999-12-31T23:59:59.999Z.
const LAST: i64 = 2_932_897 * DAY_MS - 1;

/// Where the store takes its time from; tests hand in one that stands still.
pub type Clock = Arc<dyn Fn() -> Timestamp + Send + Sync>;

/// A moment, shown as `2026-03-01T09:30:00.000Z`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Timestamp(i64);

/// Text that is not a moment in the form `2026-03-01T09:30:00.000Z`.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("\"{0}\" is not a moment: write it like 2026-03-01T09:30:00.000Z")]
pub struct TimestampError(pub String);

impl Timestamp {
    /// The moment `ms` milliseconds after 1970-01-01T00:00:00Z, held within the years 0000 to 9999.
    #[must_use]
    pub fn from_millis(ms: i64) -> Self {
        Self(ms.clamp(FIRST, LAST))
    }

    /// Milliseconds since 1970-01-01T00:00:00Z.
    #[must_use]
    pub fn millis(self) -> i64 {
        self.0
    }

    /// The machine's clock.
    #[must_use]
    pub fn now() -> Self {
        let ms = match SystemTime::now().duration_since(UNIX_EPOCH) {
            Ok(after) => i64::try_from(after.as_millis()).unwrap_or(LAST),
            Err(before) => i64::try_from(before.duration().as_millis()).map_or(FIRST, |ms| -ms),
        };
        Self::from_millis(ms)
    }

    /// Days since 1970-01-01, counted in UTC.
    pub(crate) fn day(self) -> i64 {
        self.0.div_euclid(DAY_MS)
    }

    /// Year, month, day, hour, minute, second, millisecond.
    fn fields(self) -> [i64; 7] {
        let in_day = self.0.rem_euclid(DAY_MS);
        // Years that begin in March, in eras of 400 years, so that the leap day is the last of its year.
        let days = self.day() + 719_468;
        let era = days.div_euclid(146_097);
        let of_era = days.rem_euclid(146_097);
        let year_of_era = (of_era - of_era / 1_460 + of_era / 36_524 - of_era / 146_096) / 365;
        let of_year = of_era - (365 * year_of_era + year_of_era / 4 - year_of_era / 100);
        let march_month = (5 * of_year + 2) / 153;
        let day = of_year - (153 * march_month + 2) / 5 + 1;
        let month = if march_month < 10 {
            march_month + 3
        } else {
            march_month - 9
        };
        let year = year_of_era + era * 400 + i64::from(month <= 2);
        [
            year,
            month,
            day,
            in_day / 3_600_000,
            in_day / 60_000 % 60,
            in_day / 1_000 % 60,
            in_day % 1_000,
        ]
    }

    /// `20260301T093000000`, for file names.
    pub(crate) fn compact(self) -> String {
        let [year, month, day, hour, minute, second, ms] = self.fields();
        format!("{year:04}{month:02}{day:02}T{hour:02}{minute:02}{second:02}{ms:03}")
    }

    /// Reads what [`compact`](Self::compact) writes.
    pub(crate) fn from_compact(text: &str) -> Option<Self> {
        let bytes = text.as_bytes();
        if bytes.len() != 18 || !bytes.is_ascii() || bytes.get(8) != Some(&b'T') {
            return None;
        }
        let number = |from: usize, to: usize| digits(text.get(from..to)?);
        from_fields([
            number(0, 4)?,
            number(4, 6)?,
            number(6, 8)?,
            number(9, 11)?,
            number(11, 13)?,
            number(13, 15)?,
            number(15, 18)?,
        ])
    }
}

fn digits(text: &str) -> Option<i64> {
    text.bytes()
        .all(|byte| byte.is_ascii_digit())
        .then(|| text.parse().ok())?
}

fn from_fields([year, month, day, hour, minute, second, ms]: [i64; 7]) -> Option<Timestamp> {
    if !(1..=12).contains(&month) || !(1..=31).contains(&day) || hour > 23 || minute > 59 || second > 59 {
        return None;
    }
    let march_year = year - i64::from(month <= 2);
    let era = march_year.div_euclid(400);
    let year_of_era = march_year.rem_euclid(400);
    let march_month = (month + 9) % 12;
    let of_year = (153 * march_month + 2) / 5 + day - 1;
    let of_era = year_of_era * 365 + year_of_era / 4 - year_of_era / 100 + of_year;
    let days = era * 146_097 + of_era - 719_468;
    let moment = Timestamp(days * DAY_MS + hour * 3_600_000 + minute * 60_000 + second * 1_000 + ms);
    // The 31st of a month of 30 days comes back as another day.
    (moment.fields() == [year, month, day, hour, minute, second, ms]).then_some(moment)
}

impl fmt::Display for Timestamp {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let [year, month, day, hour, minute, second, ms] = self.fields();
        write!(
            f,
            "{year:04}-{month:02}-{day:02}T{hour:02}:{minute:02}:{second:02}.{ms:03}Z"
        )
    }
}

impl FromStr for Timestamp {
    type Err = TimestampError;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        let read = || {
            let bytes = text.as_bytes();
            let marks = [
                (4, b'-'),
                (7, b'-'),
                (10, b'T'),
                (13, b':'),
                (16, b':'),
                (19, b'.'),
                (23, b'Z'),
            ];
            if bytes.len() != 24 || marks.iter().any(|&(at, mark)| bytes.get(at) != Some(&mark)) {
                return None;
            }
            let number = |from: usize, to: usize| digits(text.get(from..to)?);
            from_fields([
                number(0, 4)?,
                number(5, 7)?,
                number(8, 10)?,
                number(11, 13)?,
                number(14, 16)?,
                number(17, 19)?,
                number(20, 23)?,
            ])
        };
        read().ok_or_else(|| TimestampError(text.to_owned()))
    }
}

impl Serialize for Timestamp {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}

impl<'de> Deserialize<'de> for Timestamp {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        String::deserialize(deserializer)?
            .parse()
            .map_err(serde::de::Error::custom)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Source: the seconds of these dates are from `date -u -d DATE +%s` of GNU coreutils.
    #[test]
    fn known_moments() {
        for (text, seconds) in [
            ("1970-01-01T00:00:00.000Z", 0),
            ("2000-02-29T12:34:56.000Z", 951_827_696),
            ("2026-03-01T09:30:00.000Z", 1_772_357_400),
            ("1969-12-31T23:59:59.000Z", -1),
            ("1900-03-01T00:00:00.000Z", -2_203_891_200),
            ("9999-12-31T23:59:59.000Z", 253_402_300_799),
        ] {
            assert_eq!(Timestamp::from_millis(seconds * 1_000).to_string(), text);
            assert_eq!(text.parse::<Timestamp>().unwrap().millis(), seconds * 1_000);
        }
        assert_eq!(
            Timestamp::from_millis(FIRST).to_string(),
            "0000-01-01T00:00:00.000Z"
        );
        assert_eq!(
            Timestamp::from_millis(i64::MAX).to_string(),
            "9999-12-31T23:59:59.999Z"
        );
    }

    #[test]
    fn days_that_are_not() {
        for text in [
            "2026-02-29T00:00:00.000Z",
            "2026-04-31T00:00:00.000Z",
            "2026-13-01T00:00:00.000Z",
            "2026-01-01T24:00:00.000Z",
            "2026-01-01 00:00:00.000Z",
            "2026-01-01T00:00:00.+00Z",
            "",
        ] {
            assert_eq!(text.parse::<Timestamp>(), Err(TimestampError(text.to_owned())));
        }
    }

    #[test]
    fn file_names_read_back() {
        let moment = Timestamp::from_millis(1_772_357_400_123);
        assert_eq!(moment.compact(), "20260301T093000123");
        assert_eq!(Timestamp::from_compact("20260301T093000123"), Some(moment));
        assert_eq!(Timestamp::from_compact("20260231T093000123"), None);
    }
}
