//! Icons from the drawing: PNG in every size, and the containers of Windows and macOS.

use std::process::Command;

use crate::setup::{self, Purpose};
use crate::step::{self, StepResult};

/// Side of each PNG in pixels: the sizes of the icon theme of Linux desktops.
pub const SIDES: [u32; 8] = [16, 24, 32, 48, 64, 128, 256, 512];
/// What a Windows icon holds uncompressed.
const ICO_SIDES: [u32; 5] = [16, 24, 32, 48, 64];
/// What a macOS icon holds.
const ICNS_SIDES: [u32; 6] = [16, 32, 48, 128, 256, 512];

/// Draws `icons/fellmark.svg` at every size.
pub fn icons() -> StepResult {
    setup::setup(Purpose::Icons)?;
    let icons = step::top().join("icons");
    for side in SIDES {
        let text = side.to_string();
        step::run(
            Command::new("rsvg-convert")
                .args(["--width", &text, "--height", &text, "--format", "png", "--output"])
                .arg(icons.join(png(side)))
                .arg(icons.join("fellmark.svg")),
        )?;
    }
    let png_in = |side: &u32| icons.join(png(*side));
    let mut ico = Command::new("icotool");
    ico.args(["--create", "--output"]).arg(icons.join("fellmark.ico")).args(ICO_SIDES.iter().map(png_in));
    // The largest is kept compressed, as Windows has read it since 2006.
    step::run(ico.arg("--raw").arg(png_in(&256)))?;
    step::run(Command::new("png2icns").arg(icons.join("fellmark.icns")).args(ICNS_SIDES.iter().map(png_in)))
}

/// File name of the PNG of a size.
pub fn png(side: u32) -> String {
    format!("{side}x{side}.png")
}
