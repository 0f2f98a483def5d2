//! Crimp and take-up, warp length, shrinkage, progress on the loom.

use fellmark_cloth::Refused;
use fellmark_cloth::change::{Allowance, DrawIn, Release, WarpUse, WashLength};
use fellmark_cloth::quantity::{Length, Mass, ThreadDensity, YarnNumber, YarnSystem};
use fellmark_cloth::state::{
    Finished, FinishedLength, FinishedWidth, OffLoom, PickLength, PicksIn, ReedWidth, RelaxedLength, RelaxedWidth,
    UnderTension, WarpLength, WovenLength,
};
use fellmark_cloth::take_up::{Crimp, TakeUp, taylor_contraction};
use fellmark_cloth::warp::{
    LengthChanges, LoomWaste, Piece, WarpLayout, warp_by_adding_percents, warp_by_multiplying_percents,
    warp_by_rule_of_thumb, warp_from_stretches, warp_on_beam, warp_yarn,
};
use fellmark_cloth::warp_left::{cloth_still, measured_take_up, warp_left};
use fellmark_cloth::weft::{from_marks, picks_from_mass};

use crate::vector::Vector;

pub fn crimp_takeup(v: &Vector) -> Result<Option<f64>, Refused> {
    let used = |names: [&str; 2], unit: fn(f64) -> Result<Length, Refused>| -> Result<WarpUse<OffLoom>, Refused> {
        let [yarn, cloth] = names.map(|name| unit(v.n(name)));
        WarpUse::cloth_uses(RelaxedLength::new(cloth?)?, WarpLength::new(yarn?)?)
    };
    Ok(Some(match v.unit.as_str() {
        "% crimp" if v.has(&["yarn_straight_m", "fabric_m"]) => {
            used(["yarn_straight_m", "fabric_m"], Length::from_m)?.crimp().percent()
        }
        "% take-up" if v.has(&["yarn_straight_m", "fabric_m"]) => {
            used(["yarn_straight_m", "fabric_m"], Length::from_m)?.take_up().percent()
        }
        "% crimp" if v.has(&["yarn_straight_cm", "fabric_cm"]) => {
            used(["yarn_straight_cm", "fabric_cm"], Length::from_cm)?.crimp().percent()
        }
        "% take-up" if v.has(&["yarn_straight_cm", "fabric_cm"]) => {
            used(["yarn_straight_cm", "fabric_cm"], Length::from_cm)?.take_up().percent()
        }
        "% take-up" if v.has(&["crimp_pct"]) => Crimp::from_percent(v.n("crimp_pct"))?.take_up().percent(),
        "% crimp" if v.has(&["takeup_pct"]) => TakeUp::from_percent(v.n("takeup_pct"))?.crimp().percent(),
        "m warp" if v.has(&["cloth_m", "warp_crimp_pct"]) => {
            let used = WarpUse::<OffLoom>::from_crimp(Crimp::from_percent(v.n("warp_crimp_pct"))?);
            used.yarn_for(RelaxedLength::from_m(v.n("cloth_m"))?)?.m()
        }
        "m cloth" if v.has(&["warp_m", "warp_crimp_pct"]) => {
            let used = WarpUse::<OffLoom>::from_crimp(Crimp::from_percent(v.n("warp_crimp_pct"))?);
            used.cloth_from(WarpLength::from_m(v.n("warp_m"))?)?.m()
        }
        "% contraction" if v.has(&["weave", "picks_per_in", "weft_Ne", "multiplier"]) => {
            assert_eq!(v.text("weave"), "plain", "only in plain weave are the intersections the picks");
            let weft = YarnNumber::new(YarnSystem::EnglishCotton, v.n("weft_Ne"))?;
            taylor_contraction(ThreadDensity::from_per_inch(v.n("picks_per_in"))?, weft, v.n("multiplier"))?.percent()
        }
        "% take-up vs tensioned length" => measured_take_up(
            WarpLength::from_inches(v.n("warp_in"))?,
            WarpLength::from_inches(v.n("tie_on_in"))?,
            WarpLength::from_inches(v.n("unwoven_end_in"))?,
            WovenLength::from_inches(v.n("woven_under_tension_in"))?,
        )?
        .take_up()
        .percent(),
        "% take-up vs relaxed length" => measured_take_up(
            WarpLength::from_inches(v.n("warp_in"))?,
            WarpLength::from_inches(v.n("tie_on_in"))?,
            WarpLength::from_inches(v.n("unwoven_end_in"))?,
            RelaxedLength::from_inches(v.n("relaxed_in"))?,
        )?
        .take_up()
        .percent(),
        _ => return Ok(None),
    }))
}

