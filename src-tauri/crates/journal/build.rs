//! Names the sources that the folder's files are read by.

#[path = "../sources.rs"]
mod sources;

fn main() -> std::io::Result<()> {
    sources::name(&["src", "../../../Cargo.lock"])
}
