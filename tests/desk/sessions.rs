//! A start of the program with a home of its own, its end, and what is done in it.

use std::path::PathBuf;

use baywright_desk::screen::Desk;
use baywright_desk::screen::command::Command;
use baywright_desk::screen::page::Page;
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;

use crate::support::{demo, usual};

pub fn home(name: &str) -> PathBuf {
    let home = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join(format!("own-{}-{name}", std::process::id()));
    let _ = std::fs::remove_dir_all(&home);
    std::fs::create_dir_all(&home).unwrap();
    home
}

/// The demo, as it opens for someone who has nothing yet, with a home of its own.
pub fn start(home: &std::path::Path) -> Harness<'static, Desk> {
    let mut desk = demo();
    desk.live_in(home.to_owned());
    desk.keep_everything();
    usual(desk)
}

/// The next start, once the session that died is seen to be dead: it offers what was left.
pub fn after_the_end(home: &std::path::Path) -> Harness<'static, Desk> {
    for _ in 0..100 {
        let screen = start(home);
        if matches!(screen.state().view().page(), Some(Page::LeftBehind)) {
            return screen;
        }
        std::thread::sleep(std::time::Duration::from_millis(20));
    }
    panic!("nothing is offered");
}

/// Once everything is on the disk and the session is dead, the next start offers nothing.
pub fn nothing_is_offered_after(mut screen: Harness<'static, Desk>, home: PathBuf) {
    screen.state_mut().wait_until_kept();
    drop(screen);
    std::thread::sleep(std::time::Duration::from_millis(200));
    assert!(start(&home).state().view().page().is_none());
    crate::support::clear(home);
}

pub fn press(screen: &mut Harness<'_, Desk>, label: &str) {
    screen.get_by_label(label).click();
    screen.run();
}

pub fn ask(screen: &mut Harness<'_, Desk>, command: Command) {
    let ctx = screen.ctx.clone();
    screen.state_mut().ask(&ctx, command);
    screen.run();
}

/// Renames the first line of the shop's list of work, which is not saved yet but kept against a crash.
pub fn change_list(screen: &mut Harness<'_, Desk>) {
    ask(screen, Command::BeginVisit);
    let Some(Page::Visit(page)) = screen.state_mut().view_mut().page_mut() else { panic!() };
    page.changing = true;
    page.list.triggers[0].title = "Roof box taken off".to_owned();
    screen.run();
    screen.state_mut().wait_until_kept();
}
