//! The sentences of a plan: the headline, what is missing, and warnings.

use fellmark_cloth::quantity::YarnSystem;
use fellmark_cloth::sett::Beat;

use crate::figures::show_length;
use crate::lists_and_numbers::listed;
use crate::messages::declared::cloth as messages;
use crate::messages::{sentence, text};
use fellmark_model::display_format::DisplayFormat;
use fellmark_model::plan::PlanInputs;
use fellmark_reports::plan::{MissingInput, PlanError, PlanReport, PlanWarning};

use super::words::{ashenhurst_words, density_figure, density_words, per_unit, pieces_words};

/// What is still to be typed, to stand in a list.
pub(super) fn missing(missing: MissingInput) -> &'static str {
    match missing {
        MissingInput::WarpYarn => "how much warp yarn there is",
        MissingInput::WeftYarn => "how much weft yarn there is",
        MissingInput::Length => "the length wanted",
        MissingInput::Width => "the width wanted",
        MissingInput::Sett => "the sett, or the yarn it follows from",
        MissingInput::YarnNumber => "the yarn\u{2019}s number, for weights",
    }
}

fn error(error: &PlanError) -> String {
    match error {
        PlanError::Refused(refused) => sentence(&refused.to_string()),
        PlanError::YarnTooShort => "The yarn does not reach even for the warp that becomes no cloth.".into(),
    }
}

/// The sentence that is read first.
pub(super) fn headline(inputs: &PlanInputs, report: &PlanReport, format: &DisplayFormat) -> String {
    if let Some(found) = &report.error {
        return error(found);
    }
    let Some(lengths) = &report.lengths else {
        if report.missing.is_empty() {
            return "Nothing can be woven of this yarn at this width.".into();
        }
        let names: Vec<&str> = report.missing.iter().map(|one| missing(*one)).collect();
        return format!("Still to say: {}.", listed(&names));
    };
    let wind = format!("Wind {} of warp", show_length(lengths.wound.mm(), format));
    let ends = report.widths.map_or_else(String::new, |widths| format!(", {} ends", widths.ends));
    let width = report
        .widths
        .map_or_else(String::new, |widths| format!(", {} wide", show_length(widths.finished.mm(), format)));
    let likely = if inputs.from_yarn { "likely " } else { "" };
    format!("{wind}{ends}: {likely}{}{width}.", pieces_words(&lengths.finished_each(), format))
}

/// What is wrong with the picks for these ends; empty where nothing is.
fn beat_warning(beat: Beat) -> &'static str {
    match beat {
        Beat::Possible => "",
        Beat::Hard => "These picks are close to the most that fit: it takes a hard beat and a tight warp.",
        Beat::TooClose => "These picks can't be beaten in: more than fit between these ends.",
        Beat::EndsTooClose => "These ends are more than fit side by side: take a more open sett.",
    }
}

/// What to think about before winding.
pub(super) fn warning(warning: &PlanWarning, inputs: &PlanInputs, format: &DisplayFormat) -> String {
    match warning {
        PlanWarning::FurtherPiecesIgnored => {
            "From the yarn, all pieces are of one size; the further lengths are not reckoned with.".into()
        }
        PlanWarning::HardToBeat(beaten) => {
            let most = beaten.most.map_or_else(String::new, |most| {
                format!(
                    " {} is about the most; yarn is soft, so take that as good to a tenth.",
                    density_words(most.density(), format)
                )
            });
            format!("{}{most}", beat_warning(beaten.beat))
        }
        PlanWarning::SettAboveLargest { sett, largest } => format!(
            "{} ends {} are more than the largest sett of this yarn, {}, by Ashenhurst\u{2019}s rule with k = {}: a stiff, \
             warp-faced cloth at best.",
            density_figure(*sett, format),
            per_unit(format),
            density_figure(*largest, format),
            ashenhurst_words(inputs.ashenhurst)
        ),
        PlanWarning::WiderThanLoom { reed, loom } => format!(
            "{} in the reed is wider than the loom, which takes {}.",
            show_length(reed.mm(), format),
            show_length(loom.mm(), format)
        ),
        PlanWarning::UnusualYarn(yarn) => {
            let (tex, m_per_g) = (yarn.tex(), yarn.count_in(YarnSystem::MetricNm));
            let which = if tex > 100.0 { "thicker" } else { "finer" };
            format!(
                "{} tex, {} m/g, is {which} than any weaving yarn: check its number.",
                format.number(tex, if tex < 10.0 { 2 } else { 0 }),
                format.number(m_per_g, if m_per_g < 1.0 { 3 } else { 0 })
            )
        }
        PlanWarning::UnusualSett(sett) => {
            let which = if sett.per_cm() > 10.0 { "closer" } else { "more open" };
            format!(
                "{} ends per 10\u{a0}cm, {} per inch, is {which} than hand looms are warped: check the sett and its unit.",
                format.number(sett.per_10cm(), 1),
                format.number(sett.per_inch(), 1)
            )
        }
        PlanWarning::ReachesOneTimeInTwo { planned, nine_in_ten } => {
            text(&messages::yarn_reaches_one_time_in_two(planned.mm(), nine_in_ten.mm()), format)
        }
        PlanWarning::EdgeLengthMissing => {
            "How long fringe or hem is to be is not said, so none is reckoned with.".into()
        }
    }
}
