//! What synchronisers and disks do to a folder.

use std::fs;
use std::path::{Path, PathBuf};

use fellmark_tests::journal::all_files;

/// Files of a folder that a synchroniser carries, relative to it. What fills a disk is none of them: carried, it would fill
/// the disk again after it was removed.
fn files(folder: &Path) -> Vec<PathBuf> {
    let all = all_files(folder);
    let files = all.iter().map(|file| file.strip_prefix(folder).unwrap().to_owned());
    files.filter(|file| !file.as_os_str().as_encoded_bytes().starts_with(b".")).collect()
}

fn length(path: &Path) -> u64 {
    fs::metadata(path).map_or(0, |data| data.len())
}

/// Carries files for which `takes` holds: the longer version is the later one, since every file has one writer who only adds.
pub fn carry(from: &Path, to: &Path, mut takes: impl FnMut() -> bool) {
    for file in files(from) {
        let (source, target) = (from.join(&file), to.join(&file));
        if takes() && length(&source) > length(&target) {
            // A disk that is full takes no copy; a synchroniser then leaves what was there.
            let part = target.with_extension("carried~");
            let done = fs::create_dir_all(target.parent().unwrap())
                .and_then(|()| fs::copy(&source, &part))
                .and_then(|_| fs::rename(&part, &target));
            if done.is_err() {
                let _ = fs::remove_file(&part);
            }
        }
    }
}

/// Puts the first half of a file where another device has none of it yet.
pub fn carry_a_part(from: &Path, to: &Path, nth: usize) {
    let missing: Vec<PathBuf> =
        files(from).into_iter().filter(|file| file.starts_with("warps") && !to.join(file).exists()).collect();
    let Some(file) = missing.get(nth % missing.len().max(1)) else { return };
    let bytes = fs::read(from.join(file)).unwrap();
    let target = to.join(file);
    let _ = fs::create_dir_all(target.parent().unwrap()).and_then(|()| fs::write(target, &bytes[..bytes.len() / 2]));
}

/// A copy of all files with entries, to be restored later.
pub fn copy(folder: &Path) -> Vec<(PathBuf, Vec<u8>)> {
    files(folder)
        .into_iter()
        .filter(|file| file.starts_with("warps"))
        .map(|file| (file.clone(), fs::read(folder.join(&file)).unwrap()))
        .collect()
}

/// Puts one file of an earlier copy in the place of the present one.
pub fn restore(copy: &[(PathBuf, Vec<u8>)], folder: &Path, nth: usize) {
    let Some((file, bytes)) = copy.get(nth % copy.len().max(1)) else { return };
    let target = folder.join(file);
    let _ = fs::create_dir_all(target.parent().unwrap()).and_then(|()| fs::write(target, bytes));
}

/// Puts a file that nobody should trust among the others.
pub fn plant(folder: &Path, nth: usize) {
    let hostile: [(&str, &[u8]); 5] = [
        ("shelf/x.0001.json", b"\0\0\0\0\0\0"),
        ("shelf/y.0001.json", b"{\"format\":\"fellmark\",\"schema\":1,\"device\":\"y\",\"segment\":1,\"entries\":[\n{\"key\":\"0\",\"of\":\"../x\"}\n]}\n"),
        ("warps/z-00000000/z.0001.json", b"[[[[[[[[[[[[[[[[[["),
        ("notes.txt", b"buy yarn"),
        ("warps/z-00000000/z.0001 (1).json", b"{\"format\":\"fellmark\",\"schema\":99}"),
    ];
    let (name, bytes) = hostile[nth % hostile.len()];
    let target = folder.join(name);
    let _ = fs::create_dir_all(target.parent().unwrap()).and_then(|()| fs::write(target, bytes));
}
