//! The answers at a glance: the figure that is shown large, and the short line below it.

use chrono::NaiveDate;

use crate::messages::declared::figures::approximately;
use crate::messages::declared::glance as messages;
use crate::messages::text;
use crate::view::{Figures, GlanceView};
use fellmark_model::display_format::DisplayFormat;

/// The share of outcomes that a span of days covers.
const SPAN: f64 = 0.8;

/// How far a warp is that is being woven; nothing before and after, and where a length is not known.
pub(crate) fn woven(figures: &Figures, is_rough: bool, format: &DisplayFormat) -> GlanceView {
    let Figures { woven_mm, wanted_mm, to_weave_mm, to_weave_picks, .. } = *figures;
    if woven_mm <= 0.0 || woven_mm >= wanted_mm {
        return GlanceView::default();
    }
    let exact = text(&messages::glance_woven(woven_mm, wanted_mm), format);
    let figure = if is_rough { text(&approximately(exact), format) } else { exact };
    let line = (to_weave_picks > 0).then(|| text(&messages::glance_to_weave(to_weave_mm, to_weave_picks), format));
    GlanceView { figure, line: line.unwrap_or_default() }
}

/// The day it is likely finished, and how likely that is in time; nothing where there is no date, or nothing left to weave.
pub(crate) fn finished(figures: &Figures, format: &DisplayFormat, today: NaiveDate) -> GlanceView {
    let day = |day: &Option<String>| day.as_deref().and_then(|day| day.parse::<NaiveDate>().ok());
    let Some(likely) = day(&figures.finished_likely).filter(|_| figures.to_weave_mm > 0.0) else {
        return GlanceView::default();
    };
    let gift = day(&figures.gift_on).zip(figures.gift_chance).filter(|(gift, _)| *gift >= today);
    let line = match (gift, &figures.finished_span) {
        (Some((gift, chance)), _) => text(&messages::glance_gift(chance, (gift, today)), format),
        (None, Some([from, to])) if from != to => match (from.parse(), to.parse()) {
            (Ok(from), Ok(to)) => text(&messages::glance_span(SPAN, (from, today), (to, today)), format),
            _ => String::new(),
        },
        _ => String::new(),
    };
    GlanceView { figure: text(&messages::glance_day((likely, today)), format), line }
}
