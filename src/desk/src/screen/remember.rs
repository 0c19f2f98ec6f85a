//! The next start begins where this one was: with the bay, the car and the set-up in hand, shown in the same way.

use std::ffi::OsStr;
use std::path::Path;

use baywright_drawing::Theme;
use baywright_drawing::sheet::{Paper, Size};
use baywright_files::{
    EMBEDDED_LAYOUTS, FileFault, KeptLanguage, KeptLook, KeptPaper, KeptUnits, KeptWindow, LastOpen,
    Remembered, remember, whole_path,
};
use baywright_planner::words::{Language, Units};
use egui::{Context, Response, Ui};

use super::command::{Command, OfFile};
use super::page::Page;
use super::view::Letters;
use super::{Desk, waking, widgets};

impl Desk {
    /// Before the first frame: what earlier starts left, whether they left nothing, and what of it could not be read.
    pub fn begin_with(&mut self, remembered: Remembered, is_new: bool, why_not: &[FileFault]) {
        if let Some(language) = remembered.language {
            self.speak(match language {
                KeptLanguage::English => Language::English,
                KeptLanguage::German => Language::German,
            });
        }
        if let Some(units) = remembered.units {
            self.view.locale.units = match units {
                KeptUnits::Millimetres => Units::Millimetres,
                KeptUnits::Metres => Units::Metres,
                KeptUnits::FeetInches => Units::FeetInches,
            };
        }
        (self.view.theme, self.view.as_system) = match remembered.look {
            Some(KeptLook::Dark) => (Theme::Dark, false),
            Some(KeptLook::AsSystem) => (Theme::Light, true),
            Some(KeptLook::Light) | None => (Theme::Light, false),
        };
        self.view.letters = remembered.letters_percent.map_or(Letters::default(), Letters::of_percent);
        self.view.to_room = remembered.paper == Some(KeptPaper::AsRoom);
        if let Some(size) = remembered.printed_on.as_deref().and_then(Size::of_name) {
            let is_landscape = remembered.printed_level == Some(true);
            self.on_paper.begin_on(Paper { size, is_landscape });
        }
        self.window = remembered.window;
        self.remembered = remembered;
        if is_new {
            self.lay(Some(Page::Welcome));
        }
        // The first is at the foot of the screen, all are in the log.
        for sentence in self.sentences(why_not).into_iter().rev() {
            self.say_wrong(sentence);
        }
    }

    /// The program ends in order.
    pub(super) fn end(&mut self) {
        self.end_record();
        self.write_down(true);
        self.keeper.close();
    }

    /// Remembers which layout is open, which arrangement of it is shown and how, once that is another than before. A bay that
    /// was never saved can be opened nowhere: what was remembered before stays.
    pub(super) fn remember(&mut self) {
        self.write_down(false);
    }

    /// `at_end` says that the window's place is a reason to write, too: it changes with every move of the hand.
    fn write_down(&mut self, at_end: bool) {
        // Without a window of its own nothing is written into the user's folders.
        if !self.keeper.is_on() {
            return;
        }
        let is_file = self.document.path().is_some();
        let mut now = self.remembered.clone();
        if let Some(open) = self.open_now().filter(|open| now.last.as_ref() != Some(open)) {
            now.opened(open, is_file);
        }
        self.how_shown(&mut now);
        if !at_end {
            now.window = self.remembered.window;
        }
        if now == self.remembered {
            return;
        }
        let Some(folder) = self.data_folder() else { return };
        let opened = now.last.clone().filter(|last| self.remembered.last.as_ref() != Some(last));
        let written = remember(&folder, |own| {
            // What another window opened meanwhile is not lost.
            if let Some(opened) = opened {
                own.opened(opened, is_file);
            }
            self.how_shown(own);
        });
        self.remembered = written.unwrap_or_else(|fault| {
            // No work is lost by it: it is in the log only, and not tried again in every frame.
            self.log.push(&self.view.locale.language.file_fault(&fault));
            now
        });
    }

    fn open_now(&self) -> Option<LastOpen> {
        let arrangement = self.document.shown().to_string();
        let layout = match self.document.path() {
            Some(path) => whole_path(path)?,
            None => {
                let name = self.document.layout().bay.id.as_str();
                let is_built_in =
                    !self.document.is_changed() && EMBEDDED_LAYOUTS.iter().any(|own| own.name == name);
                is_built_in.then(|| name.to_owned())?
            }
        };
        Some(LastOpen { layout, arrangement })
    }

