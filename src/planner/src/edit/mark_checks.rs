//! What marks that stay were checked from, when that has another name or is gone.
//!
//! A wall or mark of another name is followed. A wall that is gone, as one is of which a corner was taken away, is the one that lies on
//! its line now, where there is one: what was read from it is read from that face still. Else the check stays as it was written and
//! says that what it was read from is gone: what was measured is not forgotten.

use baywright_geometry::DVec2;

use super::dimensions::renamed;
use crate::model::{Bay, CheckFrom, Id, Layout};

/// Faces lie on one line within this, mm and as the sine of an angle: a wall that was straight before a corner left it (common practice,
/// no source).
const ON_LINE_MM: f64 = 0.5;
const ON_LINE: f64 = 1e-4;

/// Follows a change of the bay. Walls of an arrangement's own building are none that marks are checked from elsewhere: as long as the bay
/// itself has a wall of the name nothing is followed.
pub(super) fn follow_bay(layout: &mut Layout, before: &Bay, after: &Bay) {
    let [mut walls, marks] = renamed(before, after);
    let is_there = |bay: &Bay, id: &Id| bay.walls.iter().any(|own| own.id == *id);
    for wall in &before.walls {
        let is_followed = walls.iter().any(|(was, _)| *was == wall.id);
        if !is_followed && !is_there(after, &wall.id) {
            walls.extend(on_its_line(before, &wall.id, after).map(|now| (wall.id.clone(), now)));
        }
    }
    walls.retain(|(was, _)| !is_there(&layout.bay, was));
    let follow = |id: &mut Id, list: &[(Id, Id)]| {
        if let Some((_, now)) = list.iter().find(|(was, _)| was == id) {
            id.clone_from(now);
        }
    };
    // As with what a mark was checked from, a name that is there still is followed nowhere.
    let own: Vec<Id> = layout.bay.marks.iter().map(|mark| mark.id.clone()).collect();
    for to in layout.bay.marks.iter_mut().filter_map(|mark| mark.line_to.as_mut()) {
        if !own.contains(to) {
            follow(to, &marks);
        }
    }
    for read in layout.bay.marks.iter_mut().flat_map(|own| &mut own.checks).flat_map(|own| &mut own.read) {
        match &mut read.from {
            CheckFrom::Wall(id) => follow(id, &walls),
            CheckFrom::Mark(id) => follow(id, &marks),
        }
    }
}

/// The wall that lies on the line of one that is gone, facing the same way and beside it.
fn on_its_line(before: &Bay, gone: &Id, after: &Bay) -> Option<Id> {
    let ends = |bay: &Bay, id: &Id| bay.wall_ends(bay.walls.iter().position(|own| own.id == *id)?);
    let (from, to) = ends(before, gone)?;
    let way = (to - from).try_normalize()?;
    let same = after.walls.iter().find(|own| {
        let Some((start, end)) = ends(after, &own.id) else { return false };
        let along = (end - start).normalize_or_zero();
        let off = |at: DVec2| way.perp_dot(at - from).abs();
        let reach = [start, end].map(|at| way.dot(at - from));
        let beside = reach[0].min(reach[1]) < way.dot(to - from) && reach[0].max(reach[1]) > 0.0;
        way.perp_dot(along).abs() < ON_LINE
            && way.dot(along) > 0.0
            && off(start).max(off(end)) < ON_LINE_MM
            && beside
    });
    same.map(|own| own.id.clone())
}

#[cfg(test)]
mod tests {
    use jiff::civil::date;

    use super::super::{Edit, testing::layout};
    use super::*;
    use crate::model::{CheckRead, MarkCheck, PermanentMark, checked_at};

    fn with_check() -> (Layout, Id) {
        let (mut layout, here) = layout();
        let walls = [layout.bay.walls[0].id.clone(), layout.bay.walls[1].id.clone()];
        let read = walls.map(|id| CheckRead { from: CheckFrom::Wall(id), read_mm: 1_000.0 });
        let check = MarkCheck { on: date(2026, 3, 1), who: None, with: None, read };
        let at = DVec2::new(1_000.0, 1_000.0);
        let other = CheckRead { from: CheckFrom::Mark("stud".into()), read_mm: 500.0 };
        let second = MarkCheck { read: [check.read[0].clone(), other], ..check.clone() };
        layout.bay.marks = vec![
            PermanentMark { checks: vec![check], ..PermanentMark::new("stud".into(), at) },
            PermanentMark {
                checks: vec![second],
                ..PermanentMark::new("cross".into(), at + DVec2::X * 500.0)
            },
        ];
        (layout, here)
    }

    fn froms(layout: &Layout) -> Vec<CheckFrom> {
        layout
            .bay
            .marks
            .iter()
            .flat_map(|own| &own.checks)
            .flat_map(|own| &own.read)
            .map(|own| own.from.clone())
            .collect()
    }

    #[test]
    fn walls_and_marks_of_another_name_are_followed() {
        let (layout, here) = with_check();
        let mut layout = layout;
        layout.bay.marks[1].line_to = Some("stud".into());
        let mut bay = layout.bay.clone();
        bay.walls[0].id = "street side".into();
        bay.marks[0].id = "screw".into();
        let after = Edit::Bay { bay: Box::new(bay), renamed: None }.apply(&layout, &here).unwrap();
        let (was, now) = (froms(&layout), froms(&after));
        assert_eq!(now[0], CheckFrom::Wall("street side".into()));
        assert_eq!(now[1], was[1]);
        assert_eq!(now[3], CheckFrom::Mark("screw".into()));
        assert_eq!(after.bay.floor_lines().count(), 1, "the line goes to it still");
        // And says the same place as before.
        let at = |layout: &Layout| {
            let mark = &layout.bay.marks[0];
            checked_at(&layout.bay, mark, &mark.checks[0]).map(|own| own.at)
        };
        assert!(at(&layout).is_some());
        assert_eq!(at(&after), at(&layout));
    }

    #[test]
    fn what_was_read_from_a_wall_that_is_gone_is_kept() {
        let (layout, here) = with_check();
        // An alcove parts the first wall in two; what was read from its second part is read from the whole wall once it is gone.
        let mut parted = layout.bay.clone();
        parted.alcove(0, (500.0, 400.0, 200.0), |part| format!("{part:?}")).unwrap();
        let second = parted.walls[4].id.clone();
        let mut with_parts = layout.clone();
        with_parts.bay = parted;
        with_parts.bay.marks[0].checks[0].read[0].from = CheckFrom::Wall(second);
        let whole = Edit::Bay {
            bay: Box::new(Bay { marks: with_parts.bay.marks.clone(), ..layout.bay.clone() }),
            renamed: None,
        };
        let after = whole.apply(&with_parts, &here).unwrap();
        assert_eq!(froms(&after)[0], CheckFrom::Wall(layout.bay.walls[0].id.clone()));
    }
}
