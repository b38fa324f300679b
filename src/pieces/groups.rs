//! Things that belong together, by pairs (union–find).

/// Groups of the numbers from 0 up.
#[derive(Clone, Debug)]
pub(super) struct Groups(Vec<u32>);

impl Groups {
    /// Each number alone.
    pub fn new(count: usize) -> Groups {
        Groups((0..count as u32).collect())
    }

    /// The least number of the group.
    pub fn find(&mut self, of: usize) -> usize {
        let mut at = of as u32;
        while self.0[at as usize] != at {
            self.0[at as usize] = self.0[self.0[at as usize] as usize];
            at = self.0[at as usize];
        }
        at as usize
    }

    /// The same without shortening the way there.
    pub fn root(&self, of: usize) -> usize {
        let mut at = of as u32;
        while self.0[at as usize] != at {
            at = self.0[at as usize];
        }
        at as usize
    }

    /// Makes one group of two.
    pub fn unite(&mut self, a: usize, b: usize) {
        let (a, b) = (self.find(a), self.find(b));
        self.0[a.max(b)] = a.min(b) as u32;
    }
}
