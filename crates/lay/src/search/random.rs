//! Random numbers that are the same everywhere: xoshiro256++ seeded by SplitMix64.
//!
//! **Source.** Blackman & Vigna, "Scrambled linear pseudorandom number generators", 2021; both are in the public domain.

#[derive(Clone, Debug)]
pub(crate) struct Random([u64; 4]);

impl Random {
    pub(crate) fn new(seed: u64) -> Random {
        let mut s = seed;
        Random(std::array::from_fn(|_| {
            s = s.wrapping_add(0x9E37_79B9_7F4A_7C15);
            let mut z = s;
            z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
            z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
            z ^ (z >> 31)
        }))
    }

    fn next(&mut self) -> u64 {
        let s = &mut self.0;
        let out = s[0].wrapping_add(s[3]).rotate_left(23).wrapping_add(s[0]);
        let t = s[1] << 17;
        s[2] ^= s[0];
        s[3] ^= s[1];
        s[1] ^= s[2];
        s[0] ^= s[3];
        s[2] ^= t;
        s[3] = s[3].rotate_left(45);
        out
    }

    /// Evenly in 0..1.
    pub(crate) fn unit(&mut self) -> f64 {
        (self.next() >> 11) as f64 * (1.0 / (1_u64 << 53) as f64)
    }

    /// Evenly between two numbers; the first if the second is not larger.
    pub(crate) fn between(&mut self, low: f64, high: f64) -> f64 {
        if high > low {
            low + self.unit() * (high - low)
        } else {
            low
        }
    }

    /// A whole number below `n`; 0 for `n` = 0.
    pub(crate) fn below(&mut self, n: usize) -> usize {
        ((self.next() >> 32).wrapping_mul(n as u64) >> 32) as usize
    }

    /// Normal, mean 0, deviation 1: twelve even numbers less six is near enough for choosing from a pool.
    pub(crate) fn normal(&mut self) -> f64 {
        (0..12).map(|_| self.unit()).sum::<f64>() - 6.0
    }

    pub(crate) fn shuffle<T>(&mut self, all: &mut [T]) {
        for i in (1..all.len()).rev() {
            all.swap(i, self.below(i + 1));
        }
    }
}
