//! The window: opens it where it was last, keeps a fault in one frame from taking the work along, says in one sentence why
//! there is none.

use baywright_planner::words::command_line::CommandLine;
use eframe::{NativeOptions, Renderer};
use egui::{Pos2, Rect, Vec2, ViewportBuilder};

mod place;

use winit::dpi::{PhysicalPosition, PhysicalSize};

use crate::screen::{Desk, rescue::Rescue};
use crate::session::caught::caught;

/// The program's icon: a floor mark, a sight line, a target in a keep-clear area.
const ICON: &[u8] = include_bytes!("../icon.png");

/// Why there is no window.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum NoWindow {
    /// Neither X11 nor Wayland is there.
    NoDisplay,
    /// The system's part that draws is missing.
    NoGraphics,
    /// A library of the system is missing: its name, or the system's words.
    Missing(String),
    /// Something else: the system's words.
    Other(String),
}

/// What Debian installs for the window.
pub(crate) const INSTALL: &str = "apt-get install -y libx11-6 libx11-xcb1 libxcursor1 libxi6 libxrender1 libxkbcommon0 \
                                  libxkbcommon-x11-0 libgl1";

/// The window with its screen.
struct Window {
    desk: Desk,
    rescue: Rescue,
    /// As it was set last: asking for it in every frame would bring another frame.
    title: String,
}

impl eframe::App for Window {
    fn ui(&mut self, ui: &mut egui::Ui, _frame: &mut eframe::Frame) {
        self.rescue.frame(&mut self.desk, ui);
        let title = self.desk.title();
        if self.title != title {
            ui.ctx().send_viewport_cmd(egui::ViewportCommand::Title(title.clone()));
            self.title = title;
        }
    }

    fn clear_color(&self, visuals: &egui::Visuals) -> [f32; 4] {
        // The paper: the canvas need not fill its ground itself, which a software renderer would feel.
        visuals.faint_bg_color.to_normalized_gamma_f32()
    }

    fn persist_egui_memory(&self) -> bool {
        false
    }
}

/// Opens the window and runs until it is closed.
pub(crate) fn open(desk: Desk) -> Result<(), NoWindow> {
    let set = |name: &str| std::env::var_os(name).is_some_and(|value| !value.is_empty());
    let (x11, wayland) = (set("DISPLAY"), set("WAYLAND_DISPLAY") || set("WAYLAND_SOCKET"));
    if cfg!(target_os = "linux") && !x11 && !wayland {
        return Err(NoWindow::NoDisplay);
    }
    // Faults are told on the screen, or in the one sentence that there is no window; not as a trace on the terminal.
    std::panic::set_hook(Box::new(|_| {}));
    // The window's library takes Wayland where it is named and cannot turn to X11 afterwards.
    run(desk, x11 && !(wayland && wayland_answers()))
}

/// Whether somebody listens where the environment says that Wayland is.
#[cfg(target_os = "linux")]
fn wayland_answers() -> bool {
    if std::env::var_os("WAYLAND_SOCKET").is_some() {
        return true;
    }
    let Some(name) = std::env::var_os("WAYLAND_DISPLAY") else { return false };
    let folder = std::env::var_os("XDG_RUNTIME_DIR").map(std::path::PathBuf::from).unwrap_or_default();
    // An absolute name stays as it is.
    std::os::unix::net::UnixStream::connect(folder.join(name)).is_ok()
}

#[cfg(not(target_os = "linux"))]
const fn wayland_answers() -> bool {
    false
}

fn run(desk: Desk, only_x11: bool) -> Result<(), NoWindow> {
    // Without its icon the window is still a window.
    let icon = eframe::icon_data::from_png_bytes(ICON).unwrap_or_default();
    let mut options = NativeOptions {
        viewport: place::asked(
            desk.kept_window(),
            ViewportBuilder::default().with_title("Baywright").with_app_id("baywright").with_icon(icon),
        ),
        renderer: Renderer::Glow,
        // There are no gradients to smooth, and without a graphics card each px of noise is worked out by the processor.
        dithering: false,
        centered: false,
        persist_window: false,
        ..NativeOptions::default()
    };
    #[cfg(target_os = "linux")]
    if only_x11 {
        use winit::platform::x11::EventLoopBuilderExtX11;
        options.event_loop_builder = Some(Box::new(|builder| {
            builder.with_x11();
        }));
    }
    let _ = only_x11;
    let mut desk = desk;
    let opened = caught(|| {
        eframe::run_native(
            "Baywright",
            options,
            Box::new(move |made| {
                Desk::install(&made.egui_ctx);
                if let Some(window) = made.winit_window() {
                    put_on_screen(window);
                }
                desk.keep_everything();
                Ok(Box::new(Window { desk, rescue: Rescue::default(), title: String::new() }))
            }),
        )
    });
    match opened {
        Ok(Ok(())) => Ok(()),
        Ok(Err(error)) => Err(why(&error.to_string())),
        Err(words) => Err(why(&words)),
    }
}

