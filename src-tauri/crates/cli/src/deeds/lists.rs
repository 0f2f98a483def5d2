//! What is only looked up: the answers, the warps and sittings, what waits to be settled, the devices.

use fellmark_answers::model;
use fellmark_answers::present::desk::{self, Presenter};
use fellmark_answers::present::view::{LoomView, WarpState};
use fellmark_answers::reports::reckoned::ReportCache;
use fellmark_journal::RecordId;
use serde_json::json;

use super::Desk;
use crate::say::{Failure, Said};

impl Desk {
    pub(super) fn answers(&self, warp: Option<&str>, why: bool, all: bool) -> Result<Said, Failure> {
        let mut reckonings = ReportCache::new();
        let mut look = Presenter::new(&self.journal, &mut reckonings, &self.format, self.today);
        let ids: Vec<RecordId> = match warp {
            Some(warp) => vec![self.find_warp(warp)?.warp.id],
            None => {
                let lines = look.warp_lines();
                let shown = lines.iter().filter(|line| {
                    matches!(line.state, WarpState::OnTheLoom | WarpState::Resting)
                        || (all && line.state == WarpState::OffTheLoom)
                });
                shown.filter_map(|line| line.id.parse().ok()).collect()
            }
        };
        let views: Vec<LoomView> = ids.iter().filter_map(|id| look.loom(id, None)).collect();
        let text = if views.is_empty() {
            "No warp is on the loom.".to_owned()
        } else {
            views.iter().map(|view| answer_text(view, why)).collect::<Vec<_>>().join("\n\n")
        };
        Ok(Said::done(text, json!({ "today": self.today, "answers": views })))
    }

    pub(super) fn warps(&self) -> Said {
        let lines = desk::warp_lines(&self.journal, &self.format, self.today);
        let text: Vec<String> = lines.iter().map(|line| format!("{}  {}: {}", line.id, line.name, line.line)).collect();
        let text = if text.is_empty() { "No warp yet.".to_owned() } else { text.join("\n") };
        Said::done(text, json!({ "warps": lines }))
    }

    pub(super) fn sittings(&self, warp: &str, removed: bool) -> Result<Said, Failure> {
        let id = self.find_warp(warp)?.warp.id;
        let Some(view) = desk::loom(&self.journal, &id, 0, &self.format, self.today) else {
            return Err(Failure::not_found(format!("No warp is known here as \u{201c}{warp}\u{201d}.")));
        };
        let shown = view.sittings.iter().chain(view.removed.iter().filter(|_| removed));
        let text: Vec<String> = shown.map(|line| format!("{}  {}: {}", line.id, line.day, line.line)).collect();
        let text = if text.is_empty() { "No sitting yet.".to_owned() } else { text.join("\n") };
        let mut json = json!({ "warp": id, "sittings": view.sittings });
        if removed {
            json["removed"] = json!(view.removed);
        }
        Ok(Said::done(text, json))
    }

    pub(super) fn to_settle(&self) -> Said {
        let logs = model::warp_logs(self.journal.state());
        let all: Vec<_> =
            logs.values().flat_map(|log| desk::to_settle(&self.journal, log, &self.format, self.today)).collect();
        let lines = all.iter().flat_map(|one| {
            one.answers.iter().map(move |answer| {
                let used = if answer.in_use { " (used for now)" } else { "" };
                format!(
                    "{} {} {}  {}: {} by {}{used}",
                    one.record, one.field, answer.key, one.what, answer.value, answer.device
                )
            })
        });
        let text = lines.collect::<Vec<_>>().join("\n");
        let text = if text.is_empty() { "Nothing waits to be settled.".to_owned() } else { text };
        Said::done(text, json!({ "to_settle": all }))
    }

    pub(super) fn devices(&self) -> Said {
        let devices = self.journal.devices();
        let this = self.journal.device();
        let lines = devices.iter().map(|device| {
            let wrote = device
                .last_wrote
                .map_or_else(|| "has not written".to_owned(), |at| format!("last wrote {}", at.to_rfc3339()));
            format!("{} ({}): {wrote}", device.name, device.id)
        });
        let text = lines.collect::<Vec<_>>().join("\n");
        let json = devices.iter().map(|device| {
            json!({ "id": device.id, "name": device.name, "last_wrote": device.last_wrote, "this_one": &device.id == this })
        });
        Said::done(text, json!({ "devices": json.collect::<Vec<_>>() }))
    }
}

fn answer_text(view: &LoomView, why: bool) -> String {
    let mut lines = vec![view.name.clone()];
    for (title, answer) in [
        ("Where am I", &view.where_am_i),
        ("Will the warp reach", &view.warp_reach),
        ("Will the weft last", &view.weft_reach),
        ("When will it be done", &view.when),
    ] {
        lines.push(format!("  {title}? {}", answer.headline));
        lines.extend(answer.more.iter().map(|line| format!("    {line}")));
        if why {
            lines.extend(answer.why.iter().map(|line| format!("      {line}")));
        }
    }
    if let Some(place) = &view.place {
        lines.push(format!("  Next: {} ({})", place.next, place.place));
    }
    lines.extend(view.cautions.iter().map(|caution| format!("  {caution}")));
    lines.join("\n")
}
