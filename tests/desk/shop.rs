//! The page of the shop's settings: what is typed there is saved and judged by at once, refused, undone, never lost.

use std::path::Path;

use baywright_desk::screen::Desk;
use baywright_desk::screen::command::{Command, OfFile, OfShop};
use baywright_desk::screen::page::Page;
use baywright_desk::screen::unbroken;
use baywright_desk::session::shop::ShopTrouble;
use baywright_files::{SHOP_FILE, load_shop, save_shop};
use baywright_planner::Verdict;
use baywright_planner::model::{Shop, ShopFigure};
use egui::{Key, Modifiers};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT, Queryable};

use crate::sessions::{after_the_end, ask, home, nothing_is_offered_after, press, start};
use crate::support::{desk, type_into, usual, verdict};

fn value(screen: &Harness<'_, Desk>, label: &str) -> String {
    screen.get_by_label(label).accesskit_node().value().unwrap_or_default()
}

/// The clear bay in a home of its own.
fn clear(home: &Path) -> Harness<'static, Desk> {
    let mut desk = desk(Path::new("clear-bay"), None);
    desk.live_in(home.to_owned());
    usual(desk)
}

fn finds(screen: &Harness<'_, Desk>, code: &str) -> bool {
    screen.state().answer().assessment.findings.iter().any(|own| own.code().as_str() == code)
}

const BY_EYE: &str = "Placed by eye, ±";
const UNMEASURED: &str = "Car parked unmeasured, ±";

#[test]
fn what_is_set_is_saved_judged_by_and_undone() {
    let home = home("shop-set");
    let file = home.join(SHOP_FILE);
    let mut screen = clear(&home);
    assert_eq!(verdict(&screen), Verdict::Ready);
    screen.get_by_label("Show").click();
    screen.run();
    screen.get_by_label_contains("Shop settings").click();
    screen.run();
    assert_eq!(screen.state().view().page(), Some(&Page::Shop));
    assert_eq!(value(&screen, BY_EYE), "150 mm");
    assert!(
        screen.get_all_by_label_contains("Common practice, no source.").count() >= ShopFigure::ALL.len() - 1
    );
    assert!(!file.exists(), "nothing is set yet");
    // Every open answer is judged anew in the same frame.
    type_into(&mut screen, UNMEASURED, "900");
    assert_eq!(load_shop(&file).unwrap().shop.car_planned_mm, 900.0);
    assert_eq!(verdict(&screen), Verdict::ReadyWithCare);
    screen.get_by_label_contains(&unbroken("Set in this shop; the default is 30 mm"));
    // Refused: it stays in its field with the reason, and nothing is changed.
    type_into(&mut screen, BY_EYE, "15");
    assert_eq!(value(&screen, BY_EYE), "15");
    screen.get_by_label_contains(&unbroken("is not possible; allowed is what is taped or more: from 20 mm"));
    assert_eq!(load_shop(&file).unwrap().shop.by_eye_mm, 150.0);
    screen.get_by_label("A survey holds, days").scroll_to_me();
    screen.run();
    type_into(&mut screen, "A survey holds, days", "soon");
    screen.get_by_label_contains("“soon” is no whole number");
    // Escape in a field is the field's.
    screen.get_by_label(BY_EYE).scroll_to_me();
    screen.run();
    screen.get_by_label(BY_EYE).click();
    screen.run();
    screen.key_press(Key::Escape);
    screen.run();
    assert_eq!(
        (value(&screen, BY_EYE), screen.state().view().page()),
        ("150 mm".to_owned(), Some(&Page::Shop))
    );
    // Undo here is of the settings, not of the bay.
    screen.key_press_modifiers(Modifiers::COMMAND, Key::Z);
    screen.run();
    assert_eq!(load_shop(&file).unwrap().shop, Shop::default());
    assert_eq!(verdict(&screen), Verdict::Ready);
    screen.key_press_modifiers(Modifiers::COMMAND, Key::Y);
    screen.run();
    assert_eq!(load_shop(&file).unwrap().shop.car_planned_mm, 900.0);
    press(&mut screen, "Default: Car parked unmeasured, ±");
    assert_eq!(load_shop(&file).unwrap().shop, Shop::default());
    assert!(!screen.state().document().is_changed() && screen.state().undoes().is_none());
    screen.key_press(Key::Escape);
    screen.run();
    assert_eq!(screen.state().view().page(), None);
    crate::support::clear(home);
}

