//! Chance that can be repeated.

/// Source: G. Marsaglia, Xorshift RNGs, Journal of Statistical Software 2003;8(14), shifts 13, 7, 17 (from memory).
pub struct Chance(u64);

impl Chance {
    pub fn new(seed: u64) -> Chance {
        Chance(seed.wrapping_mul(0x9E37_79B9_7F4A_7C15) | 1)
    }

    fn next(&mut self) -> u64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        self.0
    }

    /// A number from 0 up to `end`, which is left out; 0 where there is nothing to choose from.
    pub fn below(&mut self, end: usize) -> usize {
        usize::try_from(self.next() >> 11)
            .unwrap_or(0)
            .checked_rem(end)
            .unwrap_or(0)
    }

    pub fn pick<'a, T>(&mut self, from: &'a [T]) -> Option<&'a T> {
        from.get(self.below(from.len()))
    }
}
