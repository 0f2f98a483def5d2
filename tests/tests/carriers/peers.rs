//! Syncthing, between three peers on this machine alone: no announcing, no relays, no reports.

use std::net::{TcpListener, TcpStream};
use std::path::PathBuf;
use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};

use crate::{Carrier, Devices, NAMES, carry};

struct Peers {
    homes: Vec<(PathBuf, u16)>,
    running: Vec<Child>,
}

fn needed() -> ! {
    panic!("syncthing is needed for this test: apt-get install syncthing")
}

/// A port that is free now.
fn free_port() -> u16 {
    TcpListener::bind("127.0.0.1:0").unwrap().local_addr().unwrap().port()
}

impl Peers {
    fn new(devices: &Devices) -> Self {
        let homes: Vec<PathBuf> = NAMES.iter().map(|name| devices.root.path().join("syncthing").join(name)).collect();
        let mut peers = Vec::new();
        for home in &homes {
            std::fs::create_dir_all(home).unwrap();
            let mut generate = Command::new("syncthing");
            generate.arg("generate").arg(format!("--home={}", home.display())).arg("--no-default-folder");
            let Ok(made) = generate.output() else { needed() };
            assert!(made.status.success(), "{made:?}");
            let config = std::fs::read_to_string(home.join("config.xml")).unwrap();
            let id = config.split("<device id=\"").nth(1).unwrap().split('"').next().unwrap().to_owned();
            peers.push((id, free_port()));
        }
        let of_folder: String = peers.iter().map(|(id, _)| format!("<device id=\"{id}\"/>")).collect();
        let known: String = peers
            .iter()
            .map(|(id, port)| format!("<device id=\"{id}\"><address>tcp://127.0.0.1:{port}</address></device>"))
            .collect();
        for (i, home) in homes.iter().enumerate() {
            let folder = devices.folder(NAMES[i]);
            let config = format!(
                r#"<configuration version="36">
<folder id="log" path="{}" type="sendreceive" rescanIntervalS="5" fsWatcherEnabled="true" fsWatcherDelayS="1">
{of_folder}<maxConflicts>10</maxConflicts></folder>
{known}
<gui enabled="false"/>
<options>
<listenAddress>tcp://127.0.0.1:{}</listenAddress>
<globalAnnounceEnabled>false</globalAnnounceEnabled><localAnnounceEnabled>false</localAnnounceEnabled>
<relaysEnabled>false</relaysEnabled><natEnabled>false</natEnabled><startBrowser>false</startBrowser>
<urAccepted>-1</urAccepted><crashReportingEnabled>false</crashReportingEnabled>
<autoUpgradeIntervalH>0</autoUpgradeIntervalH><reconnectionIntervalS>1</reconnectionIntervalS>
</options>
</configuration>"#,
                folder.display(),
                peers[i].1
            );
            std::fs::write(home.join("config.xml"), config).unwrap();
            std::fs::create_dir(folder.join(".stfolder")).unwrap();
        }
        let ports = peers.iter().map(|(_, port)| *port);
        Self { homes: homes.into_iter().zip(ports).collect(), running: Vec::new() }
    }
}

impl Carrier for Peers {
    fn start(&mut self) {
        for (home, port) in &self.homes {
            let child = Command::new("syncthing")
                .arg("serve")
                .arg(format!("--home={}", home.display()))
                .args(["--no-browser", "--no-restart", "--no-upgrade", "--skip-port-probing"])
                // Without the second process that would start it again, and outlive it when it is killed.
                .env("STMONITORED", "yes")
                .stdout(Stdio::null())
                .stderr(Stdio::null())
                .spawn();
            let Ok(child) = child else { needed() };
            self.running.push(child);
            // One after the other, so that each finds those before it at once and does not try again much later.
            let began = Instant::now();
            while TcpStream::connect(("127.0.0.1", *port)).is_err() {
                assert!(began.elapsed() < Duration::from_secs(20), "syncthing does not listen");
                std::thread::sleep(Duration::from_millis(20));
            }
        }
    }

    fn stop(&mut self) {
        for mut child in self.running.drain(..) {
            // In the middle of whatever it was doing.
            child.kill().unwrap();
            child.wait().unwrap();
        }
    }

    fn work(&mut self) {}
}

impl Drop for Peers {
    fn drop(&mut self) {
        self.stop();
    }
}

#[test]
fn syncthing_between_three_peers() {
    let devices = Devices::new();
    let mut peers = Peers::new(&devices);
    carry(&devices, &mut peers, 1, |file| file.to_string_lossy().contains(".sync-conflict-"));
}
