//! Sets of vertices.

/// A set of vertices in which the next one is quickly found.
#[derive(Default)]
pub(super) struct Marks(Vec<u64>);

impl Marks {
    /// The set of these.
    pub fn of(marked: impl Iterator<Item = u32>) -> Marks {
        let mut marks = Marks::default();
        marked.for_each(|v| marks.add(v));
        marks
    }

    /// Takes one in.
    pub fn add(&mut self, v: u32) {
        let word = v as usize / 64;
        if word >= self.0.len() {
            self.0.resize(word + 1, 0);
        }
        self.0[word] |= 1 << (v % 64);
    }

    /// Whether it is one of them.
    pub fn has(&self, v: u32) -> bool {
        self.word(v as usize / 64) >> (v % 64) & 1 == 1
    }

    /// How many there are.
    pub fn len(&self) -> usize {
        self.0.iter().map(|word| word.count_ones() as usize).sum()
    }

    /// The first vertex from `from` to `to` that is in either set.
    pub fn next_of_either(&self, other: &Marks, from: u32, to: u32) -> Option<u32> {
        let mut word = from as usize / 64;
        let mut mask = u64::MAX << (from % 64);
        while word <= to as usize / 64 {
            let bits = (self.word(word) | other.word(word)) & mask;
            if bits != 0 {
                let v = word as u32 * 64 + bits.trailing_zeros();
                return (v <= to).then_some(v);
            }
            mask = u64::MAX;
            word += 1;
        }
        None
    }

    fn word(&self, at: usize) -> u64 {
        self.0.get(at).copied().unwrap_or(0)
    }
}
