//! Set-up, run, test, pictures and benchmarks as commands: `cargo xtask help`, or `./dev help`.
//!
//! Almost without dependencies on purpose: it is the first thing a bare machine builds.

mod bench;
mod deny;
mod endurance;
mod icons;
mod notices;
mod package;
mod package_test;
mod pictures;
mod run;
mod setup;
mod step;
mod test;
mod typefaces;

use std::process::ExitCode;

const HELP: &str = "\
Fellmark's own commands (./dev COMMAND, or cargo xtask COMMAND)

  run [FOLDER]   install what is missing, then open the window (on FOLDER, if one is given)
  test           install what is missing, then every check and test
  deny           licences, sources and bans of all libraries, and known vulnerabilities where they can be looked up
  pictures       make the pictures in docs/pictures again, out of the real window
  bench          size of the release program, how soon it shows the three answers and a pick, a folder of twenty years
  soak [HOURS]   eight simulated hours at the loom at speed: memory, descriptors, watches, and what is shown afterwards
  kills [TIMES]  kill the program a thousand times at random moments and look for what was acknowledged
  package        build the Debian package in target/package
  package-test   build it, install it in a clean Debian root, use it, upgrade it, remove it
  package-twice  build it twice in different folders and compare the bytes
  icons          draw the icons from icons/fellmark.svg
  setup          only install what is missing
  help           this list
";

fn main() -> ExitCode {
    let mut words = std::env::args().skip(1);
    let command = words.next().unwrap_or_else(|| "help".to_owned());
    let rest: Vec<String> = words.collect();
    let outcome = match command.as_str() {
        "run" => run::run(&rest),
        "test" => test::test(),
        "pictures" => pictures::pictures(),
        "bench" => bench::bench(),
        "deny" => deny::check(),
        "soak" => endurance::soak(&rest),
        "kills" => endurance::kills(&rest),
        "package" => package::package(),
        "package-test" => package_test::package_test(),
        "package-twice" => package::package_twice(),
        "icons" => icons::icons(),
        "setup" => setup::setup(setup::Purpose::Tests),
        "help" | "--help" | "-h" => {
            print!("{HELP}");
            Ok(())
        }
        other => Err(format!("there is no command {other:?}\n\n{HELP}")),
    };
    match outcome {
        Ok(()) => ExitCode::SUCCESS,
        Err(why) => {
            eprintln!("{why}");
            ExitCode::FAILURE
        }
    }
}
