//! Ends and reeds, quantities of yarn, yarn counts.

use fellmark_cloth::Refused;
use fellmark_cloth::change::{Allowance, WeftUse};
use fellmark_cloth::quantity::{
    Length, Mass, ThreadDensity, YarnNumber, YarnSystem, balance_yarn_number, fold, waste_percent,
};
use fellmark_cloth::reed::{ReedSystem, ends, ends_by_dents, ends_with_allowance};
use fellmark_cloth::state::{EndsIn, FinishedWidth, PickLength, PicksIn, ReedWidth, WarpLength, WovenLength};
use fellmark_cloth::take_up::Crimp;
use fellmark_cloth::warp::{warp_from_yarn, warp_yarn};
use fellmark_cloth::weft::{pick_from_cloth, pick_from_reed, picks, weft_yarn};

use crate::vector::Vector;

pub fn ends_reed(v: &Vector) -> Result<Option<f64>, Refused> {
    let wide = |name: &str| ReedWidth::from_inches(v.n(name));
    Ok(Some(match v.unit.as_str() {
        "ends/in" if v.has(&["stockport_reed", "ends_per_dent"]) => {
            ReedSystem::Stockport.sett(v.n("stockport_reed"), v.n("ends_per_dent"))?.density().per_inch()
        }
        // The Bradford sett counts beers of 40 ends, two to the dent.
        "ends/in" if v.has(&["bradford_sett"]) => {
            ReedSystem::Bradford.sett(v.n("bradford_sett"), 2.0)?.density().per_inch()
        }
        "ends" if v.inputs.contains_key("scotch_reed_dents_per_37in") => {
            let dents = ReedSystem::Scotch.dents(v.n("scotch_reed_dents_per_37in"))?;
            f64::from(ends_by_dents(wide("width_in")?, dents, v.whole("ends_per_dent"))?)
        }
        "ends" if v.inputs.contains_key("reed_dents_per_10cm") => {
            let sett = ReedSystem::Per10Cm.sett(v.n("reed_dents_per_10cm"), 1.0)?;
            f64::from(ends(ReedWidth::from_cm(v.n("width_in_reed_cm"))?, sett)? + v.whole("selvedge_extra"))
        }
        "ends" if v.has(&["width_cm", "allow_pct_additive", "epc"]) => f64::from(ends_with_allowance(
            Length::from_cm(v.n("width_cm"))?,
            Allowance::from_percent(v.n("allow_pct_additive"))?,
            EndsIn::new(ThreadDensity::from_per_cm(v.n("epc"))?),
        )?),
        "ends" if v.has(&["epi", "width_in"]) || v.has(&["epi", "width_in", "extra_ends"]) => {
            let extra = if v.inputs.contains_key("extra_ends") { v.whole("extra_ends") } else { 0 };
            f64::from(ends(wide("width_in")?, EndsIn::from_per_inch(v.n("epi"))?)? + extra)
        }
        _ => return Ok(None),
    }))
}

