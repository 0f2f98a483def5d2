//! What this device is called before it is given a name.

use std::fs;

/// Names that say nothing of a machine: what systems are installed with, and what machines inside machines are called.
const NO_NAMES: &[&str] = &[
    "localhost",
    "localhost.localdomain",
    "vm",
    "debian",
    "ubuntu",
    "fedora",
    "linux",
    "host",
    "computer",
    "pc",
    "raspberrypi",
];

/// The machine's own name where it distinguishes one machine from another, else what kind of machine it is.
pub(crate) fn proposed_name() -> String {
    let host = fs::read_to_string("/etc/hostname").unwrap_or_default();
    let chassis = fs::read_to_string("/sys/class/dmi/id/chassis_type").unwrap_or_default();
    name_from(&host, &chassis)
}

fn name_from(host: &str, chassis: &str) -> String {
    let host = host.trim();
    // Containers are called by the beginning of a hash.
    let hash = host.len() >= 12 && host.bytes().all(|b| b.is_ascii_hexdigit());
    if !host.is_empty() && !hash && !NO_NAMES.contains(&host.to_lowercase().as_str()) {
        return host.chars().take(60).collect();
    }
    // System enclosure types of the SMBIOS specification (DSP0134, table of section 7.4.1), from memory.
    match chassis.trim() {
        "8" | "9" | "10" | "14" | "31" | "32" => "laptop",
        "11" => "handheld",
        "30" => "tablet",
        "3" | "4" | "5" | "6" | "7" | "13" | "15" | "16" | "24" | "35" => "desktop",
        _ => "this computer",
    }
    .into()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_that_says_nothing_gives_way_to_the_kind_of_machine() {
        assert_eq!(name_from("weaving-room\n", "10\n"), "weaving-room");
        for host in ["", "vm\n", "localhost", "Debian", "3f2a9c01b7de"] {
            assert_eq!(name_from(host, "10\n"), "laptop", "{host}");
            assert_eq!(name_from(host, ""), "this computer", "{host}");
        }
        assert_eq!(name_from("cafe", "3"), "cafe");
    }
}
