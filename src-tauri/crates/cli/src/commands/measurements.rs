//! What is noted at the loom: the place in the sequence, readings, weighings, yarns; and the sequence drawn.

use fellmark_model::commands::DuringSitting;
use fellmark_present::fill_forms::show_yarn_form;
use fellmark_present::view::{ErrorView, PickSequenceView, PlaceForm, ReadingForm, YarnForm, YarnLeftForm};
use fellmark_present::{notes, pick_sequence, sequence};
use fellmark_reports::progress::Progress;
use serde_json::json;

use super::{Runner, refused};
use crate::args::{MeasurementArgs, PlaceArgs, WhenArgs, YarnArgs, YesNo};
use crate::output::{Failure, Output};

impl Runner {
    fn during(&self, when: &WhenArgs) -> Result<DuringSitting, Failure> {
        let (Some(sitting), Some(picks)) = (&when.within, when.after_picks) else { return Ok(None) };
        let (log, index) = self.find_sitting(sitting)?;
        Ok(Some((log.sittings[index].id.clone(), picks)))
    }

    /// Lists the places, or says where the weaver is.
    pub(super) fn place(&mut self, warp: &str, place: PlaceArgs, when: &WhenArgs) -> Result<Output, Failure> {
        let log = self.find_warp(warp)?;
        let asks = place.section.is_none() && place.repeat.is_none() && place.row.is_none() && place.piece.is_none();
        if asks {
            let Some(places) = sequence::places(&log, 0) else {
                return Ok(Output::done("This warp has no pick sequence.", json!({ "places": null })));
            };
            let now = sequence::place(&log, &Progress::of(&log, 0), &self.format());
            let mut lines: Vec<String> = now.iter().map(|now| format!("Next: {} ({})", now.next, now.place)).collect();
            for section in &places.sections {
                lines.push(format!("{} ({}):", section.name, section.section));
                lines.extend(section.rows.iter().enumerate().map(|(row, words)| format!("  {}  {words}", row + 1)));
            }
            return Ok(Output::done(lines.join("\n"), json!({ "places": places, "place": now })));
        }
        let during = self.during(when)?;
        let form = PlaceForm {
            piece: place.piece.unwrap_or_default(),
            section: place.section.unwrap_or_default(),
            repeat: place.repeat.unwrap_or_default(),
            row: place.row.unwrap_or_default(),
        };
        let id = self.session.set_place(&log.warp.id, &form, &during).map_err(refused)?;
        let log = self.find_warp(log.warp.id.as_str())?;
        let now = sequence::place(&log, &Progress::of(&log, 0), &self.format());
        let text = now.as_ref().map_or_else(|| "Noted.".into(), |now| format!("Next: {} ({})", now.next, now.place));
        Ok(Output::done(text, json!({ "record": id, "place": now })))
    }

    /// Notes a reading, weighings and a yarn taken up.
    pub(super) fn measure(&mut self, warp: &str, note: MeasurementArgs, when: &WhenArgs) -> Result<Output, Failure> {
        let log = self.find_warp(warp)?;
        let during = self.during(when)?;
        let yarn = |named: &str| self.find_yarn(&log.warp.id, named).map(|id| id.to_string());
        let mut yarns_left = Vec::new();
        for one in &note.left {
            let Some((named, left)) = one.split_once('=') else {
                return Err(Failure::input(ErrorView::at(
                    "--left",
                    format!("\u{201c}{one}\u{201d} names no yarn. Write it as \u{201c}walnut=42 g\u{201d}."),
                )));
            };
            yarns_left.push(YarnLeftForm {
                yarn: yarn(named.trim())?,
                left: left.trim().to_owned(),
                on_shuttle: false,
            });
        }
        let form = ReadingForm {
            // "about" before a figure says so.
            rough: false,
            on: note.on.unwrap_or_default(),
            measured: note.tape.measured.unwrap_or_default(),
            measured_from: note.tape.from.unwrap_or_default(),
            measured_tension: note.tape.tension.unwrap_or_default(),
            mark_set: note.tape.mark_set == Some(YesNo::Yes),
            warp_mark: note.warp_mark.unwrap_or_default(),
            yarns_left,
            take_up: note.yarn.as_deref().map(yarn).transpose()?.unwrap_or_default(),
        };
        let messages = self.session.add_measurement(&log.warp.id, &form, &during).map_err(|error| {
            let of_yarn = error.field.as_deref().is_some_and(|field| field.starts_with("left_"));
            if of_yarn { Failure::input(ErrorView { field: Some("--left".into()), ..error }) } else { refused(error) }
        })?;
        let text = if messages.is_empty() { "Noted.".into() } else { messages.join("\n") };
        Ok(Output::done(text, json!({ "warp": log.warp.id, "messages": messages })))
    }