pub fn yarn_quantity(v: &Vector) -> Result<Option<f64>, Refused> {
    let cotton = |name: &str| YarnNumber::new(YarnSystem::EnglishCotton, v.n(name));
    let warp = |name: &str| WarpLength::from_yards(v.n(name));
    // Old handbooks calculate weft by the width in the reed and the cloth as woven.
    let weft = |density: PicksIn<_>| -> Result<Length, Refused> {
        let pick = pick_from_reed(ReedWidth::from_inches(v.n("width_in"))?, Allowance::NONE)?;
        weft_yarn(picks(density, WovenLength::from_yards(v.n("cloth_yd"))?), pick)
    };
    Ok(Some(match v.unit.as_str() {
        "hanks" => {
            let ends = ends(ReedWidth::from_inches(v.n("width_in_reed_in"))?, EndsIn::from_per_inch(v.n("epi"))?)?;
            YarnSystem::EnglishCotton.hanks(warp_yarn(ends, warp("warp_yd")?)?)?
        }
        "hanks weft" => YarnSystem::EnglishCotton.hanks(weft(PicksIn::from_per_inch(v.n("ppi"))?)?)?,
        "lb warp" => cotton("warp_Ne")?.mass_of(warp_yarn(v.whole("ends"), warp("warp_yd")?)?)?.pounds(),
        "lb weft" if v.inputs.contains_key("ppi") => {
            cotton("weft_Ne")?.mass_of(weft(PicksIn::from_per_inch(v.n("ppi"))?)?)?.pounds()
        }
        "lb weft" if v.inputs.contains_key("picks_per_yd") => {
            let yard = Length::from_yards(1.0)?;
            let density = PicksIn::new(ThreadDensity::from_counted(v.n("picks_per_yd"), yard)?);
            cotton("weft_Ne")?.mass_of(weft(density)?)?.pounds()
        }
        "yd warp length" => {
            let yarn = cotton("Ne")?.length_of(Mass::from_pounds(v.n("weight_lb"))?)?;
            warp_from_yarn(yarn, v.whole("ends"))?.yards()
        }
        "m warp yarn" => warp_yarn(v.whole("ends"), WarpLength::from_m(v.n("warp_m"))?)?.m(),
        "g" if v.has(&["metres", "m_per_kg"]) => {
            let yarn = YarnNumber::new(YarnSystem::MetresPerKg, v.n("m_per_kg"))?;
            yarn.mass_of(Length::from_m(v.n("metres"))?)?.g()
        }
        "kg" if v.inputs.contains_key("system_m_per_kg_per_count") => {
            let Some((count, plies)) = v.text("yarn").split_once('/') else { return Ok(None) };
            let yarn = YarnNumber::plied_by_allowance(
                v.n("system_m_per_kg_per_count"),
                count.parse().unwrap(),
                plies.parse().unwrap(),
            )?;
            yarn.mass_of(warp_yarn(v.whole("ends"), WarpLength::from_m(v.n("warp_m"))?)?)?.kg()
        }
        "yd warp+weft" => {
            let reed = ReedWidth::from_inches(v.n("width_in"))?;
            let ends = ends(reed, EndsIn::from_per_inch(v.n("epi"))?)?;
            let picks = picks(PicksIn::from_per_inch(v.n("ppi"))?, WovenLength::from_yards(v.n("length_yd"))?);
            let weft = weft_yarn(picks, pick_from_reed(reed, Allowance::NONE)?)?;
            (warp_yarn(ends, warp("length_yd")?)? + weft).yards()
        }
        "lb" if v.has(&["ends", "warp_yd", "yd_per_lb"]) => {
            let yarn = YarnNumber::new(YarnSystem::YardsPerPound, v.n("yd_per_lb"))?;
            yarn.mass_of(warp_yarn(v.whole("ends"), warp("warp_yd")?)?)?.pounds()
        }
        "kg" if v.has(&["warp_ends", "warp_m", "tex"]) => {
            let yarn = YarnNumber::new(YarnSystem::Tex, v.n("tex"))?;
            yarn.mass_of(warp_yarn(v.whole("warp_ends"), WarpLength::from_m(v.n("warp_m"))?)?)?.kg()
        }
        "yd weft" if v.inputs.contains_key("weft_crimp_on_finished_pct") => {
            let by_reed = pick_from_reed(ReedWidth::from_inches(v.n("width_in_reed_in"))?, Allowance::NONE)?;
            let crimp = WeftUse::from_crimp(Crimp::from_percent(v.n("weft_crimp_on_finished_pct"))?);
            let by_cloth: PickLength = pick_from_cloth(FinishedWidth::from_inches(v.n("width_finished_in"))?, crimp)?;
            let picks =
                picks(PicksIn::from_per_inch(v.n("ppi_loom"))?, WovenLength::from_inches(v.n("woven_loom_in"))?);
            let (a, b) = (weft_yarn(picks, by_reed)?.yards(), weft_yarn(picks, by_cloth)?.yards());
            assert!((a - b).abs() < 0.01, "both ways to a pick have to agree: {a} {b}");
            b
        }
        "% waste" => waste_percent(Mass::from_pounds(v.n("yarn_lb_used"))?, Mass::from_pounds(v.n("waste_lb"))?)?,
        _ => return Ok(None),
    }))
}

