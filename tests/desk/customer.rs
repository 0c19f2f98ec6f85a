//! The page for the customer: turned by keys, made of the answer's own words and drawing, easy to read.

use std::path::Path;

use baywright_desk::screen::Desk;
use baywright_desk::screen::command::{Command, OfBay};
use baywright_desk::screen::page::Page;
use baywright_files::{EMBEDDED_LAYOUTS, SHOP_FILE, load_shop, open};
use baywright_planner::customer::{Idea, Moves, ideas};
use baywright_planner::model::{ShopFace, ThingKind, WorkStep};
use baywright_planner::words::{Language, Locale, Words};
use baywright_planner::{Verdict, assess_fully};
use egui::{Key, ViewportCommand, ViewportId};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;

use crate::sessions::{ask, home};
use crate::support::{demo, desk, today, type_into, usual, verdict};

/// The Flesch-Kincaid grade level of a sentence: J. P. Kincaid, R. P. Fishburne, R. L. Rogers, B. S. Chissom, "Derivation of new
/// readability formulas for Navy enlisted personnel", Research Branch Report 8-75, 1975: 0.39 words a sentence + 11.8 syllables a
/// word - 15.59. A figure is one word of one syllable, as is a unit: it is looked at, not read aloud.
fn grade(sentence: &str) -> f64 {
    let words: Vec<&str> =
        sentence.split_whitespace().filter(|own| own.chars().any(char::is_alphanumeric)).collect();
    let syllables: usize = words.iter().map(|own| syllables(own)).sum();
    let count = words.len() as f64;
    0.39 * count + 11.8 * syllables as f64 / count - 15.59
}

/// Groups of vowels, without an `e` at the end that is not heard.
fn syllables(word: &str) -> usize {
    let word: String = word.chars().filter(|own| own.is_alphabetic()).flat_map(char::to_lowercase).collect();
    let is_vowel = |own: char| "aeiouy".contains(own);
    let letters: Vec<char> = word.chars().collect();
    let starts = letters.iter().enumerate().filter(|&(at, &own)| {
        is_vowel(own) && !at.checked_sub(1).is_some_and(|before| is_vowel(letters[before]))
    });
    let mut count = starts.count();
    let silent = word.ends_with('e') && !word.ends_with("le") || word.ends_with("es") || word.ends_with("ed");
    if silent && count > 1 {
        count -= 1;
    }
    count.max(1)
}

/// As a dictionary divides them (from memory): the count errs by nothing on these.
#[test]
fn syllables_are_counted_as_a_dictionary_does() {
    for (word, count) in [
        ("sensor", 2),
        ("target", 2),
        ("empty", 2),
        ("moved", 1),
        ("trolley", 2),
        ("minutes", 2),
        ("computer", 3),
        ("table", 2),
        ("place", 1),
        ("cabinet", 3),
    ] {
        assert_eq!(syllables(word), count, "{word}");
    }
    // Known to the formula: the plainest sentence is below the first grade.
    assert!(grade("The cat sat on the mat.") < 0.0);
    assert!(
        grade("The vehicle manufacturer's documentation determines applicable procedural requirements.")
            > 12.0
    );
}

/// The school year in which a German sentence is read, by the first Wiener Sachtextformel: R. Bamberger and E. Vanecek,
/// "Lesen - Verstehen - Lernen - Schreiben", Wien, Jugend und Volk, 1984, with the figures that the documentation of the R package
/// koRpus gives for its `nWS`: 0.1935 times the words of three syllables or more in a hundred + 0.1672 words a sentence + 0.1297
/// times the words of more than six letters in a hundred - 0.0327 times the words of one syllable in a hundred - 0.875. A figure
/// and a unit count as above.
fn school_year(sentence: &str) -> f64 {
    let words: Vec<&str> =
        sentence.split_whitespace().filter(|own| own.chars().any(char::is_alphanumeric)).collect();
    let count = words.len() as f64;
    let in_a_hundred =
        |is: &dyn Fn(&str) -> bool| words.iter().filter(|own| is(own)).count() as f64 * 100.0 / count;
    let long = in_a_hundred(&|own| own.chars().filter(|letter| letter.is_alphabetic()).count() > 6);
    let many = in_a_hundred(&|own| german_syllables(own) >= 3);
    let one = in_a_hundred(&|own| german_syllables(own) == 1);
    0.1935 * many + 0.1672 * count + 0.1297 * long - 0.0327 * one - 0.875
}

/// Groups of vowels; a `u` after `q` is none. Every `e` is heard.
fn german_syllables(word: &str) -> usize {
    let word: String = word.chars().filter(|own| own.is_alphabetic()).flat_map(char::to_lowercase).collect();
    let word = word.replace("qu", "q");
    let is_vowel = |own: char| "aeiouyäöü".contains(own);
    let letters: Vec<char> = word.chars().collect();
    let starts = letters.iter().enumerate().filter(|&(at, &own)| {
        is_vowel(own) && !at.checked_sub(1).is_some_and(|before| is_vowel(letters[before]))
    });
    starts.count().max(1)
}

