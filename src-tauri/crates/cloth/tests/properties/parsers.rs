//! Everything that reads text from outside: no panic on any text, and what is written reads back.

use fellmark_cloth::quantity::{Length, Mass, ThreadDensity, YarnNumber, YarnSystem};
use fellmark_cloth::read::{self, DecimalMark, DensityUnit, LengthUnit, MassUnit};
use fellmark_cloth::sequence::rows_from_words;
use fellmark_cloth::write::{self, InchFraction, Shown};
use proptest::prelude::*;

/// Text that looks like a measure, or almost: the pieces of measures in any order.
fn almost() -> impl Strategy<Value = String> {
    let piece = prop::sample::select(vec![
        "0",
        "1",
        "7",
        "72",
        "999999999999999999999999",
        "1/2",
        "/",
        "3/0",
        ".",
        ",",
        "1.5",
        "1,850",
        "1.2.3",
        "-",
        "\u{2212}",
        " ",
        "\u{a0}",
        "\u{bd}",
        "\u{215c}",
        "'",
        "\"",
        "''",
        "\u{2032}",
        "\u{2033}",
        "in",
        "ft",
        "yd",
        "mm",
        "cm",
        "m",
        "km",
        "g",
        "kg",
        "oz",
        "lb",
        "#",
        "tex",
        "Nm",
        "Ne",
        "cotton",
        "silk",
        "per",
        "epi",
        "10cm",
        "%",
        "e",
        "inf",
        "nan",
        "\u{feff}",
        "\u{0}",
        "\u{130}",
        "\u{1f9f6}",
        "up",
        "down",
        "stick",
        "second",
        "edge",
        "flat",
        "at",
        "rest",
        "x",
        "\u{d7}",
        "\u{b7}",
        ";",
        "\n",
        "+",
        "1000000000",
    ]);
    prop::collection::vec(piece, 0..12).prop_map(|pieces| pieces.concat())
}

fn any_text() -> impl Strategy<Value = String> {
    prop_oneof![almost(), any::<String>(), "[0-9 ./,'\"a-z-]{0,70}"]
}

fn mark() -> impl Strategy<Value = DecimalMark> {
    prop_oneof![Just(DecimalMark::Point), Just(DecimalMark::Comma)]
}

fn length_unit() -> impl Strategy<Value = LengthUnit> {
    use LengthUnit::{Cm, Foot, Inch, M, Mm, Yard};
    prop::sample::select(vec![Mm, Cm, M, Inch, Foot, Yard])
}

