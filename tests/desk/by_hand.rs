//! The picture under the plan moved, turned and sized by hand; levels that are read from a file.

use std::path::Path;

use baywright_desk::screen::Desk;
use baywright_desk::screen::command::{Command, OfBay, OfFile, OfView};
use baywright_desk::screen::view::Tool;
use baywright_planner::Subject;
use baywright_planner::geometry::{DVec2, angle};
use baywright_planner::model::Underlay;
use egui::{Key, Pos2, Vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;

use crate::sessions::{ask, home, press, start};
use crate::support::{drag, hold, lead_and_type, middle, paste_over, type_into, unfold};

fn underlay(screen: &Harness<'_, Desk>) -> Underlay {
    screen.state().document().layout().underlay.clone().unwrap()
}

/// Where a place of the bay is on the screen: the paper is the floor seen from above, turned and scaled, by two marks.
struct Paper {
    mark: DVec2,
    at: Pos2,
    share: DVec2,
}

impl Paper {
    fn of(screen: &Harness<'_, Desk>) -> Self {
        let scene = &screen.state().answer().assessment.scene;
        let mark = |name: &str| {
            let own = scene.marks.iter().find(|own| own.id.as_str() == name);
            own.unwrap().at.unwrap()
        };
        let (first, second) = (middle(screen, "mark 6, top view"), middle(screen, "mark 5, top view"));
        let by = DVec2::new(f64::from((second - first).x), -f64::from((second - first).y));
        let of = mark("5") - mark("6");
        let share = DVec2::new(by.dot(of), of.perp_dot(by)) / of.length_squared();
        Self { mark: mark("6"), at: first, share }
    }

    fn on_screen(&self, bay: DVec2) -> Pos2 {
        let off = self.share.rotate(bay - self.mark);
        self.at + Vec2::new(off.x as f32, -off.y as f32)
    }
}

/// The demo with a picture of 600 by 300 px under its plan, 10 mm each, and its form open.
pub fn with_a_picture(home: &Path) -> Harness<'static, Desk> {
    let picture = image::RgbaImage::from_pixel(600, 300, image::Rgba([200, 220, 255, 255]));
    picture.save(home.join("plan.png")).unwrap();
    let mut screen = start(home);
    ask(&mut screen, Command::File(OfFile::SaveAs(home.join("bay.ron"), false)));
    ask(&mut screen, Command::View(OfView::Select(Some(Subject::Floor))));
    unfold(&mut screen, "Picture of a plan");
    lead_and_type(&mut screen, "Picture", "plan.png");
    for _ in 0..200 {
        if screen.query_by_label("Move the picture").is_some() {
            break;
        }
        std::thread::sleep(std::time::Duration::from_millis(10));
        screen.run();
    }
    screen.get_by_label("Move the picture").scroll_to_me();
    screen.run();
    screen
}

