//! Constants against a general-purpose unit library. It keeps pounds, ounces and grains to seven figures, lengths
//! exactly.

use fellmark_cloth::quantity::{ClothWeight, Length, Mass, ThreadDensity, YarnNumber, YarnSystem};
use fellmark_cloth::read::{LengthUnit, MassUnit};
use uom::si::areal_mass_density::gram_per_square_meter;
use uom::si::f64::{Length as L, LinearMassDensity, LinearNumberDensity, Mass as M};
use uom::si::length::{centimeter, foot, inch, meter, millimeter, yard};
use uom::si::linear_mass_density::gram_per_kilometer;
use uom::si::linear_number_density::{per_centimeter, per_inch};
use uom::si::mass::{grain, gram, kilogram, ounce, pound};

fn close(ours: f64, theirs: f64, share: f64) {
    assert!((ours / theirs - 1.0).abs() < share, "{ours} against {theirs}");
}

const EXACT: f64 = 1e-14;
const SEVEN_FIGURES: f64 = 2e-7;

#[test]
fn lengths() {
    let x = 73.25;
    close(Length::from_inches(x).unwrap().mm(), L::new::<inch>(x).get::<millimeter>(), EXACT);
    close(Length::from_feet(x).unwrap().mm(), L::new::<foot>(x).get::<millimeter>(), EXACT);
    close(Length::from_yards(x).unwrap().mm(), L::new::<yard>(x).get::<millimeter>(), EXACT);
    close(Length::from_cm(x).unwrap().inches(), L::new::<centimeter>(x).get::<inch>(), EXACT);
    close(Length::from_m(x).unwrap().yards(), L::new::<meter>(x).get::<yard>(), EXACT);
    for (unit, theirs) in [
        (LengthUnit::Mm, L::new::<millimeter>(1.0)),
        (LengthUnit::Cm, L::new::<centimeter>(1.0)),
        (LengthUnit::M, L::new::<meter>(1.0)),
        (LengthUnit::Inch, L::new::<inch>(1.0)),
        (LengthUnit::Foot, L::new::<foot>(1.0)),
        (LengthUnit::Yard, L::new::<yard>(1.0)),
    ] {
        close(unit.mm(), theirs.get::<millimeter>(), EXACT);
    }
}

#[test]
fn masses() {
    let x = 11.5;
    close(Mass::from_pounds(x).unwrap().g(), M::new::<pound>(x).get::<gram>(), SEVEN_FIGURES);
    close(Mass::from_ounces(x).unwrap().g(), M::new::<ounce>(x).get::<gram>(), SEVEN_FIGURES);
    close(Mass::from_grains(x).unwrap().g(), M::new::<grain>(x).get::<gram>(), SEVEN_FIGURES);
    close(Mass::from_kg(x).unwrap().g(), M::new::<kilogram>(x).get::<gram>(), EXACT);
    close(MassUnit::Ounce.g(), M::new::<ounce>(1.0).get::<gram>(), SEVEN_FIGURES);
    close(MassUnit::Pound.g(), M::new::<pound>(1.0).get::<gram>(), SEVEN_FIGURES);
}

#[test]
fn densities() {
    let theirs = LinearNumberDensity::new::<per_inch>(12.5);
    close(ThreadDensity::from_per_inch(12.5).unwrap().per_cm(), theirs.get::<per_centimeter>(), EXACT);
}

#[test]
fn yarn_numbers() {
    // A count of 1: one hank weighs a pound.
    for (system, yards) in [
        (YarnSystem::YardsPerPound, 1.0),
        (YarnSystem::EnglishCotton, 840.0),
        (YarnSystem::Worsted, 560.0),
        (YarnSystem::LinenLea, 300.0),
        (YarnSystem::WoollenCut, 300.0),
        (YarnSystem::AmericanRun, 1600.0),
        (YarnSystem::YorkshireSkein, 256.0),
        (YarnSystem::Galashiels, 200.0),
        (YarnSystem::WestOfEngland, 320.0),
    ] {
        let theirs: LinearMassDensity = M::new::<pound>(1.0) / L::new::<yard>(yards);
        close(YarnNumber::new(system, 1.0).unwrap().tex(), theirs.get::<gram_per_kilometer>(), SEVEN_FIGURES);
    }
    for (system, theirs, share) in [
        (YarnSystem::Denier, M::new::<gram>(1.0) / L::new::<meter>(9000.0), EXACT),
        (YarnSystem::Dtex, M::new::<gram>(1.0) / L::new::<meter>(10_000.0), EXACT),
        (YarnSystem::MetricNm, M::new::<gram>(1.0) / L::new::<meter>(1.0), EXACT),
        (YarnSystem::MetresPer100g, M::new::<gram>(100.0) / L::new::<meter>(1.0), EXACT),
        (YarnSystem::French, M::new::<gram>(500.0) / L::new::<meter>(1000.0), EXACT),
        (YarnSystem::JuteSpyndle, M::new::<pound>(1.0) / L::new::<yard>(14_400.0), SEVEN_FIGURES),
        (YarnSystem::SilkDrams, M::new::<ounce>(1.0 / 16.0) / L::new::<yard>(1000.0), SEVEN_FIGURES),
        (YarnSystem::TradeSilkDenier, M::new::<ounce>(3.0 / 1600.0) / L::new::<yard>(520.0), SEVEN_FIGURES),
        (YarnSystem::YardsPerOunce, M::new::<ounce>(1.0) / L::new::<yard>(1.0), SEVEN_FIGURES),
    ] {
        let theirs: LinearMassDensity = theirs;
        close(YarnNumber::new(system, 1.0).unwrap().tex(), theirs.get::<gram_per_kilometer>(), share);
    }
}

#[test]
fn cloth_weights() {
    let square_yard = L::new::<yard>(1.0) * L::new::<yard>(1.0);
    let theirs: uom::si::f64::ArealMassDensity = M::new::<ounce>(1.0) / square_yard;
    close(ClothWeight::from_oz_per_yd2(1.0).unwrap().g_per_m2(), theirs.get::<gram_per_square_meter>(), SEVEN_FIGURES);
}
