//! The warp to scale, from the cloth beam to the back beam: what is cloth, what becomes cloth, and what is left or missing.

use chrono::NaiveDate;
use fellmark_cloth::warp::FRONT_SHARE_OF_WASTE;

use crate::model::WarpLog;
use crate::model::display_format::DisplayFormat;
use crate::present::dates::DateText;
use crate::present::figures::show_length;
use crate::present::view::{Band, BandKind, PictureMark, WarpPicture, WarpState};
use crate::reports::progress::Progress;
use crate::reports::reach::{fringe_mm, gaps_mm, warp_per_100_now, waste_mm};

/// Bands thinner than this are not worth drawing.
const THINNEST_MM: f64 = 0.5;

/// Where a photo's small picture is found, given the index of the sitting.
pub type PhotoOf<'a> = &'a dyn Fn(usize) -> Option<String>;

struct Drawing<'a> {
    bands: Vec<Band>,
    at_mm: f64,
    format: &'a DisplayFormat,
}

impl Drawing<'_> {
    fn add(&mut self, kind: BandKind, length_mm: f64, label: String, sitting: Option<String>, photo: Option<String>) {
        if length_mm < THINNEST_MM {
            return;
        }
        let from_mm = self.at_mm;
        self.at_mm += length_mm;
        self.bands.push(Band { kind, from_mm, to_mm: self.at_mm, label, sitting, photo });
    }

    fn plain(&mut self, kind: BandKind, length_mm: f64, name: &str) {
        self.add(kind, length_mm, format!("{name}, {}", show_length(length_mm, self.format)), None, None);
    }
}

/// Draws a warp. Without a length wound it is drawn as long as what is wanted needs.
#[must_use]
pub fn draw(
    log: &WarpLog,
    progress: &Progress,
    photo_of: PhotoOf<'_>,
    format: &DisplayFormat,
    today: NaiveDate,
) -> WarpPicture {
    let warp = &log.warp;
    let per_cloth = warp_per_100_now(warp, progress) / 100.0;
    let waste = waste_mm(warp);
    let (front, back) = (waste * FRONT_SHARE_OF_WASTE, waste * (1.0 - FRONT_SHARE_OF_WASTE));
    let wanted = progress.wanted_mm.unwrap_or(0.0).max(progress.woven_mm());
    let needed = waste + fringe_mm(warp) + gaps_mm(warp) + wanted * per_cloth;
    let wound = warp.wound_mm.unwrap_or(needed);
    let missing = (needed - wound).max(0.0);

    let mut drawing = Drawing { bands: Vec::new(), at_mm: 0.0, format };
    drawing.plain(BandKind::FrontWaste, front, "loom waste in front");
    // Cloth is drawn as far as the warp goes; what lies beyond its end is drawn as missing.
    let end_of_cloth = (wound - back).max(front);
    // What was woven beyond what is wanted belongs to the last piece.
    let last = progress.pieces.max(1) as usize - 1;
    let end_of = |piece: usize| match progress.piece_ends_mm.get(piece) {
        Some(end) if piece < last => *end,
        _ => wanted,
    };
    // Where each piece's cloth begins: in the cloth, and in the drawing, where fringes and gaps lie between.
    let mut laid: Vec<(f64, f64)> = Vec::new();
    let mut from = 0.0;
    let worn = worn_by(progress);
    let mut fell_mm = drawing.at_mm;
    let outer_from_waste = warp.fringe_from_waste;
    for piece in 0..=last {
        if !(piece == 0 && outer_from_waste) {
            let room = end_of_cloth - drawing.at_mm;
            drawing.plain(BandKind::Fringe, warp.fringe_mm.min(room), "fringe");
        }
        let to = end_of(piece).max(from);
        laid.push((from, drawing.at_mm));
        for (band_from, band_to, index) in &worn {
            let (start, end) = (band_from.max(from), band_to.min(to));
            if end - start > 0.0 {
                let (label, sitting, photo) = woven_label(log, *index, end - start, photo_of, format, today);
                drawing.add(BandKind::Woven, (end - start) * per_cloth, label, sitting, photo);
                fell_mm = drawing.at_mm;
            }
        }
        let left = to - progress.woven_mm().clamp(from, to);
        let room = (end_of_cloth - drawing.at_mm).max(0.0);
        let open = open_words(log);
        let name = if progress.pieces > 1 {
            format!("{open}, piece {} of {}", piece + 1, progress.pieces)
        } else {
            open.to_owned()
        };
        let drawn = (left * per_cloth).min(room);
        if drawn >= THINNEST_MM {
            drawing.add(
                BandKind::ToWeave,
                drawn,
                format!("{name}, {} of cloth", show_length(drawn / per_cloth, format)),
                None,
                None,
            );
        }
        if !(piece == last && outer_from_waste) {
            let room = end_of_cloth - drawing.at_mm;
            drawing.plain(BandKind::Fringe, warp.fringe_mm.min(room), "fringe");
        }
        if piece < last {
            let room = end_of_cloth - drawing.at_mm;
            drawing.plain(BandKind::Fringe, warp.gap_mm.min(room), "gap between pieces");
        }
        from = to;
    }
    if wound > needed {
        drawing.plain(BandKind::Spare, wound - needed, "to spare");
    }
    drawing.plain(BandKind::BackWaste, back, "loom waste behind");
    drawing.plain(BandKind::Missing, missing, "missing");
    let place_of = |mm: f64| {
        let piece = laid.iter().rfind(|(from, _)| *from < mm).or(laid.first());
        piece.map_or(front, |(from, at)| at + (mm - from) * per_cloth)
    };
    let marks = progress
        .marks_mm
        .iter()
        .map(|mm| PictureMark { at_mm: place_of(*mm), label: format!("mark at {}", show_length(*mm, format)) })
        .collect();
    WarpPicture {
        whole_mm: drawing.at_mm,
        fell_mm,
        fell_label: format!(
            "the fell, after {}{} of cloth",
            crate::present::figures::about_words(progress.rough),
            show_length(progress.woven_mm(), format)
        ),
        text: in_words(log, progress, missing, wound - needed, format),
        bands: drawing.bands,
        marks,
    }
}

