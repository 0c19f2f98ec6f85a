//! `baywright plan`, as a person and as a program runs it.

use serde_json::Value;

use crate::run::baywright;

fn text(bytes: &[u8]) -> String {
    String::from_utf8(bytes.to_vec()).expect("text")
}

/// What is told as data says the same as the table and the text, is as the schema says, and each place that fits is one at which
/// `check` would find nothing that stops; the exit status tells whether a place was found for each.
#[test]
fn text_data_and_table_say_the_same() {
    let schema = serde_json::from_slice(&baywright(&["schema"]).stdout).expect("a schema");
    let schema = jsonschema::draft202012::new(&schema).expect("a schema");
    let mut never = 0;
    for bay in ["short-bay", "crowded-bay", "hall"] {
        let told = baywright(&["plan", bay, "--json"]);
        assert!(told.stderr.is_empty(), "{bay}: {}", text(&told.stderr));
        let data: Value = serde_json::from_slice(&told.stdout).expect("data");
        let wrong: Vec<String> = schema.iter_errors(&data).map(|own| own.to_string()).collect();
        assert!(wrong.is_empty(), "{bay}: {wrong:#?}");
        let places = data["places"].as_array().expect("places");
        let lines = data["lines"].as_array().expect("lines");
        assert_eq!(places.last().expect("a place")["kind"], "room");
        let table = text(&baywright(&["plan", bay, "--csv"]).stdout);
        let mut rows = csv_rows(&table).into_iter();
        let head = rows.next().expect("a head");
        assert_eq!(
            (&head[..3], &head[13..]),
            (
                &["set_up", "vehicle", "aiming"].map(String::from)[..],
                &["stops", "never"].map(String::from)[..]
            )
        );
        let said = text(&baywright(&["plan", bay]).stdout);
        let mut all_found = true;
        for line in lines {
            let cells = line["cells"].as_array().expect("cells");
            assert_eq!(cells.len(), places.len());
            for (cell, place) in cells.iter().zip(places) {
                let row = rows.next().expect("a row");
                assert_eq!(row[0], line["set_up"].as_str().unwrap_or_default());
                assert_eq!(row[1], line["vehicle"].as_str().expect("a car"));
                assert_eq!(row[3], place["kind"].as_str().expect("a kind"));
                assert_eq!(row[5], cell["answer"].as_str().expect("an answer"));
                assert_eq!(row[6], cell["verdict"].as_str().unwrap_or_default());
                assert_eq!(row[7].parse::<f64>().ok(), cell["pose"]["at_mm"][0].as_f64());
                let is_never = cell["never"] == true;
                assert_eq!(row[14], if is_never { "true" } else { "" }, "{bay}: {cell}");
                never += usize::from(is_never);
                assert!(said.contains(cell["sentence"].as_str().expect("a sentence")), "{bay}: {cell}");
                assert_ne!(cell["verdict"], "not-ready");
            }
            all_found &= cells.last().is_some_and(|own| own["answer"] == "fits");
        }
        assert!(rows.next().is_none());
        let status = i32::from(!all_found);
        assert_eq!(told.status.code(), Some(status), "{bay}");
        let silent = baywright(&["plan", bay, "-q"]);
        assert_eq!((silent.status.code(), silent.stdout.len(), silent.stderr.len()), (Some(status), 0, 0));
        // The place for the most serves no more than there are, and the map none more than it.
        if let Some(serves) = data["one_place"]["serves"].as_array() {
            let most = data["fit_map"]["rows"].as_array().expect("rows").iter();
            let most = most.flat_map(|own| own.as_array().expect("a row")).filter_map(Value::as_u64).max();
            assert!(most.unwrap_or_default() as usize <= serves.len() && serves.len() <= lines.len());
        }
    }
    assert!(never > 0, "something never fits in one of them");
}

fn csv_rows(table: &str) -> Vec<Vec<String>> {
    let mut reader = csv::ReaderBuilder::new().has_headers(false).from_reader(table.as_bytes());
    reader.records().map(|own| own.expect("a row").iter().map(str::to_owned).collect()).collect()
}

#[test]
fn cars_are_asked_about_by_name() {
    let told = baywright(&["plan", "short-bay", "--car", "example-saloon", "--json"]);
    let data: Value = serde_json::from_slice(&told.stdout).expect("data");
    let lines = data["lines"].as_array().expect("lines");
    assert!(!lines.is_empty());
    for line in lines {
        assert_eq!((&line["vehicle"], &line["set_up"]), (&Value::from("example-saloon"), &Value::Null));
    }
    let german = baywright(&["plan", "short-bay", "--car", "example-saloon", "--language", "de"]);
    assert!(text(&german.stdout).contains("Eine Stelle für die meisten"), "{}", text(&german.stdout));
}

