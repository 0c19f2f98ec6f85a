//! What may go wrong with each step, and where the marks come to lie if it does.

use std::ops::Range;

use baywright_geometry::DVec2;
use baywright_geometry::marks::{Construction, Givens, MarkFault, Reach, Wheel, lay_next};

use super::along;
use super::instruments::Instruments;
use crate::input::Input;

/// Where an uncertainty comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Origin {
    /// Finding a wheel's point sideways.
    WheelAside(Wheel),
    /// Finding it lengthwise.
    WheelAlong(Wheel),
    /// Its camber.
    Camber(Wheel),
    /// The tape's scale.
    TapeScale,
    /// The tape's warmth.
    TapeWarmth,
    /// A step, along what is measured: with tape or plumb line.
    Along(usize),
    /// A step, across it: line, laser, square.
    Across(usize),
}

impl Origin {
    /// Whether it makes the tape longer or shorter: both such inputs are counted as ratios.
    pub const fn is_scale(&self) -> bool {
        matches!(self, Self::TapeScale | Self::TapeWarmth)
    }
}

/// What a mark moves by for one unit of an input, or what else the input does.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Moved {
    pub input: usize,
    pub by: DVec2,
}

/// What may go wrong with a plan.
#[derive(Clone, Debug)]
pub(super) struct Errors {
    inputs: Vec<Input>,
    origins: Vec<Origin>,
    steps: Vec<Step>,
    /// What moves each of them: where that stands in `all_moved`.
    moved: Vec<Range<usize>>,
    all_moved: Vec<Moved>,
    /// The inputs that make the tape longer.
    scale: Vec<usize>,
    /// Of each wheel as far as it is known, with its standard uncertainty.
    cambers: [Option<(f64, f64)>; 4],
}

impl Errors {
    pub fn of(
        plan: &[Construction],
        places: &[DVec2],
        shop: &Instruments,
        cambers: &[Option<(f64, f64)>; 4],
    ) -> Self {
        let steps = plan.iter().enumerate().map(|(at, step)| {
            let meant = with_length(step, at, places);
            Step { meant, is_taped: stretched(&meant, 2.0) != meant }
        });
        let mut made = Self {
            inputs: Vec::new(),
            origins: Vec::new(),
            steps: steps.collect(),
            moved: Vec::new(),
            all_moved: Vec::new(),
            scale: Vec::new(),
            cambers: *cambers,
        };
        for (origin, input) in [
            (Origin::TapeScale, Input::normal(0.0, shop.tape.scale)),
            (Origin::TapeWarmth, Input::rectangular(0.0, shop.tape.within_k * shop.tape.per_k)),
        ] {
            if let Some(scale) = made.add(origin, input) {
                made.scale.push(scale);
            }
        }
        for (at, step) in plan.iter().enumerate() {
            let own = places.get(at).copied().unwrap_or_default();
            let moved = made.of_step(at, step, own, places, shop);
            let first = made.all_moved.len();
            made.all_moved.extend(moved);
            made.moved.push(first..made.all_moved.len());
        }
        made
    }

    pub fn inputs(&self) -> &[Input] {
        &self.inputs
    }

    pub fn origins(&self) -> &[Origin] {
        &self.origins
    }

    /// The inputs that make the tape longer.
    pub fn scale(&self) -> &[usize] {
        &self.scale
    }

    /// The steps, as they are meant, with what moves each.
    pub fn steps(&self) -> impl Iterator<Item = (&Construction, &[Moved])> {
        let moved = self.moved.iter().map(|of| self.all_moved.get(of.clone()).unwrap_or_default());
        self.steps.iter().map(|step| &step.meant).zip(moved)
    }

    /// An input by its origin: the one that is there, or a new one; none if it is off by nothing.
    fn add(&mut self, origin: Origin, input: Input) -> Option<usize> {
        if input.u == 0.0 && input.at == 0.0 {
            return None;
        }
        let there = self.origins.iter().position(|own| *own == origin);
        Some(there.unwrap_or_else(|| {
            self.inputs.push(input);
            self.origins.push(origin);
            self.inputs.len() - 1
        }))
    }