/// As a dictionary divides them (from memory).
#[test]
fn german_syllables_are_counted_as_a_dictionary_does() {
    for (word, count) in [
        ("Sensor", 2),
        ("Ziel", 1),
        ("Radarwellen", 4),
        ("räumen", 2),
        ("quer", 1),
        ("Fahrzeug", 2),
        ("Hersteller", 3),
        ("Tafel", 2),
        ("zurück", 2),
        ("Einstellung", 3),
    ] {
        assert_eq!(german_syllables(word), count, "{word}");
    }
    assert!(school_year("Der Hund liegt auf dem Boden.") < 4.0);
    assert!(
        school_year(
            "Die herstellerspezifischen Einstellvorschriften bestimmen maßgeblich die erforderlichen Umgebungsbedingungen."
        ) > 12.0
    );
}

/// Every sentence of the page of every shipped bay.
fn every_sentence(language: Language) -> Vec<(String, String)> {
    let mut all = Vec::new();
    let texts = language.customer();
    for text in [texts.made_up, texts.our_part, texts.older] {
        all.push(("fixed".to_owned(), text.to_owned()));
    }
    // What the page on paper says beside.
    for sentence in language.sheets().no_promise.split_inclusive(". ") {
        all.push(("on paper".to_owned(), sentence.trim().to_owned()));
    }
    for step in WorkStep::ALL {
        all.push(("why a step is there".to_owned(), texts.why_step(step).to_owned()));
    }
    let face =
        WorkStep::ALL.into_iter().fold(ShopFace::default(), |face, step| face.with_minutes(step, Some(12.0)));
    for built_in in EMBEDDED_LAYOUTS {
        let loaded = open(Path::new(built_in.name), today()).unwrap();
        for (_, arrangement) in &loaded.arrangements {
            let assessment = assess_fully(arrangement);
            let words = Words::new(arrangement, Locale { language, ..Locale::default() });
            for idea in ideas(arrangement, &assessment, &face) {
                let of = format!("{} {}", built_in.name, arrangement.id);
                all.push((of.clone(), words.idea(&idea)));
                all.extend(words.idea_lines(&idea, &assessment).into_iter().map(|line| (of.clone(), line)));
            }
        }
    }
    all
}

/// Each language by its own published formula.
#[test]
fn every_sentence_is_read_at_grade_eight_or_below() {
    type Formula = fn(&str) -> f64;
    let formulas: [(Language, Formula); 2] = [(Language::English, grade), (Language::German, school_year)];
    for (language, grade) in formulas {
        let all = every_sentence(language);
        assert!(all.len() > 60, "{language:?}: {}", all.len());
        let hard: Vec<String> = all
            .iter()
            .filter(|(_, sentence)| grade(sentence) > 8.0)
            .map(|(of, sentence)| format!("{:.1} {of}: {sentence}", grade(sentence)))
            .collect();
        assert!(hard.is_empty(), "{}", hard.join("\n"));
        for (of, sentence) in &all {
            // A name that was typed stands between quotes, with the letters with which it was typed.
            let starts = sentence.trim_start_matches('„');
            assert!(
                sentence.ends_with('.')
                    && (starts != sentence
                        || starts.chars().next().is_some_and(|own| own.is_uppercase() || own.is_numeric())),
                "{of}: {sentence}"
            );
        }
    }
}

fn at(screen: &Harness<'_, Desk>) -> Option<usize> {
    match screen.state().view().page() {
        Some(&Page::Customer(at)) => Some(at),
        _ => None,
    }
}

fn press(screen: &mut Harness<'_, Desk>, key: Key) {
    screen.key_press(key);
    screen.run();
}

/// The window fills the screen as long as the page is there, however that goes: by its own key, or by a question that takes its
/// place.
#[test]
fn it_fills_the_screen_as_long_as_it_is_there() {
    let mut screen = usual(demo());
    let sent = |screen: &mut Harness<'_, Desk>, command| {
        let ctx = screen.ctx.clone();
        screen.state_mut().ask(&ctx, command);
        // In one frame, whose commands are looked at.
        screen.step();
        let commands = screen.output().viewport_output[&ViewportId::ROOT].commands.clone();
        let filled = commands.iter().rev().find_map(|asked| match asked {
            ViewportCommand::Fullscreen(fills) => Some(*fills),
            _ => None,
        });
        // The window does as it is told.
        if filled.is_some() {
            screen.input_mut().viewports.entry(ViewportId::ROOT).or_default().fullscreen = filled;
        }
        screen.run();
        filled
    };
    ask(&mut screen, Command::Bay(OfBay::Add(ThingKind::Trolley)));
    for away in [Command::Page(None), Command::Quit] {
        assert_eq!(sent(&mut screen, Command::Page(Some(Page::Customer(0)))), Some(true));
        assert_eq!(sent(&mut screen, Command::Page(Some(Page::Customer(1)))), None, "it fills it already");
        assert_eq!(sent(&mut screen, away), Some(false));
        ask(&mut screen, Command::Page(None));
    }
}

