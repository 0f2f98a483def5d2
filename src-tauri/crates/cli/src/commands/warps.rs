//! Warps: begun, changed, put aside, listed, and the answers about them.

use fellmark_journal::RecordId;
use fellmark_present::fill_forms::show_warp_form;
use fellmark_present::view::{LoomView, WarpForm, WarpState};
use serde_json::json;

use super::{Runner, refused};
use crate::args::WarpArgs;
use crate::output::{Failure, Output};

impl Runner {
    pub(super) fn begin(&mut self, name: String, figures: WarpArgs) -> Result<Output, Failure> {
        let mut form = WarpForm { name, ..WarpForm::default() };
        figures.over(&mut form);
        let warp = self.session.begin_warp(&form).map_err(refused)?;
        Ok(Output::done(format!("Begun: {} ({warp})", form.name.trim()), json!({ "warp": warp })))
    }

    pub(super) fn change(&mut self, warp: &str, name: Option<String>, figures: WarpArgs) -> Result<Output, Failure> {
        let log = self.find_warp(warp)?;
        let mut form = show_warp_form(&log.warp, log.wefts.first(), &self.session.format());
        figures.over(&mut form);
        if let Some(name) = name {
            form.name = name;
        }
        self.session.change_warp(&log.warp.id, &form, &[]).map_err(refused)?;
        Ok(Output::done("Changed.", json!({ "warp": log.warp.id })))
    }

    pub(super) fn set_warp_state(&mut self, warp: &str, state: WarpState, text: &str) -> Result<Output, Failure> {
        let id = self.find_warp(warp)?.warp.id;
        self.session.set_warp_state(&id, state).map_err(refused)?;
        Ok(Output::done(text, json!({ "warp": id })))
    }

    pub(super) fn warps(&mut self) -> Output {
        let lines = self.session.with_presenter(|presenter| presenter.warp_lines());
        let text: Vec<String> = lines.iter().map(|line| format!("{}  {}: {}", line.id, line.name, line.line)).collect();
        let text = if text.is_empty() { "No warp yet.".to_owned() } else { text.join("\n") };
        Output::done(text, json!({ "warps": lines }))
    }

    pub(super) fn answers(&mut self, warp: Option<&str>, why: bool, all: bool) -> Result<Output, Failure> {
        let named = warp.map(|warp| self.find_warp(warp)).transpose()?.map(|log| log.warp.id);
        let views: Vec<LoomView> = self.session.with_presenter(|presenter| {
            let ids: Vec<RecordId> = match named {
                Some(id) => vec![id],
                None => {
                    let lines = presenter.warp_lines();
                    let shown = lines.iter().filter(|line| {
                        matches!(line.state, WarpState::OnTheLoom | WarpState::Resting)
                            || (all && line.state == WarpState::OffTheLoom)
                    });
                    shown.filter_map(|line| line.id.parse().ok()).collect()
                }
            };
            ids.iter().filter_map(|id| presenter.loom(id, None)).collect()
        });
        let text = if views.is_empty() {
            "No warp is on the loom.".to_owned()
        } else {
            views.iter().map(|view| answer_text(view, why)).collect::<Vec<_>>().join("\n\n")
        };
        Ok(Output::done(text, json!({ "today": self.today(), "answers": views })))
    }

    /// Everything shown of a warp by id, the beginning of its id, or its name.
    pub(super) fn find_view(&mut self, named: &str) -> Result<LoomView, Failure> {
        let id = self.find_warp(named)?.warp.id;
        self.session
            .with_presenter(|presenter| presenter.loom(&id, None))
            .ok_or_else(|| Failure::not_found(format!("No warp is known here as \u{201c}{named}\u{201d}.")))
    }
}

fn answer_text(view: &LoomView, why: bool) -> String {
    let mut lines = vec![view.name.clone()];
    for (title, answer) in [
        ("Where am I", &view.progress),
        ("Will the warp reach", &view.warp_reach),
        ("Will the weft last", &view.weft_reach),
        ("When will it be done", &view.finish_date),
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
    lines.extend(view.cautions.iter().map(|caution| format!("  {} ({})", caution.sentence, caution.source)));
    lines.join("\n")
}
