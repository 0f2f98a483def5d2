//! Numbers that look like chance and are the same every time and everywhere.

/// A source of such numbers (SplitMix64: Steele, Lea and Flood 2014).
pub struct Seed(u64);

impl Seed {
    /// A source of its own for each number.
    pub fn new(number: u64) -> Self {
        Self(number.wrapping_mul(0x9e37_79b9_7f4a_7c15).wrapping_add(0x5eed))
    }

    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    /// From 0 to 1.
    pub fn share(&mut self) -> f64 {
        (self.next() >> 11) as f64 / (1_u64 << 53) as f64
    }

    /// A whole number from 0, below `end`.
    pub fn below(&mut self, end: usize) -> usize {
        ((self.share() * end as f64) as usize).min(end.saturating_sub(1))
    }

    /// About normal, mean 0, standard deviation 1: twelve shares added, which any machine adds alike.
    pub fn even(&mut self) -> f64 {
        (0..12).map(|_| self.share()).sum::<f64>() - 6.0
    }
}
