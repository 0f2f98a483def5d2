//! Learned values in words: what finished warps showed, and how many stand behind each figure.

use crate::lists_and_numbers::count;
use crate::messages::declared::figures::percentage_of;
use crate::messages::declared::sittings as messages;
use crate::messages::text;
use crate::view::LearnedLine;
use fellmark_model::Message;
use fellmark_model::display_format::DisplayFormat;
use fellmark_reports::learned::{Figure, LearnedValues};

/// "from 3 warps", "from 3 warps, 2 of them like this one".
#[must_use]
pub fn behind(figure: &Figure, format: &DisplayFormat) -> String {
    let (warps, alike) = (count(figure.warps), count(figure.alike));
    let all_alike = figure.alike == figure.warps;
    let message =
        if all_alike { messages::learned_behind(warps) } else { messages::learned_behind_alike(warps, alike) };
    text(&message, format)
}

/// Learned values as they are offered, each with the member of the warp's form it would fill.
#[must_use]
pub fn lines(learned: &LearnedValues, format: &DisplayFormat) -> Vec<LearnedLine> {
    let typed = |figure: &Figure| format.form_number(figure.value, 1);
    let share = |figure: &Figure| {
        let message = percentage_of(format.number(figure.value, 1));
        text(&message, format)
    };
    let mut lines = Vec::new();
    let mut line = |what: &Message, sentence: &Message, figure: &Figure, field: &str, value: String| {
        lines.push(LearnedLine {
            what: text(what, format),
            sentence: text(sentence, format),
            behind: behind(figure, format),
            field: (!field.is_empty()).then(|| field.to_owned()),
            value,
        });
    };
    if let Some(figure) = &learned.warp_per_100 {
        let sentence = messages::learned_take_up_is(figure.value, figure.deviation);
        line(&messages::learned_take_up(), &sentence, figure, "warp_per_100", typed(figure));
    }
    if let Some(figure) = &learned.shrinkage_percent {
        let sentence = messages::learned_length_lost_is(share(figure), figure.deviation);
        line(&messages::learned_length_lost(), &sentence, figure, "shrinkage_percent", typed(figure));
    }
    if let Some(figure) = &learned.width_loss_percent {
        let sentence = messages::learned_width_lost_is(share(figure), figure.deviation);
        line(&messages::learned_width_lost(), &sentence, figure, "", typed(figure));
    }
    if let Some(figure) = &learned.waste_mm {
        let sentence = messages::learned_waste_is(figure.value, figure.deviation);
        let read = fellmark_model::measures::Reader { format, today: chrono::NaiveDate::MIN };
        let typed = read.show_length_for_form((figure.value / 5.0).round() * 5.0);
        line(&messages::learned_waste(), &sentence, figure, "waste", typed);
    }
    if let Some(figure) = &learned.weft_g_per_m {
        line(&messages::learned_weft(), &messages::learned_weft_is(figure.value), figure, "", String::new());
    }
    if let Some(figure) = &learned.picks_per_hour {
        line(&messages::learned_pace(), &messages::learned_pace_is(figure.value), figure, "", String::new());
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn how_many_warps_stand_behind_a_figure() {
        let behind =
            |warps, alike| behind(&Figure { value: 1.0, deviation: 0.1, warps, alike }, &DisplayFormat::default());
        assert_eq!(behind(2, 1), "from 2 warps, 1 of them like this one");
        assert_eq!(behind(1, 1), "from 1 warp");
        assert_eq!(behind(3, 0), "from 3 warps, none of them like this one");
    }
}