/// A system by what the table calls it.
fn system(name: &str) -> Option<YarnSystem> {
    let known = [
        ("cotton", YarnSystem::EnglishCotton),
        ("worsted", YarnSystem::Worsted),
        ("linen", YarnSystem::LinenLea),
        ("run", YarnSystem::AmericanRun),
        ("orkshire", YarnSystem::YorkshireSkein),
        ("alashiels", YarnSystem::Galashiels),
        ("spyndle", YarnSystem::JuteSpyndle),
        ("m/100", YarnSystem::MetresPer100g),
        ("Nm", YarnSystem::MetricNm),
        ("denier", YarnSystem::Denier),
        ("yd/lb", YarnSystem::YardsPerPound),
    ];
    known.iter().find(|(word, _)| name.contains(word)).map(|(_, system)| *system)
}

pub fn yarn_count(v: &Vector) -> Result<Option<f64>, Refused> {
    let cotton = |count: f64| YarnNumber::new(YarnSystem::EnglishCotton, count);
    let to = |yarn: YarnNumber, system| Ok(Some(yarn.count_in(system)));
    match v.unit.as_str() {
        unit if unit.starts_with("tex") && v.has(&["system", "count"]) => match system(v.text("system")) {
            Some(system) => to(YarnNumber::new(system, v.n("count"))?, YarnSystem::Tex),
            None => Ok(None),
        },
        "NeK" => to(cotton(v.n("Ne"))?, YarnSystem::Worsted),
        "linen lea" => to(cotton(v.n("Ne"))?, YarnSystem::LinenLea),
        unit if unit.starts_with("French") => to(cotton(v.n("Ne"))?, YarnSystem::French),
        "Ne folded" => {
            let singles = v.list("Ne").unwrap().into_iter().map(cotton).collect::<Result<Vec<_>, _>>()?;
            to(fold(&singles)?, YarnSystem::EnglishCotton)
        }
        "Ne" if v.has(&["yards", "grains"]) => {
            let yarn = YarnNumber::from_measured(Length::from_yards(v.n("yards"))?, Mass::from_grains(v.n("grains"))?)?;
            to(yarn, YarnSystem::EnglishCotton)
        }
        "grains" => Ok(Some(cotton(v.n("Ne"))?.mass_of(Length::from_yards(v.n("yards"))?)?.grains())),
        "yd/oz" if v.has(&["denier_trade_silk", "deniers_per_oz", "skein_yd"]) => {
            let yarn = YarnNumber::new(YarnSystem::TradeSilkDenier, v.n("denier_trade_silk"))?;
            let skein = Mass::from_ounces(v.n("denier_trade_silk") / v.n("deniers_per_oz"))?;
            let measured = YarnNumber::from_measured(Length::from_yards(v.n("skein_yd"))?, skein)?;
            assert!((measured.tex() - yarn.tex()).abs() < 1e-9, "the system is as its definition");
            to(yarn, YarnSystem::YardsPerOunce)
        }
        "Nm" if v.has(&["denier"]) => to(YarnNumber::new(YarnSystem::Denier, v.n("denier"))?, YarnSystem::MetricNm),
        "Ne" if v.has(&["tex"]) => to(YarnNumber::new(YarnSystem::Tex, v.n("tex"))?, YarnSystem::EnglishCotton),
        "yd/lb" | "m/kg" if v.has(&["label", "Ne", "ply"]) => {
            let yarn = YarnNumber::plied(YarnSystem::EnglishCotton, v.n("Ne"), v.whole("ply"))?;
            let read = fellmark_cloth::read::yarn_number(v.text("label"), YarnSystem::Tex, Default::default())?;
            assert!((read.tex() - yarn.tex()).abs() < 1e-9, "the label reads as its numbers");
            to(yarn, if v.unit == "m/kg" { YarnSystem::MetresPerKg } else { YarnSystem::YardsPerPound })
        }
        "yd/lb" if v.has(&["balance_length_in"]) => {
            to(balance_yarn_number(Length::from_inches(v.n("balance_length_in"))?)?, YarnSystem::YardsPerPound)
        }
        "yd/lb" if v.has(&["yd", "oz"]) => {
            let yarn = YarnNumber::from_measured(Length::from_yards(v.n("yd"))?, Mass::from_ounces(v.n("oz"))?)?;
            to(yarn, YarnSystem::YardsPerPound)
        }
        "m/100 g" => to(YarnNumber::new(YarnSystem::YardsPerPound, v.n("yd_per_lb"))?, YarnSystem::MetresPer100g),
        _ => Ok(None),
    }
}
