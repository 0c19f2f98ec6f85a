//! A drawing of another program, over the whole window: what each of its layers becomes, and what comes of it, to scale, before anything
//! is taken.
//!
//! The drawing is read, and what comes of it worked out, beside the frame, whenever what it is made from is another. What is chosen is
//! there again as long as the window is open.

mod choices;
mod preview;
mod taken;

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use baywright_files::{DxfDrawing, FileFault, read_dxf};
use baywright_planner::edit::Edit;
use baywright_planner::geometry::DVec2;
use baywright_planner::words::{Lengths, Locale};
use egui::{ColorImage, Context, Rect, ScrollArea, TextureHandle, TextureOptions, Ui, UiBuilder};

use super::command::Command;
use super::page::Page;
use super::{Desk, in_sight, look, waking};
use crate::session::drawn_in::picture::{Lies, NoPicture, Sized, shown};
use crate::session::drawn_in::{Chosen, Made, Present, made, several_outlines, suggested};
use crate::session::job::{Job, News};
use taken::Written;

/// The strip with what is chosen, px, and what stays at its foot.
const CHOICES_PX: f32 = 340.0;
const EDGE_PX: f32 = 16.0;
const FOOT_PX: f32 = 40.0;
/// Beside what scrolls, px.
const BAR_PX: f32 = 10.0;

/// What a drawing is taken as.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
enum TakenAs {
    #[default]
    NewBay,
    ThisRoom,
    UnderPlan,
}

/// The page, as long as the window is open.
#[derive(Default)]
pub(super) struct DrawingPage {
    /// The path of a drawing, as it is being typed.
    path: String,
    /// Where the drawing lies that was read.
    from: PathBuf,
    reading: Job<Result<(DxfDrawing, Chosen), FileFault>>,
    drawing: Option<Arc<DxfDrawing>>,
    /// Which drawing that is: one that is read again is another.
    number: u64,
    taken_as: TakenAs,
    chosen: Chosen,
    /// Layers that are not drawn in a picture.
    hidden: BTreeSet<String>,
    /// The wall whose length is known.
    wall: Option<usize>,
    /// The layer of the room that has several outlines, and the sizes of these, in the drawing's own units.
    outlines: Option<(String, Vec<DVec2>)>,
    /// On so many dots it is shown.
    sized: Option<Sized>,
    /// What is being worked out, or was, is made from this.
    of: Option<MadeFrom>,
    working: Job<Came>,
    made: Option<Made>,
    seen: Option<(TextureHandle, Lies)>,
    writing: Job<Result<Written, NoPicture>>,
    /// Why nothing can be read, or made of it.
    fault: Option<String>,
}

impl std::fmt::Debug for DrawingPage {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("DrawingPage").field("path", &self.path).field("of", &self.of).finish_non_exhaustive()
    }
}

/// Everything that what comes of a drawing is made from.
#[derive(Clone, Debug, PartialEq)]
struct MadeFrom {
    number: u64,
    taken_as: TakenAs,
    chosen: Chosen,
    hidden: BTreeSet<String>,
    /// Of the bay that is open, where it is its room.
    generation: Option<u64>,
    locale: Locale,
    sized: Sized,
}

/// What came of it.
struct Came {
    made: Result<Option<Made>, FileFault>,
    seen: Option<(ColorImage, Lies)>,
}

impl Desk {
    /// Whether the page lies over the screen.
    pub(super) const fn is_drawing_in(&self) -> bool {
        matches!(self.view.page(), Some(Page::RoomDrawing))
    }

    /// Reads a drawing, and lays the page that shows it.
    pub(super) fn read_drawing(&mut self, ctx: &Context, path: &Path) {
        self.lay(Some(Page::RoomDrawing));
        let path = self.in_folder(path);
        let page = &mut self.room_drawing;
        page.path = path.display().to_string();
        page.from = path.clone();
        (page.drawing, page.made, page.seen, page.of, page.fault) = (None, None, None, None, None);
        page.working.stop();
        page.reading.start("read drawing", 1, &waking(ctx), move |_| {
            let drawing = read_dxf(&path)?;
            let chosen = suggested(&drawing);
            Ok((drawing, chosen))
        });
    }

    /// Whether nothing is read or worked out any more.
    pub fn is_drawing_settled(&self) -> bool {
        let page = &self.room_drawing;
        let is_running = page.reading.is_running() || page.working.is_running() || page.writing.is_running();
        !is_running && (page.drawing.is_none() || self.drawing_wanted(page) == page.of)
    }

