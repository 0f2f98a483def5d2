//! Sett, geometry, cover and weight.

use fellmark_cloth::Refused;
use fellmark_cloth::change::{WarpUse, WeftUse};
use fellmark_cloth::cover::{CoverFactor, WarpIn, WeftIn, cloth_weight, covered_area, covered_width, threads_weight};
use fellmark_cloth::geometry::{
    crimp_height_exact, jammed_square, length_over_diameters, other_crimp, peirce_cotton_diameter, thickness,
    yarn_diameter,
};
use fellmark_cloth::quantity::{ClothWeight, FibreDensity, Length, Mass, ThreadDensity, YarnNumber, YarnSystem};
use fellmark_cloth::sett::{
    AshenhurstK, Weave, largest_sett, same_firmness_in_weave, same_firmness_in_yarn, sett_from_wraps, yarn_for_weave,
    yarn_for_weight,
};
use fellmark_cloth::state::{EndsIn, Finished, PicksIn};
use fellmark_cloth::take_up::Crimp;

use crate::vector::Vector;

fn weave(name: &str) -> Option<Weave> {
    if name.starts_with("plain") {
        return Some(Weave::PLAIN);
    }
    if name.starts_with("2/2 twill") || name.starts_with("twill/panama") {
        return Some(Weave::TWILL_2_2);
    }
    // "5/2/1/2 twill (40 ends, 16 intersections)"
    let inside = name.split_once('(')?.1;
    let mut numbers = inside.split(|c: char| !c.is_ascii_digit()).filter_map(|n| n.parse().ok());
    Weave::new(numbers.next()?, numbers.next()?).ok()
}

pub fn sett(v: &Vector) -> Result<Option<f64>, Refused> {
    let cotton = |name: &str| YarnNumber::new(YarnSystem::EnglishCotton, v.n(name));
    let per_inch = |name: &str| ThreadDensity::from_per_inch(v.n(name));
    let named = |name: &str| weave(v.text(name)).unwrap_or_else(|| panic!("{}: {}", v.id, v.text(name)));
    Ok(Some(if v.has(&["wpi", "weave"]) {
        sett_from_wraps(per_inch("wpi")?, named("weave"))?.per_inch()
    } else if v.has(&["wraps_per_cm", "weave"]) {
        sett_from_wraps(ThreadDensity::from_per_cm(v.n("wraps_per_cm"))?, named("weave"))?.per_cm()
    } else if v.has(&["diameters_per_in", "ends", "intersections"]) {
        sett_from_wraps(per_inch("diameters_per_in")?, Weave::new(v.n("ends"), v.n("intersections"))?)?.per_inch()
    } else if v.has(&["diam_of_32s", "Ne_to"]) {
        let from = YarnNumber::new(YarnSystem::EnglishCotton, 32.0)?;
        same_firmness_in_yarn(per_inch("diam_of_32s")?, from, cotton("Ne_to")?)?.per_inch()
    } else if v.has(&["plain_tpi", "to"]) {
        same_firmness_in_weave(per_inch("plain_tpi")?, Weave::PLAIN, named("to"))?.per_inch()
    } else if v.has(&["twill22_tpi", "to"]) {
        same_firmness_in_weave(per_inch("twill22_tpi")?, Weave::TWILL_2_2, named("to"))?.per_inch()
    } else if v.has(&["plain_Ne", "to"]) {
        yarn_for_weave(cotton("plain_Ne")?, Weave::PLAIN, named("to"))?.count_in(YarnSystem::EnglishCotton)
    } else if v.has(&["tpi", "Ne", "new_Ne"]) {
        same_firmness_in_yarn(per_inch("tpi")?, cotton("Ne")?, cotton("new_Ne")?)?.per_inch()
    } else if v.has(&["weight_lb", "new_weight_lb", "Ne"]) {
        let (old, new) = (Mass::from_pounds(v.n("weight_lb"))?, Mass::from_pounds(v.n("new_weight_lb"))?);
        yarn_for_weight(cotton("Ne")?, old, new)?.count_in(YarnSystem::EnglishCotton)
    } else if v.has(&["Ne", "k", "weave"]) {
        largest_sett(cotton("Ne")?, AshenhurstK::new(v.n("k"))?, named("weave"))?.per_inch()
    } else {
        return Ok(None);
    }))
}

