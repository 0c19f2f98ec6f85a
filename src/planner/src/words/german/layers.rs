//! German of the same: see `words/layers.rs`. No name holds what layers may not: < > / \ " : ; ? * | , = `
//!
//! Plain letters only: a name is typed again in other programs and on command lines, not all of which take an umlaut.

use super::Language;
use crate::words::layers::Layers;

/// The fixed texts.
pub const TEXTS: Layers = Layers {
    language: Language::German,
    walls: "Waende",
    doors: "Tueren und Oeffnungen",
    windows: "Fenster",
    beyond: "Frei vor offener Tuer",
    floor_features: "Rinnen und Gruben",
    runways: "Fahrschienen",
    fixed: "Eingebautes",
    movable: "Bewegliches",
    overhead: "Hochhaengendes",
    keep_free: "Frei nach Vorschrift",
    bays: "Messplaetze",
    car: "Fahrzeug",
    centreline: "Mittellinie",
    marks: "Bodenmarken",
    runs: "Messstrecken",
    permanent_marks: "Bleibende Marken",
    target: "Ziel",
    stand: "Zielstaender",
    sight: "Sichtlinie",
    zones: "Freiraeume",
    dimensions: "Masse",
    levels: "Bodenhoehen",
    title: "Titel",
};
