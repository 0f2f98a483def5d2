//! Files that keep whoever opens them waiting, as a slow disk does: each is held by a lease (fcntl(2), `F_SETLEASE`), and the kernel
//! holds up an open until the lease is given back.

use std::io::{BufRead, BufReader, Write};
use std::path::PathBuf;
use std::process::{ChildStdin, ChildStdout, Stdio};
use std::time::Duration;

use super::process::{Group, tied};

/// For so long the kernel waits for a lease before it takes it away, unless the machine is set up otherwise.
const KEPT: Duration = Duration::from_secs(45);

/// Perl is there wherever there is git. Rust's safe libraries take no leases.
const HOLD: &str = r#"
    use strict;
    use Fcntl qw(O_RDWR F_SETLEASE F_WRLCK F_UNLCK);
    # The kernel signals that someone waits.
    $SIG{IO} = 'IGNORE';
    $| = 1;
    my @held = map { sysopen(my $file, $_, O_RDWR) or die "$_: $!"; fcntl($file, F_SETLEASE, F_WRLCK) or die "$_: $!"; $file } @ARGV;
    print "held\n";
    while (<STDIN>) { my $file = shift @held or last; fcntl($file, F_SETLEASE, F_UNLCK) or die $!; close $file; print "gone\n"; }
"#;

/// Held files. All are let go when this is dropped, and after 45 s in any case.
pub struct SlowDisk {
    ask: ChildStdin,
    answers: BufReader<ChildStdout>,
    _holder: Group,
}

impl SlowDisk {
    /// Holds these; nobody may have them open. Nothing where the kernel or the file system gives no leases.
    pub fn holding(files: &[PathBuf]) -> Option<Self> {
        let time = std::fs::read_to_string("/proc/sys/fs/lease-break-time").unwrap_or_default();
        if time.trim().parse::<u64>().is_ok_and(|seconds| seconds < KEPT.as_secs()) {
            eprintln!("NOT TRIED on this machine: leases are kept for {} s only.", time.trim());
            return None;
        }
        let mut perl = tied("perl");
        perl.args(["-e", HOLD]).args(files).stdin(Stdio::piped()).stdout(Stdio::piped());
        let mut holder = Group::start(&mut perl);
        let child = holder.child();
        let ask = child.stdin.take().expect("its input is piped");
        let answers = BufReader::new(child.stdout.take().expect("its output is piped"));
        let mut disk = Self { ask, answers, _holder: holder };
        if disk.answer() != "held" {
            eprintln!(
                "NOT TRIED on this machine: its file system gives no leases, so no file can keep a reader waiting."
            );
            return None;
        }
        Some(disk)
    }

    /// Lets the first of those go that are still held.
    pub fn let_one_go(&mut self) {
        writeln!(self.ask, "next").expect("the holder listens");
        assert_eq!(self.answer(), "gone", "no file is held any more");
    }

    fn answer(&mut self) -> String {
        let mut line = String::new();
        self.answers.read_line(&mut line).expect("the holder answers");
        line.trim_end().to_owned()
    }
}
