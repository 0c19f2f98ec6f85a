//! The picture of a plan under the drawing: read in a thread of its own, shown faded under the top view, scaled by two points
//! of known distance.

use std::path::{Path, PathBuf};

use baywright_drawing::Drawing;
use baywright_files::{FileFault, Picture, read_picture};
use baywright_planner::edit::Edit;
use baywright_planner::geometry::{DVec2, Polygon, angle};
use baywright_planner::model::Underlay;
use egui::epaint::{Mesh, Vertex};
use egui::{Color32, ColorImage, Context, Pos2, Rect, RichText, TextureHandle, TextureOptions, Ui, Vec2};

use super::canvas::PictureLies;
use super::command::{Command, OfBay, OfFile, OfView};
use super::forms::car::car_form::{Line, Of, part};
use super::forms::room::BaySheet;
use super::look::size;
use super::view::Tool;
use super::{Desk, waking, widgets};
use crate::session::job::{Job, News};

/// The picture on the screen, as long as the layout names the same one.
#[derive(Default)]
pub(super) struct Shown {
    of: Option<PathBuf>,
    reading: Job<Result<Picture, FileFault>>,
    texture: Option<TextureHandle>,
    /// Its size as its file has it, px.
    size: DVec2,
    fault: Option<String>,
}

impl std::fmt::Debug for Shown {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Shown").field("of", &self.of).field("size", &self.size).finish_non_exhaustive()
    }
}

/// A picture is turned into a texture once; a quarter of the bay wide to begin with, if nothing is known.
const FIRST_MM_PER_PX: f64 = 10.0;

impl Desk {
    /// Where the picture of the layout lies: beside the layout's own file, unless it says where.
    pub(super) fn picture_path(&self) -> Option<PathBuf> {
        let underlay = self.document.layout().underlay.as_ref()?;
        let folder = self.document.path().and_then(Path::parent).unwrap_or(Path::new(""));
        Some(folder.join(&underlay.picture))
    }

    /// Puts a picture under the plan: named from the layout's own folder, where it lies in it, so that both can go elsewhere
    /// together.
    pub(super) fn choose_picture(&mut self, path: &Path) {
        let before = self.document.layout().underlay.clone();
        let room = self.document.bay().room.clone();
        let picture = self.beside_layout(&path.display().to_string());
        self.edit(&Edit::Underlay(Some(first(&before, picture, &room))));
    }

    /// A path as the layout's file names it.
    pub(super) fn beside_layout(&self, path: &str) -> String {
        let folder = self.document.path().and_then(Path::parent);
        let folder = folder.and_then(|folder| std::path::absolute(folder).ok());
        let within = folder.and_then(|folder| Path::new(path).strip_prefix(folder).ok().map(Path::to_owned));
        within.map_or_else(|| path.to_owned(), |own| own.display().to_string())
    }

    /// Reads the picture when the layout names another one; a frame never waits for it.
    pub(super) fn follow_picture(&mut self, ctx: &Context) {
        let wanted = self.picture_path();
        if self.underlay.of != wanted {
            self.underlay = Shown { of: wanted.clone(), ..Shown::default() };
            if let Some(path) = wanted {
                self.underlay.reading.start("picture", 1, &waking(ctx), move |_| read_picture(&path));
            }
        }
        let Some(read) = self.underlay.reading.news().pop() else { return };
        match read {
            News::Done(Ok(picture)) | News::SoFar(Ok(picture)) => {
                let size = [picture.width as usize, picture.height as usize];
                let image = ColorImage::from_rgba_unmultiplied(size, &picture.rgba);
                self.underlay.size =
                    DVec2::new(f64::from(picture.original_width), f64::from(picture.original_height));
                self.underlay.texture = Some(ctx.load_texture("plan", image, TextureOptions::LINEAR));
            }
            News::Done(Err(fault)) | News::SoFar(Err(fault)) => {
                // Without its picture a plan looks as if it never had one.
                let sentence = self.view.locale.language.file_fault(&fault);
                self.underlay.fault = Some(sentence.clone());
                self.say_wrong(sentence);
            }
            News::Failed(words) => {
                let text = self.texts().failed_beside(&words);
                self.underlay.fault = Some(text.clone());
                self.say_wrong(text);
            }
        }
    }

