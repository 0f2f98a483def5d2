//! A random run over the command line: three devices with a copy of the folder each, and a list of what was acknowledged.
//!
//! `FELLMARK_SEED=7 FELLMARK_STEPS=2000 cargo test -p fellmark-tests --test random_run -- --nocapture` runs one seed for so many
//! steps, with `FELLMARK_PLAIN_CLOCK=1` without jumps of the clock; without them a few fixed seeds run for a bounded time. A failure names its seed and prints the last steps.
//!
//! What is checked: no acknowledged write is lost; after everything was carried everywhere all devices show the same; no command
//! panics, hangs, or ends with an exit code that its description does not have.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, missing_docs)]

mod faults;
mod folders;
mod steps;
mod world;

use std::time::Duration;

use world::World;

/// Seeds of the run among the other tests, and how long all of them may take together.
const SEEDS: [u64; 3] = [1, 2, 3];
const BOUND: Duration = Duration::from_secs(45);

fn number(variable: &str) -> Option<u64> {
    std::env::var(variable).ok().map(|text| text.parse().unwrap_or_else(|_| panic!("{variable} is no whole number")))
}

fn run(seed: u64, steps: u64, bound: Option<Duration>) {
    println!("random run with seed {seed}");
    let mut world = World::new(seed);
    let start = std::time::Instant::now();
    for _ in 0..steps {
        world.step();
        if bound.is_some_and(|bound| start.elapsed() > bound) {
            break;
        }
    }
    world.settle_and_check();
    println!("seed {seed}: {}", world.figures());
}

#[test]
fn nothing_acknowledged_is_lost_and_all_devices_agree() {
    if let Some(seed) = number("FELLMARK_SEED") {
        return run(seed, number("FELLMARK_STEPS").unwrap_or(1_000), None);
    }
    for seed in SEEDS {
        run(seed, 300, Some(BOUND / SEEDS.len() as u32));
    }
}

/// What finds no loss must be able to find one.
#[test]
#[should_panic(expected = "is lost")]
fn a_lost_write_is_found() {
    let mut world = World::new(11);
    for _ in 0..20 {
        world.step();
    }
    world.forget_everything_of_one_device();
    world.settle_and_check();
}
