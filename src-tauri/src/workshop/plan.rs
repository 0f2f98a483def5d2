//! A plan: reckon it as it is typed, keep it, copy an earlier one, begin its warp. What is typed survives the end of the program.

use std::io::Write;
use std::path::Path;

use fellmark_answers::model::plan::has_content;
use fellmark_answers::present::plan;
use fellmark_answers::present::view::{AppView, EarlierPlan, PlanForm, PlanView, UserError};
use fellmark_journal::RecordId;

use super::{Session, id, today};

/// In this device's own data for a folder: the plan as it was typed last.
const TYPED: &str = "plan.json";

/// The plan that was typed last, if one was; one that cannot be read is none.
pub(super) fn typed_plan(local: &Path) -> Option<(PlanForm, String)> {
    std::fs::read(local.join(TYPED)).ok().and_then(|bytes| serde_json::from_slice(&bytes).ok())
}

fn kept(from: &str) -> Result<Option<RecordId>, UserError> {
    (!from.is_empty()).then(|| id(from)).transpose()
}

impl Session {
    /// Reckons a plan as far as it is typed, and remembers it as it stands.
    pub fn calculate_plan(&mut self, form: &PlanForm, from: &str) -> Result<PlanView, UserError> {
        self.remember_plan(has_content(form).then(|| (form.clone(), from.to_owned())))?;
        let format = self.format();
        let open = self.opened()?;
        open.reckonings.bring_up(open.journal.state());
        Ok(plan::plan_view(&open.reckonings.history(), form, &format, today()))
    }

    /// Keeps what is typed beside the folder's own data: whole or not at all.
    fn remember_plan(&mut self, typed: Option<(PlanForm, String)>) -> Result<(), UserError> {
        let data = self.data.join("journals");
        let open = self.opened()?;
        if open.typed == typed || open.journal.status().read_only {
            return Ok(());
        }
        let directory = data.join(&open.local);
        let done = match &typed {
            Some(typed) => tempfile::NamedTempFile::new_in(&directory).and_then(|mut file| {
                file.write_all(&serde_json::to_vec(typed)?)?;
                file.persist(directory.join(TYPED))?;
                Ok(())
            }),
            None => std::fs::remove_file(directory.join(TYPED)),
        };
        // Where this device's own disk is full the plan lives as long as the window; what matters is kept in the folder.
        let _ = done;
        open.typed = typed;
        Ok(())
    }

    /// Keeps a plan that is not begun; its record, and the view.
    pub fn save_plan(&mut self, form: &PlanForm, from: &str) -> Result<(AppView, String), UserError> {
        let from = kept(from)?;
        let record = self.write(|pen| pen.keep_plan(form, from.as_ref()))?;
        self.remember_plan(Some((form.clone(), record.to_string())))?;
        Ok((self.view(), record.to_string()))
    }

    /// The earlier warps a plan can be copied from.
    pub fn earlier_plans(&mut self) -> Result<Vec<EarlierPlan>, UserError> {
        let format = self.format();
        let open = self.opened()?;
        Ok(plan::earlier_plans(open.journal.state(), &mut open.reckonings, &format))
    }

    /// Begins the warp a plan has become, and shows it.
    pub fn begin_planned_warp(&mut self, form: &PlanForm, from: &str) -> Result<AppView, UserError> {
        let from = kept(from)?;
        let format = self.format();
        let open = self.opened()?;
        open.reckonings.bring_up(open.journal.state());
        let planned = plan::planned_warp(&open.reckonings.history(), form, &format, today())?;
        let warp = self.write(|commands| commands.begin_planned(&planned, from.as_ref()))?;
        self.remember_plan(None)?;
        self.show(warp.as_str())
    }
}
