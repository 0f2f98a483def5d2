//! Set-up, run, test, pictures and benchmarks as commands.
fn main() {}
