#![no_main]

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| fellmark_fuzz::readers::rows(bytes));
