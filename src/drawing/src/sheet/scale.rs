//! Standard scales.

use baywright_planner::geometry::DVec2;

/// A millimetre of paper is so many of the bay: reductions after ISO 5455 (from memory), and 1 : 25, which building drawings use
/// too (common practice, no source).
const STANDARD: [f64; 13] =
    [5.0, 10.0, 20.0, 25.0, 50.0, 100.0, 200.0, 500.0, 1_000.0, 2_000.0, 5_000.0, 10_000.0, 100_000.0];

/// The largest standard scale at which something of a size fits into a room of the paper, both mm: 50 for 1 : 50. The smallest there
/// is if none does.
pub fn largest_scale(held: DVec2, room: DVec2) -> f64 {
    const HAIR: f64 = 1e-9;
    let fits = |one_to: &&f64| held.x / **one_to <= room.x + HAIR && held.y / **one_to <= room.y + HAIR;
    STANDARD.iter().find(fits).or(STANDARD.last()).copied().unwrap_or(100_000.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_largest_that_fits() {
        let room = DVec2::new(190.0, 120.0);
        for (held, one_to) in [
            ((950.0, 600.0), 5.0),
            ((951.0, 600.0), 10.0),
            ((9_500.0, 100.0), 50.0),
            ((100.0, 6_001.0), 100.0),
            ((1e9, 1.0), 100_000.0),
        ] {
            assert_eq!(largest_scale(held.into(), room), one_to, "{held:?}");
        }
    }
}
