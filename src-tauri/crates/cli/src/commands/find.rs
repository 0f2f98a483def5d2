//! What is meant by a name or by the beginning of an id.

use fellmark_journal::{Kind, RecordId};
use fellmark_model::display_text::display_text;
use fellmark_model::{self as model, WarpLog};

use super::Runner;
use crate::output::Failure;

impl Runner {
    /// A warp by id, the beginning of its id, or its name.
    pub(super) fn find_warp(&self, named: &str) -> Result<WarpLog, Failure> {
        let logs = model::warp_logs(self.session.state());
        // Names are known as they are shown.
        let named = &display_text(named.trim());
        let exact = logs.values().filter(|log| log.warp.id.as_str() == named);
        let by_name = || logs.values().filter(|log| log.warp.name == *named);
        let by_start =
            || logs.values().filter(|log| !named.is_empty() && log.warp.id.as_str().starts_with(named.as_str()));
        let found: Vec<&WarpLog> = [exact.collect::<Vec<_>>(), by_name().collect(), by_start().collect()]
            .into_iter()
            .find(|found| !found.is_empty())
            .unwrap_or_default();
        match found.as_slice() {
            [one] => Ok((*one).clone()),
            [] => Err(Failure::not_found(format!(
                "No warp is known here as \u{201c}{named}\u{201d}. `warps` lists them."
            ))),
            many => {
                let ids: Vec<String> = many.iter().map(|log| log.warp.id.to_string()).collect();
                Err(Failure::not_found(format!(
                    "\u{201c}{named}\u{201d} could be any of {}. Take an id.",
                    ids.join(", ")
                )))
            }
        }
    }

    /// A record by id or by the beginning of its id.
    pub(super) fn find_record(&self, named: &str) -> Result<RecordId, Failure> {
        let known: Vec<&RecordId> = self.session.state().records().map(|record| &record.id).collect();
        if let Some(id) = known.iter().find(|id| id.as_str() == named) {
            return Ok((*id).clone());
        }
        let mut found = known.into_iter().filter(|id| !named.is_empty() && id.as_str().starts_with(named));
        match (found.next(), found.next()) {
            (Some(id), None) => Ok(id.clone()),
            (None, _) => {
                Err(Failure::not_found(format!("Nothing is known here under the id \u{201c}{named}\u{201d}.")))
            }
            _ => Err(Failure::not_found(format!("Several ids begin with \u{201c}{named}\u{201d}. Give more of it."))),
        }
    }

    /// A sitting that is not removed, with the log it lies in.
    pub(super) fn find_sitting(&self, named: &str) -> Result<(WarpLog, usize), Failure> {
        let id = self.find_record(named)?;
        let state = self.session.state();
        let record = state.record(&id).filter(|record| record.kind == Kind::SITTING);
        let warp = record.and_then(|record| record.place.warp_id());
        let log = warp.and_then(|warp| model::warp_log(state, warp));
        let found = log.and_then(|log| {
            let index = log.sittings.iter().position(|sitting| sitting.id == id)?;
            Some((log, index))
        });
        found.ok_or_else(|| {
            Failure::not_found(format!("{id} is no sitting, or it was removed; `restore` brings it back."))
        })
    }

    /// A yarn of a warp by id, the beginning of its id, or its name.
    pub(super) fn find_yarn(&self, warp: &RecordId, named: &str) -> Result<RecordId, Failure> {
        let log = self.find_warp(warp.as_str())?;
        let exact = log.wefts.iter().find(|weft| weft.id.as_str() == named || weft.name.as_deref() == Some(named));
        if let Some(weft) = exact {
            return Ok(weft.id.clone());
        }
        let starts = |weft: &&fellmark_model::Weft| !named.is_empty() && weft.id.as_str().starts_with(named);
        let mut found = log.wefts.iter().filter(starts);
        match (found.next(), found.next()) {
            (Some(weft), None) => Ok(weft.id.clone()),
            _ => Err(Failure::not_found(format!(
                "No yarn of this warp is known as \u{201c}{named}\u{201d}. `yarns` lists them."
            ))),
        }
    }
}
