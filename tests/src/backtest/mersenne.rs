//! The random numbers of Python's `random.Random(text)`, so that the resampling baseline is the scorer's to the bit.
//!
//! MT19937 after Matsumoto & Nishimura 1998; seeding and `choice` as CPython does them.

use sha2::{Digest, Sha512};

const N: usize = 624;
const M: usize = 397;

/// A generator seeded with text.
pub struct Random {
    state: [u32; N],
    next: usize,
}

impl Random {
    /// `random.Random(text)`.
    pub fn seeded(text: &str) -> Self {
        let mut bytes = text.as_bytes().to_vec();
        bytes.extend_from_slice(&Sha512::digest(text.as_bytes()));
        // One whole number, most significant byte first, cut into words from its low end.
        let mut key: Vec<u32> =
            bytes.rchunks(4).map(|chunk| chunk.iter().fold(0, |word, byte| word << 8 | u32::from(*byte))).collect();
        while key.len() > 1 && key.last() == Some(&0) {
            key.pop();
        }
        Self::by_array(&key)
    }

    fn by_word(seed: u32) -> Self {
        let mut state = [0; N];
        state[0] = seed;
        for i in 1..N {
            let before: u32 = state[i - 1];
            state[i] = 1_812_433_253_u32.wrapping_mul(before ^ (before >> 30)).wrapping_add(i as u32);
        }
        Self { state, next: N }
    }

    fn by_array(key: &[u32]) -> Self {
        let mut random = Self::by_word(19_650_218);
        let state = &mut random.state;
        let (mut i, mut j) = (1, 0);
        for _ in 0..N.max(key.len()) {
            let before = state[i - 1];
            state[i] = (state[i] ^ (before ^ (before >> 30)).wrapping_mul(1_664_525))
                .wrapping_add(key[j])
                .wrapping_add(j as u32);
            i += 1;
            j = (j + 1) % key.len();
            if i >= N {
                state[0] = state[N - 1];
                i = 1;
            }
        }
        for _ in 0..N - 1 {
            let before = state[i - 1];
            state[i] = (state[i] ^ (before ^ (before >> 30)).wrapping_mul(1_566_083_941)).wrapping_sub(i as u32);
            i += 1;
            if i >= N {
                state[0] = state[N - 1];
                i = 1;
            }
        }
        state[0] = 0x8000_0000;
        random
    }

    /// The next 32 bits.
    pub fn word(&mut self) -> u32 {
        if self.next >= N {
            for i in 0..N {
                let y = (self.state[i] & 0x8000_0000) | (self.state[(i + 1) % N] & 0x7fff_ffff);
                let odd = if y & 1 == 1 { 0x9908_b0df } else { 0 };
                self.state[i] = self.state[(i + M) % N] ^ (y >> 1) ^ odd;
            }
            self.next = 0;
        }
        let mut y = self.state[self.next];
        self.next += 1;
        y ^= y >> 11;
        y ^= (y << 7) & 0x9d2c_5680;
        y ^= (y << 15) & 0xefc6_0000;
        y ^ (y >> 18)
    }

    /// `random.choice` of a list of `len` (above 0, below 2³²): its index.
    pub fn index(&mut self, len: usize) -> usize {
        let bits = usize::BITS - len.leading_zeros();
        loop {
            let drawn = (self.word() >> (32 - bits)) as usize;
            if drawn < len {
                return drawn;
            }
        }
    }
}
