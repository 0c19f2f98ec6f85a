//! All that `--json` writes is as its schema says.

use std::collections::BTreeSet;
use std::process::{Command, Output, Stdio};

use jsonschema::Validator;
use serde_json::{Value, json};

use crate::scenarios::asked_as_data;

fn run(line: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_baywright"))
        .args(line)
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .env("XDG_DATA_HOME", std::env::temp_dir().join("baywright-no-settings-of-anybody"))
        .stdin(Stdio::null())
        .output()
        .expect("the program runs")
}

fn data(bytes: &[u8]) -> Value {
    serde_json::from_slice(bytes).unwrap_or_else(|why| panic!("{why}: {}", String::from_utf8_lossy(bytes)))
}

fn schema() -> Value {
    let output = run(&["schema"]);
    assert!(output.status.success());
    data(&output.stdout)
}

/// The same schema in which nothing may be there that it does not name: what is written and not described is found.
fn strict(mut schema: Value) -> Validator {
    fn close(part: &mut Value) {
        match part {
            Value::Object(all) => {
                if all.contains_key("properties") && !all.contains_key("additionalProperties") {
                    all.insert("additionalProperties".into(), json!(false));
                }
                all.values_mut().for_each(close);
            }
            Value::Array(all) => all.iter_mut().for_each(close),
            _ => {}
        }
    }
    close(&mut schema);
    jsonschema::draft202012::new(&schema).expect("a schema")
}

fn must_hold(validator: &Validator, document: &Value, of: &str) {
    let wrong: Vec<String> =
        validator.iter_errors(document).map(|wrong| format!("{}: {wrong}", wrong.instance_path())).collect();
    assert!(wrong.is_empty(), "{of}: {wrong:#?}");
}

#[test]
fn it_is_a_schema() {
    let schema = schema();
    assert_eq!(schema["$schema"], "https://json-schema.org/draft/2020-12/schema");
    jsonschema::draft202012::meta::validate(&schema).expect("a schema of draft 2020-12");
    // It says what each part is.
    for part in ["Answer", "Found", "Code", "Errors", "Wrong", "Cured"] {
        assert!(schema["$defs"][part]["description"].is_string(), "{part}");
    }
}

/// Every shipped bay and every scenario, and several at once.
#[test]
fn answers_are_as_it_says() {
    let strict = strict(schema());
    let (mut codes, mut cures) = (BTreeSet::new(), 0);
    let mut holds = |of: &str, asked: &[&str]| {
        let output = run(&[&["check", "--json", "--date", "2026-11-20"], asked].concat());
        assert!(output.stderr.is_empty(), "{of}: {}", String::from_utf8_lossy(&output.stderr));
        let answer = data(&output.stdout);
        must_hold(&strict, &answer, of);
        for one in answer["arrangements"].as_array().expect("arrangements") {
            for finding in one["findings"].as_array().expect("findings") {
                codes.insert(finding["code"].as_str().expect("a code").to_owned());
                cures += usize::from(finding["cure"].is_object());
            }
        }
        answer
    };
    for own in baywright_files::EMBEDDED_LAYOUTS {
        holds(own.name, &[own.name]);
    }
    let folder = std::env::temp_dir().join(format!("baywright-schema-{}", std::process::id()));
    std::fs::create_dir_all(&folder).expect("a scratch folder");
    let mut seen = 0;
    asked_as_data(&folder, |name, line, verdict| {
        let answer = holds(name, line);
        assert_eq!(answer["arrangements"][0]["verdict"], verdict, "{name}");
        seen += 1;
    });
    let _ = std::fs::remove_dir_all(folder);
    assert!(seen > 15 && cures > 20, "{seen} scenarios, {cures} cures");
    assert!(codes.len() > 20, "{codes:?}");
    let several = run(&["check", "clear-bay", "lift-bay", "nowhere", "--json", "--units", "ft"]);
    must_hold(&strict, &data(&several.stdout), "several");
    must_hold(&strict, &data(&several.stderr), "what went wrong beside them");
}

/// What a mark sheet tells as data is as the schema says, of every shipped bay.
#[test]
fn marks_as_data_are_as_the_schema_says() {
    let strict = strict(schema());
    for own in baywright_files::EMBEDDED_LAYOUTS {
        let name = own.name.trim_end_matches(".ron");
        let told = run(&["marks", name, "--format", "json", "--date", "2026-11-20"]);
        assert!(told.status.success(), "{name}");
        must_hold(&strict, &data(&told.stdout), name);
    }
}

/// What is told of a record of a visit is as the schema says.
#[test]
fn records_as_data_are_as_the_schema_says() {
    let strict = strict(schema());
    let record = "src/files/tests/record/chain.visit.ron";
    let none = "0".repeat(64);
    for line in [
        ["record", "check", record, "--format", "json", "-q"].as_slice(),
        &["record", "check", record, "--head", &none, "--format", "json"],
        &["record", "show", record, "--format", "json"],
    ] {
        must_hold(&strict, &data(&run(line).stdout), &format!("{line:?}"));
    }
}

/// What is not so is refused: a schema that lets everything through would hold nothing.
#[test]
fn what_is_otherwise_is_refused() {
    let schema = schema();
    let plain = jsonschema::draft202012::new(&schema).expect("a schema");
    let answer = data(&run(&["check", "crowded-bay", "--json"]).stdout);
    must_hold(&plain, &answer, "as it is");
    type Spoil = fn(&mut Value);
    let spoilt: [(&str, Spoil); 8] = [
        ("another format", |of| of["format"] = json!("another")),
        ("no arrangements", |of| drop(of.as_object_mut().map(|all| all.remove("arrangements")))),
        ("a verdict that is none", |of| of["arrangements"][0]["verdict"] = json!("perhaps")),
        ("a code that is none", |of| of["arrangements"][0]["findings"][0]["code"] = json!("zone")),
        ("a flat place", |of| of["arrangements"][0]["findings"][0]["place_mm"] = json!([1, 2])),
        ("a unit that is none", |of| of["arrangements"][0]["findings"][0]["measured"]["unit"] = json!("in")),
        ("a mark without instruction", |of| {
            of["arrangements"][0]["marks"][0] = json!({ "name": "A", "at_mm": null })
        }),
        ("a figure as text", |of| of["arrangements"][0]["targets"][0]["facing_deg"] = json!("180")),
    ];
    for (what, spoil) in spoilt {
        let mut other = answer.clone();
        spoil(&mut other);
        assert_ne!(other, answer, "{what}");
        assert!(!plain.is_valid(&other), "{what}");
    }
    // What a later version adds is no fault.
    let mut later = answer;
    later["arrangements"][0]["added_later"] = json!(1);
    must_hold(&plain, &later, "a field more");
}