#[test]
fn what_is_not_there_is_answered_with_what_is() {
    let wrong = baywright(&["plan", "short-bay", "--car", "example-salon"]);
    assert_eq!(wrong.status.code(), Some(2));
    assert!(wrong.stdout.is_empty());
    let said = text(&wrong.stderr);
    assert!(said.contains("Did you mean \"example-saloon\"?") && said.contains("example-van"), "{said}");
    let wrong = baywright(&["plan", "short-bay", "--car", "example-salon", "--json"]);
    let data: Value = serde_json::from_slice(&wrong.stderr).expect("data");
    assert!(data.to_string().contains("\"unknown-name\""), "{data}");
    assert_eq!(baywright(&["plan", "short-bay", "-a", "no such"]).status.code(), Some(2));
    assert_eq!(baywright(&["plan", "short-bay", "--json", "--csv"]).status.code(), Some(2));
    assert_eq!(baywright(&["plan", "nowhere"]).status.code(), Some(2));
}

/// What must move is told of each set-up that is stopped where it stands and of each line without a place, as text and as data; in the
/// table, on the report and beside a proof it is not.
#[test]
fn what_must_move_is_told_when_it_is_asked() {
    let schema = serde_json::from_slice(&baywright(&["schema"]).stdout).expect("a schema");
    let schema = jsonschema::draft202012::new(&schema).expect("a schema");
    let (mut ways, mut none) = (0, 0);
    for bay in ["short-bay", "crowded-bay"] {
        let plain: Value = serde_json::from_slice(&baywright(&["plan", bay, "--json"]).stdout).expect("data");
        assert!(!plain.to_string().contains("must_move"));
        let told = baywright(&["plan", bay, "--moves", "--json"]);
        let data: Value = serde_json::from_slice(&told.stdout).expect("data");
        let wrong: Vec<String> = schema.iter_errors(&data).map(|own| own.to_string()).collect();
        assert!(wrong.is_empty(), "{bay}: {wrong:#?}");
        let judged: Value =
            serde_json::from_slice(&baywright(&["check", bay, "--json"]).stdout).expect("data");
        let said = text(&baywright(&["plan", bay, "--moves"]).stdout);
        assert!(said.contains("What must move:"), "{said}");
        for line in data["lines"].as_array().expect("lines") {
            let all = line["must_move"].as_array().expect("it was asked");
            let set_ups = judged["arrangements"].as_array().expect("set-ups");
            let own = set_ups.iter().find(|own| own["arrangement"] == line["set_up"]).expect("a set-up");
            let of = |at: &str| all.iter().find(|own| own["at"] == at);
            assert_eq!(of("here").is_some(), own["verdict"] == "not-ready", "{bay}: {line}");
            let cells = line["cells"].as_array().expect("cells");
            assert_eq!(of("anywhere").is_some(), cells.last().expect("a room")["answer"] == "none-found");
            for own in all {
                for sentence in own["sentences"].as_array().expect("sentences") {
                    let sentence = sentence.as_str().expect("a sentence");
                    assert!(said.contains(sentence), "{bay}: {sentence}");
                }
                match &own["way"] {
                    Value::Null => none += 1,
                    way => {
                        ways += 1;
                        assert_ne!(way["verdict"], "not-ready");
                        assert!(!way["moves"].as_array().expect("moves").is_empty());
                    }
                }
            }
        }
    }
    assert!(ways > 0, "{ways} {none}");
    for beside in [["--csv", "--moves"], ["--moves", "-oreport.pdf"]] {
        let both = baywright(&[["plan", "short-bay"], beside].concat());
        assert_eq!(both.status.code(), Some(2), "{beside:?}");
    }
}