    /// An input of its own, of standard uncertainty 1, that moves a mark by this.
    fn unit(&mut self, origin: Origin, by: DVec2) -> Option<Moved> {
        let input = self.add(origin, Input::normal(0.0, if by == DVec2::ZERO { 0.0 } else { 1.0 }))?;
        Some(Moved { input, by })
    }

    /// Of a wheel, the same whichever step asks.
    fn wheel(&mut self, wheel: Wheel, shop: &Instruments) -> Vec<Moved> {
        let outwards = if wheel.is_left() { DVec2::Y } else { -DVec2::Y };
        let nth = Wheel::ALL.iter().position(|own| *own == wheel);
        let known = nth.and_then(|nth| self.cambers.get(nth)).copied().flatten();
        let (camber, camber_u) = known.unwrap_or((0.0, shop.camber_rad));
        [
            (Origin::WheelAside(wheel), (0.0, shop.wheel_aside_mm), DVec2::Y),
            (Origin::WheelAlong(wheel), (0.0, shop.wheel_along_mm), DVec2::X),
            // Of angles as small as that the sine is the angle: 5° are 5.006.
            (Origin::Camber(wheel), (libm::sin(camber), camber_u), outwards * shop.hub_height_mm),
        ]
        .into_iter()
        .filter_map(|(origin, (is, u), by)| {
            let input = self.add(origin, Input::normal(is, u))?;
            Some(Moved { input, by })
        })
        .collect()
    }

    fn of_step(
        &mut self,
        at: usize,
        step: &Construction,
        own: DVec2,
        places: &[DVec2],
        shop: &Instruments,
    ) -> Vec<Moved> {
        let place = |mark: usize| places.get(mark).copied().unwrap_or_default();
        let Instruments { tape, line_mm: line, .. } = *shop;
        let laser = |length: f64| shop.laser_mm_per_m * length.abs() * 1e-3;
        // How far aside a line through two marks may run at a third place: each end is met to a line's width, and it drifts.
        let line_aside = |from: DVec2, through: DVec2, at: DVec2| {
            let base = from.distance(through).max(1e-9);
            let on = (at - from).dot(along(from, through)) / base;
            libm::hypot(line * libm::hypot(on, 1.0 - on), laser(base * on.abs().max((on - 1.0).abs())))
        };
        let (mut moved, [first, second]) = match *step {
            Construction::WheelPoint { wheel } => {
                (self.wheel(wheel, shop), [DVec2::X * shop.plumb_mm, DVec2::Y * shop.plumb_mm])
            }
            // From the tyre's own side: its camber is in what is measured from.
            Construction::Outboard { wheel, distance } => {
                let mut wheels = self.wheel(wheel, shop);
                wheels.retain(|moved| !matches!(self.origins.get(moved.input), Some(Origin::Camber(_))));
                let read = libm::hypot(tape.of(distance), line);
                (wheels, [DVec2::Y * read, DVec2::X * line])
            }
            Construction::BodyPoint { .. } => {
                (Vec::new(), [DVec2::X * shop.plumb_mm, DVec2::Y * shop.plumb_mm])
            }
            Construction::Prolong { from, through, .. } => {
                let way = along(place(from), place(through));
                let read = libm::hypot(tape.of(own.distance(place(through))), line);
                let aside = libm::hypot(line_aside(place(from), place(through), own), line);
                (Vec::new(), [way * read, way.perp() * aside])
            }
            // Half of a distance that the tape reads twice.
            Construction::Middle { first, second } => {
                let way = along(place(first), place(second));
                let read = tape.of(place(first).distance(place(second))) * std::f64::consts::FRAC_1_SQRT_2;
                (Vec::new(), [way * libm::hypot(read, line), way.perp() * line])
            }
            Construction::Foot { of, from, to } => {
                let way = along(place(from), place(to));
                let far = own.distance(place(of));
                let aside = libm::hypot(line_aside(place(from), place(to), own), line);
                (Vec::new(), [way * libm::hypot(shop.square_rad * far, line), way.perp() * aside])
            }
            Construction::AlongAside { from, to, along: length, aside } => {
                let way = along(place(from), place(to));
                let lengthwise = libm::hypot(tape.of(length), libm::hypot(shop.square_rad * aside, line));
                let corner = place(from) + way * length;
                let sideways = libm::hypot(
                    tape.of(aside),
                    libm::hypot(line_aside(place(from), place(to), corner), line),
                );
                (Vec::new(), [way * lengthwise, way.perp() * sideways])
            }
            Construction::AtAngle { at, distance, .. } => {
                let way = along(place(at), own);
                let across = libm::hypot(shop.angle_rad * distance, line);
                (Vec::new(), [way * libm::hypot(tape.of(distance), line), way.perp() * across])
            }
            Construction::Crossing { first, second } => {
                let lines = [first, second].map(|(from, to)| (place(from), place(to)));
                let [p, q] = lines.map(|(from, to)| along(from, to));
                let [one, other] = lines.map(|(from, to)| libm::hypot(line_aside(from, to, own), line));
                // A line that lies aside moves the crossing along the other one.
                let sine = p.perp_dot(q);
                (Vec::new(), [q * (-one / sine), p * (other / sine)])
            }
            Construction::TwoDistances { first, second, .. } => {
                let [p, q] = [first, second].map(|mark| along(place(mark), own));
                let [one, other] =
                    [first, second].map(|mark| libm::hypot(tape.of(own.distance(place(mark))), line));
                let sine = p.perp_dot(q);
                // What a longer tape moves lies on the other one's circle.
                (Vec::new(), [-q.perp() * (one / sine), p.perp() * (other / sine)])
            }
        };
        moved.extend(self.unit(Origin::Along(at), first));
        moved.extend(self.unit(Origin::Across(at), second));
        moved
    }