#[test]
fn a_bay_remembers_by_what_it_was_judged() {
    let home = home("shop-remembered");
    std::fs::create_dir_all(&home).unwrap();
    let mut screen = clear(&home);
    let bay = home.join("mine.ron");
    ask(&mut screen, Command::File(OfFile::SaveAs(bay.clone(), false)));
    assert!(!finds(&screen, "shop-changed"));
    ask(&mut screen, Command::Shop(OfShop::Set(ShopFigure::ByEye, 90.0)));
    assert!(finds(&screen, "shop-changed") && !screen.state().document().is_changed());
    // Saved again it is judged by these; opened by who has others it says so.
    ask(&mut screen, Command::File(OfFile::Save));
    assert!(!finds(&screen, "shop-changed"));
    let elsewhere = usual(desk(&bay, None));
    assert!(finds(&elsewhere, "shop-changed"));
    // A finding whose limit is a setting leads to it.
    ask(&mut screen, Command::Shop(OfShop::Set(ShopFigure::SurveyAge, 1.0)));
    let mut screen = screen;
    press(&mut screen, "Why this limit? Floor survey is out of date");
    screen.get_by_label_contains("The shop's own setting. A survey holds, days 1.");
    press(&mut screen, "Shop settings …");
    assert_eq!(screen.state().view().page(), Some(&Page::Shop));
    crate::support::clear(home);
}

#[test]
fn what_cannot_be_read_is_no_default_unseen() {
    let home = home("shop-unread");
    std::fs::create_dir_all(&home).unwrap();
    let file = home.join(SHOP_FILE);
    std::fs::write(&file, "(version: 1, by_eye_mm: 0.15)").unwrap();
    let mut screen = clear(&home);
    assert_eq!(verdict(&screen), Verdict::ReadyWithCare);
    assert!(finds(&screen, "shop-unread"));
    ask(&mut screen, Command::Page(Some(Page::Shop)));
    // On the page, and at the foot since it was opened.
    assert_eq!(screen.get_all_by_label_contains(&unbroken("by_eye_mm: found 0.15 mm")).count(), 2);
    assert!(screen.query_by_label(BY_EYE).is_none(), "nothing to type over it");
    std::fs::write(&file, "(version: 1, by_eye_mm: 90)").unwrap();
    press(&mut screen, "Read it again");
    assert_eq!((verdict(&screen), value(&screen, BY_EYE)), (Verdict::Ready, "90 mm".to_owned()));
    // Somebody else changes it: it is not replaced unasked.
    save_shop(&file, &Shop { by_eye_mm: 70.0, ..Shop::default() }.into()).unwrap();
    type_into(&mut screen, "Taped, ±", "12");
    assert_eq!(screen.state().shop().trouble(), Some(&ShopTrouble::ChangedOnDisk));
    assert_eq!(load_shop(&file).unwrap().shop.by_eye_mm, 70.0);
    press(&mut screen, "Take theirs");
    assert_eq!(
        (value(&screen, BY_EYE), value(&screen, "Taped, ±")),
        ("70 mm".to_owned(), "20 mm".to_owned())
    );
    crate::support::clear(home);
}

/// The disk refuses, and the program dies: the next start offers what was set.
#[test]
fn what_could_not_be_saved_is_kept() {
    let home = home("shop-kept");
    let file = home.join(SHOP_FILE);
    let mut screen = start(&home);
    // Where the file would lie there is something that no file replaces.
    std::fs::create_dir_all(file.join("in the way")).unwrap();
    ask(&mut screen, Command::Shop(OfShop::Set(ShopFigure::ByEye, 80.0)));
    assert!(screen.state().shop().is_changed());
    // It holds all the same, and the program does not end without a word.
    assert_eq!(screen.state().answer().arrangement.shop.by_eye_mm, 80.0);
    ask(&mut screen, Command::Quit);
    assert_eq!(screen.state().view().page(), Some(&Page::Shop));
    screen.state_mut().wait_until_kept();
    drop(screen);
    std::fs::remove_dir_all(&file).unwrap();
    let mut screen = after_the_end(&home);
    press(&mut screen, "Open it again: Shop settings: shop.ron");
    assert_eq!(load_shop(&file).unwrap().shop.by_eye_mm, 80.0);
    assert_eq!(screen.state().answer().arrangement.shop.by_eye_mm, 80.0);
    nothing_is_offered_after(screen, home);
}
