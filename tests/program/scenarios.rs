//! Scenarios: an arrangement in, findings out, in files that a person who does not program can read and write.
//!
//! Each `tests/scenarios/*.txt` has lines of the form `word: text`; blank lines and lines that start with `#` are for
//! the reader.
//!
//! - `bay:` and `arrangement:` say what is looked at (files in `bay-layouts`, on 20 November 2026).
//! - What is then done, in order: `move: THING, X, Y` (millimetres in the bay), `take away: THING`, `park: X, Y` (the car
//!   by that much), `open: DOOR`, `shut: DOOR`, `turn the car: DEGREES`, `forget the floor survey: yes`,
//!   `shop: SETTING, VALUE` (as in the file of a shop's settings), `pit: NAME, X, Y, X, Y` (an open one, from corner to corner),
//!   `sheet: FIGURE, VALUE, WAY` (of the alignment sheet: `rear left toe`, `rear right toe`, `thrust angle`, degrees, or `set-back`,
//!   mm; `in`, `out`, `left`, `right`, or `-` where nobody said), `camber: WHEEL, DEGREES, WAY` (`front left` and so on), `arches: MM,
//!   MM, MM, MM` (wheel arches as taped, front left, front right, rear left, rear right), `body point: NAME, AHEAD, LEFT` (as plumbed
//!   on the floor), `sensor at: AHEAD, LEFT, UP`, `taped to the car: START, END` (at the start and at the end),
//!   `taped: FROM, TO, MM` (between two marks of the plan), `taped with: FROM, TO, MM, INSTRUMENT, DAY`, `instrument: NAME, DUE` (a tape
//!   of the shop's list), `stand read: TARGET, LINE, OFFSET` (its line over the sensor, the face over the line; its pole plumb; `-` of
//!   what nobody read), `painted: NAME, X, Y` (a mark that stays), `checked: NAME, DAY, WALL, MM, WALL, MM`,
//!   `thing: NAME, X, Y, MM, MM` (a steel box of so much, 1 m high), `pane: ...` (the same of glass), `built: ...` (the same, fixed),
//!   `board: NAME, X, Y, MM, MM, DEGREES` (the same of wood, turned anticlockwise),
//!   `sill: NAME, X, Y, X, Y, MM` (so proud of the floor), `leaf: NAME, WALL, FROM, MM` (a door that stands open),
//!   `at once: SET-UP` (another one of the bay's, done at the same time), `older by eye: THING`, `room from: nowhere`,
//!   `profile: ...` and `file: ...` (what no layout holds, tried in memory alone),
//!   `somebody: NAME, X, Y` (who stands there, 500 mm across), `jack: NAME, X, Y` (of steel, 300 mm square, 120 mm high).
//! - `verdict:`, `stops:` and `care:` say what must come out. Every finding that stops or needs care is listed; the text
//!   is how its line begins, and the order does not matter. `cure:` is how the cure of the finding before it begins.
//! - `promise:` is the sentence beside the verdict, or a part of it.

mod words;

use std::path::{Path, PathBuf};

use baywright_planner::at_once::pair;
use baywright_planner::edit::Edit;
use baywright_planner::geometry::{DVec2, PlanPose, Polygon, Span, angle};
use baywright_planner::model::{
    Arrangement, Effort, FloorFeature, FloorFeatureKind, Footprint, Id, Known, Material, Place, Shape,
    ShopFigure, Thing, ThingKind,
};
use baywright_planner::words::{Locale, Words};
use words::Held;

use baywright_planner::{Assessment, Code, Severity, Step, assess, cure::apply};

struct Scenario {
    name: String,
    lines: Vec<(String, String)>,
}

impl Scenario {
    fn read(path: &Path) -> Self {
        let text = std::fs::read_to_string(path).expect("a scenario");
        let lines = text
            .lines()
            .map(str::trim)
            .filter(|line| !line.is_empty() && !line.starts_with('#'))
            .map(|line| {
                let (word, rest) =
                    line.split_once(':').unwrap_or_else(|| panic!("{}: {line}", path.display()));
                (word.trim().to_owned(), rest.trim().to_owned())
            })
            .collect();
        Self { name: path.file_name().expect("a name").to_string_lossy().into_owned(), lines }
    }

    fn all(&self, word: &str) -> Vec<&str> {
        self.lines.iter().filter(|(w, _)| w == word).map(|(_, text)| text.as_str()).collect()
    }

