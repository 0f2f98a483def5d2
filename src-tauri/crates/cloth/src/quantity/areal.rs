//! Weight of cloth by area, density of fibre, room taken by a gram of cloth.

use super::quantity;
use crate::error::{Limits, Refused};
use crate::quantity::{Length, Mass};

quantity! {
    /// Weight of cloth by area; g/m² inside (serde: g/m²). Up to 20 kg/m².
    ClothWeight, g_per_m2, Limits { what: "a cloth weight", unit: "g/m²", least: 0.0, most: 20_000.0, zero: true }
}

/// 1 oz/yd² in g/m²: 28.349 523 125 ÷ 0.836 127 36.
const G_M2_PER_OZ_YD2: f64 = super::mass::G_PER_POUND / 16.0 / (0.9144 * 0.9144);

impl ClothWeight {
    /// Grams per square metre.
    /// # Errors
    /// If negative, no number, or beyond the limits of the type.
    pub fn from_g_per_m2(g: f64) -> Result<Self, Refused> {
        Self::take(g)
    }
    /// Ounces per square yard.
    /// # Errors
    /// As [`Self::from_g_per_m2`].
    pub fn from_oz_per_yd2(oz: f64) -> Result<Self, Refused> {
        Self::take(oz * G_M2_PER_OZ_YD2)
    }
    /// A piece on the scale: its mass over length × width, both in one state of the cloth.
    /// # Errors
    /// If the piece has no area.
    pub fn from_piece(mass: Mass, length: Length, width: Length) -> Result<Self, Refused> {
        Self::take(super::divide("the area of the piece", mass.g(), length.m() * width.m())?)
    }
    /// Grams per square metre.
    pub fn g_per_m2(self) -> f64 {
        self.0
    }
    /// Ounces per square yard.
    pub fn oz_per_yd2(self) -> f64 {
        self.0 / G_M2_PER_OZ_YD2
    }
    /// The weight of a running metre at a width.
    /// # Errors
    /// If the product is absurd.
    pub fn mass_of(self, length: Length, width: Length) -> Result<Mass, Refused> {
        Mass::from_g(self.0 * length.m() * width.m())
    }
    /// Room that a gram of this cloth takes at a thickness: thickness ÷ weight by area.
    /// # Errors
    /// If the cloth weighs nothing or the result is absurd.
    pub fn specific_volume(self, thickness: Length) -> Result<SpecificVolume, Refused> {
        // mm ÷ g/m² is litres per gram; a thousand cm³ to the litre.
        SpecificVolume::from_cm3_per_g(super::divide("the cloth weight", thickness.mm() * 1000.0, self.0)?)
    }
}

quantity! {
    /// Room that a gram takes, cm³/g (serde: cm³/g).
    SpecificVolume, cm3_per_g, Limits { what: "a specific volume", unit: "cm³/g", least: 0.0, most: 1e5, zero: true }
}

impl SpecificVolume {
    /// Cubic centimetres per gram.
    /// # Errors
    /// If negative, no number, or absurd.
    pub fn from_cm3_per_g(v: f64) -> Result<Self, Refused> {
        Self::take(v)
    }
    /// Cubic centimetres per gram.
    pub fn cm3_per_g(self) -> f64 {
        self.0
    }
    /// Share of the room that is fibre rather than air, 0 to 1 and beyond if the figures don't fit each other.
    /// # Errors
    /// If the volume is nothing.
    pub fn packing(self, fibre: FibreDensity) -> Result<f64, Refused> {
        super::divide("the specific volume", 1.0, self.0 * fibre.0)
    }
}

quantity! {
    /// Density of a fibre, g/cm³ (serde: g/cm³), 0.1 to 25. Cotton about 1.52–1.54, wool 1.31.
    FibreDensity, g_per_cm3, Limits { what: "a fibre density", unit: "g/cm³", least: 0.1, most: 25.0, zero: false }
}

impl FibreDensity {
    /// Grams per cubic centimetre.
    /// # Errors
    /// If outside 0.1 to 25.
    pub fn from_g_per_cm3(d: f64) -> Result<Self, Refused> {
        Self::take(d)
    }
    /// Grams per cubic centimetre.
    pub fn g_per_cm3(self) -> f64 {
        self.0
    }
}