#[test]
fn the_picture_under_the_plan_is_moved_turned_and_sized_by_hand() {
    let home = home("picture-by-hand");
    let mut screen = with_a_picture(&home);
    let paper = Paper::of(&screen);
    let first = underlay(&screen);
    let at = |x: f64, y: f64| paper.on_screen(first.at + DVec2::new(x, y));
    // Two points of it were pressed before: they go with it.
    ask(&mut screen, Command::View(OfView::Tool(Tool::ScalePicture { first: None })));
    for x in [1_000.0, 3_000.0] {
        ask(&mut screen, Command::Bay(OfBay::ScalePoint(first.at + DVec2::new(x, 500.0))));
    }
    let points = screen.state().view().scale.unwrap();
    press(&mut screen, "Move the picture");
    assert_eq!(screen.state().view().tool, Tool::MovePicture);
    // Its handles are found by their names too.
    for (name, corner) in [("turns", at(6_000.0, 0.0)), ("sizes", at(6_000.0, 3_000.0))] {
        let named = middle(&screen, &format!("the handle that {name} the picture"));
        assert!(named.distance(corner) < 3.0, "{name}: {named} for {corner}");
    }
    screen.get_by_label("the picture under the plan");
    // Moved: taken anywhere on it, one step.
    drag(&mut screen, at(2_000.0, 1_000.0), at(2_400.0, 1_200.0));
    let moved = underlay(&screen);
    let by = moved.at - first.at;
    assert!((by - DVec2::new(400.0, 200.0)).length() < 40.0, "{by}");
    assert_eq!((moved.mm_per_px, moved.turned_rad), (first.mm_per_px, first.turned_rad));
    assert_eq!(screen.state().view().scale, Some(points), "points of the picture, wherever it lies");
    assert_eq!(screen.state().undoes(), Some("Picture of the plan".to_owned()));
    ask(&mut screen, Command::Undo);
    assert_eq!(underlay(&screen), first);
    // Escape puts it back, and is no step.
    hold(&mut screen, at(2_000.0, 1_000.0), at(3_000.0, 1_500.0));
    assert_ne!(underlay(&screen), first);
    screen.key_press(Key::Escape);
    screen.step();
    screen.drop_at(at(3_000.0, 1_500.0));
    screen.run();
    assert_eq!(underlay(&screen), first);
    // Turned by the round handle at its lower right corner: five degrees, the corner stays.
    let by = angle::radians(5.0);
    let to = DVec2::new(by.cos(), by.sin()) * 6_000.0;
    drag(&mut screen, at(6_000.0, 0.0), at(to.x, to.y));
    let turned = underlay(&screen);
    assert_eq!((turned.at, turned.mm_per_px), (first.at, first.mm_per_px));
    assert!((angle::degrees(turned.turned_rad) - 5.0).abs() < 0.5, "{}", angle::degrees(turned.turned_rad));
    ask(&mut screen, Command::Undo);
    assert_eq!(underlay(&screen), first);
    // Sized by the square one at its upper right: a fifth smaller.
    drag(&mut screen, at(6_000.0, 3_000.0), at(4_800.0, 2_400.0));
    let sized = underlay(&screen);
    assert_eq!((sized.at, sized.turned_rad), (first.at, first.turned_rad));
    assert!((sized.mm_per_px - 8.0).abs() < 0.1, "{}", sized.mm_per_px);
    ask(&mut screen, Command::Undo);
    assert_eq!(underlay(&screen), first);
    // Escape with nothing in hand leaves it: a drag is of the bay again.
    screen.key_press(Key::Escape);
    screen.run();
    assert_eq!(screen.state().view().tool, Tool::WhichSide);
    assert!(screen.query_by_label("the picture under the plan").is_none());
    drop(screen);
    // The keeper may still write what came last: what is left of it is in the tests' own folder.
    crate::support::clear(home);
}

#[test]
fn levels_are_read_from_a_file_whole_or_not_at_all() {
    let home = home("levels");
    let mut screen = start(&home);
    ask(&mut screen, Command::View(OfView::Select(Some(Subject::Floor))));
    press(&mut screen, "Floor levels");
    screen.get_by_label("Read a file …");
    let path = home.join("levels.csv");
    let read = |screen: &mut Harness<'_, Desk>, text: &[u8]| {
        std::fs::write(&path, text).unwrap();
        ask(screen, Command::Bay(OfBay::ReadLevels { of: None, path: path.clone() }));
    };
    let survey = |screen: &Harness<'_, Desk>| screen.state().answer().arrangement.bay.survey.clone();
    let before = survey(&screen);
    // File, line and field are named; nothing of it is taken.
    for (text, said) in [
        (
            "x;y;level\n500;500;0\n11500;5500;lots\n",
            "levels.csv, line 3, “11500;5500;lots”: the level, “lots”, is no number",
        ),
        ("500;far;0\n", "line 1, “500;far;0”: across, “far”, is no number"),
        ("500;500;1\n500;500\n", "line 2, “500;500”: it has 2 columns"),
        ("nowhere;3\n", "no floor mark is called “nowhere”"),
        ("x;y;level\n", "levels.csv: found no level"),
    ] {
        read(&mut screen, text.as_bytes());
        screen.get_by_label_contains(said);
        assert_eq!(survey(&screen), before, "{said}");
    }
    read(&mut screen, b"");
    assert!(screen.state().view().notice.as_ref().is_some_and(|own| own.wrong));
    read(&mut screen, &[0xff, 0xfe, 0x00, 0x9f]);
    assert!(screen.state().view().notice.as_ref().is_some_and(|own| own.wrong));
    read(&mut screen, "1;1;1\n".repeat(2_001).as_bytes());
    screen.get_by_label_contains("found 2001 levels; allowed is at most 2000");
    ask(&mut screen, Command::Bay(OfBay::ReadLevels { of: None, path: home.join("not-there.csv") }));
    assert!(screen.state().view().notice.as_ref().is_some_and(|own| own.wrong));
    assert!(survey(&screen) == before && !screen.state().document().is_changed());
    // With byte-order mark and the ends of lines of another system.
    read(&mut screen, "\u{feff}along\tacross\tlevel\r\n500\t500\t0\r\n11500\t500\t1,5\r\n".as_bytes());
    let levels: Vec<f64> = survey(&screen).unwrap().points.iter().map(|own| own.level_mm).collect();
    assert_eq!(levels, [0.0, 1.5]);
    assert_eq!(survey(&screen).unwrap().taken, None, "the file does not say when");
    screen.get_by_label_contains("2 levels read from");
    screen.get_by_label_contains("Enter the day on which they were taken");
    // A correction does not say so either.
    paste_over(&mut screen, "Floor levels", "500; 500; 0\n11500; 500; 2\n");
    let corrected = survey(&screen).unwrap();
    assert_eq!((corrected.points.last().unwrap().level_mm, corrected.taken), (2.0, None));
    ask(&mut screen, Command::Undo);
    ask(&mut screen, Command::Undo);
    assert_eq!(survey(&screen), before, "one step");
    drop(screen);
    // The keeper may still write what came last: what is left of it is in the tests' own folder.
    crate::support::clear(home);
}

