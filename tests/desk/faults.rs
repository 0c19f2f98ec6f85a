//! A fault of the program does not take the work along.

use std::path::Path;

use baywright_desk::screen::Desk;
use baywright_desk::screen::command::{Command, OfBay};
use baywright_desk::screen::rescue::Rescue;
use baywright_desk::session::document::Document;
use baywright_planner::edit::Edit;
use baywright_planner::geometry::{DVec2, PlanPose};
use baywright_planner::model::Arrangement;
use baywright_planner::{Assessment, Verdict};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;

use crate::support::{demo, today, usual};

fn fragile(arrangement: &Arrangement) -> Assessment {
    assert!(arrangement.parked.origin().x < 5_000.0, "a fault planted for this test");
    baywright_planner::assess(arrangement)
}

#[test]
fn an_answer_that_fails_stays_and_is_marked_as_older() {
    let document = Document::open(Path::new("crowded-bay"), today()).unwrap();
    let mut screen = usual(Desk::with(document, fragile).unwrap());
    let park = |x: f64| Command::Bay(OfBay::Edit(Edit::Park(PlanPose::new(DVec2::new(x, 3_000.0), 0.0))));
    let ctx = screen.ctx.clone();
    screen.state_mut().ask(&ctx, park(6_000.0));
    screen.run();
    screen.get_by_label("older answer");
    assert_eq!(screen.state().answer().assessment.verdict, Verdict::NotReady);
    assert!(screen.query_by_label("Do all of this").is_none(), "nothing is promised from an older answer");
    screen.get_by_label("Undo").click();
    screen.run();
    assert!(screen.query_by_label("older answer").is_none());
}

#[test]
fn a_fault_in_a_frame_is_caught_at_its_edge_and_the_work_is_kept() {
    let home =
        std::path::PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join(format!("home-{}", std::process::id()));
    struct Shown {
        desk: Desk,
        rescue: Rescue,
        fails: bool,
    }
    let mut desk = demo();
    let ctx = egui::Context::default();
    desk.ask(&ctx, Command::Bay(OfBay::Edit(Edit::Park(PlanPose::new(DVec2::new(4_321.0, 3_000.0), 0.0)))));
    desk.live_in(home.clone());
    let shown = Shown { desk, rescue: Rescue::default(), fails: false };
    let mut screen =
        Harness::builder().with_size([1000.0, 700.0]).with_context_setup(Desk::install).build_ui_state(
            |ui, shown: &mut Shown| {
                let fails = shown.fails;
                shown.rescue.guard(&mut shown.desk, ui, |desk, ui| {
                    assert!(!fails, "a fault planted for this test");
                    desk.frame(ui);
                });
            },
            shown,
        );
    screen.run();
    screen.state_mut().fails = true;
    screen.run();
    screen.get_by_label("The program met a fault of its own");
    screen.get_by_label_contains("A copy of what was in hand was saved here");
    let kept: Vec<_> = std::fs::read_dir(home.join("kept-after-a-fault"))
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .collect();
    assert_eq!(kept.len(), 1, "{kept:?}");
    let again = Document::open(&kept[0], today()).unwrap();
    assert_eq!(again.layout().arrangements, screen.state().desk.document().layout().arrangements);
    screen.state_mut().fails = false;
    screen.get_by_label("Go on").click();
    screen.run();
    assert!(!screen.state().rescue.is_shown());
    assert_eq!(screen.state().desk.answer().arrangement.parked.origin().x, 4_321.0);
    crate::support::clear(home);
}
