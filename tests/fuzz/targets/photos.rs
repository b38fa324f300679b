//! See the body of the same name.
#![no_main]

libfuzzer_sys::fuzz_target!(|data: &[u8]| kerfleaf_fuzz::photos::holds(data));