    /// Where the marks come to lie if the inputs are off by these; up to the first that cannot be found.
    pub fn lay(&self, givens: &Givens, off: &[f64], laid: &mut Vec<Result<DVec2, MarkFault>>) {
        let cell = |input: usize| off.get(input).copied().unwrap_or_default();
        let longer = 1.0 + self.scale.iter().map(|input| cell(*input)).sum::<f64>();
        laid.clear();
        for (step, moved) in self.steps.iter().zip(&self.moved) {
            let found = if step.is_taped {
                lay_next(laid, &stretched(&step.meant, longer), givens)
            } else {
                lay_next(laid, &step.meant, givens)
            };
            let Ok(place) = found else { break };
            let moved = self.all_moved.get(moved.clone()).unwrap_or_default();
            laid.push(Ok(moved.iter().fold(place, |at, moved| at + moved.by * cell(moved.input))));
        }
    }
}

/// A step, with every length that a tape is to read.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Step {
    meant: Construction,
    /// Whether a tape that is longer lays it elsewhere.
    is_taped: bool,
}

/// A step that goes on until it is abreast of a target, as the length that a person is told.
fn with_length(step: &Construction, at: usize, places: &[DVec2]) -> Construction {
    let place = |mark: usize| places.get(mark).copied().unwrap_or_default();
    match *step {
        Construction::Prolong { from, through, reach: Reach::AbreastOf(_) } => {
            let length = (place(at) - place(through)).dot(along(place(from), place(through)));
            Construction::Prolong { from, through, reach: Reach::Length(length) }
        }
        other => other,
    }
}

/// A step as a tape lays it that is longer than it says. What is halved needs no scale.
fn stretched(step: &Construction, longer: f64) -> Construction {
    match *step {
        Construction::Outboard { wheel, distance } => {
            Construction::Outboard { wheel, distance: distance * longer }
        }
        Construction::Prolong { from, through, reach: Reach::Length(length) } => {
            Construction::Prolong { from, through, reach: Reach::Length(length * longer) }
        }
        Construction::AlongAside { from, to, along, aside } => {
            Construction::AlongAside { from, to, along: along * longer, aside: aside * longer }
        }
        Construction::AtAngle { at, towards, angle, distance } => {
            Construction::AtAngle { at, towards, angle, distance: distance * longer }
        }
        Construction::TwoDistances { first, from_first, second, from_second, side } => {
            let (from_first, from_second) = (from_first * longer, from_second * longer);
            Construction::TwoDistances { first, from_first, second, from_second, side }
        }
        other => other,
    }
}
