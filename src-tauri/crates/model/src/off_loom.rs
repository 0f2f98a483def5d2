//! What came of a warp: measured when it is cut off, and after the wash.

use crate::TypedFields;
use crate::fields::off;

/// What was measured at the end; every figure may be missing. Lengths are of all pieces together, without fringe.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct OffMeasures {
    /// Cut off in front of the first pick, fringe included, millimetres.
    pub front_mm: Option<f64>,
    /// Thrums: behind the last pick, fringe included, millimetres.
    pub thrums_mm: Option<f64>,
    /// Length off the loom, millimetres.
    pub off_loom_mm: Option<f64>,
    /// Width at the fell, millimetres.
    pub fell_width_mm: Option<f64>,
    /// Width off the loom, millimetres.
    pub off_loom_width_mm: Option<f64>,
    /// Weft left over, grams.
    pub weft_over_g: Option<f64>,
    /// Length after the wash, millimetres.
    pub finished_mm: Option<f64>,
    /// Width after the wash, millimetres.
    pub finished_width_mm: Option<f64>,
    /// Weight after the wash, grams.
    pub finished_mass_g: Option<f64>,
}

/// Reads them from the warp's record.
#[must_use]
pub fn read(get: &TypedFields<'_>) -> OffMeasures {
    let above_zero = |field: &str| get.number(field).filter(|figure| *figure > 0.0);
    let or_zero = |field: &str| get.number(field).filter(|figure| *figure >= 0.0);
    OffMeasures {
        front_mm: or_zero(off::FRONT_MM),
        thrums_mm: or_zero(off::THRUMS_MM),
        off_loom_mm: above_zero(off::OFF_LOOM_MM),
        fell_width_mm: above_zero(off::FELL_WIDTH_MM),
        off_loom_width_mm: above_zero(off::OFF_LOOM_WIDTH_MM),
        weft_over_g: or_zero(off::WEFT_OVER_G),
        finished_mm: above_zero(off::FINISHED_MM),
        finished_width_mm: above_zero(off::FINISHED_WIDTH_MM),
        finished_mass_g: above_zero(off::FINISHED_MASS_G),
    }
}
