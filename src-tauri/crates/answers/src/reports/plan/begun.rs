//! The warp a plan becomes: the form to begin one, and the figures beneath it that the form only shows rounded.

use chrono::NaiveDate;
use serde_json::json;

use super::Settled;
use super::cloth::{density_figure, per};
use super::lengths::{Lengths, pieces_words};
use super::typed::{EdgeKind, Typed};
use crate::model::display_format::DisplayFormat;
use crate::model::fields::warp;
use crate::model::forms::{FieldMap, picks_in_units};
use crate::model::measures::{Reader, about_words, show_length};
use crate::model::piece_lengths;
use crate::present::fill_forms::optional;
use crate::present::view::{PlanForm, WarpForm};

/// What each piece is wanted long when finished. The log weaves hems as cloth of their piece.
fn with_hems(lengths: &Lengths) -> Vec<f64> {
    let of_piece = |piece| lengths.segments.iter().filter(move |segment| segment.piece == Some(piece));
    let pieces = lengths.wish.pieces.len().max(1);
    (0..pieces).map(|piece| of_piece(piece).map(|segment| segment.finished.mm()).sum()).collect()
}

fn alike(lengths_mm: &[f64]) -> bool {
    lengths_mm.windows(2).all(|pair| (pair[0] - pair[1]).abs() < 0.01)
}

/// What becomes neither cloth nor fringe nor gap is waste to the log.
fn waste_mm(typed: &Typed, settled: &Settled) -> f64 {
    settled.basis.waste.0.mm() + typed.header.0.mm() + typed.sample.0.mm()
}

fn fringe_mm(typed: &Typed) -> Option<f64> {
    typed.edge_mm.filter(|_| typed.edge == EdgeKind::Fringe)
}

fn gap_mm(typed: &Typed, lengths: &Lengths) -> Option<f64> {
    Some(typed.gap.0.mm()).filter(|mm| *mm > 0.0 && lengths.wish.pieces.len() > 1)
}

/// The figures that the form shows rounded, as the plan reckoned with them: from rounded ones the warp would say a pick more or
/// less than the plan did.
pub(super) fn exact(typed: &Typed, settled: &Settled, lengths: &Lengths) -> FieldMap {
    let Settled { basis, sett, across, .. } = settled;
    // Finer than any tape, and none of the tail that a division leaves.
    let figure = |value: f64| json!((value * 1e9).round() / 1e9);
    let wanted = with_hems(lengths);
    let mean = wanted.iter().sum::<f64>() / wanted.len().max(1) as f64;
    let each = (!alike(&wanted)).then(|| wanted.into_iter().map(figure).collect::<Vec<_>>());
    let set = [
        (warp::WOUND_MM, Some(figure(lengths.wound.mm()))),
        (warp::WASTE_MM, Some(figure(waste_mm(typed, settled)))),
        (warp::WANTED_MM, Some(figure(mean))),
        (warp::WANTED_EACH_MM, each.map(|each| json!(each))),
        (warp::SHRINKAGE_PERCENT, Some(figure(basis.changes.woven_to_finished().shrinkage_percent()))),
        (warp::FRINGE_MM, fringe_mm(typed).map(figure)),
        (warp::GAP_MM, gap_mm(typed, lengths).map(figure)),
        (warp::PICKS_PER_10CM, sett.picks.map(|picks| figure(picks.density().per_10cm()))),
        (warp::SETT_ENDS_PER_10CM, sett.ends.map(|(ends, _)| figure(ends.density().per_10cm()))),
        (warp::WARP_PER_100_CLOTH, Some(figure(100.0 + basis.changes.weaving.crimp().percent()))),
        (warp::REED_WIDTH_MM, across.as_ref().map(|across| figure(across.reed.mm()))),
        (warp::WEFT_ALLOWANCE_PERCENT, Some(figure(basis.allowance.0.percent()))),
    ];
    set.into_iter().filter_map(|(field, value)| Some((field.to_owned(), value?))).collect()
}

