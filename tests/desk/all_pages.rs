//! Every page that can lie over the screen, for the tests that look at all of them.

use baywright_desk::screen::Desk;
use baywright_desk::screen::page::{
    Compare, FailedPage, KeepProofPage, Leaving, NewBay, OpenPage, Page, Question, SavePage, VisitPage, With,
};
use baywright_desk::session::room_draft::{RoomDraft, TypedIn};
use baywright_planner::failed::{Looked, RoutineSaid, Suspect, Way, Whose};
use baywright_planner::model::Id;
use egui_kittest::Harness;

/// Each page, and each that shows something else by what it holds, over the bay that is open. One of another set-up compares
/// with that; where there is none it asks with which.
pub fn all_pages(screen: &Harness<'_, Desk>) -> Vec<Page> {
    let list = baywright_files::triggers(None).unwrap();
    let chosen: Vec<Id> = list.triggers.iter().map(|own| own.id.clone()).collect();
    let visit = |changing| VisitPage {
        list: list.clone(),
        chosen: chosen.clone(),
        changing,
        read: list.clone(),
        car: "a car".into(),
    };
    let room = RoomDraft::new("mine", TypedIn::Millimetres);
    let taped = RoomDraft { taped: true, ..room.clone() };
    let failed = RoutineSaid {
        whose: Some(Whose::Sensor),
        sideways: Way::Above(Some(0.01)),
        upright: Way::Below(None),
        ..RoutineSaid::default()
    };
    let looked = vec![
        Looked { at: Suspect::CarFront, target: 0, out: 3.0 },
        Looked { at: Suspect::StandTurned, target: 0, out: 0.0 },
    ];
    let document = screen.state().document();
    let mut arrangements = document.layout().arrangements.iter().map(|own| own.id.clone());
    let other = arrangements.find(|own| own != document.shown());
    let mut pages = vec![
        Page::FirstSteps,
        Page::Welcome,
        Page::Help,
        Page::Open(OpenPage::default()),
        Page::Save(SavePage::default()),
        Page::KeepProof(KeepProofPage::default()),
        Page::Visit(Box::new(visit(false))),
        Page::Visit(Box::new(visit(true))),
        Page::Cars(String::new(), false),
        Page::Cars("no such car".to_owned(), false),
        Page::Compare(Compare { with: other.map(With::Other) }),
        Page::Name("mine".to_owned(), false),
        Page::LeftBehind,
        Page::Shop,
        Page::Failed(Box::default()),
        Page::Failed(Box::new(FailedPage { said: failed, looked, ..FailedPage::default() })),
        Page::Examples,
        Page::NewBay(NewBay::of(room)),
        Page::NewBay(NewBay::of(taped)),
        Page::Ask(Question::Unsaved(Leaving::Quit)),
        Page::Ask(Question::ChangedOnDisk),
        Page::Ask(Question::OpenElsewhere),
        Page::Ask(Question::GoneFromDisk),
        Page::Ask(Question::DropCar),
        Page::Ask(Question::CarGone("/a/car.ron".into())),
        Page::Ask(Question::AdoptBuilding(Vec::new())),
        Page::Ask(Question::Replace("/a/b.ron".into())),
    ];
    pages.push(Page::OnPaper);
    pages.push(Page::RoomDrawing);
    pages.push(Page::Record);
    pages.push(Page::Fits);
    pages.extend((0..6).map(Page::Customer));
    pages
}
