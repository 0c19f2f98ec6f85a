//! What who wires the bay is told: sockets and lights as entered, what hangs, and what stays clear before panels.

use baywright_planner::model::{Thing, ThingKind};

use super::Floor;
use crate::sheet::flow::{Flow, Lead};
use crate::sheet::table::Cell;

impl Floor<'_> {
    pub(super) fn electric(&self, flow: &mut Flow<'_>) {
        let texts = self.words.locale().language.floor_sheets();
        let bay = &self.shell.arrangement.bay;
        flow.heading(texts.sockets, 8.0);
        flow.read(texts.no_sockets, None);
        let is_lamp = |own: &Thing| own.kind == ThingKind::Lamp;
        self.things(flow, texts.lights, is_lamp);
        flow.gap(1.0);
        flow.read(&texts.ceiling(&self.words.length(bay.ceiling_mm)), None);
        let [a, b] = self.wall_columns();
        let rows = bay.keep_free.iter().map(|own| {
            let [a, b] = self.reach_cells(own.outline.outer().iter().copied());
            vec![Cell::Strong(own.id.to_string()), a, b]
        });
        self.listed(flow, texts.panels, &[(texts.name.to_owned(), 1.9), a, b], rows.collect());
        self.things(flow, texts.hanging, |own| !is_lamp(own));
        let asked = &self.shell.arrangement.aiming.conditions;
        if !asked.is_empty() {
            flow.heading(texts.asked_light, 8.0);
            asked.iter().for_each(|own| flow.read(own, Some(Lead::Text("\u{2013}".to_owned()))));
        }
    }
}
