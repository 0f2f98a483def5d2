//! Names the sources that a warp's summary is made by.

#[path = "../sources.rs"]
mod sources;

fn main() -> std::io::Result<()> {
    sources::name(&["src", "../cloth/src", "../journal/src", "../projection/src", "../../../Cargo.lock"])
}