pub fn geometry(v: &Vector) -> Result<Option<f64>, Refused> {
    let mm = |name: &str| Length::from_mm(v.n(name));
    let spacing = |name: &str| Ok(ThreadDensity::from_per_cm(v.n(name))?.spacing());
    let diameters = || -> Result<Length, Refused> {
        let fibre = FibreDensity::from_g_per_cm3(v.n("fibre_density"))?;
        let of = |name: &str| yarn_diameter(YarnNumber::new(YarnSystem::Tex, v.n(name))?, fibre);
        Ok(of("warp_tex")? + of("weft_tex")?)
    };
    let crimp = || Crimp::from_percent(v.n("warp_crimp_pct"));
    Ok(Some(match v.unit.as_str() {
        "% crimp" if v.has(&["cloth"]) => {
            assert_eq!(v.text("cloth"), "square plain, jammed");
            jammed_square().crimp.percent()
        }
        "l1/D" => length_over_diameters(spacing("ppcm")?, crimp()?, diameters()?)?,
        "% weft crimp (4/3 rule)" => other_crimp(crimp()?, spacing("ppcm")?, spacing("epcm")?, diameters()?)?.percent(),
        "mm thickness" => thickness(mm("d1_mm")?, mm("d2_mm")?, mm("h1_mm")?)?.mm(),
        "mm h1 (exact)" => crimp_height_exact(mm("pick_spacing_mm")?, crimp()?, mm("D_mm")?)?.mm(),
        unit if unit.starts_with("cm diameter (Peirce") => {
            peirce_cotton_diameter(YarnNumber::new(YarnSystem::EnglishCotton, v.n("Ne"))?)?.cm()
        }
        _ => return Ok(None),
    }))
}

pub fn cover_weight(v: &Vector) -> Result<Option<f64>, Refused> {
    let cotton = |name: &str| YarnNumber::new(YarnSystem::EnglishCotton, v.n(name));
    let per_inch = |name: &str| ThreadDensity::from_per_inch(v.n(name));
    let crimp = |name: &str| Crimp::from_percent(v.n(name));
    let weight = |ends, warp, c1: &str, picks, weft, c2: &str| -> Result<ClothWeight, Refused> {
        cloth_weight::<Finished>(
            WarpIn { ends: EndsIn::new(ends), yarn: warp, used: WarpUse::from_crimp(crimp(c1)?) },
            WeftIn { picks: PicksIn::new(picks), yarn: weft, used: WeftUse::from_crimp(crimp(c2)?) },
        )
    };
    let of_counts =
        |c1: &str, c2: &str| weight(per_inch("epi")?, cotton("warp_Ne")?, c1, per_inch("ppi")?, cotton("weft_Ne")?, c2);
    Ok(Some(match v.unit.as_str() {
        unit if unit.starts_with('K') && v.has(&["Ne", "epi"]) => {
            CoverFactor::of(per_inch("epi")?, cotton("Ne")?)?.value()
        }
        unit if unit.starts_with("K Peirce") && v.has(&["tex", "threads_per_cm"]) => {
            let threads = ThreadDensity::from_per_cm(v.n("threads_per_cm"))?;
            CoverFactor::of(threads, YarnNumber::new(YarnSystem::Tex, v.n("tex"))?)?.value()
        }
        "% area covered (square)" => {
            let threads = ThreadDensity::from_per_cm(v.n("threads_per_cm"))?;
            let k = covered_width(threads, peirce_cotton_diameter(cotton("Ne")?)?);
            covered_area(k, k)? * 100.0
        }
        "g/m2" if v.inputs.contains_key("epcm") => {
            let tex = |name: &str| YarnNumber::new(YarnSystem::Tex, v.n(name));
            let per_cm = |name: &str| ThreadDensity::from_per_cm(v.n(name));
            weight(per_cm("epcm")?, tex("warp_tex")?, "c1_pct", per_cm("ppcm")?, tex("weft_tex")?, "c2_pct")?.g_per_m2()
        }
        "g/m2" if v.inputs.contains_key("c_pct") => of_counts("c_pct", "c_pct")?.g_per_m2(),
        "g/m2" if v.inputs.contains_key("warp_Ne") => of_counts("c1_pct", "c2_pct")?.g_per_m2(),
        "oz/yd2" if v.inputs.contains_key("warp_Ne") => of_counts("c1_pct", "c2_pct")?.oz_per_yd2(),
        "g/m2 per (epi/Ne)" => threads_weight(per_inch("epi")?, cotton("Ne")?, crimp("crimp")?)?.g_per_m2(),
        "g/m2" if v.has(&["oz_per_yd2"]) => ClothWeight::from_oz_per_yd2(v.n("oz_per_yd2"))?.g_per_m2(),
        "cm3/g" => ClothWeight::from_g_per_m2(v.n("areal_density_g_m2"))?
            .specific_volume(Length::from_cm(v.n("thickness_cm"))?)?
            .cm3_per_g(),
        _ => return Ok(None),
    }))
}
