//! Visibility in a room of a thousand edges, and the share of a target seen past a hundred things.
//!
//! Wanted: 0.1 ms each. Scenes are made by a small fixed generator, so that every run times the same ones.

// A bench may stop with a message.
#![allow(clippy::panic, clippy::unwrap_used, missing_docs)]

use std::f64::consts::{PI, TAU};
use std::hint::black_box;

use baywright_geometry::{
    Circle, DVec2, DVec3, Face, Outline, Polygon, Prism, Span, Visibility, fresnel_clearance, target_share,
    visibility, wavelength,
};
use criterion::{Criterion, criterion_group, criterion_main};

/// A plain linear congruential generator: the same numbers everywhere.
struct Dice(u64);

impl Dice {
    /// Evenly between two numbers.
    fn roll(&mut self, low: f64, high: f64) -> f64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        low + (high - low) * ((self.0 >> 11) as f64 / (1_u64 << 53) as f64)
    }
}

/// A room with a thousand corners round the eye, each at a distance of its own: half of it is hidden.
fn jagged() -> (Polygon, Vec<Polygon>) {
    let mut dice = Dice(1);
    let mut turn = 0.0;
    let corners = (0..1000)
        .map(|_| {
            turn += TAU / 1000.0;
            let (sin, cos) = libm::sincos(turn + dice.roll(-0.002, 0.002));
            // About a place 4 m beside the eye.
            DVec2::new(4000.0, 0.0) + DVec2::new(cos, sin) * dice.roll(9000.0, 12000.0)
        })
        .collect();
    (Polygon::simple(corners).unwrap(), Vec::new())
}

/// A hall with 124 stub walls along each long side: 1000 edges.
fn comb() -> (Polygon, Vec<Polygon>) {
    let mut dice = Dice(2);
    let mut ring = Vec::new();
    let bays = 124;
    let pitch = 30_000.0 / f64::from(bays);
    let mut side = |y: f64, way: f64, ring: &mut Vec<DVec2>| {
        for i in 0..bays {
            let at = |share: f64| way * (pitch * (f64::from(i) + share) - 15_000.0);
            let deep = y - y.signum() * dice.roll(200.0, 3000.0);
            ring.extend([(0.3, y), (0.3, deep), (0.6, deep), (0.6, y)].map(|(s, y)| DVec2::new(at(s), y)));
        }
    };
    ring.extend([DVec2::new(-15_000.0, 7000.0), DVec2::new(-15_000.0, -7000.0)]);
    side(-7000.0, 1.0, &mut ring);
    ring.extend([DVec2::new(15_000.0, -7000.0), DVec2::new(15_000.0, 7000.0)]);
    side(7000.0, -1.0, &mut ring);
    // Corners at both ends, stubs between: 4 + 2 · 124 · 4 = 996 edges, and four corners on the straight.
    (Polygon::simple(ring).unwrap(), Vec::new())
}

/// A bare hall with 249 turned boxes in it, some of which overlap: 1000 edges.
fn crowded() -> (Polygon, Vec<Polygon>) {
    let mut dice = Dice(3);
    let hall = Polygon::rectangle(DVec2::new(-15_000.0, -7000.0), DVec2::new(15_000.0, 7000.0));
    let boxes = (0..249).map(|_| {
        loop {
            let at = DVec2::new(dice.roll(-14_500.0, 14_500.0), dice.roll(-6500.0, 6500.0));
            let half = dice.roll(100.0, 400.0);
            let (sin, cos) = libm::sincos(dice.roll(0.0, PI));
            let turned = DVec2::new(cos, sin) * half;
            let ring = vec![at - turned, at - turned.perp(), at + turned, at + turned.perp()];
            if at.length() > 700.0
                && let Ok(polygon) = Polygon::simple(ring)
            {
                break polygon;
            }
        }
    });
    let boxes = boxes.collect();
    (hall.unwrap(), boxes)
}

fn visibility_polygons(c: &mut Criterion) {
    for (name, (room, things)) in [("jagged", jagged()), ("comb", comb()), ("crowded", crowded())] {
        let edges = room.edges().count() + things.iter().map(|t| t.edges().count()).sum::<usize>();
        let things: Vec<Outline> = things.into_iter().map(Outline::from).collect();
        let things: Vec<&Outline> = things.iter().collect();
        let eye = DVec2::new(30.0, 20.0);
        let seen = match visibility(eye, &room, &things) {
            Visibility::Sees(ring) => ring.len(),
            other => panic!("{other:?}"),
        };
        c.bench_function(&format!("visibility/{name}, {edges} edges, {seen} corners seen"), |b| {
            b.iter(|| visibility(black_box(eye), black_box(&room), black_box(&things)));
        });
    }
}

