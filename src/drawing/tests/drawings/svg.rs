//! SVG that any reader takes, the same bytes every time.

use baywright_drawing::{Fit, Lettering, Page, Projection, Theme, ViewState, picture, to_svg};
use baywright_planner::model::Arrangement;
use baywright_planner::{Assessment, assess};

use super::bay;

fn page(arrangement: &Arrangement, assessment: &Assessment, projections: &[Projection], width: f64) -> Page {
    let (state, fit) = (ViewState::default(), Fit::picture(width));
    picture(arrangement, assessment, &state, projections, fit, &Lettering::default())
}

const TOP: &[Projection] = &[Projection::Top];
const SIDE: &[Projection] = &[Projection::Side];
const BOTH: &[Projection] = &[Projection::Top, Projection::Side];

fn parsed(svg: &str) -> roxmltree::Document<'_> {
    roxmltree::Document::parse(svg).unwrap_or_else(|fault| panic!("{fault}"))
}

/// Every reference to a pattern or clip is to one that is there, every number is a number.
fn check(svg: &str) {
    let document = parsed(svg);
    let root = document.root_element();
    let ids: Vec<&str> = document.descendants().filter_map(|node| node.attribute("id")).collect();
    for node in document.descendants() {
        for attribute in node.attributes() {
            if let Some(id) = attribute.value().strip_prefix("url(#") {
                assert!(ids.contains(&id.trim_end_matches(')')), "{}", attribute.value());
            }
            assert!(
                !attribute.value().contains("NaN") && !attribute.value().contains("inf"),
                "{attribute:?}"
            );
        }
        if node.has_tag_name("text") {
            let size: f64 = node.attribute("font-size").unwrap().parse().unwrap();
            assert!(size >= Lettering::LEAST_TEXT, "{:?}", node.text());
        }
    }
    assert_eq!(
        root.attribute("viewBox").unwrap(),
        format!("0 0 {} {}", root.attribute("width").unwrap(), root.attribute("height").unwrap())
    );
    assert!(
        root.children().any(|node| node.has_tag_name("title") && node.text().is_some_and(|t| !t.is_empty()))
    );
    assert!(
        root.children()
            .any(|node| node.has_tag_name("desc") && node.text().is_some_and(|t| t.contains("Scale 1 : ")))
    );
}

#[test]
fn well_formed_and_the_same_every_time() {
    for arrangement in [bay::empty(false), bay::empty(true), bay::crowded()] {
        let made = || {
            let assessment = assess(&arrangement);
            [Theme::Light, Theme::Dark].map(|theme| {
                [TOP, SIDE, BOTH].map(|views| to_svg(&page(&arrangement, &assessment, views, 1200.0), theme))
            })
        };
        let svgs = made();
        svgs.iter().flatten().for_each(|svg| check(svg));
        assert_eq!(svgs, made());
    }
}

#[test]
fn it_says_what_it_shows() {
    let arrangement = bay::crowded();
    let assessment: Assessment = assess(&arrangement);
    let svg = to_svg(&page(&arrangement, &assessment, TOP, 1200.0), Theme::Light);
    let document = parsed(&svg);
    let shown = |subject: &str| document.descendants().any(|n| n.attribute("data-subject") == Some(subject));
    for subject in
        ["car", "thing:tool cabinet", "zone:metal-free area", "target:target", "wall:street wall", "mark:5"]
    {
        assert!(shown(subject), "{subject}");
    }
    let text: String =
        document.descendants().filter(|n| n.has_tag_name("text")).filter_map(|n| n.text()).collect();
    // The verdict in words, that figures are examples, who decides.
    for said in ["Space not ready", "on example figures", "procedure decides"] {
        assert!(text.contains(said), "{said}");
    }
    let desc = document.descendants().find(|n| n.has_tag_name("desc")).unwrap().text().unwrap();
    assert!(desc.starts_with("Space not ready"), "{desc}");
}

/// The scale on paper: at 96 px to the inch the drawn room divided by the room is the scale that is told.
#[test]
fn the_scale_told_is_the_scale_drawn() {
    let arrangement = bay::crowded();
    let assessment = assess(&arrangement);
    let page = page(&arrangement, &assessment, TOP, 1200.0);
    let svg = to_svg(&page, Theme::Light);
    let drawing = page.views().next().unwrap();
    let told: f64 = svg.split("Scale 1 : ").nth(1).unwrap().split(' ').next().unwrap().parse().unwrap();
    let room_px = 12_000.0 * drawing.px_per_mm;
    let room_paper_mm = room_px / 96.0 * 25.4;
    assert!((12_000.0 / room_paper_mm - told).abs() <= 0.5, "{told}");
}

#[test]
fn hostile_names_stay_text() {
    let long = "a very long name ".repeat(12);
    let names = [
        "<script>alert('x')</script> & \"q\"",
        "ארון כלים \u{202e}הפוך",
        long.as_str(),
        "\u{0}\u{7}\u{fffe}",
        "漢字の棚",
        "",
    ];
    let mut arrangement = bay::crowded();
    for (i, name) in names.iter().enumerate() {
        arrangement.bay.things.push(bay::cabinet(name, (1000.0 + 1500.0 * i as f64, 900.0)));
    }
    arrangement.bay.name = names[0].into();
    arrangement.bay.walls[1].id = long.as_str().into();
    arrangement.bay.openings[0].id = names[0].into();
    arrangement.aiming.zones[0].id = names[1].into();
    arrangement.vehicle.name = long.clone();
    let assessment = assess(&arrangement);
    for width in [400.0, 1200.0] {
        for views in [TOP, SIDE] {
            let page = page(&arrangement, &assessment, views, width);
            page.views().for_each(|drawing| super::list::check(&arrangement, &assessment, drawing));
            let svg = to_svg(&page, Theme::Light);
            check(&svg);
            assert!(!svg.contains("<script"));
            let document = parsed(&svg);
            let shown = document.descendants().filter(|n| n.is_text()).filter_map(|n| n.text());
            assert!(
                shown.into_iter().all(|text| !text.contains('\u{202e}')),
                "no text turns what follows it around"
            );
            for text in document.descendants().filter(|n| n.has_tag_name("text")) {
                let length = text.attribute("textLength").map_or(0.0, |l| l.parse::<f64>().unwrap());
                assert!(length <= width, "{:?} is {length} px long", text.text());
            }
        }
    }
}