    fn how_shown(&self, own: &mut Remembered) {
        own.language = match self.view.locale.language {
            Language::English => Some(KeptLanguage::English),
            Language::German => Some(KeptLanguage::German),
            Language::Bracketed => None,
        };
        own.units = Some(match self.view.locale.units {
            Units::Millimetres => KeptUnits::Millimetres,
            Units::Metres => KeptUnits::Metres,
            Units::FeetInches => KeptUnits::FeetInches,
        });
        own.look = Some(match (self.view.as_system, self.view.theme) {
            (true, _) => KeptLook::AsSystem,
            // The window is never shown as what is printed.
            (false, Theme::Light | Theme::Print) => KeptLook::Light,
            (false, Theme::Dark) => KeptLook::Dark,
        });
        own.letters_percent = Some(self.view.letters.percent());
        own.paper = Some(if self.view.to_room { KeptPaper::AsRoom } else { KeptPaper::ToCar });
        let paper = self.on_paper.paper_chosen();
        own.printed_on = paper.map(|own| own.size.name().to_owned());
        own.printed_level = paper.map(|own| own.is_landscape);
        own.window = self.window;
    }

    /// Takes down the window's size and place, in points of the screen, whatever the letters' size.
    pub(super) fn follow_window(&mut self, ctx: &Context) {
        let zoom = ctx.zoom_factor();
        let told = ctx.input(|i| {
            let own = i.viewport();
            let is = |told: Option<bool>| told == Some(true);
            (is(own.minimized), is(own.maximized), is(own.fullscreen), own.inner_rect, own.outer_rect)
        });
        let (minimized, maximized, fullscreen, Some(inner), outer) = told else { return };
        if minimized || fullscreen {
            return;
        }
        // What fills a screen is no size to come back to.
        if maximized && let Some(window) = &mut self.window {
            window.maximized = true;
            return;
        }
        let rounded = |x: f32, y: f32| ((x * zoom).round(), (y * zoom).round());
        self.window = Some(KeptWindow {
            at: outer.map(|outer| rounded(outer.min.x, outer.min.y)),
            size: rounded(inner.width(), inner.height()),
            maximized,
        });
    }

    /// The files that were opened last, each with a press that opens it. Where two have one name, their folders tell them apart.
    pub(super) fn recent(
        &self,
        ui: &mut Ui,
        out: &mut Vec<Command>,
        row: impl Fn(&mut Ui, &str, bool) -> Response,
    ) {
        let texts = self.texts();
        let recent = &self.remembered.recent;
        if recent.is_empty() {
            return;
        }
        let part =
            |part: Option<&OsStr>| part.map(|own| own.to_string_lossy().into_owned()).unwrap_or_default();
        let name = |path: &str| part(Path::new(path).file_stem());
        // However it was named when it was opened.
        let open = self.document.path().and_then(whole_path);
        ui.label(widgets::soft(ui, texts.recent));
        for path in recent {
            let own = name(path);
            let is_alone = recent.iter().filter(|other| name(other) == own).count() == 1;
            let folder = Path::new(path).parent().and_then(Path::file_name);
            let shown = if is_alone { own } else { texts.with(&own, &part(folder)) };
            let chosen = open.as_ref() == Some(path);
            let path = Path::new(path);
            let row = row(ui, &shown, chosen).on_hover_text(path.display().to_string());
            if row.clicked() && !chosen {
                out.push(Command::File(OfFile::Open(path.to_owned())));
            }
        }
        ui.separator();
    }

    /// How the window is to be opened.
    pub(crate) const fn kept_window(&self) -> Option<KeptWindow> {
        self.window
    }

    /// Light or dark as the system is; `None` if it does not say.
    pub(super) fn system_look(&mut self, ctx: &Context) -> Option<Theme> {
        let of = |dark: bool| if dark { Theme::Dark } else { Theme::Light };
        if let Some(told) = ctx.input(|i| i.raw.system_theme) {
            return Some(of(told == egui::Theme::Dark));
        }
        let came_back =
            ctx.input(|i| i.events.iter().any(|event| matches!(event, egui::Event::WindowFocused(true))));
        self.system_look.is_dark(came_back, &waking(ctx)).map(of)
    }
}