#[test]
fn it_is_a_press_away_and_turned_by_keys() {
    let mut screen = usual(demo());
    screen.get_by_label("For the customer").click();
    screen.run();
    assert_eq!(at(&screen), Some(0));
    screen.get_by_label("The sensor must see only this target.");
    press(&mut screen, Key::ArrowRight);
    screen.get_by_label("Steel sends radar waves back, so a trolley can look like one more target.");
    press(&mut screen, Key::PageDown);
    screen.get_by_label("This much empty floor is what the job asks.");
    press(&mut screen, Key::ArrowLeft);
    press(&mut screen, Key::PageUp);
    assert_eq!(at(&screen), Some(0));
    // It does not turn past its ends.
    press(&mut screen, Key::ArrowLeft);
    assert_eq!(at(&screen), Some(0));
    press(&mut screen, Key::End);
    screen.get_by_label("This is no computer job: it takes hands, floor, tape and time.");
    press(&mut screen, Key::ArrowRight);
    screen.get_by_label("6 of 6");
    screen.get_by_label("Back").click();
    screen.run();
    assert_eq!(at(&screen), Some(4));
    press(&mut screen, Key::Escape);
    assert_eq!(screen.state().view().page(), None);
    screen.get_by_label("In this bay");
    // The key for it, and out again; nothing of the work was touched.
    press(&mut screen, Key::F5);
    assert_eq!(at(&screen), Some(0));
    screen.get_by_label("Leave").click();
    screen.run();
    assert_eq!((at(&screen), screen.state().document().is_changed()), (None, false));
}

/// What stands in the way and what is moved are the answer's own; what it looks like then is assessed, not hoped.
#[test]
fn it_says_what_the_answer_says() {
    let mut screen = usual(demo());
    assert_eq!(verdict(&screen), Verdict::NotReady);
    press(&mut screen, Key::F5);
    for _ in 0..3 {
        press(&mut screen, Key::ArrowRight);
    }
    screen.get_by_label("This stands in it today.");
    screen.get_by_label("The tool cabinet stands where the floor must be empty.");
    screen.get_by_label("Some figures here are made up, to show how it works.");
    press(&mut screen, Key::ArrowRight);
    screen.get_by_label("This is what we move, and how it looks then.");
    screen.get_by_label_contains("Move the tool cabinet");
    let answer = screen.state().answer();
    let all = ideas(&answer.judged, &answer.assessment, &ShopFace::default());
    let Some(Idea::Moves(Moves::Known(after))) = all.get(4) else { panic!("{:?}", all.get(4)) };
    assert_eq!(Some(&after.steps), answer.assessment.promise.as_ref().map(|own| &own.steps));
    assert_eq!(after.assessment.verdict, Verdict::ReadyWithCare);
    screen.get_by_label("Then nothing stops the job.");
    assert!(screen.query_by_label("Then the space is ready.").is_none(), "it is not, quite");
    // Where nothing stops, nothing is moved.
    let mut clear = usual(desk(Path::new("clear-bay"), None));
    press(&mut clear, Key::F5);
    for _ in 0..3 {
        press(&mut clear, Key::PageDown);
    }
    clear.get_by_label("Nothing stands in the way today.");
    press(&mut clear, Key::PageDown);
    clear.get_by_label("Nothing has to be moved.");
}

/// What the shop says of itself is typed on its page, kept in its file, and shown.
#[test]
fn the_shop_says_its_name_and_its_own_minutes() {
    let home = home("customer-face");
    let mut own = demo();
    own.live_in(home.clone());
    let mut screen = crate::support::screen(own, egui::Vec2::new(1440.0, 2600.0), 1.0);
    let ctx = screen.ctx.clone();
    screen.state_mut().ask(&ctx, baywright_desk::screen::command::Command::Page(Some(Page::Shop)));
    screen.run();
    type_into(&mut screen, "Shop's name", "Example workshop");
    type_into(&mut screen, "Lay the marks, minutes", "20,5");
    type_into(&mut screen, "Park the car, minutes", "soon");
    screen.get_by_label_contains("“soon” is no number of minutes");
    type_into(&mut screen, "Park the car, minutes", "2000");
    screen.get_by_label_contains("allowed is 0 to 1440");
    let face = load_shop(&home.join(SHOP_FILE)).unwrap().face;
    assert_eq!((face.name.as_deref(), face.minutes(WorkStep::Lay)), (Some("Example workshop"), Some(20.5)));
    assert_eq!(face.minutes(WorkStep::Park), None);
    press(&mut screen, Key::Escape);
    press(&mut screen, Key::Escape);
    press(&mut screen, Key::F5);
    screen.get_by_label("Example workshop");
    press(&mut screen, Key::End);
    screen.get_by_label_contains("marks on the floor: 20.5 minutes.");
    assert!(screen.query_by_label_contains("In this shop that takes").is_none(), "not every step is said");
}
