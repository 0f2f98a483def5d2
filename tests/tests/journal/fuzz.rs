//! A bounded run of the fuzz targets (`tests/fuzz/`): every reader of bytes from outside gets its seeds, damaged in ways that follow
//! from a fixed number, so that two runs are the same. The long, coverage-guided run is `tests/fuzz/run`.

use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::Path;

use fellmark_fuzz::readers;

struct Xorshift(u64);

impl Xorshift {
    fn below(&mut self, most: usize) -> usize {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        (self.0 % most.max(1) as u64) as usize
    }
}

const TOKENS: [&[u8]; 16] = [
    b"{\"key\":\"",
    b"\"",
    b"\\",
    b"\\ud800",
    b"[[[[[[[[[[",
    b"{\"a\":",
    b"1e999",
    b"-0",
    b"null",
    b"\n",
    b"\r\n",
    b"\0\0\0\0",
    b"]}",
    b"\xff\xfe",
    b"\xef\xbb\xbf",
    b"18446744073709551616",
];

fn damaged(seeds: &[Vec<u8>], random: &mut Xorshift) -> Vec<u8> {
    let mut bytes = seeds[random.below(seeds.len())].clone();
    for _ in 0..=random.below(4) {
        let at = random.below(bytes.len() + 1);
        let to = (at + random.below(40)).min(bytes.len());
        match random.below(7) {
            0 => bytes.truncate(at),
            1 => drop(bytes.drain(at..to)),
            2 => drop(bytes.splice(at..at, TOKENS[random.below(TOKENS.len())].iter().copied())),
            3 => {
                let other = &seeds[random.below(seeds.len())];
                let from = random.below(other.len() + 1);
                let part = other[from..(from + random.below(200)).min(other.len())].to_vec();
                bytes.splice(at..to, part);
            }
            4 => bytes.extend_from_within(at..to),
            5 => bytes[at..to].fill(b'0' + random.below(10) as u8),
            _ => {
                if let Some(byte) = bytes.get_mut(at) {
                    *byte ^= 1 << random.below(8);
                }
            }
        }
    }
    bytes
}

fn run(target: &str, reader: fn(&[u8]), times: usize) {
    let dir = Path::new(env!("CARGO_MANIFEST_DIR")).join("fuzz/seeds").join(target);
    let mut files: Vec<_> = std::fs::read_dir(dir).unwrap().map(|file| file.unwrap().path()).collect();
    files.sort();
    let seeds: Vec<Vec<u8>> = files.iter().map(|file| std::fs::read(file).unwrap()).collect();
    assert!(!seeds.is_empty());
    let mut random = Xorshift(0x9e37_79b9_7f4a_7c15);
    for bytes in seeds.iter().cloned().chain((0..times).map(|_| damaged(&seeds, &mut random))) {
        let outcome = catch_unwind(AssertUnwindSafe(|| reader(&bytes)));
        assert!(outcome.is_ok(), "{target} failed on {:?}", String::from_utf8_lossy(&bytes));
    }
}

#[test]
fn files_of_entries() {
    run("segment", readers::segment, 4_000);
}

#[test]
fn lines_of_entries() {
    run("line", readers::line, 8_000);
}

#[test]
fn markers() {
    run("marker", readers::marker, 4_000);
}

#[test]
fn photos() {
    run("photo", readers::photo, 400);
}

#[test]
fn logs_of_the_running_sitting() {
    run("running", readers::running, 1_500);
}

#[test]
fn measures() {
    run("measures", readers::measures, 20_000);
}

#[test]
fn rows() {
    run("rows", readers::rows, 20_000);
}

#[test]
fn tables() {
    run("table", readers::table, 600);
}

/// A reader that fails on what only damage brings is found.
#[test]
fn a_failing_reader_is_found() {
    fn fails(bytes: &[u8]) {
        assert!(!bytes.windows(4).any(|part| part == [0; 4]), "four empty bytes");
    }
    assert!(catch_unwind(|| run("line", fails, 8_000)).is_err());
}
