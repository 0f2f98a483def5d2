//! PNG icons from the drawing.

use std::process::Command;

use crate::step::{self, StepResult};

/// Side of each icon in pixels.
const SIDES: [u32; 4] = [32, 128, 256, 512];

/// Draws `icons/fellmark.svg` at every size.
pub fn icons() -> StepResult {
    if !step::on_path("rsvg-convert") {
        return Err("rsvg-convert is missing (Debian: apt-get install librsvg2-bin).".to_owned());
    }
    let icons = step::top().join("icons");
    for side in SIDES {
        let side = side.to_string();
        step::run(
            Command::new("rsvg-convert")
                .args(["--width", &side, "--height", &side, "--format", "png", "--output"])
                .arg(icons.join(format!("{side}x{side}.png")))
                .arg(icons.join("fellmark.svg")),
        )?;
    }
    Ok(())
}
