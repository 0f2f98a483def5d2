//! The common rule of thumb beside the calculated warp, and what it leaves out.

use fellmark_cloth::warp::SegmentKind;

use crate::figures::show_length;
use crate::view::{Answer, Standing};
use fellmark_model::display_format::DisplayFormat;
use fellmark_reports::plan::PlanReport;

/// Warps that differ by less are the same, millimetres.
const SAME_WARP_MM: f64 = 5.0;

/// The rule's warp compared with the calculated one.
pub(super) fn answer(report: &PlanReport, format: &DisplayFormat) -> Option<Answer> {
    let (lengths, rule) = (report.lengths.as_ref()?, report.rule_of_thumb?);
    let length = |mm: f64| show_length(mm, format);
    let difference = rule.warp.minus(lengths.wound);
    let compared = if difference.short().mm() >= SAME_WARP_MM {
        format!("{} less than reckoned here", length(difference.short().mm()))
    } else if difference.over().mm() >= SAME_WARP_MM {
        format!("{} more than reckoned here", length(difference.over().mm()))
    } else {
        "the same as reckoned here".into()
    };
    let (each, warp) = (length(rule.at_each_end.mm()), length(rule.warp.mm()));
    let cloth = lengths.warp_in(&[SegmentKind::Cloth, SegmentKind::Hem]);
    let mut more = vec![format!(
        "It leaves out what take-up and the wash{} eat: {}.",
        if lengths.finished < lengths.finished_with_hems() { ", and the hems," } else { "" },
        length(cloth.mm() - lengths.finished.mm())
    )];
    let beyond = lengths.warp_in(&[SegmentKind::Fringe, SegmentKind::Header, SegmentKind::Sample, SegmentKind::Gap]);
    if beyond.mm() > 0.0 {
        more.push(format!("It leaves out fringe, header, sample and gaps: {}.", length(beyond.mm())));
    }
    more.push(format!(
        "Its {} are there for the loom waste, which is {} here.",
        length(rule.at_each_end.mm() * 2.0),
        length(lengths.wish.waste.total().mm())
    ));
    Some(Answer {
        headline: format!(
            "By the common rule, finished length and {each} at each end, it would be {warp}: {compared}."
        ),
        more,
        why: vec![format!(
            "{} + 2 \u{d7} {each} = {warp} (common practice, no source).",
            length(lengths.finished.mm())
        )],
        standing: if difference.is_short() { Standing::Short } else { Standing::Well },
    })
}
