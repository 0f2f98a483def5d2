//! A random run over the command line: three devices with a copy of the folder each, and a list of what was acknowledged.
//!
//! `FELLMARK_SEED=7 FELLMARK_STEPS=2000 cargo test -p fellmark-tests --test random_run -- --nocapture` runs one seed for so many
//! steps, with `FELLMARK_PLAIN_CLOCK=1` without jumps of the clock; without them a few fixed seeds run for a bounded time. A failure names its seed and prints the last steps.
//!
//! What is checked: no acknowledged write is lost; a write that reached one place alone says so, and only where it did may it go
//! with that place, which is counted; no command takes the last copy of an acknowledged write; after everything was carried
//! everywhere all devices show the same; no command panics, hangs, or ends with an exit code that its description does not have.
//! `FELLMARK_TRACE=1` prints every step.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, missing_docs)]

mod faults;
mod folders;
mod known;
mod losses;
mod places;
mod settle;
mod steps;
mod world;

use std::time::Duration;

use fellmark_tests::command_line::CommandLineDevice;
use fellmark_tests::journal::all_files;
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

/// Writes of two devices, carried everywhere, and one more that only the first has. Nothing random happens, and no kill, whose
/// effect depends on the machine's load.
fn quiet_world() -> World {
    let mut world = World::new(11);
    world.log(0);
    world.log(1);
    world.carry_all();
    world.log(0);
    world
}

/// What finds no loss must be able to find one: at the end, ...
#[test]
#[should_panic(expected = "is lost")]
fn a_lost_write_is_found() {
    let mut world = quiet_world();
    forget_everything_of_the_first(&world.devices);
    world.take_the_loss_for_granted();
    world.settle_and_check();
}

/// ... by the command that seems to have caused it, ...
#[test]
#[should_panic(expected = "took the last copy")]
fn a_command_that_loses_a_write_is_found() {
    let mut world = quiet_world();
    forget_everything_of_the_first(&world.devices);
    world.log(1);
}

/// ... and when it happens from outside to what was not announced to be in one place alone.
#[test]
#[should_panic(expected = "unannounced")]
fn an_unannounced_loss_is_found() {
    quiet_world().happens(forget_everything_of_the_first);
}

/// What a device said to be in its folder alone may go with the folder's file, and is counted.
#[test]
fn an_announced_loss_is_counted() {
    let mut world = quiet_world();
    if world.local_mount.is_none() {
        return;
    }
    let earlier = folders::copy(&world.devices[1].folder());
    world.change_local_disk(true);
    // The first writes still find room in the last block of a file.
    let logged = (0..40).find(|_| {
        world.log(1);
        world.in_folder_alone > 0
    });
    assert!(logged.is_some(), "{}", world.figures());
    world.happens(|devices| (0..9).for_each(|nth| folders::restore(&earlier, &devices[1].folder(), nth)));
    assert_eq!((world.gone, world.back), (1, 0), "{}", world.figures());
    world.settle_and_check();
}

/// Everything that the first device has and wrote goes.
fn forget_everything_of_the_first(devices: &[CommandLineDevice]) {
    std::fs::remove_dir_all(devices[0].home().join("data")).unwrap();
    for device in devices {
        for file in all_files(&device.folder()) {
            let is_marker = file.parent().unwrap().ends_with("devices");
            if !is_marker && file.file_name().unwrap().to_string_lossy().starts_with("laptop-") {
                std::fs::remove_file(file).unwrap();
            }
        }
    }
}
