//! Ten thousand virtual aims: drawn by a press, told as the core has them with a bar for each cause, in both languages; marked as older
//! once the set-up changes; stopped, what was drawn so far is told; the verdict stays what it was.

use std::time::{Duration, Instant};

use baywright_desk::screen::Desk;
use baywright_desk::screen::command::{Command, OfBay, OfView};
use baywright_desk::screen::unbroken;
use baywright_planner::echoes::virtual_aims::{AIMS, Aimed, NoAims, VirtualAims};
use baywright_planner::edit::Edit;
use baywright_planner::geometry::{DVec2, PlanPose};
use baywright_planner::words::{Language, Words};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;

use crate::echoes::{of_core, opened};
use crate::sessions::ask;
use crate::support::press;

/// What the core says.
fn aims_of_core(screen: &Harness<'_, Desk>) -> Vec<Result<Aimed, NoAims>> {
    let answer = screen.state().answer();
    let scene = &answer.assessment.scene;
    let all = of_core(screen);
    let each = all.iter().map(|seen| {
        let mut aims = VirtualAims::of(&answer.judged, scene, seen)?;
        while !aims.step() {}
        Ok(aims.finish().expect("they were drawn"))
    });
    each.collect()
}

fn says(screen: &Harness<'_, Desk>, text: &str) -> bool {
    screen.query_all_by_label_contains(&unbroken(text)).next().is_some()
}

fn until(screen: &mut Harness<'_, Desk>, text: &str) {
    let start = Instant::now();
    while !says(screen, text) {
        assert!(start.elapsed() < Duration::from_secs(120), "never told: {text}");
        std::thread::sleep(Duration::from_millis(10));
        screen.step();
    }
}

fn lines(screen: &Harness<'_, Desk>, found: &[Result<Aimed, NoAims>]) -> Vec<String> {
    let state = screen.state();
    let (language, words) =
        (state.view().locale.language, Words::new(&state.answer().judged, state.view().locale));
    let mut all = vec![language.aims().rests_on.to_owned()];
    for one in found {
        match one {
            Ok(aimed) => {
                all.extend([words.aims_lie(aimed), words.aims_come_from(aimed)]);
                let shares = aimed.shares.iter().filter(|own| own.of_all >= 0.01);
                all.extend(
                    shares
                        .map(|own| format!("{}: {}", words.why_off(&own.why), words.aims_share(own.of_all))),
                );
            }
            Err(why) => all.push(language.aims().none(*why).to_owned()),
        }
    }
    all
}

#[test]
fn ten_thousand_aims_are_drawn_by_a_press_and_told_with_their_causes() {
    let mut screen = opened("clear-bay");
    let verdict = screen.state().answer().assessment.verdict;
    let texts = Language::English.aims();
    assert!(!says(&screen, texts.rests_on), "nobody asked yet");
    press(&mut screen, texts.press);
    until(&mut screen, texts.rests_on);
    let core = aims_of_core(&screen);
    assert!(core.iter().any(|one| one.as_ref().is_ok_and(|own| own.draws == AIMS)), "{core:?}");
    for language in [Language::English, Language::German] {
        ask(&mut screen, Command::View(OfView::Language(language)));
        screen.step();
        screen.step();
        for line in lines(&screen, &core) {
            assert!(says(&screen, &line), "{line}");
        }
        assert!(!says(&screen, language.aims().press), "all are drawn");
    }
    ask(&mut screen, Command::View(OfView::Language(Language::English)));
    assert_eq!(screen.state().answer().assessment.verdict, verdict);
    // The car elsewhere: what is told is of before, and can be drawn anew.
    let parked = screen.state().answer().judged.parked;
    let pose = PlanPose::new(parked.origin() + DVec2::new(-100.0, 0.0), parked.heading());
    ask(&mut screen, Command::Bay(OfBay::Edit(Edit::Park(pose))));
    screen.step();
    let older = Language::English.place().older;
    until(&mut screen, older);
    press(&mut screen, texts.press);
    let start = Instant::now();
    while says(&screen, older) || !says(&screen, texts.rests_on) {
        assert!(start.elapsed() < Duration::from_secs(120), "they were never drawn anew");
        std::thread::sleep(Duration::from_millis(10));
        screen.step();
    }
    for line in lines(&screen, &aims_of_core(&screen)) {
        assert!(says(&screen, &line), "{line}");
    }
}
