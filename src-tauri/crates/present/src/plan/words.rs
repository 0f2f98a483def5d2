//! Words that several parts of a plan's view share.

use fellmark_cloth::fibre::Fibre;
use fellmark_cloth::learned::{Finishing, fibre_prior};
use fellmark_cloth::quantity::ThreadDensity;
use fellmark_cloth::state::FinishedLength;

use fellmark_model::display_format::{DisplayFormat, Units};
use fellmark_model::plan::{AshenhurstChoice, WeaveChoice};
use fellmark_reports::plan::Source;

use crate::view::PlanFigure;

/// One figure of a plan with what it follows from.
pub(super) fn figure(id: &str, label: &str, value: String, why: Vec<String>) -> PlanFigure {
    PlanFigure { id: id.into(), label: label.into(), value, why }
}

/// Threads per length as they are written in these units, without the unit.
pub(super) fn density_figure(density: ThreadDensity, format: &DisplayFormat) -> String {
    match format.units {
        Units::Metric => format.number(density.per_10cm(), 1),
        Units::Imperial => format.number(density.per_inch(), 2),
    }
}

/// "per 10 cm" or "per inch".
pub(super) fn per_unit(format: &DisplayFormat) -> &'static str {
    match format.units {
        Units::Metric => "per 10\u{a0}cm",
        Units::Imperial => "per inch",
    }
}

/// "40 per 10 cm".
pub(super) fn density_words(density: ThreadDensity, format: &DisplayFormat) -> String {
    format!("{} {}", density_figure(density, format), per_unit(format))
}

/// "180 cm, then 2 pieces of 15 cm".
pub(super) fn pieces_words(lengths: &[FinishedLength], format: &DisplayFormat) -> String {
    if lengths.is_empty() {
        return "nothing".into();
    }
    crate::figures::show_piece_lengths(&lengths.iter().map(|one| one.mm()).collect::<Vec<_>>(), format)
}

/// "1 earlier warp", "3 earlier warps".
pub(super) fn earlier_warps_words(warps: usize) -> String {
    if warps == 1 { "1 earlier warp".to_owned() } else { format!("{warps} earlier warps") }
}

/// Where a value comes from, to follow it in a sentence; nothing where it was typed.
pub(super) fn source_in_brackets(source: Source) -> String {
    match source {
        Source::Form => String::new(),
        Source::Sample => " (from your sample)".into(),
        Source::EarlierWarps { warps, .. } => format!(" (from {})", earlier_warps_words(warps)),
        Source::FibreAndFinish { fibre, finishing, across } => {
            format!(" (from {})", fibre_and_finish_words(fibre, finishing, across))
        }
        Source::CommonPractice => " (common practice, no source)".into(),
    }
}

/// What cases of others show of a fibre and a finish: "cotton, washed: 3 cases of others, 8 to 18 %".
pub(super) fn fibre_and_finish_words(fibre: Fibre, finishing: Finishing, across: bool) -> String {
    let prior = fibre_prior(fibre, finishing);
    let loss = prior.and_then(|prior| if across { prior.width_in_all } else { Some(prior.length) });
    let cases = loss.map_or_else(String::new, |loss| match loss.cases {
        1 if loss.least == loss.most => format!(": one case of another weaver, {}\u{a0}%", loss.usual),
        1 => format!(": {} to {}\u{a0}% in reports of others", loss.least, loss.most),
        cases => format!(": {cases} cases of others, {} to {}\u{a0}%", loss.least, loss.most),
    });
    format!("{}{cases}", fibre_words(fibre, finishing))
}

/// "cotton, washed".
fn fibre_words(fibre: Fibre, finishing: Finishing) -> String {
    let name = match fibre {
        Fibre::Cellulose => "cellulose fibre",
        Fibre::Synthetic => "synthetic fibre",
        other => other.word(),
    };
    format!("{name}, {}", finishing.word())
}

/// How the cloth is woven.
pub(super) fn weave_words(weave: WeaveChoice) -> &'static str {
    match weave {
        WeaveChoice::Twill => "2/2 twill",
        WeaveChoice::PickUp => "plain weave, as between the floats",
        WeaveChoice::Plain | WeaveChoice::Other => "plain weave",
    }
}

/// Ashenhurst's constant with what it is for.
pub(super) fn ashenhurst_words(choice: AshenhurstChoice) -> &'static str {
    match choice {
        AshenhurstChoice::Usual => "0.9, the usual one",
        AshenhurstChoice::Soft => "0.84, for soft yarns",
        AshenhurstChoice::Cotton => "0.95, Taylor\u{2019}s for cotton",
    }
}
