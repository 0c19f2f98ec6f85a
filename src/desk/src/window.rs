//! The window: opens it, keeps a fault in one frame from taking the work along, says in one sentence why there is none.

use std::any::Any;
use std::panic::{AssertUnwindSafe, catch_unwind};

use eframe::{NativeOptions, Renderer};
use egui::ViewportBuilder;

use crate::screen::{Desk, rescue::Rescue};

/// The program's icon: a floor mark, a sight line, a target in a keep-clear area.
const ICON: &[u8] = include_bytes!("../icon.png");

/// Why there is no window.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum NoWindow {
    /// Neither X11 nor Wayland is there.
    NoDisplay,
    /// A library of the system is missing: the line that installs it.
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
    let slot = std::rc::Rc::new(std::cell::RefCell::new(Some(desk)));
    let first = run(&slot, false);
    match first {
        // A Wayland display that is named and dead is not left for X11 by the library.
        Err(NoWindow::Other(_)) if cfg!(target_os = "linux") && x11 && wayland => run(&slot, true),
        first => first,
    }
}

fn run(slot: &std::rc::Rc<std::cell::RefCell<Option<Desk>>>, only_x11: bool) -> Result<(), NoWindow> {
    // Without its icon the window is still a window.
    let icon = eframe::icon_data::from_png_bytes(ICON).unwrap_or_default();
    let mut options = NativeOptions {
        viewport: ViewportBuilder::default()
            .with_title("Baywright")
            .with_app_id("baywright")
            .with_inner_size([1440.0, 900.0])
            .with_min_inner_size([800.0, 520.0])
            .with_icon(icon),
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
    let slot = std::rc::Rc::clone(slot);
    let opened = catch_unwind(AssertUnwindSafe(|| {
        eframe::run_native(
            "Baywright",
            options,
            Box::new(move |made| {
                Desk::install(&made.egui_ctx);
                let desk = slot.borrow_mut().take().ok_or("the screen was given away already")?;
                Ok(Box::new(Window { desk, rescue: Rescue::default(), title: String::new() }))
            }),
        )
    }));
    match opened {
        Ok(Ok(())) => Ok(()),
        Ok(Err(error)) => Err(why(&error.to_string())),
        Err(fault) => Err(why(&words_of(&*fault))),
    }
}

/// What a panic said.
pub(crate) fn words_of(fault: &(dyn Any + Send)) -> String {
    fault
        .downcast_ref::<&str>()
        .map(|text| (*text).to_owned())
        .or_else(|| fault.downcast_ref::<String>().cloned())
        .unwrap_or_else(|| "no words".to_owned())
}

fn why(words: &str) -> NoWindow {
    let lower = words.to_lowercase();
    let library = [
        "xkbcommon",
        "libx11",
        "libxcursor",
        "libxi",
        "libxrender",
        "libgl",
        "libegl",
        "glx",
        "egl",
        "wayland-client",
    ]
    .into_iter()
    .find(|name| lower.contains(name));
    match library {
        Some(_) => NoWindow::Missing(words.lines().next().unwrap_or_default().to_owned()),
        None => NoWindow::Other(words.lines().next().unwrap_or_default().to_owned()),
    }
}

impl std::fmt::Display for NoWindow {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::NoDisplay => f.write_str("there is no display"),
            Self::Missing(words) => {
                write!(f, "a library of the system is missing: {words}; on Debian: {INSTALL}")
            }
            Self::Other(words) => f.write_str(words),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_missing_library_is_named_with_the_line_that_installs_it() {
        let said = why("Library libxkbcommon-x11.so could not be loaded.").to_string();
        assert!(said.contains("libxkbcommon-x11") && said.contains("apt-get install"), "{said}");
        assert_eq!(why("out of memory").to_string(), "out of memory");
        let fault: Box<dyn Any + Send> = Box::new("words".to_owned());
        assert_eq!(words_of(&*fault), "words");
    }

    #[test]
    fn the_icon_is_whole() {
        let icon = eframe::icon_data::from_png_bytes(ICON).unwrap();
        assert_eq!((icon.width, icon.height), (256, 256));
    }
}