    fn one(&self, word: &str) -> &str {
        self.all(word).first().copied().unwrap_or_else(|| panic!("{}: no line {word:?}", self.name))
    }

    fn arrangement(&self) -> Arrangement {
        self.of_layout(self.one("arrangement"))
    }

    /// A set-up of the bay's layout.
    fn of_layout(&self, wanted: &str) -> Arrangement {
        let path = Path::new(env!("CARGO_MANIFEST_DIR"))
            .join("bay-layouts")
            .join(format!("{}.ron", self.one("bay")));
        let day = jiff::civil::date(2026, 11, 20);
        let loaded =
            baywright_files::open(&path, Some(day)).unwrap_or_else(|f| panic!("{}: {f:?}", self.name));
        let found = loaded.arrangements.into_iter().find(|(id, _)| id.as_str() == wanted);
        found.unwrap_or_else(|| panic!("{}: no arrangement {wanted:?}", self.name)).1
    }

    fn done(&self, mut now: Arrangement) -> Arrangement {
        for (word, text) in &self.lines {
            let parts: Vec<&str> = text.split(',').map(str::trim).collect();
            let number = |i: usize| -> f64 {
                parts
                    .get(i)
                    .and_then(|part| part.parse().ok())
                    .unwrap_or_else(|| panic!("{}: {text}", self.name))
            };
            let has = |there: bool| assert!(there, "{}: there is no {:?}", self.name, parts[0]);
            match word.as_str() {
                "move" => {
                    has(now.bay.things.iter().any(|t| t.id.as_str() == parts[0]));
                    let by = DVec2::new(number(1), number(2));
                    now = apply(&now, &Step::MoveThing { thing: parts[0].into(), by });
                }
                "take away" => {
                    has(now.bay.things.iter().any(|t| t.id.as_str() == parts[0]));
                    now = apply(&now, &Step::TakeAway { thing: parts[0].into() });
                }
                "park" => now = apply(&now, &Step::MoveCar { by: DVec2::new(number(0), number(1)) }),
                "turn the car" => {
                    let turned = now.parked.heading() + angle::radians(number(0));
                    now.parked = PlanPose::new(now.parked.origin(), turned);
                }
                "at once" => now = pair(now, self.of_layout(text), Default::default(), Vec::new()),
                "open" | "shut" => {
                    let door = now.bay.openings.iter_mut().find(|o| o.id.as_str() == parts[0]);
                    door.unwrap_or_else(|| panic!("{}: no door {text:?}", self.name)).shut = word == "shut";
                }
                "forget the floor survey" => now.bay.survey = None,
                "pit" => now.bay.floor_features.push(pit(&parts)),
                "somebody" => now.bay.things.push(somebody(&parts)),
                "jack" => now.bay.things.push(jack(&parts)),
                "instrument" => now.instruments = [words::instrument(&parts)].into(),
                "profile" => words::profile(&parts, &mut now),
                "file" => words::file(&parts, &mut now),
                "shop" => {
                    let figure = ShopFigure::ALL.iter().find(|own| own.name() == parts[0]);
                    let figure = figure.unwrap_or_else(|| panic!("{}: no setting {text:?}", self.name));
                    now.shop = now.shop.with(*figure, number(1));
                }
                "bay" | "arrangement" | "verdict" | "stops" | "care" | "cure" | "promise" => {}
                other => {
                    let held = Held {
                        car: &mut now.on_this_car,
                        taped: &mut now.marks_taped,
                        stands: &mut now.stands_read,
                        bay: &mut now.bay,
                    };
                    assert!(words::hold(other, &parts, held), "{}: what is {other:?}?", self.name);
                }
            }
        }
        now
    }