#[test]
fn a_picture_of_a_plan_lies_under_the_drawing_and_is_scaled_by_two_points() {
    let home = home("picture");
    let picture = image::RgbaImage::from_fn(300, 200, |x, y| {
        if x % 100 == 0 || y % 100 == 0 {
            image::Rgba([0, 0, 0, 255])
        } else {
            image::Rgba([230, 240, 255, 255])
        }
    });
    picture.save(home.join("plan.png")).unwrap();
    let mut screen = start(&home);
    ask(&mut screen, Command::File(OfFile::SaveAs(home.join("bay.ron"), false)));
    ask(&mut screen, Command::View(OfView::Select(Some(Subject::Floor))));
    unfold(&mut screen, "Picture of a plan");
    lead_and_type(&mut screen, "Picture", "plan.png");
    for _ in 0..200 {
        if screen.query_by_label_contains("is being read").is_none() {
            break;
        }
        std::thread::sleep(std::time::Duration::from_millis(10));
        screen.run();
    }
    assert_eq!(underlay(&screen).mm_per_px, 10.0);
    assert_eq!(underlay(&screen).at, screen.state().document().layout().bay.room.bounds().low);
    // 100 px of it are 2 m: from the corner at the bay's origin to 1 000 mm along.
    let corner = underlay(&screen).at;
    let scale = Tool::ScalePicture { first: None };
    let two_points = |screen: &mut Harness<'_, Desk>| {
        ask(screen, Command::View(OfView::Tool(scale)));
        for along in [0.0, 1_000.0] {
            let at = corner + DVec2::new(along, 0.0);
            ask(screen, Command::Bay(OfBay::ScalePoint(at)));
        }
        screen.get_by_label("They are apart").scroll_to_me();
        screen.run();
    };
    two_points(&mut screen);
    type_into(&mut screen, "They are apart", "2 m");
    assert!((underlay(&screen).mm_per_px - 20.0).abs() < 1e-9);
    assert!(underlay(&screen).at.distance(corner) < 1e-6, "the first point stays");
    // Left by Tab it is taken as well, and no field after it takes it back.
    ask(&mut screen, Command::Undo);
    assert_eq!(underlay(&screen).mm_per_px, 10.0);
    two_points(&mut screen);
    screen.get_by_label("They are apart").click();
    screen.run();
    screen.get_by_label("They are apart").type_text("2 m");
    screen.run();
    for _ in 0..4 {
        screen.key_press(Key::Tab);
        screen.run();
        assert!((underlay(&screen).mm_per_px - 20.0).abs() < 1e-9, "{:?}", underlay(&screen));
    }
    // Named by its whole path, it is kept as it is named from the layout's own folder.
    let whole = home.join("plan.png").display().to_string();
    type_into(&mut screen, "Picture", &whole);
    assert_eq!(underlay(&screen).picture, "plan.png");
    // It is saved and read again; a picture that is not there is said and nothing else happens.
    ask(&mut screen, Command::File(OfFile::Save));
    assert_eq!(
        baywright_files::load_layout(&home.join("bay.ron")).unwrap().underlay,
        Some(underlay(&screen))
    );
    type_into(&mut screen, "Picture", "nothing.png");
    // At the foot of the screen, whatever form is open.
    let told = |screen: &Harness<'_, Desk>| {
        let notice = screen.state().view().notice.as_ref();
        notice.is_some_and(|notice| notice.wrong && notice.text.contains("nothing.png"))
    };
    for _ in 0..200 {
        if told(&screen) {
            break;
        }
        std::thread::sleep(std::time::Duration::from_millis(10));
        screen.run();
    }
    assert!(told(&screen));
    crate::support::clear(home);
}
