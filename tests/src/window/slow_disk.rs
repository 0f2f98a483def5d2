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
    # The kernel tells that someone waits.
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
    /// Holds these; nobody may have them open.
    pub fn holding(files: &[PathBuf]) -> Self {
        let time = std::fs::read_to_string("/proc/sys/fs/lease-break-time").expect("the kernel has leases");
        let time: u64 = time.trim().parse().expect("seconds");
        assert!(time >= KEPT.as_secs(), "leases are kept for {time} s only: see /proc/sys/fs/lease-break-time");
        let mut perl = tied("perl");
        perl.args(["-e", HOLD]).args(files).stdin(Stdio::piped()).stdout(Stdio::piped());
        let mut holder = Group::start(&mut perl);
        let child = holder.child();
        let ask = child.stdin.take().expect("its input is piped");
        let answers = BufReader::new(child.stdout.take().expect("its output is piped"));
        let mut disk = Self { ask, answers, _holder: holder };
        assert_eq!(disk.answer(), "held", "the files could not be held");
        disk
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
