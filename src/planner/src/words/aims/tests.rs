//! What is said of planted figures, in both languages.

use crate::check::testing::*;
use crate::echoes::How;
use crate::echoes::virtual_aims::{Aimed, Share, Why};
use crate::echoes::{With, seen};
use crate::scene::Scene;
use crate::words::{Language, Locale, Units, Words};

/// Within so many degrees, allowed so many; an echo of a cabinet counts for 71 %, the mark for 20 %, the floor for 4 %.
fn planted(own: &Arrangement, within: [f64; 2], off: [f64; 2]) -> Aimed {
    let mut echo = seen(own, &Scene::of(own), With::OneMirror).remove(0).echoes.remove(0);
    echo.how = How::Straight { of: Subject::Thing("cabinet".into()), is_spot_on: true };
    let share = |why, of_all| Share { why, left: of_all, up: of_all, of_all };
    let within = within.map(angle::radians);
    Aimed {
        target: "ahead".into(),
        draws: 10_000,
        off: off.map(angle::radians),
        between: within.map(|own| [-0.5 * own, own]),
        u: within.map(|own| 0.5 * own),
        allowed: [angle::radians(0.1); 2],
        shares: vec![share(Why::Echo(Box::new(echo)), 0.71), share(Why::Mark, 0.2), share(Why::Floor, 0.04)],
        may_be_taken: Vec::new(),
        in_line: 0,
    }
}

#[test]
fn they_are_told_with_what_is_allowed_and_what_is_worth_fixing() {
    let own = with(vec![cabinet("cabinet", (9_000.0, 5_500.0), 600.0, 450.0)]);
    let aimed = planted(&own, [0.12, 0.08], [0.0; 2]);
    let english = Words::new(&own, Locale::of(Language::English, Units::Millimetres));
    let german = Words::new(&own, Locale::of(Language::German, Units::Millimetres));
    let plain = |text: String| text.replace(['\u{202f}', '\u{a0}'], " ");
    assert_eq!(
        plain(english.aims_lie(&aimed)),
        "10 000 aims in this room: 95 of 100 lie within 0.12° to a side and 0.080° up or down; 0.10° is allowed."
    );
    let said = plain(english.aims_come_from(&aimed));
    assert!(said.starts_with("Most comes from the echo of "), "{said}");
    assert!(said.contains("(71 %); next how surely the mark under the target is laid (20 %)."), "{said}");
    assert!(said.contains("Worth fixing first: the echo of ") && !said.contains("floor"), "{said}");
    let said = plain(german.aims_come_from(&aimed));
    assert!(said.starts_with("Am meisten macht aus: Echo von ") && said.contains("71 %"), "{said}");
    assert!(plain(german.aims_lie(&aimed)).contains("innerhalb von 0,12° zur Seite"));
    // Within what is allowed nothing wants fixing; what shifts all of them is said with its way.
    let inside = planted(&own, [0.09, 0.05], [0.02, -0.01]);
    assert!(!english.aims_come_from(&inside).contains("Worth fixing"));
    let off = english.aims_are_off(&inside);
    assert!(off.contains("to the left") && off.contains("down") && !off.contains("right"), "{off}");
    assert_eq!(english.aims_are_off(&aimed), "");
    assert_eq!(english.aims_leave_out(&aimed), "");
    let mut taken = inside;
    if let Why::Echo(echo) = taken.shares[0].why.clone() {
        taken.may_be_taken = vec![*echo];
    }
    taken.in_line = 1;
    assert!(english.aims_leave_out(&taken).starts_with("The radar may take this for the target"));
    assert!(german.aims_leave_out(&taken).contains("Das Radar kann dies für das Ziel halten"));
}