/// Puts the window on a screen that is there now, no larger than that.
fn put_on_screen(window: &winit::window::Window) {
    // All in px of the machine: no scale of a screen and no size of letters plays a part.
    let rect = |at: [i32; 2], size: [u32; 2]| {
        let [x, y] = at.map(|own| own as f32);
        let [width, height] = size.map(|own| own as f32);
        Rect::from_min_size(Pos2::new(x, y), Vec2::new(width, height))
    };
    let first = window.primary_monitor();
    let others = window.available_monitors().filter(|own| Some(own) != first.as_ref());
    let screens: Vec<Rect> = first
        .iter()
        .cloned()
        .chain(others)
        .map(|own| rect(own.position().into(), own.size().into()))
        .collect();
    let (Ok(at), outer, inner) = (window.outer_position(), window.outer_size(), window.inner_size()) else {
        return;
    };
    let Some((size, at)) = place::fitted(rect(at.into(), outer.into()), &screens) else { return };
    let frame = [outer.width.saturating_sub(inner.width), outer.height.saturating_sub(inner.height)];
    let inner = size - Vec2::from(frame.map(|own| own as f32));
    let least = inner.min(place::LEAST * window.scale_factor() as f32);
    window.set_min_inner_size(Some(PhysicalSize::new(least.x, least.y)));
    // It may be taken at once; where it is not, the window is told as of any other change of its size.
    let _ = window.request_inner_size(PhysicalSize::new(inner.x, inner.y));
    window.set_outer_position(PhysicalPosition::new(at.x, at.y));
}

fn why(words: &str) -> NoWindow {
    let line = words.lines().next().unwrap_or_default();
    // Where in its own source a library met the fault helps nobody who reads this.
    let line = match line.split_once(".rs:") {
        Some((_, after)) => after.split_once(": ").map_or(after, |(_, words)| words),
        None => line,
    };
    let lower = line.to_lowercase();
    if lower.contains("glutin configs") {
        return NoWindow::NoGraphics;
    }
    let missing = ["xkbcommon", "libx", "xlib", "libgl", "libegl", "shared librar"];
    if missing.into_iter().any(|name| lower.contains(name)) {
        NoWindow::Missing(line.trim_end_matches('.').to_owned())
    } else {
        NoWindow::Other(line.to_owned())
    }
}

impl NoWindow {
    /// The same in words.
    pub(crate) fn said(&self, texts: &CommandLine) -> String {
        match self {
            Self::NoDisplay => texts.no_display.to_owned(),
            Self::NoGraphics => texts.part_missing(texts.no_graphics, INSTALL),
            Self::Missing(words) => texts.part_missing(words, INSTALL),
            Self::Other(words) => words.clone(),
        }
    }
}

#[cfg(test)]
mod tests {
    use baywright_planner::words::Language;

    use super::*;

    #[test]
    fn a_missing_library_is_named_with_the_line_that_installs_it() {
        let said =
            why("Library libxkbcommon-x11.so could not be loaded.").said(Language::English.command_line());
        assert!(said.contains("libxkbcommon-x11") && said.contains("apt-get install"), "{said}");
        let said = why("os error at a/b/mod.rs:788: Failed to load one of xlib's shared libraries")
            .said(Language::English.command_line());
        assert!(said.contains("Failed to load one of xlib's") && !said.contains("mod.rs"), "{said}");
        let said = why("Found no glutin configs matching the template: ConfigTemplate { .. }")
            .said(Language::English.command_line());
        assert!(said.contains("OpenGL could not be started; on Debian"), "{said}");
        assert_eq!(why("out of memory").said(Language::English.command_line()), "out of memory");
    }

    #[test]
    fn the_icon_is_whole() {
        let icon = eframe::icon_data::from_png_bytes(ICON).unwrap();
        assert_eq!((icon.width, icon.height), (256, 256));
    }
}
