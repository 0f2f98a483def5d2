//! Cautions in words, each with where it comes from.

use crate::messages::declared::cautions as messages;
use crate::messages::text;
use crate::view::CautionView;
use fellmark_model::display_format::DisplayFormat;
use fellmark_reports::cautions::Caution;

/// A caution as it is shown.
#[must_use]
pub fn caution_view(caution: Caution, format: &DisplayFormat) -> CautionView {
    let (sentence, source) = match caution {
        Caution::ChildNeck => (messages::caution_child_neck(), messages::caution_child_neck_source()),
        Caution::ChildSmallParts => {
            (messages::caution_child_small_parts(), messages::caution_child_small_parts_source())
        }
        Caution::Posture => (messages::caution_posture(), messages::caution_posture_source()),
        Caution::Dust => (messages::caution_dust(), messages::caution_dust_source()),
        Caution::HotWater => (messages::caution_hot_water(), messages::caution_hot_water_source()),
        Caution::Dyes => (messages::caution_dyes(), messages::caution_dyes_source()),
    };
    CautionView { id: caution.id().to_owned(), sentence: text(&sentence, format), source: text(&source, format) }
}