    /// Lists the yarns with their ledgers.
    pub(super) fn yarns(&self, warp: &str) -> Result<Output, Failure> {
        let log = self.find_warp(warp)?;
        let views = notes::yarn_views(&log, &Progress::of(&log, 0), &self.format());
        let lines = views.iter().map(|yarn| {
            let now = if yarn.in_use { " (being woven)" } else { "" };
            let parts: Vec<&str> =
                [yarn.line.as_str(), yarn.reach.as_str()].into_iter().filter(|p| !p.is_empty()).collect();
            format!("{}  {}{now}: {}", yarn.id, yarn.name, parts.join("; "))
        });
        let text = lines.collect::<Vec<_>>().join("\n");
        let text = if text.is_empty() { "No weft yarn is written down.".into() } else { text };
        Ok(Output::done(text, json!({ "warp": log.warp.id, "yarns": views })))
    }

    /// Adds a yarn.
    pub(super) fn add_yarn(&mut self, warp: &str, figures: YarnArgs) -> Result<Output, Failure> {
        let warp = self.find_warp(warp)?.warp.id;
        let mut form = YarnForm::default();
        figures.over(&mut form);
        let yarn = self.session.add_yarn(&warp, &form).map_err(refused)?;
        Ok(Output::done(format!("Added: {yarn}"), json!({ "yarn": yarn, "warp": warp })))
    }

    /// Changes a yarn.
    pub(super) fn change_yarn(&mut self, warp: &str, yarn: &str, figures: YarnArgs) -> Result<Output, Failure> {
        let log = self.find_warp(warp)?;
        let id = self.find_yarn(&log.warp.id, yarn)?;
        let mut form = log
            .wefts
            .iter()
            .find(|weft| weft.id == id)
            .map_or_else(YarnForm::default, |weft| show_yarn_form(weft, &self.format()));
        figures.over(&mut form);
        self.session.change_yarn(&id, &form, &[]).map_err(refused)?;
        Ok(Output::done("Changed.", json!({ "yarn": id })))
    }

    /// Everything noted between and within sittings.
    pub(super) fn measurements(&self, warp: &str) -> Result<Output, Failure> {
        let log = self.find_warp(warp)?;
        let lines = notes::moment_lines(&log, &self.format(), self.today());
        let text = lines.iter().map(|line| format!("{}  {}: {}", line.record, line.day, line.line));
        let text = text.collect::<Vec<_>>().join("\n");
        let text = if text.is_empty() { "Nothing was noted beside the sittings.".into() } else { text };
        Ok(Output::done(text, json!({ "warp": log.warp.id, "measurements": lines })))
    }

    /// Draws a warp's sequence.
    pub(super) fn draw(&self, warp: &str) -> Result<Output, Failure> {
        let log = self.find_warp(warp)?;
        let view = pick_sequence::view(&pick_sequence::filled_form(&log.warp, &self.format()), &self.format());
        Ok(Output::done(drawn(&view), json!({ "warp": log.warp.id, "sequence": view })))
    }

    /// Sets after how long a stretch is suggested.
    pub(super) fn stretch(&mut self, minutes: &str) -> Result<Output, Failure> {
        self.session.set_stretch(minutes).map_err(refused)?;
        Ok(Output::done("Set.", json!({ "stretch_minutes": minutes })))
    }
}

/// The cloth in letters, the first pick at the bottom: `|` an end over the weft, `-` the weft over an end.
fn drawn(view: &PickSequenceView) -> String {
    let mut lines: Vec<String> = Vec::new();
    if let Some(cloth) = &view.cloth {
        for row in cloth.rows.iter().rev() {
            let threads: String = row.up.chars().map(|up| if up == '1' { '|' } else { '-' }).collect();
            lines.push(format!("{threads}  {}, {}", row.section, row.words));
        }
        lines.push(cloth.text.clone());
    }
    lines.extend((!view.counts.is_empty()).then(|| view.counts.clone()));
    lines.extend(view.errors.iter().map(ToString::to_string));
    lines.extend(view.warnings.iter().cloned());
    lines.extend(view.notes.iter().cloned());
    if lines.is_empty() { "This warp has no pick sequence.".into() } else { lines.join("\n") }
}
