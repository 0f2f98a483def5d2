//! What is wrong in a folder, told without opening it.

use std::path::Path;

use crate::disk::{Disk, SystemDisk};
use crate::index;
use crate::journal::Journal;
use crate::marker::{DEVICES, Markers};
use crate::reading::{Reading, read_file};
use crate::status::Problem;
use crate::told::Telling;

impl Journal {
    /// What is wrong in a folder, found by reading alone. Needs nothing of this device's own.
    #[must_use]
    pub fn check(folder: &Path) -> Vec<Problem> {
        let disk = SystemDisk;
        let mut problems = Vec::new();
        match Markers::read(&disk, folder) {
            Ok(markers) => {
                problems.extend(markers.damaged.iter().map(|file| damaged_marker(file)));
                if markers.sound.is_empty() {
                    problems.push(Problem {
                        file: folder.to_owned(),
                        line: None,
                        what: "No device has left its marker here, so this is no Fellmark folder, or it has not \
                               arrived yet."
                            .to_owned(),
                        do_what: "Choose the right folder, or wait for the synchroniser.".to_owned(),
                    });
                } else if markers.journals().len() > 1 {
                    problems.push(Problem {
                        file: folder.join(DEVICES),
                        line: None,
                        what: "Two journals were begun apart and have met in this folder; both are read as one."
                            .to_owned(),
                        do_what: "Nothing needs doing if that is what you wanted.".to_owned(),
                    });
                }
            }
            Err(error) => problems.push(Problem {
                file: folder.join(DEVICES),
                line: None,
                what: format!("It cannot be read: {error}."),
                do_what: "Check that the folder is there and who may read it.".to_owned(),
            }),
        }
        let walk = index::walk(&disk, folder, folder, &Telling::default());
        problems.extend(walk.strange);
        for path in walk.files {
            if let Ok(stat) = disk.stat(&path)
                && let Reading::Read(read) = read_file(&disk, &path, stat)
            {
                problems.extend(read.seen.problems);
            }
        }
        problems
    }
}

pub(crate) fn damaged_marker(file: &Path) -> Problem {
    Problem {
        file: file.to_owned(),
        line: None,
        what: "This device's marker is damaged.".to_owned(),
        do_what: "Open Fellmark on that device, which will write it again.".to_owned(),
    }
}
