//! What is only listed: conflicts between devices, and the devices.

use fellmark_model as model;
use fellmark_present::overview;
use serde_json::json;

use super::Runner;
use crate::output::Output;

impl Runner {
    /// Fields that devices gave different values at the same time.
    pub(super) fn conflicts(&self) -> Output {
        let logs = model::warp_logs(self.session.state());
        let all: Vec<_> = logs
            .values()
            .flat_map(|log| overview::conflict_views(self.session.journal(), log, &self.session.format(), self.today()))
            .collect();
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
        Output::done(text, json!({ "conflicts": all }))
    }

    pub(super) fn devices(&self) -> Output {
        let devices = self.session.journal().devices();
        let this = self.session.journal().device();
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
        Output::done(text, json!({ "devices": json.collect::<Vec<_>>() }))
    }
}
