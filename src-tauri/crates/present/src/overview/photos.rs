//! Photos of a warp, by sitting and over time.

use std::collections::BTreeMap;

use chrono::NaiveDate;
use fellmark_journal::{Journal, RecordId};

use crate::dates::DateText;
use crate::figures::show_length;
use crate::view::{PhotoView, StripPhoto};
use fellmark_model::WarpLog;
use fellmark_model::display_format::DisplayFormat;
use fellmark_reports::progress::Progress;

/// Address of a stored photo, as the window's photo scheme takes it.
fn photo_address(warp: &RecordId, hash: &str, size: &str) -> String {
    format!("photo://localhost/{warp}.{hash}.{size}")
}

pub(super) fn photos_by_sitting(journal: &Journal, log: &WarpLog) -> BTreeMap<RecordId, Vec<PhotoView>> {
    let stored = journal.photos(&log.warp.id);
    let mut by_sitting: BTreeMap<RecordId, Vec<PhotoView>> = BTreeMap::new();
    for photo in &log.photos {
        let Some(sitting) = &photo.sitting else { continue };
        let missing = !stored.contains(&photo.hash);
        let view = PhotoView {
            id: photo.id.to_string(),
            small: photo_address(&log.warp.id, &photo.hash, "small"),
            large: photo_address(&log.warp.id, &photo.hash, "large"),
            text: if missing { "a photo that has not arrived yet".into() } else { "photo of this sitting".into() },
            missing,
        };
        by_sitting.entry(sitting.clone()).or_default().push(view);
    }
    by_sitting
}

/// The photos over time, the earliest first.
pub(super) fn strip(
    log: &WarpLog,
    progress: &Progress,
    photos: &BTreeMap<RecordId, Vec<PhotoView>>,
    format: &DisplayFormat,
    today: NaiveDate,
) -> Vec<StripPhoto> {
    let mut strip = Vec::new();
    for (index, sitting) in log.sittings.iter().enumerate() {
        let cloth = progress.stretches.get(index).map(|(_, to)| show_length(*to, format)).unwrap_or_default();
        let about = if sitting.rough { "about " } else { "" };
        for photo in photos.get(&sitting.id).into_iter().flatten() {
            strip.push(StripPhoto {
                id: photo.id.clone(),
                sitting: sitting.id.to_string(),
                day: format.date(sitting.on, today),
                cloth: format!("{about}{cloth}"),
                small: photo.small.clone(),
                large: photo.large.clone(),
                text: format!("{}, {about}{cloth} woven", format.weekday_date(sitting.on, today)),
                missing: photo.missing,
            });
        }
    }
    strip
}
