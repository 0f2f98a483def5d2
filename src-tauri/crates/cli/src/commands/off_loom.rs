//! Off the loom: cutting off, what was measured, the finishing steps, and what was learned from finished warps.

use fellmark_journal::RecordId;
use fellmark_model::finishing;
use fellmark_present::fill_forms::show_off_form;
use serde_json::json;

use super::{Runner, refused};
use crate::args::OffArgs;
use crate::output::{Failure, Output};

impl Runner {
    pub(super) fn cut_off(&mut self, warp: &str, figures: OffArgs) -> Result<Output, Failure> {
        let log = self.find_warp(warp)?;
        let mut form = show_off_form(&log.warp, &self.format());
        figures.over(&mut form);
        self.session.cut_off(&log.warp.id, &form, &[]).map_err(refused)?;
        Ok(Output::done("Noted: cut off.", json!({ "warp": log.warp.id })))
    }

    /// What was planned beside what it became, the finishing steps, and what was learned from all finished warps.
    pub(super) fn results(&mut self, warp: &str) -> Result<Output, Failure> {
        let view = self.find_view(warp)?;
        let off = &view.off;
        if off.line.is_empty() {
            return Ok(Output::done(format!("{} is not off the loom yet.", view.name), json!({ "results": off })));
        }
        let mut lines = vec![format!("{}: {}", view.name, off.line)];
        for step in &off.steps {
            let done = if step.done.is_empty() { "not done" } else { &step.done };
            lines.push(format!("  {}  {}: {done}", step.id, step.name));
        }
        for row in &off.planned_and_actual {
            let known = |text: &str| if text.is_empty() { "-".to_owned() } else { text.to_owned() };
            let difference = if row.difference.is_empty() { String::new() } else { format!(" ({})", row.difference) };
            lines.push(format!(
                "  {}: planned {}, came out {}{difference}",
                row.what,
                known(&row.planned),
                known(&row.actual)
            ));
        }
        lines.extend(
            off.learned.iter().map(|lesson| format!("  {}: {} ({})", lesson.what, lesson.sentence, lesson.behind)),
        );
        Ok(Output::done(lines.join("\n"), json!({ "results": off })))
    }

    pub(super) fn step(
        &mut self,
        warp: &str,
        step: &str,
        on: Option<&str>,
        change: StepChange,
    ) -> Result<Output, Failure> {
        let log = self.find_warp(warp)?;
        let warp = log.warp.id.clone();
        if let StepChange::Add = change {
            let id = self.session.add_step(&warp, step).map_err(refused)?;
            return Ok(Output::done("Added.", json!({ "step": id })));
        }
        let all = finishing::steps(&log);
        let named = all.iter().find(|one| one.id.as_str() == step || one.name.eq_ignore_ascii_case(step.trim()));
        let Some(found) = named else {
            let names: Vec<&str> = all.iter().map(|one| one.name.as_str()).collect();
            return Err(Failure::not_found(format!(
                "No step is called \u{201c}{step}\u{201d} here. There are: {}.",
                names.join(", ")
            )));
        };
        let id: RecordId = found.id.clone();
        match change {
            StepChange::Tick => self.session.tick_step(&warp, &id, Some(on.unwrap_or_default())),
            StepChange::Untick => self.session.tick_step(&warp, &id, None),
            StepChange::Remove => self.session.remove_step(&warp, &id),
            StepChange::Rename(name) => {
                let day = found.done_on.map(|day| day.to_string()).unwrap_or_default();
                self.session.change_step(&warp, &id, &name, &day)
            }
            StepChange::Add => Ok(()),
        }
        .map_err(refused)?;
        Ok(Output::done("Kept.", json!({ "step": id })))
    }
}

/// What is done to a step.
pub enum StepChange {
    /// Done on a day.
    Tick,
    /// Not done after all.
    Untick,
    /// Out of the list.
    Remove,
    /// Another name.
    Rename(String),
    /// A new one.
    Add,
}
