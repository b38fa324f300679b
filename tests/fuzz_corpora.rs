//! Every target of `tests/fuzz` over its kept corpus, and over changes of it for a bounded time.
//!
//! The changes are those that fuzzers make: bits and bytes flipped, parts left out, doubled and crossed, words of the
//! target put in. What is random comes from one seed, which is printed; `KERFLEAF_SEED` repeats a run. `KERFLEAF_LONG=1`
//! gives each target a minute. What breaks a target is kept in `target/fuzz`: mend it, then add it to the corpus.

use std::fs;
use std::io::Write;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

#[path = "fuzz/bodies/mod.rs"]
mod bodies;

use bodies::Target;

/// Fewer files in a corpus mean that it was not found whole.
const LEAST_FILES: usize = 5;
/// One input that takes longer is a fault of its own.
const LONGEST: Duration = Duration::from_secs(10);
/// Bytes to which changes may grow.
const MOST_BYTES: usize = 4096;

/// Even numbers from a seed (Steele, Lea and Flood 2014, SplitMix64).
struct Dice(u64);

impl Dice {
    fn throw(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = (self.0 ^ (self.0 >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    fn below(&mut self, count: usize) -> usize {
        (self.throw() % count.max(1) as u64) as usize
    }
}

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// The kept inputs of a target, by name.
fn corpus(target: &Target) -> Vec<(String, Vec<u8>)> {
    let folder = root().join("tests/fuzz/corpus").join(target.name);
    let entries = fs::read_dir(&folder).unwrap_or_else(|e| panic!("{}: {e}", folder.display()));
    let mut files: Vec<PathBuf> = entries.map(|entry| entry.expect("a file").path()).collect();
    files.sort();
    assert!(files.len() >= LEAST_FILES, "only {} files in {}", files.len(), folder.display());
    files.iter().map(|f| (f.display().to_string(), fs::read(f).expect("read"))).collect()
}

/// What is wrong with one input, if anything.
fn fault(target: &Target, input: &[u8]) -> Option<String> {
    let start = Instant::now();
    let done = catch_unwind(AssertUnwindSafe(|| (target.holds)(input)));
    match done {
        Err(_) => Some("it panics, see above".to_string()),
        Ok(()) if start.elapsed() > LONGEST => Some(format!("it takes {:?}", start.elapsed())),
        Ok(()) => None,
    }
}

/// One change of a kept input, or several.
fn changed(kept: &[(String, Vec<u8>)], words: &[&str], dice: &mut Dice) -> Vec<u8> {
    let mut input = kept[dice.below(kept.len())].1.clone();
    for _ in 0..=dice.below(5) {
        let at = dice.below(input.len() + 1);
        let to = (at + 1 + dice.below(16)).min(input.len());
        let inside = at < input.len();
        match dice.below(8) {
            0 if inside => input[at] ^= 1 << dice.below(8),
            1 if inside => input[at] = [0, 1, 0x7f, 0x80, 0xff, b'0', b'-', b'.'][dice.below(8)],
            2 if inside => drop(input.drain(at..to)),
            3 if inside => {
                let part: Vec<u8> = input[at..to].to_vec();
                input.splice(at..at, part);
            }
            // Another number where one stands.
            4 => {
                let digits: Vec<usize> = (0..input.len()).filter(|i| input[*i].is_ascii_digit()).collect();
                if let Some(&i) = digits.get(dice.below(digits.len())) {
                    input[i] = b'0' + dice.below(10) as u8;
                }
            }
            5 if !words.is_empty() => {
                let word = words[dice.below(words.len())];
                input.splice(at..at, word.bytes());
            }
            // The beginning of one and the end of another.
            6 => {
                let other = &kept[dice.below(kept.len())].1;
                input.truncate(at);
                input.extend_from_slice(&other[dice.below(other.len() + 1)..]);
            }
            _ => input.insert(at, dice.throw() as u8),
        }
    }
    input.truncate(MOST_BYTES);
    input
}

#[test]
fn every_target_holds_on_its_corpus() {
    for target in bodies::ALL {
        let wrong: Vec<String> = corpus(target)
            .iter()
            .filter_map(|(name, input)| fault(target, input).map(|what| format!("{name}: {what}")))
            .collect();
        assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    }
}

#[test]
fn every_target_holds_on_changes_of_its_corpus() {
    let each = Duration::from_secs(if std::env::var_os("KERFLEAF_LONG").is_some() { 60 } else { 3 });
    let seed = std::env::var("KERFLEAF_SEED").ok().and_then(|s| s.parse().ok()).unwrap_or_else(|| {
        let since = std::time::SystemTime::now().duration_since(std::time::UNIX_EPOCH);
        since.map_or(1, |d| u64::from(d.subsec_nanos()))
    });
    // Past the capture of the test harness, so that every run tells.
    let _ = writeln!(std::io::stderr(), "changed inputs: seed {seed}");
    let mut wrong = Vec::new();
    for target in bodies::ALL {
        let (kept, mut dice) = (corpus(target), Dice(seed));
        let (start, mut runs) = (Instant::now(), 0_u32);
        while start.elapsed() < each {
            let input = changed(&kept, target.words, &mut dice);
            runs += 1;
            if let Some(what) = fault(target, &input) {
                let folder = root().join("target/fuzz");
                fs::create_dir_all(&folder).expect("a folder");
                let file = folder.join(format!("{}-{seed}-{runs}", target.name));
                fs::write(&file, &input).expect("written");
                wrong.push(format!("{}, input {runs} of seed {seed}: {what}; kept as {}", target.name, file.display()));
                break;
            }
        }
        println!("{}: {runs} inputs", target.name);
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}