    /// Two points of the picture were pressed: what is asked for now is the distance between them.
    pub(super) fn scale_point(&mut self, at: DVec2) {
        let Tool::ScalePicture { first } = self.view.tool else { return };
        let Some(lies) = self.picture_lies() else { return };
        let px = lies.underlay.bay_from_px(lies.size.y).px(at);
        match first {
            None => self.view.tool = Tool::ScalePicture { first: Some(px) },
            Some(first) => {
                self.view.tool = Tool::WhichSide;
                self.view.scale = Some([first, px]);
            }
        }
    }

    /// Where the picture lies, once it was read.
    pub(super) fn picture_lies(&self) -> Option<PictureLies> {
        let underlay = self.document.layout().underlay.clone()?;
        self.underlay.texture.as_ref()?;
        Some(PictureLies { underlay, size: self.underlay.size })
    }

    /// Scales the picture so that the two points are so far apart; the first of them stays where it is.
    pub(super) fn scale_picture(&mut self, distance: f64) {
        let (Some(px), Some(underlay)) = (self.view.scale, self.document.layout().underlay.clone()) else {
            return;
        };
        let stays = underlay.bay_from_px(self.underlay.size.y).bay(px[0]);
        match Underlay::scaled_by(px, distance) {
            Ok(mm_per_px) => {
                let mut scaled = Underlay { mm_per_px, ..underlay };
                let moved = scaled.bay_from_px(self.underlay.size.y).bay(px[0]);
                scaled.at += stays - moved;
                self.view.scale = None;
                self.edit(&Edit::Underlay(Some(scaled)));
            }
            Err(fault) => {
                self.say_wrong(self.view.locale.language.visits().scale_fault(fault, self.lengths()))
            }
        }
    }

    /// The edit that lays a picture under the plan, where the one before lay.
    pub(super) fn picture_under_plan(&self, picture: String) -> Edit {
        Edit::Underlay(Some(first(&self.document.layout().underlay, picture, &self.document.bay().room)))
    }

    /// The picture in the top view, faded.
    pub(super) fn picture_mesh(&self, drawing: &Drawing, rect: Rect) -> Option<Mesh> {
        let underlay = self.document.layout().underlay.as_ref()?;
        let texture = self.underlay.texture.as_ref()?;
        let map = underlay.bay_from_px(self.underlay.size.y);
        let top_from_bay = drawing.bay_from_view.inverse();
        let opacity = ((1.0 - underlay.faded.clamp(0.0, 1.0)) * 255.0) as u8;
        let colour = Color32::from_white_alpha(opacity);
        let size = self.underlay.size;
        let corners = [(0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0)];
        let mut mesh = Mesh::with_texture(texture.id());
        for (u, v) in corners {
            let at = drawing.paper_point(top_from_bay * map.bay(DVec2::new(u, v) * size));
            let pos = rect.min + Vec2::new(at.x as f32, at.y as f32);
            mesh.vertices.push(Vertex { pos, uv: Pos2::new(u as f32, v as f32), color: colour });
        }
        mesh.indices = vec![0, 1, 2, 0, 2, 3];
        Some(mesh)
    }
}

