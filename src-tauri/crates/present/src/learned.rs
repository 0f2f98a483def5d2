//! Learned values in words: what finished warps showed, and how many stand behind each figure.

use crate::figures::{show_length, show_mass};
use crate::view::LearnedLine;
use fellmark_model::display_format::DisplayFormat;
use fellmark_reports::learned::{Figure, LearnedValues};

/// "from 3 warps", "from 3 warps, 2 of them like this one".
#[must_use]
pub fn behind(figure: &Figure) -> String {
    let warps = if figure.warps == 1 { "from 1 warp".to_owned() } else { format!("from {} warps", figure.warps) };
    match figure.alike {
        alike if alike == figure.warps => warps,
        0 => format!("{warps}, none of them like this one"),
        1 => format!("{warps}, 1 of them like this one"),
        alike => format!("{warps}, {alike} of them like this one"),
    }
}

/// Learned values as they are offered, each with the member of the warp's form it would fill.
#[must_use]
pub fn lines(learned: &LearnedValues, format: &DisplayFormat) -> Vec<LearnedLine> {
    let number = |value: f64, places: usize| format.number(value, places);
    let mut lines = Vec::new();
    let mut line = |what: &str, sentence: String, figure: &Figure, field: &str, value: String| {
        lines.push(LearnedLine {
            what: what.into(),
            sentence,
            behind: behind(figure),
            field: (!field.is_empty()).then(|| field.to_owned()),
            value,
        });
    };
    if let Some(figure) = &learned.warp_per_100 {
        let sentence = format!(
            "100\u{a0}cm of cloth uses {}\u{a0}cm of warp, give or take {}",
            number(figure.value, 1),
            number(figure.deviation, 1)
        );
        line("Take-up", sentence, figure, "warp_per_100", format.form_number(figure.value, 1));
    }
    if let Some(figure) = &learned.shrinkage_percent {
        let sentence = format!(
            "{}\u{a0}% of the length is lost from the loom to finished, give or take {}",
            number(figure.value, 1),
            number(figure.deviation, 1)
        );
        line("Length lost", sentence, figure, "shrinkage_percent", format.form_number(figure.value, 1));
    }
    if let Some(figure) = &learned.width_loss_percent {
        let sentence = format!(
            "{}\u{a0}% of the width is lost from the reed to finished, give or take {}",
            number(figure.value, 1),
            number(figure.deviation, 1)
        );
        line("Width lost", sentence, figure, "", format.form_number(figure.value, 1));
    }
    if let Some(figure) = &learned.waste_mm {
        let sentence = format!(
            "{} of warp becomes no cloth, give or take {}",
            show_length(figure.value, format),
            show_length(figure.deviation, format)
        );
        let read = fellmark_model::measures::Reader { format, today: chrono::NaiveDate::MIN };
        line("Loom waste", sentence, figure, "waste", read.show_length_for_form((figure.value / 5.0).round() * 5.0));
    }
    if let Some(figure) = &learned.weft_g_per_m {
        let sentence = format!("{} of weft to a metre woven", show_mass(figure.value, format));
        line("Weft", sentence, figure, "", String::new());
    }
    if let Some(figure) = &learned.picks_per_hour {
        let sentence = format!("{} picks an hour at the loom", number(figure.value, 0));
        line("Pace", sentence, figure, "", String::new());
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn how_many_warps_stand_behind_a_figure() {
        let behind = |warps, alike| behind(&Figure { value: 1.0, deviation: 0.1, warps, alike });
        assert_eq!(behind(2, 1), "from 2 warps, 1 of them like this one");
        assert_eq!(behind(1, 1), "from 1 warp");
        assert_eq!(behind(3, 0), "from 3 warps, none of them like this one");
    }
}
