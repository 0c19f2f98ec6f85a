//! That it never fits: asked by a press where no spot was found, told with what is missing, drawn, kept as a file; what is not
//! proven is told to be neither.

use std::path::{Path, PathBuf};

use baywright_desk::screen::Desk;
use baywright_desk::screen::command::{Command, OfBay, OfFile, OfView};
use baywright_desk::screen::page::Page;
use baywright_desk::screen::view::Tab;
use baywright_planner::Subject;
use baywright_planner::edit::Edit;
use baywright_planner::geometry::{DVec2, PlanPose, Polygon};
use baywright_planner::model::{Bay, Effort, Footprint, Known, Material, Place, Shape, Thing, ThingKind};
use baywright_planner::never::check;
use baywright_planner::place::never::{Given, Stays, is_of};
use baywright_planner::words::Language;
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;

use crate::sessions::ask;
use crate::support::{desk, press, until_searched, usual};

const ASK: &str = "Is there really no way?";

/// The clear bay with its building changed, the panel open, all spots searched.
fn parking(change: impl FnOnce(&mut Bay)) -> Harness<'static, Desk> {
    let mut screen = usual(desk(Path::new("clear-bay"), None));
    let mut bay = screen.state().answer().judged.bay.clone();
    change(&mut bay);
    ask(&mut screen, Command::Bay(OfBay::Edit(Edit::Bay { bay: Box::new(bay), renamed: None })));
    ask(&mut screen, Command::View(OfView::Tab(Tab::Parking)));
    screen.step();
    until_searched(&mut screen);
    screen
}

/// A room of this size and nothing in it.
fn small(length: f64, width: f64) -> impl FnOnce(&mut Bay) {
    move |bay| {
        let ring = [(0.0, 0.0), (length, 0.0), (length, width), (0.0, width)].map(DVec2::from);
        bay.room = Polygon::simple(ring.to_vec()).unwrap();
        bay.openings.clear();
        bay.survey = None;
        bay.floor_features.clear();
        bay.marks.clear();
        bay.things.clear();
    }
}

fn says(screen: &Harness<'_, Desk>, text: &str) -> bool {
    screen.query_all_by_label_contains(text).next().is_some()
}

fn scratch(name: &str) -> PathBuf {
    let folder = std::env::temp_dir().join(format!("baywright-desk-never-{}-{name}", std::process::id()));
    std::fs::create_dir_all(&folder).unwrap();
    folder
}

/// A room that is too narrow by some: told, drawn between two of its walls, in both languages; gone with the next change.
#[test]
fn that_it_never_fits_is_proven_told_and_drawn() {
    let mut screen = parking(small(9_500.0, 1_500.0));
    assert!(screen.state().view().decides.is_none());
    press(&mut screen, ASK);
    until_searched(&mut screen);
    assert!(says(&screen, "It never fits here: at least"));
    assert!(says(&screen, "It is said of solids alone"));
    assert!(screen.query_by_label(ASK).is_none());
    let decides = screen.state().view().decides.clone().expect("two walls decide it");
    let judged = &screen.state().answer().judged;
    assert_eq!(check(&decides.proof.proof), Ok(()));
    assert_eq!(is_of(&decides.proof.proof, &Given::of(judged, Stays::Fixed)), Ok(()));
    let walls = [&judged.bay.walls[0].id, &judged.bay.walls[2].id].map(|own| Subject::Wall(own.clone()));
    assert!(walls.iter().all(|own| decides.short.between.contains(own)), "{:?}", decides.short);
    // The line that is drawn is as long as what is told, from one of the long walls out of the room.
    let [from, to] = decides.short.line;
    assert!((from.distance(to) - decides.short.at_least_mm).abs() < 1e-6);
    assert!(from.y.abs().min((from.y - 1_500.0).abs()) < 1.0 && !(0.0..=1_500.0).contains(&to.y));
    ask(&mut screen, Command::View(OfView::Language(Language::German)));
    screen.step();
    assert!(says(&screen, "Es passt hier nie: Zwischen"));
    ask(&mut screen, Command::View(OfView::Language(Language::English)));
    // Of another room nothing is told or drawn; there it is asked anew.
    let mut bay = screen.state().answer().judged.bay.clone();
    small(9_500.0, 1_400.0)(&mut bay);
    ask(&mut screen, Command::Bay(OfBay::Edit(Edit::Bay { bay: Box::new(bay), renamed: None })));
    screen.step();
    assert!(!says(&screen, "It never fits here") && screen.state().view().decides.is_none());
    until_searched(&mut screen);
    assert!(screen.query_by_label(ASK).is_some());
}

