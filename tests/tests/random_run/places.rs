//! Where entries lie: in each device's copy of the folder, and in its own data.

use std::collections::{BTreeSet, HashMap};
use std::path::{Path, PathBuf};

use super::faults::outside;
use fellmark_journal::{Entry, Key, Segment};
use fellmark_tests::command_line::CommandLineDevice;
use fellmark_tests::journal::all_files;

/// Reads whole entries from the files of devices, each file again only when its bytes have changed.
#[derive(Default)]
pub struct EntryPlaces {
    read: HashMap<PathBuf, (Vec<u8>, BTreeSet<Key>)>,
}

impl EntryPlaces {
    /// The keys of the whole entries that lie in a device's copy of the folder.
    pub fn in_folder(&mut self, device: &CommandLineDevice) -> BTreeSet<Key> {
        self.in_files_below(&device.folder())
    }

    fn in_files_below(&mut self, dir: &Path) -> BTreeSet<Key> {
        let files = all_files(dir).into_iter().filter(|file| !is_hidden(file));
        files.flat_map(|file| self.keys(&file, |bytes| Segment::read(bytes).entries)).collect()
    }

    /// The keys of the whole entries that lie in what a device keeps beside the folder.
    pub fn in_own_data(&mut self, device: &CommandLineDevice) -> BTreeSet<Key> {
        let files = all_files(&device.home().join("data/fellmark")).into_iter();
        let files = files.filter(|file| file.extension().is_some_and(|ending| ending == "lines"));
        files.flat_map(|file| self.keys(&file, entries_of_lines)).collect()
    }

    /// The keys of the whole entries that lie anywhere.
    pub fn anywhere(&mut self, devices: &[CommandLineDevice]) -> BTreeSet<Key> {
        let places = devices.iter().flat_map(|device| {
            [self.in_folder(device), self.in_own_data(device), self.in_files_below(&outside(device))]
        });
        places.flatten().collect()
    }

    fn keys(&mut self, file: &Path, read: impl FnOnce(&[u8]) -> Vec<Entry>) -> BTreeSet<Key> {
        let bytes = std::fs::read(file).unwrap_or_default();
        match self.read.get(file) {
            Some((before, keys)) if *before == bytes => keys.clone(),
            _ => {
                let keys: BTreeSet<Key> = read(&bytes).iter().map(Entry::key).collect();
                self.read.insert(file.to_owned(), (bytes, keys.clone()));
                keys
            }
        }
    }
}

fn is_hidden(file: &Path) -> bool {
    file.file_name().is_some_and(|name| name.as_encoded_bytes().starts_with(b"."))
}

fn entries_of_lines(bytes: &[u8]) -> Vec<Entry> {
    bytes.split(|byte| *byte == b'\n').filter_map(|line| Entry::from_line(line).ok()).collect()
}