/// The warp a plan becomes, as the form to begin one takes it.
pub(super) fn warp_form(
    form: &PlanForm,
    typed: &Typed,
    settled: &Settled,
    lengths: &Lengths,
    format: &DisplayFormat,
    today: NaiveDate,
) -> WarpForm {
    let read = Reader { format, today };
    let length = |mm: f64| read.show_length_for_form(mm);
    let number = |value: f64| format.form_number(value, 2);
    let Settled { basis, sett, across, .. } = settled;
    let pieces = lengths.wish.pieces.len().max(1);
    let with_hems = with_hems(lengths);
    let alike = alike(&with_hems);
    let words: Vec<_> = lengths.wish.pieces.iter().map(|piece| piece.finished).collect();
    let size = match across {
        Some(across) => {
            format!("{} \u{d7} {}", show_length(across.finished.mm(), format), pieces_words(&words, format))
        }
        None => pieces_words(&words, format),
    };
    let mut note = format!("Planned: {size}, finished.");
    if let (Some(across), Some((ends_in, _))) = (across, sett.ends) {
        note.push_str(&format!(
            " {} ends, {} {}.",
            across.ends,
            density_figure(ends_in.density(), format),
            per(format)
        ));
    }
    let plain_name = form.name.trim();
    WarpForm {
        name: if plain_name.is_empty() { format!("{size}, {}", format.date(today, today)) } else { plain_name.into() },
        wound: length(lengths.wound.mm()),
        waste: length(waste_mm(typed, settled)),
        wanted: if alike {
            length(with_hems.first().copied().unwrap_or(0.0))
        } else {
            piece_lengths::show(&with_hems, format)
        },
        wanted_state: "finished".into(),
        shrinkage_percent: number(basis.changes.woven_to_finished().shrinkage_percent()),
        pieces: if alike { pieces.to_string() } else { String::new() },
        fringe: optional(fringe_mm(typed), length),
        gap: optional(gap_mm(typed, lengths), length),
        fringe_from_waste: typed.fringe_from_waste,
        picks: sett.picks.map_or_else(String::new, |picks| {
            format.form_number(picks_in_units(picks.density().per_10cm(), format.units), 3)
        }),
        sett: sett.ends.map_or_else(String::new, |(ends, _)| {
            format.form_number(picks_in_units(ends.density().per_10cm(), format.units), 3)
        }),
        warp_per_100: number(100.0 + basis.changes.weaving.crimp().percent()),
        reed_width: across.map_or_else(String::new, |across| length(across.reed.mm())),
        weft_allowance_percent: number(basis.allowance.0.percent()),
        weft_name: form.weft_name.clone(),
        weft_mass: if typed.from_yarn && !typed.one_yarn { form.weft_mass.clone() } else { String::new() },
        weft_length: match typed.weft_have {
            Some(have) if typed.from_yarn && !typed.one_yarn => {
                let length = read.show_yarn_length_for_form(have.length.likely.mm());
                format!("{}{length}", about_words(have.rough))
            }
            _ => String::new(),
        },
        weave: match form.weave.as_str() {
            "pick_up" => "pick_up".into(),
            "twill" => String::new(),
            _ => "plain".into(),
        },
        opening: form.opening.clone(),
        repeat: form.repeat.clone(),
        balance: form.balance.clone(),
        closing: form.closing.clone(),
        gift_on: form.gift_on.clone(),
        days_a_week: form.days_a_week.clone(),
        note,
        ..WarpForm::default()
    }
}

#[cfg(test)]
mod tests {
    use fellmark_journal::{Journal, Options};

    use super::*;
    use crate::model::commands::Commands;
    use crate::model::display_format::Units;
    use crate::reports::plan::reckon;
    use crate::reports::reckoned::ReportCache;

    fn plan(length: &str, picks: &str, further: &str, shrinkage: &str) -> PlanForm {
        PlanForm {
            length: length.into(),
            further: further.into(),
            width: "31.3 cm".into(),
            sett: "40 per 10 cm".into(),
            picks: picks.into(),
            shrinkage_percent: shrinkage.into(),
            release_percent: "2.345".into(),
            warp_per_100: "107.777".into(),
            ..PlanForm::default()
        }
    }

    #[test]
    fn the_warp_takes_the_picks_that_the_plan_said() {
        let home = tempfile::tempdir().unwrap();
        let (folder, local) = (home.path().join("folder"), home.path().join("local"));
        std::fs::create_dir_all(&folder).unwrap();
        let mut options = Options::new(folder, local, "test");
        options.create = true;
        let mut journal = Journal::open(options).unwrap();
        let today = NaiveDate::from_ymd_opt(2026, 11, 25).unwrap();
        for units in [Units::Metric, Units::Imperial] {
            let format = DisplayFormat::default().in_units(units);
            for (length, picks, further, shrinkage) in [
                ("180 cm", "10 ppi", "", "7.777"),
                ("71 1/3 in", "32 per 10 cm", "", "13.3333"),
                ("1.001 m", "8.3 ppi", "40.04 cm; 15 in", "9.995"),
                ("93.7 cm", "41.7 per 10 cm", "", ""),
                ("2.22 yd", "12.5 ppi", "", "11.115"),
                ("100 cm", "36 per 10 cm", "", "10"),
            ] {
                let form = plan(length, picks, further, shrinkage);
                let view = reckon(journal.state(), &form, &format, today);
                assert!(view.troubles.is_empty(), "{:?}", view.troubles);
                let told = &view.figures.iter().find(|figure| figure.id == "picks").unwrap().value;
                let mut pen = Commands { journal: &mut journal, format, today };
                let id = pen.begin_planned(&mut ReportCache::new(), &form, None).unwrap();
                let log = crate::model::warp_log(journal.state(), &id).unwrap();
                let progress = crate::reports::progress::Progress::of(&log, 0);
                let mut figures = crate::present::view::Figures::default();
                let _ = crate::reports::where_am_i::answer(&log, &progress, None, &format, today, &mut figures);
                assert_eq!(figures.to_weave_picks.to_string(), *told, "{length} in {units:?}");
                // Nor does a sentence that rounds to whole picks say one less.
                assert_eq!(format!("{:.0}", progress.to_weave_picks.unwrap()), *told, "{length} in {units:?}");
                assert_eq!(format!("{:.0}", view.plain.picks.unwrap()), *told, "{length} in {units:?}");
                // Looked at in its form and kept again, in either units, it stays what it was.
                for shown in [Units::Metric, Units::Imperial] {
                    let format = DisplayFormat::default().in_units(shown);
                    let form = crate::present::fill_forms::show_warp_form(&log.warp, log.wefts.first(), &format);
                    let entries = journal.state().len();
                    Commands { journal: &mut journal, format, today }.change_warp(&id, &form, &[]).unwrap();
                    assert_eq!(journal.state().len(), entries, "{length} in {units:?}, looked at in {shown:?}");
                }
            }
        }
    }
}
