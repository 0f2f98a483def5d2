//! A plan: calculate it as it is typed, save it, copy an earlier one, begin its warp. What is typed survives the end of the program.

use std::io::Write;

use chrono::NaiveDate;
use fellmark_journal::RecordId;
use fellmark_model::display_format::DisplayFormat;
use fellmark_model::plan::has_content;
use fellmark_present::plan;
use fellmark_present::view::{EarlierPlan, ErrorView, PlanForm, PlanView};
use fellmark_reports::report_cache::ReportCache;

use crate::typed_plan::TYPED;
use crate::{Session, record_id};

fn saved_plan(from: &str) -> Result<Option<RecordId>, ErrorView> {
    (!from.is_empty()).then(|| record_id(from)).transpose()
}

/// Calculates a plan as far as it is filled in, where there is no log: nothing is known from earlier warps.
#[must_use]
pub fn plan_without_log(form: &PlanForm, format: &DisplayFormat, today: NaiveDate) -> PlanView {
    plan::plan_view(&ReportCache::new().history(), form, format, today)
}

impl Session {
    /// Calculates a plan as far as it is filled in.
    pub fn calculate_plan(&mut self, form: &PlanForm) -> PlanView {
        let (format, today) = (self.format(), self.clock.today());
        self.reports.refresh(self.journal.state());
        plan::plan_view(&self.reports.history(), form, &format, today)
    }

    /// Calculates a plan while it is typed, and remembers it as it stands; `from` is the saved plan it came from, or empty.
    pub fn calculate_typed_plan(&mut self, form: &PlanForm, from: &str) -> PlanView {
        self.remember_plan(has_content(form).then(|| (form.clone(), from.to_owned())));
        self.calculate_plan(form)
    }

    /// Keeps what is typed in this device's own data: whole or not at all.
    fn remember_plan(&mut self, typed: Option<(PlanForm, String)>) {
        if self.typed_plan == typed || self.taps.is_none() {
            return;
        }
        let done = match &typed {
            Some(typed) => tempfile::NamedTempFile::new_in(&self.local).and_then(|mut file| {
                file.write_all(&serde_json::to_vec(typed)?)?;
                file.persist(self.local.join(TYPED))?;
                Ok(())
            }),
            None => std::fs::remove_file(self.local.join(TYPED)),
        };
        // Where this device's own disk is full the plan lives as long as the window; what matters is saved in the folder.
        let _ = done;
        self.typed_plan = typed;
    }

    /// Saves a plan that is not begun, over the saved plan it came from if it came from one; its record.
    ///
    /// # Errors
    /// The plan cannot be read, or nothing can be written.
    pub fn save_plan(&mut self, form: &PlanForm, from: &str) -> Result<RecordId, ErrorView> {
        let from = saved_plan(from)?;
        let record = self.run(|commands| commands.keep_plan(form, from.as_ref()))?;
        self.remember_plan(Some((form.clone(), record.to_string())));
        Ok(record)
    }

    /// The earlier warps a plan can be copied from.
    pub fn earlier_plans(&mut self) -> Vec<EarlierPlan> {
        let format = self.format();
        plan::earlier_plans(self.journal.state(), &mut self.reports, &format)
    }

    /// Begins the warp a plan has become; its id.
    ///
    /// # Errors
    /// The plan lacks a figure, or nothing can be written.
    pub fn begin_planned_warp(&mut self, form: &PlanForm, from: &str) -> Result<RecordId, ErrorView> {
        let from = saved_plan(from)?;
        let (format, today) = (self.format(), self.clock.today());
        self.reports.refresh(self.journal.state());
        let planned = plan::planned_warp(&self.reports.history(), form, &format, today)?;
        let warp = self.run(|commands| commands.begin_planned(&planned, from.as_ref()))?;
        self.remember_plan(None);
        Ok(warp)
    }
}