/// The owner's report is a file of the kind that its name says, in the language and on the paper that were asked for; the exit status is
/// that of the answer. What is read is not replaced, and what cannot be written is said before the search.
#[test]
fn the_owners_report_is_written() {
    let folder = std::env::temp_dir().join(format!("baywright-report-{}", std::process::id()));
    std::fs::create_dir_all(&folder).expect("a folder");
    let bay = folder.join("bay.ron");
    std::fs::copy("bay-layouts/short-bay.ron", &bay).expect("a bay");
    let bay = bay.to_str().expect("a path");
    let status = baywright(&["plan", bay, "-q"]).status.code();
    for (language, size, mm, wanted) in [
        (
            "en",
            "A4",
            (210.0, 297.0),
            ["Owner'sreport", "Inshort", "Whichaimingfitswhere", "Anywhereintheroom"],
        ),
        (
            "de",
            "Letter",
            (215.9, 279.4),
            ["BerichtfürdenInhaber", "InKürze", "WelcheEinstellungwohinpasst", "IrgendwoimRaum"],
        ),
    ] {
        let file = folder.join(format!("report-{language}.pdf"));
        let to = file.to_str().expect("a path");
        let done =
            baywright(&["plan", bay, "-o", to, "--paper", size, "--revision", "C", "--language", language]);
        assert_eq!((done.status.code(), text(&done.stdout).trim()), (status, to), "{}", text(&done.stderr));
        let document = lopdf::Document::load(&file).expect("a PDF");
        let pages: Vec<u32> = document.get_pages().keys().copied().collect();
        assert!(pages.len() > 1);
        let said: String = document.extract_text(&pages).expect("text").split_whitespace().collect();
        for own in wanted {
            assert!(said.contains(own), "{own}: {said}");
        }
        let page = document.get_dictionary(document.get_pages()[&1]).expect("a page");
        let edges = page.get(b"MediaBox").and_then(lopdf::Object::as_array).expect("its size");
        let edge = |nth: usize| f64::from(edges[nth].as_float().expect("a length")) * 25.4 / 72.0;
        assert!((edge(2) - mm.0).abs() < 0.1 && (edge(3) - mm.1).abs() < 0.1, "{edges:?}");
    }
    let picture = folder.join("report.svg");
    let done = baywright(&["plan", bay, "-o", picture.to_str().expect("a path"), "--landscape"]);
    assert_eq!(done.status.code(), status);
    assert!(text(&done.stdout).lines().count() > 1, "a file for each page");
    for (line, code) in [
        (vec!["plan", bay, "-o", bay], 2),
        (vec!["plan", bay, "-o", "/no/such/folder/report.pdf"], 3),
        (vec!["plan", bay, "-o", "report.pdf", "--json"], 2),
        (vec!["plan", bay, "--paper", "A4"], 2),
    ] {
        let wrong = baywright(&line);
        assert_eq!(wrong.status.code(), Some(code), "{line:?}: {}", text(&wrong.stderr));
        assert!(wrong.stdout.is_empty() && !wrong.stderr.is_empty());
    }
    assert!(std::fs::read_to_string(bay).expect("the bay").contains("version"));
    std::fs::remove_dir_all(&folder).expect("it goes");
}

/// A layout of the short bay whose owner says something.
fn owned(folder: &std::path::Path, owner: &str) -> String {
    let bay = std::fs::read_to_string("bay-layouts/short-bay.ron").expect("a bay");
    let text = bay.replacen("    room: (", &format!("    owner: ({owner}),\n    room: ("), 1);
    let path = folder.join("owned.ron");
    std::fs::write(&path, text).expect("it is written");
    path.to_str().expect("a path").to_owned()
}

