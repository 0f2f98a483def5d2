//! The warp to scale, from the cloth beam to the back beam: what is cloth, what becomes cloth, and what is left or missing.

use chrono::NaiveDate;

use crate::dates::DateText;
use crate::figures::show_length;
use crate::view::{Band, BandKind, PictureMark, WarpPicture, WarpState};
use fellmark_model::WarpLog;
use fellmark_model::display_format::DisplayFormat;
use fellmark_reports::progress::Progress;
use fellmark_reports::warp_to_scale::{WarpBand, WarpBandKind, WarpToScale, warp_to_scale};

/// Where a photo's small picture is found, given the index of the sitting.
pub type PhotoOf<'a> = &'a dyn Fn(usize) -> Option<String>;

/// Draws a warp.
#[must_use]
pub fn draw(
    log: &WarpLog,
    progress: &Progress,
    photo_of: PhotoOf<'_>,
    format: &DisplayFormat,
    today: NaiveDate,
) -> WarpPicture {
    let scale = warp_to_scale(log, progress);
    let mark = |mark: &fellmark_reports::warp_to_scale::MarkToScale| PictureMark {
        at_mm: mark.at_mm,
        label: format!("mark at {}", show_length(mark.cloth_mm, format)),
    };
    WarpPicture {
        whole_mm: scale.whole_mm(),
        fell_mm: scale.fell_mm,
        fell_label: format!(
            "the fell, after {}{} of cloth",
            crate::figures::about_words(progress.rough),
            show_length(progress.woven_mm(), format)
        ),
        text: in_words(log, progress, &scale, format),
        bands: scale.bands.iter().map(|one| band(log, progress, one, photo_of, format, today)).collect(),
        marks: scale.marks.iter().map(mark).collect(),
    }
}

fn band(
    log: &WarpLog,
    progress: &Progress,
    band: &WarpBand,
    photo_of: PhotoOf<'_>,
    format: &DisplayFormat,
    today: NaiveDate,
) -> Band {
    let plain = |kind, name: &str| (kind, format!("{name}, {}", show_length(band.length_mm(), format)), None, None);
    let (kind, label, sitting, photo) = match band.kind {
        WarpBandKind::FrontWaste => plain(BandKind::FrontWaste, "loom waste in front"),
        WarpBandKind::Fringe => plain(BandKind::Fringe, "fringe"),
        WarpBandKind::Gap => plain(BandKind::Fringe, "gap between pieces"),
        WarpBandKind::Woven { sitting, cloth_mm } => {
            let (label, sitting, photo) = woven_label(log, sitting, cloth_mm, photo_of, format, today);
            (BandKind::Woven, label, sitting, photo)
        }
        WarpBandKind::ToWeave { piece, cloth_mm } => {
            let of_pieces = if progress.pieces > 1 {
                format!(", piece {} of {}", piece + 1, progress.pieces)
            } else {
                String::new()
            };
            let label = format!("{}{of_pieces}, {} of cloth", open_words(log), show_length(cloth_mm, format));
            (BandKind::ToWeave, label, None, None)
        }
        WarpBandKind::Spare => plain(BandKind::Spare, "to spare"),
        WarpBandKind::BackWaste => plain(BandKind::BackWaste, "loom waste behind"),
        WarpBandKind::Missing => plain(BandKind::Missing, "missing"),
    };
    Band { kind, from_mm: band.from_mm, to_mm: band.to_mm, label, sitting, photo }
}

/// What is said of cloth that was wanted and is not there.
fn open_words(log: &WarpLog) -> &'static str {
    if log.warp.state == WarpState::OffTheLoom { "not woven" } else { "to weave" }
}

fn woven_label(
    log: &WarpLog,
    index: usize,
    length_mm: f64,
    photo_of: PhotoOf<'_>,
    format: &DisplayFormat,
    today: NaiveDate,
) -> (String, Option<String>, Option<String>) {
    let length = show_length(length_mm, format);
    match log.sittings.get(index) {
        Some(sitting) => (
            format!(
                "{}{length} woven, {}",
                if sitting.rough { "about " } else { "" },
                format.spoken_day(sitting.on, today)
            ),
            Some(sitting.id.to_string()),
            photo_of(index),
        ),
        None => (format!("{length} woven, this sitting"), None, None),
    }
}

fn in_words(log: &WarpLog, progress: &Progress, scale: &WarpToScale, format: &DisplayFormat) -> String {
    let length = |mm: f64| show_length(mm, format);
    let mut parts = Vec::new();
    if let Some(wound) = log.warp.wound_mm {
        parts.push(format!("{} of warp", length(wound)));
    }
    parts.push(format!("{} of cloth woven", length(progress.woven_mm())));
    if let Some(to_weave) = progress.to_weave_mm.filter(|mm| *mm > 0.0) {
        parts.push(format!("{} of cloth {}", length(to_weave), open_words(log)));
    }
    if log.warp.wound_mm.is_some() && progress.wanted_mm.is_some() {
        let spare = scale.spare_cloth_mm;
        parts.push(format!("{} of cloth {}", length(spare.abs()), if spare < 0.0 { "missing" } else { "to spare" }));
    }
    parts.push(format!("{} of loom waste", length(scale.waste_mm)));
    format!("The warp to scale: {}.", parts.join(", "))
}

#[cfg(test)]
mod tests {
    use super::*;
    use fellmark_model::tests::{log, sitting};

    /// Two pieces of half a metre with fringes, 70 cm woven in two sittings, the mark at the fell.
    fn two_pieces() -> WarpPicture {
        let mut log = log();
        log.warp.pieces = 2;
        log.warp.wanted_mm = Some(500.0);
        log.warp.fringe_mm = 100.0;
        log.warp.wound_mm = Some(2600.0);
        log.warp.warp_per_100 = Some(110.0);
        log.sittings = vec![sitting(2, Some(160), Some(400.0)), sitting(3, Some(120), Some(700.0))];
        log.sittings[1].mark_set = true;
        let today = NaiveDate::from_ymd_opt(2026, 11, 3).unwrap();
        draw(&log, &Progress::of(&log, 0), &|_| None, &DisplayFormat::default(), today)
    }

    #[test]
    fn the_fell_and_the_cloth_are_labelled() {
        let picture = two_pieces();
        let last = picture.bands.iter().rfind(|band| band.kind == BandKind::Woven).unwrap();
        assert_eq!(picture.fell_label, "the fell, after 70\u{a0}cm of cloth");
        assert_eq!(last.label, "20\u{a0}cm woven, today");
        assert_eq!(picture.marks[0].label, "mark at 70\u{a0}cm");
    }

    #[test]
    fn nothing_is_to_be_woven_on_a_warp_that_is_cut_off() {
        let mut log = log();
        log.sittings = vec![sitting(2, Some(160), Some(400.0))];
        let today = NaiveDate::from_ymd_opt(2026, 11, 3).unwrap();
        let reported = |log: &WarpLog| {
            let picture = draw(log, &Progress::of(log, 0), &|_| None, &DisplayFormat::default(), today);
            let labels: Vec<String> = picture.bands.into_iter().map(|band| band.label).collect();
            format!("{} {}", labels.join(", "), picture.text)
        };
        assert!(
            reported(&log).contains("to weave, 140\u{a0}cm of cloth") && reported(&log).contains("of cloth to weave")
        );
        log.warp.state = WarpState::OffTheLoom;
        let off = reported(&log);
        assert!(
            off.contains("not woven, 140\u{a0}cm of cloth") && off.contains("140\u{a0}cm of cloth not woven"),
            "{off}"
        );
        assert!(!off.contains("to weave"), "{off}");
    }
}
