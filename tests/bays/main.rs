//! Random bays against a slow oracle that shares no code with the checks: rooms of 4 to 10 corners with 3 to 40 things,
//! shipped and own cars, shops with settings of their own, cars as they were measured, on uneven floors and on runways, awkward
//! headings. What is *ready* is looked at again point by point; no cure and no promise is
//! refuted; a bay that is turned, mirrored or listed in another order has the same answer.
//!
//! A sample of some seconds; `BAYWRIGHT_BAYS=2000` asks for so many bays in each test.

mod care;
mod cars;
mod cures;
mod dice;
mod floor;
mod generator;
mod mirror;
mod oracle;
mod people;
mod ready;
mod room;
mod same;
mod set_up;
mod shape;
mod sight;
mod solid;
mod this_car;
mod wider;

/// How many bays a test asks: a sample, or as many as the environment says.
fn bays(sample: u64) -> u64 {
    std::env::var("BAYWRIGHT_BAYS").ok().and_then(|count| count.parse().ok()).unwrap_or(sample)
}

/// Asks so many bays, in two threads; what is found is in the order of the seeds.
fn of_each<T: Send>(count: u64, ask: impl Fn(u64) -> T + Sync) -> Vec<T> {
    let ask = &ask;
    let half = count / 2;
    std::thread::scope(|scope| {
        let first = scope.spawn(move || (0..half).map(ask).collect::<Vec<T>>());
        let second: Vec<T> = (half..count).map(ask).collect();
        let mut all = first.join().expect("a fault is shown where it happens");
        all.extend(second);
        all
    })
}