fn thing(at: DVec2, size: DVec2, heading: f64, round: bool, bottom: f64, top: f64) -> Prism {
    let (sin, cos) = libm::sincos(heading);
    let (along, across) = (DVec2::new(cos, sin) * size.x * 0.5, DVec2::new(-sin, cos) * size.y * 0.5);
    let outline: Outline = if round {
        Circle::new(at, size.x * 0.5).unwrap().into()
    } else {
        let ring = vec![at - along - across, at + along - across, at + along + across, at - along + across];
        Polygon::simple(ring).unwrap().into()
    };
    Prism::new(outline, Span::new(bottom, top).unwrap())
}

/// A hundred things all over a bay of 12 m by 8 m: a few of them in the view.
fn bay(round: bool) -> Vec<Prism> {
    let mut dice = Dice(4);
    let mut things = Vec::new();
    while things.len() < 100 {
        let at = DVec2::new(dice.roll(-4000.0, 8000.0), dice.roll(-4000.0, 4000.0));
        let size = DVec2::new(dice.roll(100.0, 1200.0), dice.roll(100.0, 800.0));
        let heading = dice.roll(0.0, PI);
        let low = if dice.roll(0.0, 1.0) < 0.7 { 0.0 } else { dice.roll(300.0, 2500.0) };
        let top = low + dice.roll(100.0, 1900.0);
        let thing = thing(at, size, heading, round && things.len() % 4 == 0, low, top);
        if at.length() > 900.0 {
            things.push(thing);
        }
    }
    things
}

/// A hundred small things that all stand in the view, before and over one another.
fn crowd(round: bool) -> Vec<Prism> {
    let mut dice = Dice(5);
    (0..100)
        .map(|i| {
            let x = dice.roll(800.0, 3800.0);
            let at = DVec2::new(x, dice.roll(-0.2, 0.2) * x / 4.0);
            let size = DVec2::new(dice.roll(5.0, 40.0), dice.roll(5.0, 40.0));
            let low = 500.0 + dice.roll(-0.2, 0.15) * x / 4.0;
            let top = low + dice.roll(5.0, 40.0);
            thing(at, size, dice.roll(0.0, PI), round && i % 4 == 0, low, top)
        })
        .collect()
}

fn target_shares(c: &mut Criterion) {
    let eye = DVec3::new(0.0, 0.0, 500.0);
    let face = Face::new(DVec3::new(4000.0, 0.0, 500.0), PI, 0.0, 1600.0, 1200.0);
    let face = face.unwrap();
    let scenes = [
        ("100 things in a bay", bay(false)),
        ("100 things in a bay, a quarter of them round", bay(true)),
        ("100 things in the view", crowd(false)),
        ("100 things in the view, a quarter of them round", crowd(true)),
    ];
    for (name, things) in scenes {
        let things: Vec<&Prism> = things.iter().collect();
        let (share, hiders) = match target_share(eye, &face, &things) {
            baywright_geometry::Share::Seen(seen) => (seen.share, seen.hidden_by.len()),
            other => panic!("{other:?}"),
        };
        c.bench_function(&format!("share/{name}, {hiders} hide, {:.0} % seen", share * 100.0), |b| {
            b.iter(|| target_share(black_box(eye), black_box(&face), black_box(&things)));
        });
    }
    let to = DVec3::new(4000.0, 0.0, 500.0);
    let wave = wavelength(77e9).unwrap();
    for (name, things) in [("boxes", bay(false)), ("a quarter round", bay(true))] {
        c.bench_function(&format!("fresnel/100 things, {name}"), |b| {
            b.iter(|| {
                let clear = |thing| fresnel_clearance(black_box(eye), to, wave, thing);
                things
                    .iter()
                    .map(clear)
                    .filter(|c| !matches!(c, baywright_geometry::FresnelClearance::Clear { .. }))
                    .count()
            });
        });
    }
}

criterion_group!(benches, visibility_polygons, target_shares);
criterion_main!(benches);