/// What is said of cloth that was wanted and is not there.
fn open_words(log: &WarpLog) -> &'static str {
    if log.warp.state == WarpState::OffTheLoom { "not woven" } else { "to weave" }
}

/// Which sitting each stretch of cloth is from, what was unwoven taken out: from, to, index of the sitting.
fn worn_by(progress: &Progress) -> Vec<(f64, f64, usize)> {
    let mut cloth: Vec<(f64, f64, usize)> = Vec::new();
    for (index, (from, to)) in progress.stretches.iter().enumerate() {
        if to > from {
            cloth.push((*from, *to, index));
        } else {
            cloth.retain(|(start, _, _)| start < to);
            if let Some(last) = cloth.last_mut() {
                last.1 = last.1.min(*to);
            }
        }
    }
    cloth
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

fn in_words(log: &WarpLog, progress: &Progress, missing_mm: f64, spare_mm: f64, format: &DisplayFormat) -> String {
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
        if missing_mm > 0.0 {
            parts.push(format!("{} of warp missing", length(missing_mm)));
        } else {
            parts.push(format!("{} of warp to spare", length(spare_mm.max(0.0))));
        }
    }
    parts.push(format!("{} of loom waste", length(waste_mm(&log.warp))));
    format!("The warp to scale: {}.", parts.join(", "))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::tests::{log, sitting};

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
    fn bands_lie_end_to_end_and_the_fell_at_the_last_cloth() {
        let picture = two_pieces();
        for pair in picture.bands.windows(2) {
            assert!((pair[0].to_mm - pair[1].from_mm).abs() < 1e-9, "{pair:?}");
        }
        assert!((picture.whole_mm - 2600.0).abs() < 0.5, "{}", picture.whole_mm);
        let last = picture.bands.iter().rfind(|band| band.kind == BandKind::Woven).unwrap();
        assert!((last.to_mm - picture.fell_mm).abs() < 1e-9);
        assert_eq!(picture.fell_label, "the fell, after 70\u{a0}cm of cloth");
        assert_eq!(last.label, "20\u{a0}cm woven, today");
    }

    #[test]
    fn nothing_is_to_be_woven_on_a_warp_that_is_cut_off() {
        let mut log = log();
        log.sittings = vec![sitting(2, Some(160), Some(400.0))];
        let today = NaiveDate::from_ymd_opt(2026, 11, 3).unwrap();
        let told = |log: &WarpLog| {
            let picture = draw(log, &Progress::of(log, 0), &|_| None, &DisplayFormat::default(), today);
            let labels: Vec<String> = picture.bands.into_iter().map(|band| band.label).collect();
            format!("{} {}", labels.join(", "), picture.text)
        };
        assert!(told(&log).contains("to weave, 140\u{a0}cm of cloth") && told(&log).contains("of cloth to weave"));
        log.warp.state = WarpState::OffTheLoom;
        let off = told(&log);
        assert!(
            off.contains("not woven, 140\u{a0}cm of cloth") && off.contains("140\u{a0}cm of cloth not woven"),
            "{off}"
        );
        assert!(!off.contains("to weave"), "{off}");
    }

    #[test]
    fn a_mark_lies_at_its_cloth_beyond_the_fringes_between_pieces() {
        let picture = two_pieces();
        let [mark] = picture.marks.as_slice() else { panic!("{:?}", picture.marks) };
        assert!((mark.at_mm - picture.fell_mm).abs() < 1.0, "the mark at the fell: {} {}", mark.at_mm, picture.fell_mm);
    }
}
