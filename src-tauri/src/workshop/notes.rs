//! What she notes while weaving or beside it: her place, readings, weighings, yarns; and the drawing of a sequence.

use fellmark_answers::model::notes::Going;
use fellmark_answers::model::warp_log;
use fellmark_answers::present::draft;
use fellmark_answers::present::view::{
    AppView, DraftForm, DraftView, PlaceForm, Places, ReadingForm, UserError, YarnForm,
};
use fellmark_journal::RecordId;

use super::{Session, id, keys, now_ms};

/// The view after something was noted, and what came of it.
#[derive(serde::Serialize)]
pub struct SavedMeasurement {
    view: AppView,
    messages: Vec<String>,
}

impl Session {
    /// The sitting going on, if it is on this warp.
    fn going(&self, warp: &RecordId) -> Going {
        let (running, _) = self.open.as_ref()?.running.as_ref()?;
        (running.warp == *warp).then(|| (running.sitting.clone(), running.picks))
    }

    /// The places in a warp's sequence, and where she is.
    pub fn places(&self, warp: &str) -> Result<Option<Places>, UserError> {
        let warp = id(warp)?;
        let Some(open) = &self.open else { return Ok(None) };
        if let Some((running, under)) = open.running.as_ref().filter(|(running, _)| running.warp == warp) {
            return Ok(under.places(running.picks));
        }
        Ok(warp_log(open.journal.state(), &warp).and_then(|log| fellmark_answers::present::sequence::places(&log, 0)))
    }

    /// Says where in the sequence she is.
    pub fn set_place(&mut self, warp: &str, form: &PlaceForm) -> Result<AppView, UserError> {
        let warp = id(warp)?;
        let going = self.going(&warp);
        self.write(|pen| pen.say_place(&warp, form, &going))?;
        Ok(self.view())
    }

    /// Notes a reading, weighings and a yarn taken up.
    pub fn add_measurement(&mut self, warp: &str, form: &ReadingForm) -> Result<SavedMeasurement, UserError> {
        let warp = id(warp)?;
        let going = self.going(&warp);
        let noted = self.write(|pen| pen.note(&warp, form, &going))?;
        let format = self.format();
        let mut messages =
            fellmark_answers::present::notes::noted_sentences(self.opened()?.journal.state(), &noted, &going, &format);
        if form.mark_set
            && let Some((running, under)) = self.open.as_ref().and_then(|open| open.running.as_ref())
        {
            messages.extend(under.at_an_advance(running, now_ms()));
        }
        Ok(SavedMeasurement { view: self.view(), messages })
    }

    /// Adds a weft yarn.
    pub fn add_yarn(&mut self, warp: &str, form: &YarnForm) -> Result<AppView, UserError> {
        let warp = id(warp)?;
        self.write(|pen| pen.add_yarn(&warp, form))?;
        Ok(self.view())
    }

    /// Changes a weft yarn.
    pub fn change_yarn(&mut self, yarn: &str, form: &YarnForm, seen: &[String]) -> Result<AppView, UserError> {
        let yarn = id(yarn)?;
        self.write(|pen| pen.change_yarn(&yarn, form, &keys(seen)))?;
        Ok(self.view())
    }

    /// Sets after how many minutes a stretch is suggested.
    pub fn set_stretch(&mut self, minutes: &str) -> Result<AppView, UserError> {
        self.write(|pen| pen.set_stretch(minutes))?;
        Ok(self.view())
    }

    /// Reads and draws a sequence while it is written.
    pub fn draw_sequence(&self, form: &DraftForm) -> DraftView {
        draft::draw(form, &self.format())
    }
}
