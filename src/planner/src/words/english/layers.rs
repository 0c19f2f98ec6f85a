//! English of the same: see `words/layers.rs`. No name holds what layers may not: < > / \ " : ; ? * | , = `

use super::Language;
use crate::words::layers::Layers;

/// The fixed texts.
pub const TEXTS: Layers = Layers {
    language: Language::English,
    walls: "Walls",
    doors: "Doors and gaps",
    windows: "Windows",
    beyond: "Free beyond a door",
    floor_features: "Drains and pits",
    runways: "Runways",
    fixed: "Fixed things",
    movable: "Movable things",
    overhead: "Overhead",
    keep_free: "Kept free by local rules",
    bays: "Bays",
    car: "Car",
    centreline: "Centreline",
    marks: "Floor marks",
    runs: "Tape and laser runs",
    permanent_marks: "Permanent marks",
    target: "Target",
    stand: "Target stand",
    sight: "Line of sight",
    zones: "Keep-clear zones",
    dimensions: "Dimensions",
    levels: "Floor levels",
    title: "Title",
};
