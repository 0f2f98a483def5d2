//! Drawn pictures of cloth, so that the example shows where photos go without showing anybody's.

use fellmark_model::{UserError, messages};

const WIDE: u32 = 320;
const HIGH: u32 = 210;

/// A picture of cloth as PNG; each number has another tint.
pub fn of_cloth(number: u32) -> Result<Vec<u8>, UserError> {
    let tint = (number * 23) % 60;
    let drawn = image::RgbImage::from_fn(WIDE, HIGH, |x, y| {
        let (end, pick) = (x / 10, y / 10);
        let (in_end, in_pick) = (x % 10, y % 10);
        let floats = pick % 4 == 1 && end % 4 != 0;
        let weft_up = floats || (end + pick) % 2 == 0;
        let edge = if weft_up { in_pick.min(9 - in_pick) } else { in_end.min(9 - in_end) };
        let light = 150 + edge * 14;
        let shade = |part: u32| u8::try_from((light * part / 255).min(255)).unwrap_or(255);
        if weft_up {
            image::Rgb([shade(176 - tint / 2), shade(122), shade(78 + tint / 3)])
        } else {
            image::Rgb([shade(118), shade(146 - tint / 2), shade(112)])
        }
    });
    let mut bytes = std::io::Cursor::new(Vec::new());
    drawn
        .write_to(&mut bytes, image::ImageFormat::Png)
        .map_err(|error| UserError::new(messages::sample_picture_failed(error.to_string())))?;
    Ok(bytes.into_inner())
}