    /// The same as files in a folder: the layout with all of it done, and the shop's settings if it has its own.
    fn laid_out(&self, folder: &Path) -> (PathBuf, Option<PathBuf>) {
        let mut layout = baywright_files::open(Path::new(self.one("bay")), None)
            .unwrap_or_else(|f| panic!("{}: {f:?}", self.name))
            .layout;
        let here = Id::from(self.one("arrangement"));
        let mut shop = None;
        for (word, text) in &self.lines {
            let parts: Vec<&str> = text.split(',').map(str::trim).collect();
            let number = |i: usize| parts[i].parse::<f64>().expect("a number");
            let by = |i: usize| DVec2::new(number(i), number(i + 1));
            let edit = match word.as_str() {
                "move" => Edit::Do(Step::MoveThing { thing: parts[0].into(), by: by(1) }),
                "take away" => Edit::Do(Step::TakeAway { thing: parts[0].into() }),
                "park" => Edit::Do(Step::MoveCar { by: by(0) }),
                "turn the car" => {
                    let own = layout.arrangements.iter().find(|own| own.id == here).expect("it is there");
                    let turned = own.parked.heading() + angle::radians(number(0));
                    Edit::Park(PlanPose::new(own.parked.origin(), turned))
                }
                "at once" => Edit::AtOnce(vec![text.as_str().into()]),
                "open" | "shut" => Edit::Door { door: parts[0].into(), shut: word == "shut" },
                "forget the floor survey" => {
                    layout.bay.survey = None;
                    continue;
                }
                "pit" => {
                    layout.bay.floor_features.push(pit(&parts));
                    continue;
                }
                "somebody" => {
                    layout.bay.things.push(somebody(&parts));
                    continue;
                }
                "jack" => {
                    layout.bay.things.push(jack(&parts));
                    continue;
                }
                "shop" => {
                    let path = folder.join("shop.ron");
                    std::fs::write(&path, format!("(version: 2, {}: {})", parts[0], parts[1]))
                        .expect("it can be written");
                    shop = Some(path);
                    continue;
                }
                "instrument" => {
                    let path = folder.join("shop.ron");
                    let due = parts.get(1).map_or_else(String::new, |day| format!(", due: \"{day}\""));
                    let list = format!("[(name: \"{}\", kind: SteelTape{due})]", parts[0]);
                    std::fs::write(&path, format!("(version: 4, instruments: {list})"))
                        .expect("it can be written");
                    shop = Some(path);
                    continue;
                }
                other => {
                    let own = layout.arrangements.iter_mut().find(|own| own.id == here).expect("it is there");
                    let held = Held {
                        car: &mut own.on_this_car,
                        taped: &mut own.marks_taped,
                        stands: &mut own.stands_read,
                        bay: &mut layout.bay,
                    };
                    words::hold(other, &parts, held);
                    continue;
                }
            };
            layout = edit.apply(&layout, &here).unwrap_or_else(|f| panic!("{}: {f:?}", self.name));
        }
        let path = folder.join("bay.ron");
        let text = baywright_files::layout_text(&layout).unwrap_or_else(|f| panic!("{}: {f:?}", self.name));
        std::fs::write(&path, text).expect("it can be written");
        (path, shop)
    }

    fn compare(&self) {
        let arrangement = self.done(self.arrangement());
        let assessment = assess(&arrangement);
        let words = Words::new(&arrangement, Locale::default());
        let plain = |text: String| text.replace('\u{202f}', " ");
        assert_eq!(words.verdict(assessment.verdict), self.one("verdict"), "{}", told(&assessment, &words));
        for (severity, word) in [(Severity::Stops, "stops"), (Severity::Care, "care")] {
            let found: Vec<_> = assessment.findings.iter().filter(|f| f.severity == severity).collect();
            let expected = self.all(word);
            for text in &expected {
                let count = found.iter().filter(|f| plain(words.line(f)).starts_with(text)).count();
                assert_eq!(count, 1, "{}: {word}: {text}\n{}", self.name, told(&assessment, &words));
            }
            assert_eq!(found.len(), expected.len(), "{}\n{}", self.name, told(&assessment, &words));
        }
        for promise in self.all("promise") {
            let sentence = plain(words.summary(&assessment));
            assert!(sentence.contains(promise), "{}: {sentence}", self.name);
        }
        let mut before = "";
        for (word, text) in &self.lines {
            match word.as_str() {
                "stops" | "care" => before = text,
                "cure" => {
                    let cures: Vec<_> = assessment
                        .findings
                        .iter()
                        .filter(|f| plain(words.line(f)).starts_with(before))
                        .filter_map(|f| words.cure(f).map(plain))
                        .collect();
                    assert!(
                        cures.iter().any(|c| c.starts_with(text.as_str())),
                        "{}: {text}: {cures:?}",
                        self.name
                    );
                }
                _ => {}
            }
        }
    }
}