pub fn warp_length(v: &Vector) -> Result<Option<f64>, Refused> {
    let inch = |name: &str| Length::from_inches(v.n(name));
    let cm = |name: &str| Length::from_cm(v.n(name));
    let m = |name: &str| Length::from_m(v.n(name));
    let percent = |name: &str| Allowance::from_percent(v.n(name));
    let per_cents = ["finished_m", "takeup_pct", "shrink_pct", "waste_m"];
    Ok(Some(match v.unit.as_str() {
        "yd warp" if v.has(&["pieces", "woven_each_in", "takeup_in", "loom_waste_in"]) => warp_from_stretches(
            &[(v.whole("pieces"), inch("woven_each_in")?), (1, inch("takeup_in")?)],
            inch("loom_waste_in")?,
        )?
        .yards(),
        "yd warp" if v.has(&["pieces", "woven_each_in", "takeup_in_for_4", "loom_waste_in"]) => {
            // The take-up grows with the pieces, the waste does not: as a warp of pieces under tension.
            let each = WovenLength::new(inch("woven_each_in")?)?;
            let used = WarpUse::cloth_uses(
                each.times(4.0)?,
                WarpLength::new(each.times(4.0)?.length() + inch("takeup_in_for_4")?)?,
            )?;
            let piece = Piece::plain(FinishedLength::new(each.length())?);
            wish(
                vec![piece; v.whole("pieces") as usize],
                WarpLength::new(inch("loom_waste_in")?)?,
                LengthChanges { weaving: used, ..LengthChanges::NONE },
            )
            .warp_needed()?
            .yards()
        }
        "cm woven per towel" => percent("allow_pct_additive")?.added_to(cm("piece_cm")? + cm("hems_cm")?)?.cm(),
        "cm warp" => warp_from_stretches(
            &[(v.whole("pieces"), cm("woven_each_cm")?), (1, cm("start_cm")?)],
            cm("end_waste_cm")?,
        )?
        .cm(),
        "m warp" if v.inputs.contains_key("takeup_pct_additive_on_cloth_only") => {
            let cloth = percent("takeup_pct_additive_on_cloth_only")?.added_to(m("cloth_m")?)?;
            warp_from_stretches(&[(1, cloth), (1, m("fringe_m")?)], m("thrums_m")?)?.m()
        }
        "in warp" if v.inputs.contains_key("round_up_to_in") => {
            let woven = WovenLength::new(percent("takeup_pct_additive")?.added_to(inch("scarf_in")?)?)?;
            let woven = woven.rounded_up_to(inch("round_up_to_in")?)?.length();
            let pieces = v.whole("pieces");
            warp_from_stretches(&[(pieces, woven), (2 * pieces, inch("fringe_each_end_in")?)], inch("loom_waste_in")?)?
                .inches()
        }
        "yd of warp yarn" => {
            let warp = warp_from_stretches(&[(1, inch("scarf_in")?)], inch("waste_fringe_in")?)?;
            warp_yarn(v.whole("ends"), warp)?.yards()
        }
        "m warp (exact division)" if v.has(&per_cents) => {
            let changes = LengthChanges::from_relaxed(
                WarpUse::from_take_up(TakeUp::from_percent(v.n("takeup_pct"))?),
                None,
                WashLength::from_shrinkage_percent(v.n("shrink_pct"))?,
            )?;
            let piece = Piece::plain(FinishedLength::new(m("finished_m")?)?);
            wish(vec![piece], WarpLength::new(m("waste_m")?)?, changes).warp_needed()?.m()
        }
        unit if unit.starts_with("m warp (compounded") && v.has(&per_cents) => warp_by_multiplying_percents(
            FinishedLength::new(m("finished_m")?)?,
            percent("shrink_pct")?,
            percent("takeup_pct")?,
            m("waste_m")?,
        )?
        .m(),
        unit if unit.starts_with("m warp (add") && v.has(&per_cents) => warp_by_adding_percents(
            FinishedLength::new(m("finished_m")?)?,
            percent("shrink_pct")?,
            percent("takeup_pct")?,
            m("waste_m")?,
        )?
        .m(),
        "yd warp" if v.has(&["cloth_yd", "allow_pct_additive"]) => {
            percent("allow_pct_additive")?.added_to(Length::from_yards(v.n("cloth_yd"))?)?.yards()
        }
        "in warp (rule of thumb)" => {
            warp_by_rule_of_thumb(FinishedLength::new(inch("finished_in")?)?, inch("each_end_in")?)?.inches()
        }
        _ => return Ok(None),
    }))
}

fn wish(pieces: Vec<Piece>, waste: WarpLength, changes: LengthChanges) -> WarpLayout {
    WarpLayout {
        pieces,
        gap: WarpLength::ZERO,
        header: WarpLength::ZERO,
        sample: WarpLength::ZERO,
        waste: LoomWaste::new(WarpLength::ZERO, waste),
        changes,
    }
}

