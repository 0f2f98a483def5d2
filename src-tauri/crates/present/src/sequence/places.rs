//! The places in a sequence that can be chosen.

use fellmark_cloth::sequence::{Section, Where};

use super::instruction::instruction;
use crate::view::{PlaceSection, Places};
use fellmark_model::WarpLog;
use fellmark_model::forms::PlaceForm;
use fellmark_model::moments::Part;
use fellmark_model::sequence::{rows_of, sequence, spot_now, sticks};

fn section_name(part: Part) -> &'static str {
    match part {
        Part::Opening => "Opening border",
        Part::Repeat => "Repeat",
        Part::Balance => "Balance",
        Part::Closing => "Closing border",
    }
}

/// The places the weaver can go to, and where the weaver is; nothing without a sequence.
#[must_use]
pub fn places(log: &WarpLog, running_picks: i64) -> Option<Places> {
    let sequence = sequence(&log.warp.rows)?;
    let sticks = sticks(&sequence);
    let (spot, _) = spot_now(log, &sequence, running_picks);
    let form = |piece: u32, part: Part, repeat: u64, row: usize| PlaceForm {
        piece: (piece + 1).to_string(),
        section: part.word().into(),
        repeat: repeat.to_string(),
        row: (row + 1).to_string(),
    };
    let now = match spot.at(&sequence) {
        Where::Weaving(at) => match at.section {
            Section::Opening => form(spot.piece, Part::Opening, 1, at.row),
            Section::Repeat => form(spot.piece, Part::Repeat, at.repeat.unwrap_or(0) + 1, at.row),
            Section::Balance => form(spot.piece, Part::Balance, spot.repeats.unwrap_or(0), at.row),
            Section::Closing => form(spot.piece, Part::Closing, spot.repeats.unwrap_or(0), at.row),
        },
        Where::BeforeStart { .. } | Where::Done { .. } => form(spot.piece, Part::Opening, 1, 0),
    };
    let sections = Part::ALL.into_iter().filter(|part| !rows_of(&sequence, *part).is_empty());
    Some(Places {
        now,
        pieces: log.warp.pieces,
        sections: sections
            .map(|part| PlaceSection {
                section: part.word().into(),
                name: section_name(part).into(),
                rows: rows_of(&sequence, part).iter().map(|row| instruction(row, sticks)).collect(),
            })
            .collect(),
    })
}