/// What changes unlock is told as data and as text, each alone and together for the sum; a room keeps its strip for what is in store; where a
/// line never fits, a proof of it can be had; the report has it all.
#[test]
fn changes_proofs_and_what_is_in_store_are_told() {
    let folder = std::env::temp_dir().join(format!("baywright-changes-{}", std::process::id()));
    std::fs::create_dir_all(&folder).expect("a folder");
    let bay = owned(
        &folder,
        "to_spend: 9000, square_metre: 1500, store_mm: 700, further: [(name: \"office wall\", costs: 4000), \
         (name: \"yard wall\", costs: 4500)], without: [(name: \"compressor\", costs: 300)], \
         walled_up: [(name: \"side door\", costs: 900)], open_onto: [(name: \"roller door\", costs: 1200)]",
    );
    let told = baywright(&["plan", &bay, "--changes", "--further", "1500", "--json"]);
    assert!(told.stderr.is_empty(), "{}", text(&told.stderr));
    let data: Value = serde_json::from_slice(&told.stdout).expect("data");
    let schema = serde_json::from_slice(&baywright(&["schema"]).stdout).expect("a schema");
    let schema = jsonschema::draft202012::new(&schema).expect("a schema");
    let wrong: Vec<String> = schema.iter_errors(&data).map(|own| own.to_string()).collect();
    assert!(wrong.is_empty(), "{wrong:#?}");
    let said = text(&baywright(&["plan", &bay, "--changes", "--further", "1500"]).stdout);
    let changes = &data["changes"];
    assert_eq!((&changes["further_mm"], &changes["to_spend"]), (&Value::from(1500.0), &Value::from(9000.0)));
    let alone = changes["alone"].as_array().expect("changes");
    assert_eq!(alone.len(), 8, "four walls, two things, two doors onto free ground");
    // The car comes in by the roller door alone and the side door is a way out: both stay.
    let stay = serde_json::json!([
        { "opening": "roller door", "why": "way-in" },
        { "opening": "side door", "why": "exit" },
    ]);
    assert_eq!(changes["stay"], stay);
    assert!(
        said.contains("Roller door was not asked to be walled up: people, or a car of the list"),
        "{said}"
    );
    let onto = |door: &str| alone.iter().find(|own| own["open-onto"]["door"] == door).expect("the change");
    assert_eq!(onto("roller door")["open-onto"]["ground_mm"], 1500.0);
    assert_eq!((onto("roller door")["costs"].as_f64(), onto("side door").get("costs")), (Some(1200.0), None));
    let worth = |own: &Value| own["unlocks"].as_array().expect("lines").len();
    assert!(alone.iter().map(worth).is_sorted_by(|a, b| a >= b), "{alone:#?}");
    let costs = |key: &str, name: &str| {
        let own = alone.iter().find(|own| own[key] == name).expect("the change");
        own.get("costs").and_then(Value::as_f64)
    };
    assert_eq!(costs("further", "office wall"), Some(4000.0));
    assert_eq!((costs("without", "compressor"), costs("without", "work bench")), (Some(300.0), None));
    // Together no less than the best single one that has a price, and within the sum.
    let both = &changes["together"];
    assert!(both["costs"].as_f64().expect("costs") <= 9000.0 && both["sets_looked_at"].as_u64() >= Some(3));
    let priced = alone.iter().filter(|own| own.get("costs").is_some());
    assert!(worth(both) >= priced.map(worth).max().expect("some"), "{both}");
    for own in alone.iter().filter(|own| worth(own) > 0) {
        let named = ["further", "without", "walled-up"].into_iter().find_map(|key| own[key].as_str());
        let name = named.or(own["open-onto"]["door"].as_str()).expect("a name");
        assert!(said.to_lowercase().contains(name), "{name}: {said}");
    }
    assert!(said.contains("Together, for what can be spent:"), "{said}");
    // Its strip for what is in store.
    assert_eq!(data["empty_room"]["store"]["depth_mm"], 700.0);
    assert!(said.contains("in store"), "{said}");
    // Whoever never fits has a proof, and is none that fits.
    let mut never = 0;
    for line in data["lines"].as_array().expect("lines") {
        let cells = line["cells"].as_array().expect("cells");
        for cell in cells.iter().filter(|own| own["never"] == true) {
            assert_eq!((&cell["answer"], &cell["verdict"]), (&Value::from("none-found"), &Value::Null));
            let sentence = cell["sentence"].as_str().expect("a sentence");
            assert!(sentence.starts_with("It never fits here") && said.contains(sentence), "{sentence}");
        }
        if cells.last().is_some_and(|own| own["never"] == true) {
            never += 1;
            let proof = folder.join("proof.ron");
            let name = line["set_up"].as_str().expect("a set-up");
            let proven = baywright(&["plan", &bay, "-a", name, "--proof", proof.to_str().expect("a path")]);
            assert_eq!(proven.status.code(), Some(0), "{name}: {}", text(&proven.stdout));
        }
    }
    assert!(never > 0, "something never fits in the short bay: {said}");
    let file = folder.join("report.pdf");
    let to = file.to_str().expect("a path");
    let done = baywright(&["plan", &bay, "--changes", "-o", to]);
    assert_eq!(done.status.code(), Some(1), "{}", text(&done.stderr));
    let document = lopdf::Document::load(&file).expect("a PDF");
    let pages: Vec<u32> = document.get_pages().keys().copied().collect();
    let paper: String = document.extract_text(&pages).expect("text").split_whitespace().collect();
    for own in ["Changesofthebuilding", "Together,forwhatcanbespent", "never", "Itcosts"] {
        assert!(paper.contains(own), "{own}: {paper}");
    }
    for line in [
        vec!["plan", &bay, "--further", "1500"],
        vec!["plan", &bay, "--changes", "--further", "0"],
        vec!["plan", &bay, "--changes", "--csv"],
    ] {
        assert_eq!(baywright(&line).status.code(), Some(2), "{line:?}");
    }
    std::fs::remove_dir_all(&folder).expect("it goes");
}