impl BaySheet<'_> {
    /// The fields of the picture under the plan.
    pub(super) fn picture(&mut self, ui: &mut Ui) {
        let desk = self.sheet.desk;
        let texts = desk.view().locale.language.rooms();
        part(ui, texts.picture, "picture", false, |ui| {
            let before = desk.document().layout().underlay.clone();
            let shown = before.as_ref().map_or_else(String::new, |own| own.picture.clone());
            let line = Line {
                label: texts.picture_file,
                hint: texts.picture_file_hint,
                path: "picture",
                ..Line::default()
            };
            let typed = self
                .sheet
                .typed(ui, line, &shown, |text| Ok::<String, String>(desk.beside_layout(text.trim())));
            let hand = desk.view().locale.language.hand();
            if !desk.files.is_open() && widgets::lesser(ui, hand.look_for_picture).clicked() {
                self.out.push(Command::File(OfFile::AskPicture));
            }
            let mut now = before.clone();
            if let Some(typed) = typed {
                now = (!typed.is_empty()).then(|| first(&before, typed, &self.bay.room));
            }
            if let Some(own) = &mut now {
                self.picture_rows(ui, own);
            }
            if let Some(fault) = &desk.underlay.fault {
                let colour = ui.visuals().error_fg_color;
                ui.add(egui::Label::new(RichText::new(fault).size(size::LEAST).color(colour)).wrap());
            }
            if desk.underlay.reading.is_running() {
                ui.label(widgets::soft(ui, texts.reading_picture));
            }
            if now != before {
                self.out.push(Command::Bay(OfBay::Edit(Edit::Underlay(now))));
            }
        });
    }

    fn picture_rows(&mut self, ui: &mut Ui, own: &mut Underlay) {
        let desk = self.sheet.desk;
        let texts = desk.view().locale.language.rooms();
        if desk.underlay.texture.is_some() {
            let moving = desk.view().tool == Tool::MovePicture;
            let button = egui::Button::new(texts.move_picture).selected(moving);
            if ui.add(button).on_hover_text(texts.move_picture_why).clicked() {
                let tool = if moving { Tool::WhichSide } else { Tool::MovePicture };
                self.out.push(Command::View(OfView::Tool(tool)));
            }
        }
        let scaling = matches!(desk.view().tool, Tool::ScalePicture { .. });
        let button = egui::Button::new(texts.scale_picture).selected(scaling);
        if ui.add(button).on_hover_text(texts.scale_picture_why).clicked() {
            let tool = if scaling { Tool::WhichSide } else { Tool::ScalePicture { first: None } };
            self.out.push(Command::View(OfView::Tool(tool)));
        }
        if desk.view().scale.is_some() {
            let line =
                Line { label: texts.apart, hint: texts.apart_hint, path: "picture apart", ..Line::default() };
            let none: Option<f64> = None;
            if let Some(Some(distance)) = self.sheet.number_or_none(ui, line, Of::Length, none) {
                self.out.push(Command::Bay(OfBay::ScalePicture(distance)));
            }
        }
        for (label, hint, path, of, value) in [
            (texts.mm_per_px, "", "picture scale", Of::Number(1.0), &mut own.mm_per_px),
            (texts.from_x, texts.picture_at_hint, "picture x", Of::Length, &mut own.at.x),
            (texts.from_y, texts.picture_at_hint, "picture y", Of::Length, &mut own.at.y),
            (texts.picture_turned, "", "picture turned", Of::Angle, &mut own.turned_rad),
            (texts.faded, texts.faded_hint, "picture faded", Of::Number(100.0), &mut own.faded),
        ] {
            let line = Line { label, hint, path, ..Line::default() };
            *value = self.sheet.number(ui, line, of, *value).unwrap_or(*value);
        }
        own.turned_rad = angle::wrapped(own.turned_rad);
    }
}

/// The same place for another picture, or the room's corner for a first one.
fn first(before: &Option<Underlay>, picture: String, room: &Polygon) -> Underlay {
    match before {
        Some(own) => Underlay { picture, ..own.clone() },
        None => Underlay {
            picture,
            mm_per_px: FIRST_MM_PER_PX,
            at: room.bounds().low,
            turned_rad: 0.0,
            faded: baywright_planner::model::UNDERLAY_FADED,
        },
    }
}