pub fn shrinkage(v: &Vector) -> Result<Option<f64>, Refused> {
    let finished = |name: &str| FinishedLength::from_inches(v.n(name));
    let relaxed = |name: &str| RelaxedLength::from_inches(v.n(name));
    Ok(Some(match v.unit.as_str() {
        "% shrinkage" => WashLength::between(relaxed("before_in")?, finished("after_in")?)?.shrinkage_percent(),
        "% dimensional change" => {
            WashLength::between(relaxed("before_in")?, finished("after_in")?)?.dimensional_change_percent()
        }
        "% overall" if v.has(&["weavable_in", "off_loom_in", "finished_in"]) => {
            let release = Release::between(WovenLength::from_inches(v.n("weavable_in"))?, relaxed("off_loom_in")?)?;
            let wash = WashLength::between(relaxed("off_loom_in")?, finished("finished_in")?)?;
            release.then(wash)?.shrinkage_percent()
        }
        "% width loss" => DrawIn::<Finished>::between(
            ReedWidth::from_inches(v.n("reed_in"))?,
            FinishedWidth::from_inches(v.n("finished_in"))?,
        )?
        .shrinkage_percent(),
        "product of retention ratios" => {
            let ends = |name: &str| v.text(name).split_once("->").map(|(a, b)| (a.parse(), b.parse()));
            let (Some((Ok(woven), Ok(off))), Some((Ok(off_again), Ok(washed)))) =
                (ends("relax_pct_of_154"), ends("wash"))
            else {
                return Ok(None);
            };
            let release = Release::between(WovenLength::from_inches(woven)?, RelaxedLength::from_inches(off)?)?;
            let wash =
                WashLength::between(RelaxedLength::from_inches(off_again)?, FinishedLength::from_inches(washed)?)?;
            release.then(wash)?.ratio()
        }
        unit if unit.starts_with("% relaxation") => {
            Release::between(WovenLength::from_inches(v.n("tension_in"))?, relaxed("relaxed_in")?)?.shrinkage_percent()
        }
        unit if unit.starts_with("% width") && v.has(&["reed_in", "off_loom_in", "washed_in"]) => {
            let off = RelaxedWidth::from_inches(v.n("off_loom_in"))?;
            let draw_in = DrawIn::between(ReedWidth::from_inches(v.n("reed_in"))?, off)?;
            let wash = fellmark_cloth::change::WashWidth::between(off, FinishedWidth::from_inches(v.n("washed_in"))?)?;
            draw_in.then(wash)?.shrinkage_percent()
        }
        _ => return Ok(None),
    }))
}

pub fn progress(v: &Vector) -> Result<Option<f64>, Refused> {
    if v.has(&["warp_in", "loom_waste_in", "takeup_per_woven_in", "woven_so_far_in"]) {
        let used = WarpUse::from_crimp(Crimp::from_percent(v.n("takeup_per_woven_in") * 100.0)?);
        let left = warp_left(
            WarpLength::from_inches(v.n("warp_in"))?,
            WarpLength::from_inches(v.n("loom_waste_in"))?,
            WovenLength::from_inches(v.n("woven_so_far_in"))?,
            used,
        )?;
        return Ok(match v.unit.as_str() {
            "in cloth still weavable" => Some(cloth_still(left.over(), used)?.inches()),
            "in usable warp left" => Some(left.mm() / 25.4),
            _ => None,
        });
    }
    Ok(Some(match v.unit.as_str() {
        "ppi" if v.has(&["sittings"]) => {
            let sittings = v.inputs["sittings"].as_array().unwrap();
            let counts = sittings
                .iter()
                .map(|s| Ok((s["picks"].as_f64().unwrap(), WovenLength::from_inches(s["in"].as_f64().unwrap())?)))
                .collect::<Result<Vec<_>, Refused>>()?;
            PicksIn::<UnderTension>::from_counts(&counts)?.density().per_inch()
        }
        "picks possible" => {
            let yarn = YarnNumber::new(YarnSystem::MetresPerKg, v.n("m_per_kg"))?;
            let pick = PickLength::from_m(v.n("m_per_pick"))?;
            picks_from_mass(Mass::from_g(v.n("cone_g_left"))?, yarn, pick)?
        }
        "in woven (tension)" => from_marks(
            v.whole("marker_pins"),
            WovenLength::from_inches(v.n("pin_spacing_in"))?,
            WovenLength::from_inches(v.n("from_last_pin_in"))?,
        )?
        .inches(),
        "cm warp on beam" => {
            warp_on_beam(Length::from_cm(v.n("beam_diameter_cm"))?, v.n("turns"), Length::from_cm(v.n("layer_cm"))?)?
                .cm()
        }
        _ => return Ok(None),
    }))
}