fn system() -> impl Strategy<Value = YarnSystem> {
    prop::sample::select(YarnSystem::ALL.to_vec())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 4000, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn lengths_never_panic(text in any_text(), unit in length_unit(), mark in mark()) {
        match read::length(&text, unit, mark) {
            Ok(length) => prop_assert!(length.mm().is_finite() && length.mm() >= 0.0),
            Err(refused) => {
                let reported = refused.to_string();
                prop_assert!(!reported.is_empty() && reported.chars().count() < 300);
            }
        }
    }

    #[test]
    fn masses_never_panic(text in any_text(), mark in mark()) {
        if let Ok(mass) = read::mass(&text, MassUnit::G, mark) {
            prop_assert!(mass.g().is_finite() && mass.g() >= 0.0);
        }
    }

    #[test]
    fn densities_never_panic(text in any_text(), mark in mark()) {
        if let Ok(density) = read::density(&text, DensityUnit::PerInch, mark) {
            prop_assert!(density.per_cm().is_finite() && density.per_cm() > 0.0);
        }
    }

    #[test]
    fn yarn_numbers_never_panic(text in any_text(), system in system(), mark in mark()) {
        if let Ok(yarn) = read::yarn_number(&text, system, mark) {
            prop_assert!(yarn.tex().is_finite() && yarn.tex() > 0.0);
        }
    }

    #[test]
    fn numbers_and_rows_never_panic(text in any_text(), mark in mark()) {
        if let Ok(percent) = read::percent(&text, mark) {
            prop_assert!(percent.abs() <= 1000.0);
        }
        if let Ok(n) = read::whole_number(&text) {
            prop_assert!(n.abs() <= 10_000_000);
        }
        let _ = rows_from_words(&text);
    }

    #[test]
    fn stored_text_never_panics(text in any_text()) {
        let _ = serde_json::from_str::<Length>(&text);
        let _ = serde_json::from_str::<YarnNumber>(&text);
        let _ = serde_json::from_str::<fellmark_cloth::change::WashLength>(&text);
        let _ = serde_json::from_str::<fellmark_cloth::warp::WarpLayout>(&text);
    }

    #[test]
    fn lengths_shown_read_back(mm in 0.0..2e6f64, unit in length_unit(), mark in mark(), fraction in prop::sample::select(vec![
        InchFraction::Quarter, InchFraction::Eighth, InchFraction::Sixteenth, InchFraction::Decimal,
    ])) {
        let length = Length::from_mm(mm).unwrap();
        let text = write::length(length, Shown { unit, fraction, mark });
        let back = read::length(&text, LengthUnit::Mm, mark).unwrap();
        // Half of the last place shown.
        let half = match (unit, fraction) {
            (LengthUnit::Mm, _) => 0.5,
            (LengthUnit::Cm | LengthUnit::M, _) => 0.5,
            (LengthUnit::Yard, _) => 0.4572,
            (_, InchFraction::Quarter) => 25.4 / 8.0,
            (_, InchFraction::Eighth) => 25.4 / 16.0,
            (_, InchFraction::Sixteenth) => 25.4 / 32.0,
            (_, InchFraction::Decimal) => 0.127,
        };
        prop_assert!((back.mm() - mm).abs() <= half + 1e-6, "{} -> {} -> {}", mm, text, back.mm());
        // And what was shown once is shown the same again.
        prop_assert_eq!(write::length(back, Shown { unit, fraction, mark }), text);
    }

    #[test]
    fn masses_and_densities_shown_read_back(g in 0.0..50_000.0f64, per_cm in 0.1..60.0f64, mark in mark()) {
        let mass = Mass::from_g(g).unwrap();
        for (unit, half) in [
            (MassUnit::G, 0.05), (MassUnit::Kg, 0.5), (MassUnit::Ounce, 0.15), (MassUnit::Pound, 0.23),
        ] {
            let back = read::mass(&write::mass(mass, unit, mark), MassUnit::G, mark).unwrap();
            prop_assert!((back.g() - g).abs() <= half + 1e-6);
        }
        let density = ThreadDensity::from_per_cm(per_cm).unwrap();
        for unit in [DensityUnit::PerInch, DensityUnit::PerCm, DensityUnit::Per10Cm] {
            let back = read::density(&write::density(density, unit, mark), DensityUnit::PerInch, mark).unwrap();
            prop_assert!((back.per_cm() - per_cm).abs() <= 0.0051);
        }
    }

    #[test]
    fn yarn_numbers_shown_read_back(tex in 5.0..3000.0f64, system in system(), mark in mark()) {
        let yarn = YarnNumber::new(YarnSystem::Tex, tex).unwrap();
        let text = write::yarn_number(yarn, system, mark);
        let back = read::yarn_number(&text, YarnSystem::Tex, mark).unwrap();
        prop_assert!((back.tex() / tex - 1.0).abs() < 0.01, "{} -> {} -> {}", tex, text, back.tex());
    }

    #[test]
    fn labels_echoed_read_back(
        count in 1.0..120.0f64, plies in prop::option::of(1u32..13), system in system(), resultant in any::<bool>(),
        words in prop::sample::select(vec!["", " merino", " linen", " spun silk", " cotton"]), mark in mark(),
    ) {
        let strands = plies.map_or_else(String::new, |plies| format!("/{plies}"));
        let r = if resultant { "R " } else { "" };
        let shown = write::number(count, 2, mark);
        let named = write::yarn_number(YarnNumber::new(system, 1.0).unwrap(), system, mark);
        let name = named.split_once(' ').map_or("", |(_, name)| name);
        let text = format!("{r}{shown}{strands} {name}{words}");
        // Not every one of these can be meant; what is read, reads back.
        if let Ok(label) = read::yarn_label(&text, YarnSystem::Tex, mark) {
            for measures in [write::Measures::Metric, write::Measures::Imperial] {
                let echo = write::yarn_label(&label, measures, mark);
                let back = read::yarn_label(&echo, YarnSystem::Tex, mark).unwrap();
                // A length and a weight are echoed as the figures alone.
                let rounding = if label.count.is_some() { 1e-9 } else { 0.051 };
                prop_assert!((back.number.tex() / label.number.tex() - 1.0).abs() < rounding, "{} -> {} -> {:?}", text, echo, back);
                if label.count.is_some() {
                    prop_assert_eq!(write::yarn_label(&back, measures, mark), &*echo);
                }
                // Each figure behind the colon stands for the same yarn, to the places shown.
                if !label.number.is_usual() {
                    continue;
                }
                let figures = echo.split_once(": ").map_or(&*echo, |(_, figures)| figures);
                for figure in figures.split(", ") {
                    let back = read::yarn_number(figure, YarnSystem::Tex, mark).unwrap();
                    prop_assert!((back.tex() / label.number.tex() - 1.0).abs() < 0.051, "{} -> {}", echo, figure);
                }
            }
        }
    }

    #[test]
    fn quantities_refuse_what_is_none(bits in any::<u64>()) {
        // Every float there is, NaN, infinite and subnormal ones too.
        let x = f64::from_bits(bits);
        for made in [
            Length::from_mm(x).map(f64::from), Length::from_yards(x).map(f64::from), Mass::from_pounds(x).map(f64::from),
            ThreadDensity::from_per_inch(x).map(f64::from), YarnNumber::new(YarnSystem::Worsted, x).map(f64::from),
            YarnNumber::new(YarnSystem::Denier, x).map(f64::from),
        ] {
            match made {
                Ok(value) => prop_assert!(value.is_finite() && value >= 0.0 && x >= 0.0),
                Err(refused) => prop_assert!(!refused.to_string().is_empty()),
            }
        }
    }
}
