//! How long a frame takes without a window: the answer, both drawings, the screen's own work, triangles.
//!
//! `still`: the pointer moves over the drawing and nothing changes. `drag`: a thing is in the hand, elsewhere in every frame.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a bench fails by panicking")]

use std::hint::black_box;
use std::path::Path;

use baywright_desk::screen::Desk;
use baywright_desk::session::document::Document;
use baywright_drawing::sheet::{About, Answered, Of, Paper, Sheet, Size, sheet};
use baywright_drawing::{Lettering, Theme, ViewState, to_pdf};
use baywright_files::Library;
use baywright_planner::geometry::{Bounds, DVec2, PlanPose, Polygon};
use baywright_planner::model::{Id, Known, Layout, Place, ShopFace, Thing};
use baywright_planner::{Subject, assess_fully};
use criterion::{Criterion, criterion_group, criterion_main};
use egui::{Context, Event, Modifiers, PointerButton, Pos2, RawInput, Rect, Vec2};

const SIZE: Vec2 = Vec2::new(1440.0, 900.0);

struct Screen {
    ctx: Context,
    desk: Desk,
    time: f64,
}

impl Screen {
    fn new(desk: Desk) -> Self {
        let ctx = Context::default();
        Desk::install(&ctx);
        let mut screen = Self { ctx, desk, time: 0.0 };
        for _ in 0..4 {
            screen.frame(Vec::new());
        }
        screen
    }

    /// Everything up to the triangles.
    fn frame(&mut self, events: Vec<Event>) -> usize {
        self.time += 1.0 / 60.0;
        let input = RawInput {
            screen_rect: Some(Rect::from_min_size(Pos2::ZERO, SIZE)),
            time: Some(self.time),
            events,
            ..RawInput::default()
        };
        let ctx = self.ctx.clone();
        let mut output = ctx.run_ui(input, |ui| self.desk.frame(ui));
        // No graphics card here takes the letters.
        output.textures_delta.clear();
        ctx.tessellate(output.shapes, output.pixels_per_point).len()
    }

    /// Takes a thing in the hand, where it is drawn.
    fn grab(&mut self, thing: &Id) -> Pos2 {
        let (drawing, paper) = self.desk.drawings().next().expect("a top view");
        let of = Subject::Thing(thing.clone());
        let drawn = drawing.box_of(&of).expect("it is drawn");
        let spots = (1..10).flat_map(|i| (1..10).map(move |j| DVec2::new(f64::from(i), f64::from(j)) / 10.0));
        let at = spots
            .map(|part| drawn.low + drawn.size() * part)
            .find(|&at| drawing.pick(at, 0.0).is_some_and(|picked| picked.subject.as_ref() == Some(&of)));
        let at = at.expect("some of it lies open");
        let at = paper.min + Vec2::new(at.x as f32, at.y as f32);
        self.frame(vec![Event::PointerMoved(at)]);
        self.frame(vec![Self::button(at, true)]);
        // Far enough to be a drag and no press.
        self.frame(vec![Event::PointerMoved(at + Vec2::splat(12.0))]);
        at
    }

    fn button(pos: Pos2, pressed: bool) -> Event {
        Event::PointerButton { pos, button: PointerButton::Primary, pressed, modifiers: Modifiers::NONE }
    }
}

/// Where a thing is drawn.
fn drawn_at(screen: &Screen, thing: &Id) -> Option<Bounds> {
    screen.desk.drawings().next().and_then(|(top, _)| top.box_of(&Subject::Thing(thing.clone())))
}

fn crowded() -> Layout {
    baywright_files::open(Path::new("crowded-bay"), None).unwrap().layout
}

/// The demo's car in a hall with this many things.
fn hall(count: usize) -> Layout {
    let mut layout = crowded();
    let columns = 40;
    let pattern: Thing = layout.bay.things.iter().find(|t| t.id.as_str() == "tool cabinet").unwrap().clone();
    layout.bay.room =
        Polygon::rectangle(DVec2::ZERO, DVec2::new(60_000.0, 1_400.0 * (count / columns + 6) as f64))
            .unwrap();
    layout.bay.openings.clear();
    layout.bay.keep_free.clear();
    layout.bay.floor_features.clear();
    layout.bay.things = (0..count)
        .map(|i| {
            let at = DVec2::new(
                1_000.0 + 1_450.0 * (i % columns) as f64,
                7_000.0 + 1_350.0 * (i / columns) as f64,
            );
            Thing {
                id: format!("cabinet {i}").into(),
                place: Place { at: PlanPose::new(at, 0.05 * (i % 7) as f64), known: Known::Taped },
                ..pattern.clone()
            }
        })
        .collect();
    layout.arrangements.truncate(1);
    let own = &mut layout.arrangements[0];
    own.moved.clear();
    own.away.clear();
    own.added.clear();
    own.shut.clear();
    layout
}

fn frames(criterion: &mut Criterion) {
    for (name, layout) in [("crowded bay", crowded()), ("hall of 1,000 things", hall(1_000))] {
        let thing = layout.bay.things[1].id.clone();
        let document = Document::of(layout, None, None, &Library::built_in(), None).unwrap();
        let mut screen = Screen::new(Desk::new(document).expect("an answer"));
        let mut group = criterion.benchmark_group(name);
        let mut count = 0_u32;
        group.bench_function("still", |b| {
            b.iter(|| {
                count += 1;
                let x = 500.0 + (count % 100) as f32;
                black_box(screen.frame(vec![Event::PointerMoved(Pos2::new(x, 300.0))]))
            });
        });
        // To and fro over 200 mm: what is found stays nearly the same, so that frames are comparable.
        let px_of_a_mm = screen.desk.drawings().next().map_or(0.0, |(top, _)| top.placing().px_per_mm as f32);
        let from = screen.grab(&thing);
        let was = drawn_at(&screen, &thing);
        screen.frame(vec![Event::PointerMoved(from + Vec2::X * 100.0 * px_of_a_mm)]);
        assert_ne!(was, drawn_at(&screen, &thing), "it is in the hand");
        group.bench_function("drag", |b| {
            b.iter(|| {
                count += 1;
                let to = from + Vec2::new((count % 200) as f32 * px_of_a_mm, 0.0);
                black_box(screen.frame(vec![Event::PointerMoved(to)]))
            });
        });
        group.finish();
    }
}

/// Each sheet of a set-up with 200 things: its answer, its pages, the PDF.
fn sheets(criterion: &mut Criterion) {
    let document = Document::of(hall(200), None, None, &Library::built_in(), None).unwrap();
    let arrangement = document.arrangement().expect("it is made");
    let (state, face, about) = (ViewState::default(), ShopFace::default(), About::default());
    let mut group = criterion.benchmark_group("sheet of 200 things");
    for kind in Sheet::ALL {
        group.bench_function(kind.as_str(), |b| {
            b.iter(|| {
                let assessment = assess_fully(&arrangement);
                let now = Answered { arrangement: &arrangement, assessment: &assessment, name: "now" };
                let of = Of { now, before: None, state: &state, face: &face };
                let pages = sheet(kind, &of, Paper::portrait(Size::A4), &about, &Lettering::default());
                black_box(to_pdf(&pages, Theme::Print, "en").unwrap().len())
            });
        });
    }
    group.finish();
}

/// As in the program.
#[global_allocator]
static ALLOCATOR: mimalloc::MiMalloc = mimalloc::MiMalloc;

criterion_group!(benches, frames, sheets);
criterion_main!(benches);