/// The proof is kept where a path is typed; a file that is there is asked about; what was kept holds and is of this bay.
#[test]
fn the_proof_is_kept_as_a_file() {
    let mut screen = parking(small(9_500.0, 1_500.0));
    press(&mut screen, ASK);
    until_searched(&mut screen);
    press(&mut screen, "Keep the proof\u{2026}");
    // A page takes its size in a frame of its own.
    screen.step();
    screen.step();
    assert!(screen.query_by_label("Path of the proof").is_some());
    let file = scratch("kept").join("kept.ron");
    std::fs::remove_file(&file).ok();
    let Some(Page::KeepProof(page)) = screen.state_mut().view_mut().page_mut() else {
        panic!("no path is asked for")
    };
    // The ending may be left out.
    page.path = file.with_extension("").display().to_string();
    screen.step();
    press(&mut screen, "Save");
    assert!(screen.state().view().page().is_none());
    assert!(screen.state().view().notice.as_ref().is_some_and(|own| own.text.contains("kept.ron")));
    let document = baywright_files::load_never(&file).unwrap();
    assert_eq!(check(&document.proof), Ok(()));
    assert_eq!(is_of(&document.proof, &Given::of(&screen.state().answer().judged, document.stays)), Ok(()));
    // Nothing is replaced unasked.
    std::fs::write(&file, "mine").unwrap();
    ask(&mut screen, Command::File(OfFile::KeepProof(file.clone(), false)));
    screen.step();
    screen.step();
    assert!(says(&screen, "There is a file of that name already."));
    assert_eq!(std::fs::read_to_string(&file).unwrap(), "mine");
    press(&mut screen, "Replace that file");
    assert!(baywright_files::load_never(&file).is_ok());
    // A folder that is not there is told.
    let nowhere = scratch("kept").join("no such folder").join("kept.ron");
    ask(&mut screen, Command::File(OfFile::KeepProof(nowhere, false)));
    screen.step();
    screen.step();
    assert!(screen.state().view().page().is_some() && says(&screen, "no such folder"));
}

/// Where only something that can be moved is in the way it is not said that it never fits; the place is drawn.
#[test]
fn what_can_be_moved_is_no_reason() {
    let mut screen = parking(|bay| {
        let middle = bay.room.bounds().centre();
        let size = bay.room.bounds().size() * 0.8;
        bay.things = vec![Thing {
            id: "stack of tyres".into(),
            kind: ThingKind::Cabinet,
            footprint: Footprint::new(Shape::Rectangle { length_mm: size.x, width_mm: size.y }).unwrap(),
            place: Place { at: PlanPose::new(middle, 0.0), known: Known::Within(0.0) },
            effort: Effort::OnePerson,
            material: Material::Wood,
            ..bay.things[0].clone()
        }];
    });
    press(&mut screen, ASK);
    until_searched(&mut screen);
    assert!(says(&screen, "not proven: there is a place where no solid"));
    assert!(!says(&screen, "It never fits here"));
    let spot = screen.state().view().spot.expect("it is drawn");
    let given = Given::of(&screen.state().answer().judged, Stays::Fixed);
    let (set_up, stands) = given.solids();
    assert!(!set_up.is_empty() && !stands.is_empty());
    let room = screen.state().answer().judged.bay.room.bounds();
    assert!(spot.origin().x > room.low.x && spot.origin().x < room.high.x);
    assert!(screen.query_by_label("Keep the proof\u{2026}").is_none());
}

/// Where a spot is offered nobody asks whether there is none.
#[test]
fn where_it_fits_it_is_not_asked() {
    let screen = parking(|_| {});
    assert!(screen.query_by_label(ASK).is_none());
}
