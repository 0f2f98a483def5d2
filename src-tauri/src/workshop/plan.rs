//! A plan: reckon it as it is typed, copy an earlier one, begin its warp.

use fellmark_answers::plan;
use fellmark_answers::view::{Desk, EarlierPlan, PlanForm, PlanView, Trouble};

use super::{Workshop, today};

impl Workshop {
    /// Reckons a plan as far as it is typed.
    pub fn reckon_plan(&mut self, form: &PlanForm) -> Result<PlanView, Trouble> {
        let manner = self.manner();
        let open = self.opened()?;
        open.reckonings.bring_up(open.journal.state());
        Ok(plan::reckon_with(&open.reckonings.history(), form, &manner, today()))
    }

    /// The earlier warps a plan can be copied from.
    pub fn earlier_plans(&mut self) -> Result<Vec<EarlierPlan>, Trouble> {
        let manner = self.manner();
        let open = self.opened()?;
        Ok(plan::copies(open.journal.state(), &manner))
    }

    /// Begins the warp a plan has become, and shows it.
    pub fn begin_planned(&mut self, form: &PlanForm) -> Result<Desk, Trouble> {
        let warp = self.write(|pen| pen.begin_planned(form))?;
        self.show(warp.as_str())
    }
}