    /// Hears what was read, written and worked out.
    pub(super) fn hear_drawing(&mut self, ctx: &Context) {
        match self.room_drawing.reading.news().pop() {
            Some(News::Done(Ok((drawing, chosen))) | News::SoFar(Ok((drawing, chosen)))) => {
                let page = &mut self.room_drawing;
                page.number += 1;
                (page.drawing, page.chosen, page.wall, page.outlines) =
                    (Some(Arc::new(drawing)), chosen, None, None);
                page.hidden = BTreeSet::new();
            }
            Some(News::Done(Err(fault)) | News::SoFar(Err(fault))) => self.say_no_drawing(&fault),
            Some(News::Failed(words)) => self.room_drawing.fault = Some(self.texts().failed_beside(&words)),
            None => {}
        }
        self.hear_picture_written();
        if self.is_drawing_in() {
            self.follow_drawing(ctx);
        }
    }

    fn say_no_drawing(&mut self, fault: &FileFault) {
        let said = self.view.locale.language.file_fault(fault);
        self.log.push(&said);
        self.room_drawing.fault = Some(said);
    }

    /// What is to be worked out; `None` as long as it is not known on how many dots it is shown.
    fn drawing_wanted(&self, page: &DrawingPage) -> Option<MadeFrom> {
        Some(MadeFrom {
            number: page.number,
            taken_as: page.taken_as,
            chosen: page.chosen.clone(),
            hidden: page.hidden.clone(),
            generation: (page.taken_as == TakenAs::ThisRoom).then_some(self.answer.generation),
            locale: self.view.locale,
            sized: page.sized?,
        })
    }

    /// Has it worked out anew when it is made from something else.
    fn follow_drawing(&mut self, ctx: &Context) {
        let wanted = self.drawing_wanted(&self.room_drawing);
        if let (Some(drawing), Some(from)) = (self.room_drawing.drawing.clone(), wanted)
            && self.room_drawing.of.as_ref() != Some(&from)
        {
            let present = (from.taken_as == TakenAs::ThisRoom).then(|| self.present());
            self.room_drawing.of = Some(from.clone());
            let name = self.drawing_name();
            self.room_drawing.working.start("drawing", 1, &waking(ctx), move |tell| {
                came_of(&drawing, &from, present.as_ref(), &name, || tell.is_stopped())
            });
        }
        match self.room_drawing.working.news().pop() {
            Some(News::Done(came) | News::SoFar(came)) => self.take_came(ctx, came),
            Some(News::Failed(words)) => {
                (self.room_drawing.made, self.room_drawing.seen) = (None, None);
                self.room_drawing.fault = Some(self.texts().failed_beside(&words));
            }
            None => {}
        }
    }

    fn take_came(&mut self, ctx: &Context, came: Came) {
        self.room_drawing.fault = None;
        self.room_drawing.seen = came
            .seen
            .map(|(image, lies)| (ctx.load_texture("room drawing", image, TextureOptions::LINEAR), lies));
        self.room_drawing.made = None;
        match came.made {
            Ok(made) => self.room_drawing.made = made,
            Err(fault) => {
                let page = &mut self.room_drawing;
                let mm = page.drawing.as_ref().and_then(|own| page.chosen.mm_per_unit(own));
                if let (Some(sizes), Some(mm)) = (several_outlines(&fault), mm) {
                    let room = page.chosen.room().unwrap_or_default();
                    page.outlines = Some((room, sizes.into_iter().map(|own| own / mm).collect()));
                }
                self.say_no_drawing(&fault);
            }
        }
        let walls = self.room_drawing.made.as_ref().map_or(0, |own| own.bay.walls.len());
        self.room_drawing.wall = self.room_drawing.wall.filter(|own| *own < walls);
    }

    /// The bay that is open, and the names that are taken in its set-ups.
    fn present(&self) -> Present {
        let arrangements = self.document.layout().arrangements.iter();
        let taken = arrangements.flat_map(|own| &own.added).map(|own| own.id.to_string()).collect();
        Present { bay: self.document.bay().into_owned(), taken }
    }

    /// What is made of the drawing is called as its file.
    fn drawing_name(&self) -> String {
        self.room_drawing.from.file_stem().map_or_else(String::new, |own| own.to_string_lossy().into_owned())
    }

