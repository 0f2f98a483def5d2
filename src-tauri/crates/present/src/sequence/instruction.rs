//! What to do for a row, in words.

use fellmark_cloth::sequence::{Heddle, HeddleRow, Stick};
use fellmark_model::sequence::Row;

/// What to do for a row; `sticks` is how many pick-up sticks the sequence uses.
pub(crate) fn instruction(row: &Row, sticks: usize) -> String {
    match row {
        Row::Heddle(row) => heddle_instruction(row, sticks),
        Row::Shed(shed) => format!("shed {}", shed.0),
    }
}

/// "heddle down", "heddle at rest, stick forward and on edge". With `sticks` in the sequence the rows that leave them at the back
/// say so.
pub(crate) fn heddle_instruction(row: &HeddleRow, sticks: usize) -> String {
    let heddle = match row.heddle {
        Heddle::Up => "heddle up",
        Heddle::Down => "heddle down",
        Heddle::AtRest => "heddle at rest",
    };
    let place = |stick| match stick {
        Stick::AtBack => "at the back",
        Stick::ForwardFlat => "forward and flat",
        Stick::OnEdge => "forward and on edge",
    };
    match (row.stick, row.second) {
        (Stick::AtBack, Stick::AtBack) if sticks == 0 => heddle.to_owned(),
        (Stick::AtBack, Stick::AtBack) if sticks == 1 => format!("{heddle}, stick at the back"),
        (Stick::AtBack, Stick::AtBack) => format!("{heddle}, sticks at the back"),
        (stick, Stick::AtBack) if sticks <= 1 => format!("{heddle}, stick {}", place(stick)),
        (stick, Stick::AtBack) => format!("{heddle}, first stick {}", place(stick)),
        (Stick::AtBack, second) => format!("{heddle}, second stick {}", place(second)),
        (stick, second) => {
            format!("{heddle}, first stick {}, second stick {}", place(stick), place(second))
        }
    }
}

#[cfg(test)]
mod tests {
    use fellmark_cloth::sequence::rows_from_words;

    use super::*;

    #[test]
    fn instructions_read_back() {
        for row in [HeddleRow::UP, HeddleRow::DOWN, HeddleRow::STICK, HeddleRow::UP_AND_STICK] {
            for row in [row, row.on_second()] {
                let text = format!("{};", heddle_instruction(&row, 2));
                assert_eq!(rows_from_words(&text).unwrap(), [row], "{text}");
            }
        }
    }

    #[test]
    fn rows_in_plain_words() {
        let words = heddle_instruction;
        assert_eq!(words(&HeddleRow::DOWN, 0), "heddle down");
        assert_eq!(words(&HeddleRow::DOWN, 1), "heddle down, stick at the back");
        assert_eq!(words(&HeddleRow::STICK, 1), "heddle at rest, stick forward and on edge");
        assert_eq!(words(&HeddleRow::UP_AND_STICK, 1), "heddle up, stick forward and flat");
        assert_eq!(words(&HeddleRow::UP_AND_STICK.on_second(), 2), "heddle up, second stick forward and flat");
    }
}
