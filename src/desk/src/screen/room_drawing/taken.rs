//! What was made of a drawing is taken: as a new bay, as the room of the one that is open, or as a picture under the plan.

use std::path::PathBuf;

use baywright_files::{free_beside, is_taken, write_output};
use baywright_planner::edit::Edit;
use baywright_planner::entry::first_layout;
use baywright_planner::geometry::DVec2;
use baywright_planner::model::{Id, Layout, UNDERLAY_FADED, Underlay};
use egui::Context;

use super::{TakenAs, picture_beside};
use crate::screen::page::Leaving;
use crate::screen::{Desk, waking};
use crate::session::drawn_in::Made;
use crate::session::drawn_in::picture::{NoPicture, under};
use crate::session::job::News;

/// The picture that was written, and what of the drawing it shows.
pub(super) struct Written {
    path: PathBuf,
    mm_per_px: f64,
    reach: (DVec2, DVec2),
}

impl Desk {
    /// Takes what is seen; asks first where the bay that is open would be lost, unless it is to be left `anyway`.
    pub(in crate::screen) fn take_drawing(&mut self, ctx: &Context, anyway: bool) {
        if !self.can_take(&self.room_drawing) {
            return;
        }
        match self.room_drawing.taken_as {
            TakenAs::NewBay => {
                if anyway || !self.asks_first(Leaving::Drawing) {
                    self.take_as_bay();
                }
            }
            // The bay waits while a car is being entered.
            _ if self.document.draft().is_some() => self.say_wrong(self.texts().finish_car),
            TakenAs::ThisRoom => self.take_as_room(),
            TakenAs::UnderPlan => self.draw_picture(ctx),
        }
    }

    fn take_as_bay(&mut self) {
        let Some(made) = self.room_drawing.made.clone() else { return };
        let Some(layout) = self.bay_with_car(&made) else { return };
        if self.show_new_bay(layout) {
            self.say_taken(&made);
        }
    }

    /// The bay with one set-up, in which the car that is shown stands.
    fn bay_with_car(&self, made: &Made) -> Option<Layout> {
        let shown = self.document.saved_arrangement()?;
        let car = &self.answer.arrangement.vehicle;
        let profile = self.document.cars().iter().find(|own| own.vehicle.id == shown.vehicle);
        let fingerprint = profile.map(|own| own.fingerprint.clone());
        let language = self.view.locale.language;
        let mut bay = made.bay.clone();
        if bay.name.trim().is_empty() {
            bay.name = language.rooms().my_bay.to_owned();
        }
        bay.id = Id::from(crate::screen::forms::car::file_name(&bay.name, language.rooms().my_bay).as_str());
        let name = language.imports().set_up.into();
        Some(first_layout(bay, name, car, fingerprint, shown.aiming.clone()))
    }

    fn take_as_room(&mut self) {
        let Some(made) = self.room_drawing.made.clone() else { return };
        let done = self.document.edit(&Self::as_this_room(&made));
        let is_done = done.is_ok();
        self.say_refused(done);
        if is_done {
            self.lay(None);
            self.view.camera = None;
            self.say_taken(&made);
        }
    }

    fn say_taken(&mut self, made: &Made) {
        let texts = self.view.locale.language.room_drawing();
        let things = made.bay.things.len() - made.drawn_from.min(made.bay.things.len());
        let lost: Vec<&str> = made.lost.iter().map(Id::as_str).collect();
        self.say(texts.taken(made.bay.walls.len(), things, &lost));
    }

    /// Draws the lines of the layers that are seen, and writes them beside the layout, under a name that is free.
    fn draw_picture(&mut self, ctx: &Context) {
        let Some(drawing) = self.room_drawing.drawing.clone() else { return };
        let Some(mm) = self.room_drawing.chosen.mm_per_unit(&drawing) else { return };
        let of = self.room_drawing.from.clone();
        let wanted = picture_beside(self.document.path(), &of);
        let hidden = self.room_drawing.hidden.clone();
        self.room_drawing.writing.start("picture of drawing", 1, &waking(ctx), move |_| {
            let made = under(&drawing, mm, &|layer| !hidden.contains(layer))?;
            let path = if is_taken(&wanted) { free_beside(&wanted) } else { wanted };
            write_output(&path, &made.bytes, &[of.as_path()]).map_err(NoPicture::Fault)?;
            Ok(Written { path, mm_per_px: made.mm_per_px, reach: made.reach })
        });
    }

    /// Lays it under the plan once it is written.
    pub(super) fn hear_picture_written(&mut self) {
        let texts = self.view.locale.language.room_drawing();
        let why = match self.room_drawing.writing.news().pop() {
            None => return,
            Some(News::Done(Ok(written)) | News::SoFar(Ok(written))) => {
                self.lay_under(&written);
                return;
            }
            Some(News::Done(Err(why)) | News::SoFar(Err(why))) => match why {
                NoPicture::Nothing => self.view.locale.language.imports().no_layers.to_owned(),
                NoPicture::TooFar => texts.too_far_apart.to_owned(),
                NoPicture::Fault(fault) => self.view.locale.language.file_fault(&fault),
                NoPicture::NotMade(words) => self.texts().failed_beside(&words),
            },
            Some(News::Failed(words)) => self.texts().failed_beside(&words),
        };
        self.say_wrong(why);
    }

    fn lay_under(&mut self, written: &Written) {
        if self.document.draft().is_some() {
            self.say_wrong(self.texts().finish_car);
            return;
        }
        let room = self.document.bay().room.bounds();
        let (low, high) = written.reach;
        // Where the drawing lies over the room it most likely lies right; else it begins where the room does.
        let is_over = low.cmplt(room.high).all() && high.cmpgt(room.low).all();
        let underlay = Underlay {
            picture: self.beside_layout(&written.path.display().to_string()),
            mm_per_px: written.mm_per_px,
            at: if is_over { low } else { room.low },
            turned_rad: 0.0,
            faded: UNDERLAY_FADED,
        };
        let done = self.document.edit(&Edit::Underlay(Some(underlay)));
        let is_done = done.is_ok();
        self.say_refused(done);
        if is_done {
            self.lay(None);
            let texts = self.view.locale.language.room_drawing();
            self.say(texts.picture_written(&written.path.display().to_string()));
        }
    }
}