    /// The whole window.
    pub(super) fn room_drawing_page(&mut self, ui: &mut Ui, out: &mut Vec<Command>) {
        let palette = self.view.theme.palette();
        let ground = egui::Frame::new().fill(look::colour(palette.sheet));
        egui::CentralPanel::default().frame(ground).show(ui, |ui| {
            let all = ui.max_rect();
            let split = all.left() + CHOICES_PX.min(all.width() * 0.45);
            let strip = Rect::from_min_max(all.min, egui::pos2(split, all.bottom())).shrink(EDGE_PX);
            let (choices, foot) = strip.split_top_bottom_at_y(strip.bottom() - FOOT_PX);
            let seen = Rect::from_min_max(egui::pos2(split, all.top()), all.max);
            let mut page = std::mem::take(&mut self.room_drawing);
            // Taken out while the page is drawn, as for every form.
            let mut fields = std::mem::take(&mut self.fields);
            ui.scope_builder(UiBuilder::new().max_rect(choices), |ui| {
                ScrollArea::vertical().id_salt("what of a drawing").auto_shrink([false, false]).show(
                    ui,
                    |ui| {
                        // The bar that scrolls lies over nothing.
                        ui.set_max_width(ui.available_width() - BAR_PX);
                        self.drawing_choices(ui, &mut page, &mut fields, out);
                        in_sight::follow(ui);
                    },
                );
            });
            ui.scope_builder(UiBuilder::new().max_rect(foot), |ui| self.drawing_foot(ui, &page, out));
            ui.painter().rect_filled(seen, 0.0, look::colour(palette.panel));
            ui.scope_builder(UiBuilder::new().max_rect(seen.shrink(EDGE_PX)), |ui| {
                self.drawing_preview(ui, &mut page);
            });
            self.fields = fields;
            self.room_drawing = page;
        });
    }

    /// Whether what is seen is what would be taken.
    fn can_take(&self, page: &DrawingPage) -> bool {
        let is_settled =
            !page.working.is_running() && !page.reading.is_running() && !page.writing.is_running();
        let is_there = match page.taken_as {
            TakenAs::NewBay | TakenAs::ThisRoom => page.made.is_some(),
            TakenAs::UnderPlan => page.seen.is_some() && page.fault.is_none(),
        };
        is_settled && is_there && self.drawing_wanted(page) == page.of
    }

    /// The one edit by which the room of the bay that is open becomes the drawing's.
    fn as_this_room(made: &Made) -> Edit {
        Edit::Bay { bay: Box::new(made.bay.clone()), renamed: None }
    }
}

/// Works out what comes of a drawing, and how it looks.
fn came_of(
    drawing: &DxfDrawing,
    from: &MadeFrom,
    present: Option<&Present>,
    name: &str,
    is_stopped: impl Fn() -> bool,
) -> Came {
    let (language, lengths) = (from.locale.language, Lengths::Shown(from.locale));
    let is_room = from.taken_as != TakenAs::UnderPlan;
    let made = if is_room {
        made(drawing, &from.chosen, present, language, lengths, name)
    } else {
        drawing.unit_or(from.chosen.unit).map(|_| None)
    };
    let of_made = made.as_ref().ok().and_then(Option::as_ref);
    let is_seen = |layer: &str| is_room || !from.hidden.contains(layer);
    let mm = from.chosen.mm_per_unit(drawing).unwrap_or(1.0);
    if is_stopped() {
        return Came { made: Ok(None), seen: None };
    }
    match shown(drawing, mm, of_made, &is_seen, from.sized) {
        Ok(seen) => Came {
            seen: seen.map(|own| {
                let size = [own.picture.width() as usize, own.picture.height() as usize];
                (ColorImage::from_rgba_premultiplied(size, own.picture.data()), own.lies)
            }),
            made,
        },
        Err(fault) => Came { made: Err(fault), seen: None },
    }
}

/// Beside which file the picture of a drawing is kept: the layout's, or where there is none the drawing itself.
fn picture_beside(layout: Option<&Path>, drawing: &Path) -> PathBuf {
    let folder = layout.and_then(Path::parent).or(drawing.parent()).unwrap_or(Path::new(""));
    let name = drawing.file_stem().unwrap_or_default().to_string_lossy();
    folder.join(format!("{name}.png"))
}
