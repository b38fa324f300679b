//! Things by the number of what they belong to, in one run of memory.

/// Things, bucket by bucket; within a bucket in the order in which they came.
pub(super) struct Buckets<T> {
    starts: Vec<u32>,
    things: Vec<T>,
}

impl<T: Copy> Buckets<T> {
    /// Puts things into so many buckets. They are gone through twice: to count them, and to put them in.
    pub fn new(count: usize, things: impl Iterator<Item = (usize, T)> + Clone) -> Buckets<T> {
        let mut starts = vec![0_u32; count + 1];
        things.clone().for_each(|(bucket, _)| starts[bucket + 1] += 1);
        for bucket in 0..count {
            starts[bucket + 1] += starts[bucket];
        }
        let mut fill = starts.clone();
        let blank = things.clone().next().map(|(_, thing)| thing);
        let mut sorted: Vec<T> = blank.map_or_else(Vec::new, |thing| vec![thing; starts[count] as usize]);
        for (bucket, thing) in things {
            sorted[fill[bucket] as usize] = thing;
            fill[bucket] += 1;
        }
        Buckets { starts, things: sorted }
    }

    /// All things.
    pub fn all(&self) -> &[T] {
        &self.things
    }

    /// Where a bucket lies among all things.
    pub fn range(&self, bucket: usize) -> std::ops::Range<usize> {
        self.starts[bucket] as usize..self.starts[bucket + 1] as usize
    }

    /// Those of one bucket.
    pub fn of(&self, bucket: usize) -> &[T] {
        &self.things[self.range(bucket)]
    }

    /// Those of one bucket, to be put into another order.
    pub fn of_mut(&mut self, bucket: usize) -> &mut [T] {
        let range = self.range(bucket);
        &mut self.things[range]
    }
}
