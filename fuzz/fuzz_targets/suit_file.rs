//! Feeds any bytes to the suit-file parser, and what it accepts to the whole draft: nothing may panic.
//!
//! `cargo +nightly fuzz run suit_file -- -dict=fuzz/suit_file.dict fuzz/corpus/suit_file examples`

#![no_main]

use libfuzzer_sys::fuzz_target;
use studio::order::work_out;
use studio::suit_file::read_bytes;

fuzz_target!(|bytes: &[u8]| {
    match read_bytes("fuzz.toml", bytes) {
        Ok(suit) => {
            if let Err(faults) = work_out(&suit) {
                let _ = faults.to_plain();
            }
        }
        Err(faults) => {
            let _ = faults.to_plain();
        }
    }
});
