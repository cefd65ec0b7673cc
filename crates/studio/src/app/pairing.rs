//! Letting a tablet in: a code that works once and for a short while, and a cookie afterwards.
//!
//! The code has six digits, lives five minutes and dies after five wrong tries, of whoever; a new one can then be shown on
//! the machine itself. So guessing has at most five in a million chances a showing.

use std::sync::Mutex;
use std::time::{Duration, Instant};

use sha2::{Digest, Sha256};

use super::locked;

/// How long a code works.
const CODE_LIVES: Duration = Duration::from_secs(300);
/// Wrong tries a code survives, over all devices.
const MOST_TRIES: u32 = 5;

/// Why a device was not let in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PairingRefusal {
    /// No code is shown at the moment, or it is too old.
    NoCode,
    /// Another code.
    Wrong,
    /// Too many wrong tries; the code is void.
    TooMany,
}

#[derive(Debug)]
struct Code {
    digits: String,
    shown: Instant,
    wrong: u32,
}

/// The code of the moment.
#[derive(Debug, Default)]
pub struct Pairing {
    code: Mutex<Option<Code>>,
}

impl Pairing {
    /// The code to show, and how long it still works; a new one when there is none that works.
    ///
    /// # Errors
    /// A sentence when the machine gives no random numbers.
    pub fn show(&self) -> Result<(String, Duration), String> {
        let mut code = locked(&self.code);
        if let Some(code) = code.as_ref()
            && let Some(left) = CODE_LIVES.checked_sub(code.shown.elapsed())
            && code.wrong < MOST_TRIES
        {
            return Ok((code.digits.clone(), left));
        }
        let digits = six_digits()?;
        *code = Some(Code {
            digits: digits.clone(),
            shown: Instant::now(),
            wrong: 0,
        });
        Ok((digits, CODE_LIVES))
    }

    /// Takes a code. The right one is used up.
    ///
    /// # Errors
    /// Why it does not let anybody in.
    pub fn take(&self, digits: &str) -> Result<(), PairingRefusal> {
        let mut slot = locked(&self.code);
        let Some(code) = slot.as_mut() else {
            return Err(PairingRefusal::NoCode);
        };
        if code.wrong >= MOST_TRIES {
            return Err(PairingRefusal::TooMany);
        }
        if code.shown.elapsed() >= CODE_LIVES {
            *slot = None;
            return Err(PairingRefusal::NoCode);
        }
        // Compared as sums, so that how long it takes says nothing of how much was right.
        if Sha256::digest(digits.trim()) == Sha256::digest(&code.digits) {
            *slot = None;
            return Ok(());
        }
        code.wrong += 1;
        Err(if code.wrong >= MOST_TRIES {
            PairingRefusal::TooMany
        } else {
            PairingRefusal::Wrong
        })
    }
}

/// A new token for a cookie, as hexadecimal.
///
/// # Errors
/// A sentence when the machine gives no random numbers.
pub fn new_token() -> Result<String, String> {
    let mut bytes = [0u8; 32];
    getrandom::fill(&mut bytes).map_err(|e| format!("the machine gives no random numbers: {e}"))?;
    Ok(hex(&bytes))
}

/// What is kept of a token: its sum, so that the store cannot let anybody in.
pub fn token_hash(token: &str) -> String {
    hex(&Sha256::digest(token))
}

fn hex(bytes: &[u8]) -> String {
    bytes.iter().map(|b| format!("{b:02x}")).collect()
}

fn six_digits() -> Result<String, String> {
    // Drawn anew when outside the largest multiple of a million, so that every code is equally likely.
    const FAIR: u32 = u32::MAX - u32::MAX % 1_000_000;
    loop {
        let mut bytes = [0u8; 4];
        getrandom::fill(&mut bytes).map_err(|e| format!("the machine gives no random numbers: {e}"))?;
        let number = u32::from_le_bytes(bytes);
        if number < FAIR {
            return Ok(format!("{:06}", number % 1_000_000));
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_code_works_once() {
        let pairing = Pairing::default();
        assert_eq!(pairing.take("000000"), Err(PairingRefusal::NoCode));
        let (code, _) = pairing.show().unwrap();
        assert_eq!(pairing.show().unwrap().0, code, "shown again it is the same");
        assert_eq!(pairing.take(&format!(" {code} ")), Ok(()));
        assert_eq!(pairing.take(&code), Err(PairingRefusal::NoCode));
    }

    #[test]
    fn five_wrong_tries_void_a_code_even_for_the_right_one() {
        let pairing = Pairing::default();
        let (code, _) = pairing.show().unwrap();
        for i in 1..=MOST_TRIES {
            let refusal = pairing.take("not it").unwrap_err();
            assert_eq!(refusal == PairingRefusal::TooMany, i == MOST_TRIES);
        }
        assert_eq!(pairing.take(&code), Err(PairingRefusal::TooMany));
        assert_ne!(pairing.show().unwrap().0.len(), 0);
        let (second, _) = pairing.show().unwrap();
        assert_eq!(pairing.take(&second), Ok(()));
    }

    #[test]
    fn tokens_differ_and_are_not_what_is_kept() {
        let (a, b) = (new_token().unwrap(), new_token().unwrap());
        assert_ne!(a, b);
        assert_eq!(a.len(), 64);
        assert_ne!(token_hash(&a), a);
    }
}