/// An open pit with an edge of concrete: its name, one corner, the other.
fn pit(parts: &[&str]) -> FloorFeature {
    let number = |i: usize| parts[i].parse::<f64>().expect("a number");
    let outline = Polygon::rectangle(DVec2::new(number(1), number(2)), DVec2::new(number(3), number(4)));
    FloorFeature {
        id: parts[0].into(),
        kind: FloorFeatureKind::Pit,
        outline: outline.expect("a rectangle"),
        material: Material::Concrete,
        proud_mm: 0.0,
    }
}

/// Somebody who stands in the bay: the name, and where.
fn somebody(parts: &[&str]) -> Thing {
    let number = |i: usize| parts[i].parse::<f64>().expect("a number");
    Thing {
        id: parts[0].into(),
        kind: ThingKind::Person,
        footprint: Footprint::new(Shape::Round { diameter_mm: 500.0 }).expect("a shape"),
        place: Place { at: PlanPose::new(DVec2::new(number(1), number(2)), 0.0), known: Known::Within(0.0) },
        span: Span::new(0.0, 1_800.0).expect("heights"),
        material: Material::Person,
        metal: None,
        effort: Effort::OnePerson,
        locked: false,
    }
}

fn jack(parts: &[&str]) -> Thing {
    let shape = Shape::Rectangle { length_mm: 300.0, width_mm: 300.0 };
    Thing {
        kind: ThingKind::Other,
        footprint: Footprint::new(shape).expect("a sound shape"),
        span: Span::new(0.0, 120.0).expect("heights"),
        material: Material::Steel,
        ..somebody(parts)
    }
}

fn told(assessment: &Assessment, words: &Words<'_>) -> String {
    let lines = assessment.findings.iter().map(|f| {
        let cure = words.cure(f).map_or_else(String::new, |cure| format!("\n    cure: {cure}"));
        format!("{:?}: {}{cure}", f.severity, words.line(f)).replace('\u{202f}', " ")
    });
    let lines: Vec<String> = lines.collect();
    format!("{}\n{}", words.summary(assessment), lines.join("\n"))
}

/// Each scenario as files for `check --json`, and what it must answer: its name, the arguments, the verdict.
pub fn asked_as_data(folder: &Path, mut ask: impl FnMut(&str, &[&str], &str)) {
    for path in all() {
        let own = Scenario::read(&path);
        // What a profile or the reading of files says is in no layout.
        if own.lines.iter().any(|(word, _)| word == "profile" || word == "file") {
            continue;
        }
        let (layout, shop) = own.laid_out(folder);
        let plain = |path: &Path| path.to_str().expect("a plain name").to_owned();
        let mut line = vec![plain(&layout), "-a".to_owned(), own.one("arrangement").to_owned()];
        line.extend(shop.iter().flat_map(|shop| ["--shop".to_owned(), plain(shop)]));
        let line: Vec<&str> = line.iter().map(String::as_str).collect();
        let verdict = own.one("verdict").trim_start_matches("Space ").replace(' ', "-");
        ask(&own.name, &line, &verdict);
    }
}

fn all() -> Vec<PathBuf> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/scenarios");
    let mut paths: Vec<_> = std::fs::read_dir(folder)
        .expect("the scenarios")
        .map(|entry| entry.expect("an entry").path())
        .collect();
    paths.sort();
    assert!(paths.len() >= 10, "only {} scenarios", paths.len());
    paths
}

#[test]
fn every_scenario_comes_out_as_written() {
    // Each by itself, so that all that differs is seen at once.
    let wrong = all().into_iter().filter(|path| {
        let compared = std::panic::catch_unwind(|| Scenario::read(path).compare());
        compared.is_err()
    });
    let wrong: Vec<PathBuf> = wrong.collect();
    assert!(wrong.is_empty(), "{wrong:?}");
}

/// Each kind of finding is in a scenario: what is found, how it is said and what must come out of it in one place.
#[test]
fn each_code_has_a_scenario() {
    let mut found: Vec<Code> = Vec::new();
    for path in all() {
        let own = Scenario::read(&path);
        let findings = assess(&own.done(own.arrangement())).findings;
        found.extend(findings.iter().map(baywright_planner::Finding::code));
    }
    let missing: Vec<&str> =
        Code::ALL.into_iter().filter(|code| !found.contains(code)).map(Code::as_str).collect();
    assert!(missing.is_empty(), "{} of {}: {missing:?}", missing.len(), Code::ALL.len());
}
