use crate::support::*;
use baywright_planner::geometry::{DVec2, PlanPose, angle};
use baywright_planner::place::Search;
#[test]
fn debug_runways() {
    let arrangement = raised();
    let search = Search::new(&arrangement);
    println!("{:?} levels {}", search.everywhere().len(), search.asks_levels());
    let places = search.places(angle::radians(0.3));
    println!("fits {:#?}", places.fits);
    println!("und {} {}", places.undecided.area(), places.undecided.shapes().len());
}
#[test]
fn debug_floor() {
    let mut arrangement = clear();
    arrangement.bay.room = rectangle((0.0, 0.0), (13_000.0, 6_500.0));
    let survey = arrangement.bay.survey.as_mut().unwrap();
    let fall = |at: DVec2| (at.x - 7_000.0).max(0.0) * 0.0025 + (at.y - 4_000.0).max(0.0) * 0.002;
    survey.points.change(|points| points.iter_mut().for_each(|own| own.level_mm = -fall(own.at)));
    let search = Search::new(&arrangement);
    let now = std::time::Instant::now();
    let places = search.places(0.0);
    println!("fits {:#?} {} {:?}", places.fits, places.fits.area(), now.elapsed());
    println!("und {} {} {:?}", places.undecided.area(), places.undecided.shapes().len(), places.undecided.bounds());
    for x in 0..30 {
        let p = DVec2::new(3_400.0 + 130.0 * f64::from(x), 2_000.0);
        let stops = baywright_planner::judge(&search.at(PlanPose::new(p, 0.0))).count(baywright_planner::Severity::Stops);
        println!("{p} {:?} {stops}", places.at(p));
    }
}
