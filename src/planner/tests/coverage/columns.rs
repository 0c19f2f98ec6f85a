//! What an aiming asks of the room: each a place whose one edge runs straight ahead, in a bay where nothing else asks anything.

use baywright_planner::Under;

use super::rows::{Hangs, KNOWN_MM, Row};
use super::support::*;

/// The top of a stand that is higher than the car, mm.
const STAND_TOP_MM: f64 = 2_000.0;
/// The top of a zone under a ceiling, mm.
const ZONE_TOP_MM: f64 = 2_500.0;
/// A ceiling so low that from the top of a wall the sun does not reach across the bay, mm.
const LOW_CEILING_MM: f64 = 1_900.0;
/// How high what stands under the car is, whose body is 150 mm up, mm.
const UNDER_CAR_MM: f64 = 100.0;
/// How far from the right wall the middle of a mat lies, mm.
const MAT_MIDDLE_MM: f64 = 300.0;
/// How far back a front wheel may stand, mm.
const SET_BACK_MM: f64 = 100.0;
/// How high an arch is over its wheel, and how far it may be off, mm.
const ARCH_MM: f64 = 400.0;
const ARCH_OFF_MM: f64 = 100.0;
/// From where on a door is in the wall behind the car, at x = 0, mm.
const DOOR_FROM_MM: f64 = 500.0;
/// Where the rear wheels push the car, to the left.
const THRUST_RAD: f64 = 0.1 * std::f64::consts::PI / 180.0;

/// As the thrust line is turned.
fn turned(at: DVec2) -> DVec2 {
    let (sin, cos) = angle::sin_cos(THRUST_RAD);
    DVec2::new(cos * at.x - sin * at.y, sin * at.x + cos * at.y)
}

/// What is asked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Column {
    /// Nothing at all in a zone.
    NothingZone,
    /// No metal in a zone.
    MetalZone,
    /// Nothing that sends much back in a zone.
    ReflectingZone,
    /// Nobody in a zone.
    PeopleZone,
    /// No light in a zone.
    LightZone,
    /// The whole target seen.
    Sight,
    /// The first Fresnel zone.
    Fresnel,
    /// The feet of a stand.
    Feet,
    /// The target itself.
    Target,
    /// The car's own place.
    Car,
    /// The space under the car's body; what stands there is 100 mm high.
    UnderCar,
    /// The ground under a tyre.
    Tyre,
    /// A floor mark.
    Mark,
    /// A run of tape or light.
    Run,
    /// Room to work beside the car.
    WorkingRoom,
    /// Room to step up to a target.
    BeforeStand,
    /// A way that local rules want free.
    WayOut,
    /// No light in a camera's picture.
    Picture,
    /// No glass in line with a lidar and its target, behind it.
    BehindTarget,
    /// The floor under a tape; what stands there is 18 mm high.
    UnderTape,
    /// The way in through the only door; what stands there stays.
    WayIn,
    /// The ground in that door, under a wheel.
    GroundInDoor,
    /// The floor where people lay marks, and six feet round it.
    WorkedIn,
    /// No daylight on a mat on the floor.
    OnMat,
    /// Height over the car's roof.
    OverCar,
    /// Height over a stand.
    OverStand,
    /// Height over a person who works beside the car.
    OverPerson,
    /// The target itself, which stands along the thrust line.
    Axis,
    /// The thrust line, of a car whose rear toe nobody entered.
    AxisUnknown,
    /// The car's set-back, within what the aiming allows.
    Alignment,
    /// The same, where nobody entered it.
    AlignmentUnknown,
    /// The height of an arch, within what the car's maker allows.
    RideHeight,
    /// A distance from the floor to the car, the same at the end as at the start.
    StoodStill,
}

/// Who asks, and what is uncertain.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Variant {
    /// A forward radar; the row's place is uncertain.
    Radar,
    /// A forward radar; the row's place is known, the car's is not.
    CarUnsure,
    /// A corner radar.
    CornerRadar,
    /// A forward camera, whose picture is flat.
    ForwardCamera,
    /// A camera of those that look all round.
    SurroundCamera,
    /// Laser light.
    Lidar,
    /// A forward radar of a car on runways 100 mm high.
    Raised,
    /// Two targets, of which the second stands with the first.
    Together,
}

impl Variant {
    /// Every variant.
    pub const ALL: [Self; 8] = [
        Self::Radar,
        Self::CarUnsure,
        Self::CornerRadar,
        Self::ForwardCamera,
        Self::SurroundCamera,
        Self::Lidar,
        Self::Raised,
        Self::Together,
    ];

    /// Whether a radar looks.
    pub const fn is_radar(self) -> bool {
        match self {
            Self::Radar | Self::CarUnsure | Self::CornerRadar | Self::Raised | Self::Together => true,
            Self::ForwardCamera | Self::SurroundCamera | Self::Lidar => false,
        }
    }

    fn set(self, arrangement: &mut Arrangement) {
        let radar = arrangement.sensor.kind.radar().copied();
        let camera = Camera { pixels_across: 1_280, pixels_down: 960 };
        match self {
            Self::Radar => {}
            Self::CarUnsure => {
                arrangement.parked_known = ParkedKnown::Within { mm: KNOWN_MM, rad: 0.0 };
                arrangement.bay.walls_known = Known::Within(0.0);
                for thing in &mut arrangement.bay.things {
                    thing.place.known = Known::Within(0.0);
                }
            }
            Self::CornerRadar => arrangement.sensor.kind = SensorKind::CornerRadar(radar.unwrap()),
            Self::ForwardCamera => arrangement.sensor.kind = SensorKind::ForwardCamera(camera),
            Self::SurroundCamera => arrangement.sensor.kind = SensorKind::SurroundCamera(camera),
            Self::Lidar => arrangement.sensor.kind = SensorKind::Lidar,
            Self::Raised => raise(arrangement),
            Self::Together => {
                let mut second = arrangement.aiming.placements[0].clone();
                (second.id, second.stand_off.aside_mm) = ("beside".into(), -1_200.0);
                (second.with, second.mark) = (Some(vec!["ahead".into()]), None);
                arrangement.aiming.placements.push(second);
                arrangement.stands.push(StandSet::OnMark);
            }
        }
    }
}

/// Runways under the wheels; heights as before from the floor.
fn raise(arrangement: &mut Arrangement) {
    for (id, low) in [("left runway", 3_550.0), ("right runway", 2_010.0)] {
        let outline = rectangle((1_000.0, low), (4_400.0, low + 440.0));
        arrangement.bay.runways.push(Runway { id: id.into(), outline, top_mm: 100.0, survey: None });
        arrangement.on_runways.push(id.into());
    }
    arrangement.sensor.at.z -= 100.0;
}

/// How a row lies to a place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Relation {
    /// 20 mm into it.
    Over,
    /// 0.005 mm into it: less than is spoken of.
    Sliver,
    /// 30 mm away, known to 50 mm.
    Within,
    /// 80 mm away.
    Clear,
}

impl Relation {
    /// Every relation.
    pub const ALL: [Self; 4] = [Self::Over, Self::Sliver, Self::Within, Self::Clear];

    /// How far away from the place the row's side is, mm.
    pub const fn gap(self) -> f64 {
        match self {
            Self::Over => -20.0,
            Self::Sliver => -0.005,
            Self::Within => 30.0,
            Self::Clear => 80.0,
        }
    }
}

impl Column {
    /// Every column.
    pub const ALL: [Self; 33] = [
        Self::NothingZone,
        Self::MetalZone,
        Self::ReflectingZone,
        Self::PeopleZone,
        Self::LightZone,
        Self::Sight,
        Self::Fresnel,
        Self::Feet,
        Self::Target,
        Self::Car,
        Self::UnderCar,
        Self::Tyre,
        Self::Mark,
        Self::Run,
        Self::WorkingRoom,
        Self::BeforeStand,
        Self::WayOut,
        Self::Picture,
        Self::BehindTarget,
        Self::UnderTape,
        Self::WayIn,
        Self::GroundInDoor,
        Self::WorkedIn,
        Self::OnMat,
        Self::OverCar,
        Self::OverStand,
        Self::OverPerson,
        Self::Axis,
        Self::AxisUnknown,
        Self::Alignment,
        Self::AlignmentUnknown,
        Self::RideHeight,
        Self::StoodStill,
    ];

    /// What is asked of height: from which height on something may hang over its place, mm above the floor.
    pub const fn free_from(self) -> Option<f64> {
        match self {
            // The roof, and the shop's own over it.
            Self::OverCar => Some(1_500.0 + 100.0),
            Self::OverStand => Some(STAND_TOP_MM),
            // 6 ft 8 in.
            Self::OverPerson => Some(2_032.0),
            Self::NothingZone
            | Self::MetalZone
            | Self::ReflectingZone
            | Self::PeopleZone
            | Self::LightZone
            | Self::Sight
            | Self::Fresnel
            | Self::Feet
            | Self::Target
            | Self::Car
            | Self::UnderCar
            | Self::Tyre
            | Self::Mark
            | Self::Run
            | Self::WorkingRoom
            | Self::BeforeStand
            | Self::WayOut
            | Self::Picture
            | Self::BehindTarget
            | Self::UnderTape
            | Self::WayIn
            | Self::GroundInDoor
            | Self::WorkedIn
            | Self::OnMat
            | Self::Axis
            | Self::AxisUnknown
            | Self::Alignment
            | Self::AlignmentUnknown
            | Self::RideHeight
            | Self::StoodStill => None,
        }
    }

    /// Up to which height it must be free under the ceiling, mm.
    pub const fn free_under_ceiling(self) -> f64 {
        match self {
            Self::NothingZone
            | Self::MetalZone
            | Self::ReflectingZone
            | Self::PeopleZone
            | Self::LightZone => ZONE_TOP_MM,
            Self::OverCar => 1_500.0 + 100.0,
            Self::Car | Self::UnderCar => 1_500.0,
            Self::OverStand | Self::Target | Self::Axis => STAND_TOP_MM,
            // 7 ft 6 in.
            Self::OverPerson => 2_286.0,
            Self::Sight
            | Self::Fresnel
            | Self::Feet
            | Self::Tyre
            | Self::Mark
            | Self::Run
            | Self::WorkingRoom
            | Self::BeforeStand
            | Self::WayOut
            | Self::Picture
            | Self::BehindTarget
            | Self::UnderTape
            | Self::WayIn
            | Self::GroundInDoor
            | Self::WorkedIn
            | Self::OnMat
            | Self::AxisUnknown
            | Self::Alignment
            | Self::AlignmentUnknown
            | Self::RideHeight
            | Self::StoodStill => 2_500.0,
        }
    }

    /// Whether a finding is an answer to what is asked here, and not to what another column asks.
    pub fn asks(self, found: &Finding) -> bool {
        match (&found.facts, self) {
            // An echo comes from wherever something looks at the radar: see `echoes`.
            (Facts::EchoTaken(_) | Facts::EchoDraws(_) | Facts::EchoesTogether, _) => false,
            // A lamp anywhere before a camera is in its picture.
            (Facts::LightInPicture(_), _) => self == Self::Picture,
            // Somebody beside a zone or a sight is beside it whatever else is asked there.
            (Facts::PersonNear, _) => {
                matches!(self, Self::NothingZone | Self::PeopleZone | Self::Sight | Self::Picture)
            }
            // Glass that hangs over a stand's feet is behind the target too.
            // A pit lies open for whoever works there, whatever else it is in the way of.
            (Facts::OpenPit(_), _) => self == Self::WorkedIn,
            (Facts::GlassBehind, _) => self == Self::BehindTarget,
            (Facts::HeadRoom(Under::Car), _) => matches!(self, Self::OverCar | Self::Car | Self::UnderCar),
            (Facts::HeadRoom(Under::Stand), _) => matches!(self, Self::OverStand | Self::Target | Self::Axis),
            (Facts::HeadRoom(Under::Person), _) => self == Self::OverPerson,
            // What stands there is in the way of the car, which has its own column.
            (_, Self::OverCar | Self::OverPerson) => false,
            (facts, Self::AxisUnknown) => *facts == Facts::AxisUnknown,
            (Facts::AlignmentOff(_), _) => self == Self::Alignment,
            (Facts::AlignmentUnknown(_), _) => self == Self::AlignmentUnknown,
            (Facts::RideHeight(_), _) => self == Self::RideHeight,
            (Facts::CarMoved { .. }, _) => self == Self::StoodStill,
            (_, Self::Alignment | Self::AlignmentUnknown | Self::RideHeight | Self::StoodStill) => false,
            _ => true,
        }
    }

    /// Whether what is asked is said of the car, whatever stands in the bay.
    pub const fn is_of_the_car(self) -> bool {
        matches!(
            self,
            Self::AxisUnknown
                | Self::Alignment
                | Self::AlignmentUnknown
                | Self::RideHeight
                | Self::StoodStill
        )
    }

    /// The bay with a row in this relation to the place; `None` where the two cannot be put together.
    pub fn with(self, row: Row, relation: Relation, variant: Variant) -> Option<Arrangement> {
        let mut arrangement = self.alone();
        // On runways these places are beside the runways themselves.
        let at_the_car = matches!(
            self,
            Self::Car
                | Self::UnderCar
                | Self::Tyre
                | Self::Mark
                | Self::Run
                | Self::WorkingRoom
                | Self::OverCar
                | Self::OverPerson
                | Self::UnderTape
        );
        if variant == Variant::Raised && at_the_car {
            return None;
        }
        // Who has a picture is a camera, and whom glass disturbs a lidar.
        let has_eye = matches!(self, Self::Picture | Self::BehindTarget | Self::OnMat);
        if has_eye && !matches!(variant, Variant::Radar | Variant::CarUnsure) {
            return None;
        }
        // Beside a wheel nothing but a hole in the floor leaves it the rest of the door.
        let is_pit = row == Row::Feature(FloorFeatureKind::Pit);
        if self == Self::GroundInDoor && !(is_pit && variant != Variant::CarUnsure) {
            return None;
        }
        let edge = self.edge();
        // A wall that ends between the wheels is none that anyone builds.
        if matches!(row, Row::Wall(_)) && matches!(self, Self::Tyre | Self::WayOut) {
            return None;
        }
        // A thin thing meets a slanting edge at one place; a wall is as thick as walls are.
        let length = match row {
            Row::Wall(_) => 100.0,
            // As wide as a spot and a run of tape are taken to be.
            Row::OtherBay => 10.0,
            _ => 0.002,
        };
        match (row, self.free_from()) {
            (Row::Ceiling, _) => {
                let up_to = self.free_under_ceiling();
                if self.is_zone() {
                    arrangement.aiming.zones[0].span = span(0.0, up_to);
                }
                arrangement.bay.ceiling_mm = up_to + relation.gap();
                arrangement.bay.walls_known = Known::Within(KNOWN_MM);
            }
            // What hangs is put over the place, wholly.
            (Row::Thing(_, Hangs::Yes, _), Some(from)) => {
                row.put(&mut arrangement, edge - DVec2::new(0.0, 150.0), length, 100.0);
                let bottom = from + relation.gap();
                let thing = arrangement.bay.things.last_mut()?;
                thing.span = span(bottom, bottom + 300.0);
            }
            _ => row.put(&mut arrangement, edge + DVec2::new(0.0, relation.gap()), length, 100.0),
        }
        match self {
            Self::UnderTape => row.lie_low(&mut arrangement, 18.0),
            // What is built there is as high as elsewhere.
            Self::UnderCar if matches!(row, Row::Thing(..)) => row.lie_low(&mut arrangement, UNDER_CAR_MM),
            Self::WayIn => {
                arrangement.bay.things.iter_mut().for_each(|own| own.effort = Effort::Fixed);
                // The wall behind the car is the last, however many there are.
                arrangement.bay.openings[0].wall = arrangement.bay.walls.len() - 1;
            }
            _ => {}
        }
        if self == Self::Alignment {
            arrangement.on_this_car.set_back_mm = Some(SET_BACK_MM - relation.gap());
        }
        if self == Self::RideHeight {
            // The whole body, so that it leans nowhere.
            arrangement.on_this_car.arches_mm = [Some(ARCH_MM - (ARCH_OFF_MM - relation.gap())); 4];
        }
        if self == Self::StoodStill {
            // Two readings, each ± 0.7 mm, any value alike, in 95 of 100.
            let explained = 1.959_963_984_540_054 * 2.0_f64.sqrt() * 0.7 / 3.0_f64.sqrt();
            let by_mm = explained * (1.0 - relation.gap() / 100.0);
            arrangement.on_this_car.stood = vec![Stood {
                from: "a cross".into(),
                to: "a rim".into(),
                start_mm: 1_200.0,
                end_mm: Some(1_200.0 + by_mm),
            }];
        }
        variant.set(&mut arrangement);
        Some(arrangement)
    }

    /// Whether it is a keep-clear zone.
    const fn is_zone(self) -> bool {
        matches!(
            self,
            Self::NothingZone | Self::MetalZone | Self::ReflectingZone | Self::PeopleZone | Self::LightZone
        )
    }

    /// The middle of the edge of its place, left of it seen along the bay.
    fn edge(self) -> DVec2 {
        match self {
            Self::NothingZone
            | Self::MetalZone
            | Self::ReflectingZone
            | Self::PeopleZone
            | Self::LightZone => DVec2::new(8_000.0, 4_500.0),
            // Half way to a target 500 mm wide; to one 20 mm wide, where the first zone's radius is 62.397 mm at 77 GHz (ITU-R
            // P.526 equation 2).
            Self::Sight => DVec2::new(6_800.0, 3_125.0),
            Self::Fresnel => DVec2::new(6_800.0, 3_062.397),
            Self::Feet => DVec2::new(9_100.0, 3_300.0),
            Self::Target => DVec2::new(8_810.0, 3_250.0),
            Self::Car | Self::UnderCar | Self::OverCar => DVec2::new(2_500.0, 3_900.0),
            Self::OverStand => DVec2::new(8_810.0, 3_250.0),
            // The thrust line starts at the rear axle, at x = 1400 mm, 0.1° to the left; the target is set off from the sensor.
            Self::Axis => DVec2::new(4_800.0, 3_000.0) + turned(DVec2::new(4_010.0, 250.0)),
            // The car's left side lies at y = 3900.
            Self::WorkedIn => DVec2::new(2_500.0, 3_900.0 + 1_828.8),
            // As far from the mat's left side as the sun reaches over what is as high as the ceiling, 20° up.
            Self::OnMat => {
                DVec2::new(8_800.0, MAT_MIDDLE_MM + 250.0 + LOW_CEILING_MM / libm::tan(angle::radians(20.0)))
            }
            // Far from everything.
            Self::AxisUnknown
            | Self::Alignment
            | Self::AlignmentUnknown
            | Self::RideHeight
            | Self::StoodStill => DVec2::new(10_500.0, 4_500.0),
            // The tread of the front left tyre: 1540 / 2 + 200 / 2 left of the middle.
            Self::Tyre => DVec2::new(4_000.0, 3_870.0),
            Self::Mark => DVec2::new(1_400.0, 4_020.0),
            Self::Run => DVec2::new(6_000.0, 4_020.0),
            Self::WorkingRoom => DVec2::new(2_500.0, 4_500.0),
            // 550 mm before a face that stands at x = 8800; its stand reaches 300 mm to the left.
            Self::BeforeStand => DVec2::new(8_250.0, 3_300.0),
            // Beside the car, where people work.
            Self::OverPerson => DVec2::new(2_500.0, 4_400.0),
            Self::WayOut => DVec2::new(11_000.0, 1_000.0),
            // 3200 mm ahead of the lens, 20° to the left.
            Self::Picture => DVec2::new(8_000.0, 3_000.0 + 3_200.0 * libm::tan(angle::radians(20.0))),
            // Half of a board 500 mm wide at 4000 mm is 350 mm at 5600 mm.
            Self::BehindTarget => DVec2::new(10_400.0, 3_350.0),
            // 100 mm past the front left spot, from where a tape is laid on.
            Self::UnderTape => DVec2::new(4_100.0, 4_020.0),
            // The car and a hand's breadth on both sides are 2000 mm, from the jamb at y = 500 on.
            Self::WayIn => DVec2::new(400.0, DOOR_FROM_MM + 2_000.0),
            // A left wheel's outer side is 870 mm from the middle, which is 1025 mm from the jamb.
            Self::GroundInDoor => DVec2::new(400.0, DOOR_FROM_MM + 1_025.0 + 870.0),
        }
    }

    /// The clear bay in which nothing but this is asked.
    fn alone(self) -> Arrangement {
        let mut alone = clear();
        let zone = alone.aiming.zones[0].clone();
        alone.aiming.zones.clear();
        alone.aiming.working_room_mm = Some(0.0);
        let marks = std::mem::take(&mut alone.aiming.mark_plan);
        alone.aiming.placements[0].mark = None;
        let mut keeps = |excludes| alone.aiming.zones = vec![KeepClear { excludes, ..zone.clone() }];
        match self {
            Self::NothingZone => keeps(Exclusion::Anything),
            Self::MetalZone => keeps(Exclusion::Metal),
            Self::ReflectingZone => keeps(Exclusion::Reflecting(-10.0)),
            Self::PeopleZone => keeps(Exclusion::People),
            Self::LightZone => keeps(Exclusion::Light),
            Self::Fresnel => alone.aiming.placements[0].target.width_mm = 20.0,
            Self::Mark | Self::Run | Self::UnderTape => alone.aiming.mark_plan = marks,
            Self::BehindTarget => {
                alone.sensor.kind = SensorKind::Lidar;
                alone.aiming.placements[0].target.kind = TargetKind::Board;
            }
            // As wide as the car, a hand's breadth on both sides, and what its place is known by.
            Self::WayIn | Self::GroundInDoor => {
                let width_mm = 2_000.0 + KNOWN_MM;
                let door = open_door(3, 6_000.0 - DOOR_FROM_MM - width_mm, width_mm, 0.0);
                alone.bay.openings = vec![Opening { kind: OpeningKind::Gap, ..door }];
            }
            Self::WorkingRoom | Self::OverPerson => alone.aiming.working_room_mm = Some(600.0),
            Self::WayOut => {
                let outline = rectangle((10_500.0, 0.0), (11_500.0, 1_000.0));
                alone.bay.keep_free = vec![KeepFree { id: "way".into(), kind: KeepFreeKind::Exit, outline }];
            }
            // Feet narrower than the target, and a mast higher than the car.
            Self::Target | Self::OverStand | Self::Axis => {
                let stand = alone.aiming.placements[0].target.stand.as_mut().unwrap();
                stand.base = rectangle((-500.0, -100.0), (-20.0, 100.0)).into();
                stand.top_mm = STAND_TOP_MM;
                if self == Self::OverStand {
                    // As wide as the target, so that what hangs over that hangs over it.
                    (stand.mast_mm, stand.mast_behind_mm) = (500.0, 250.0);
                }
                if self == Self::Axis {
                    alone.aiming.axis = ReferenceAxis::ThrustLine;
                    alone.on_this_car.rear_toe = RearToe::of(0.0, 2.0 * THRUST_RAD);
                }
            }
            Self::AxisUnknown => alone.aiming.axis = ReferenceAxis::ThrustLine,
            Self::Alignment | Self::AlignmentUnknown => {
                alone.aiming.alignment.set_back_mm = Some(SET_BACK_MM);
            }
            Self::RideHeight => {
                alone.vehicle.ride_heights = Some([ARCH_MM; 4]);
                alone.vehicle.ride_height_off_mm = Some(ARCH_OFF_MM);
                alone.on_this_car.sensor_at = Some(alone.sensor.at);
            }
            Self::StoodStill => alone.shop.tape_read_mm = 0.7,
            Self::Picture => {
                let camera = Camera { pixels_across: 1_280, pixels_down: 960 };
                alone.sensor.kind = SensorKind::ForwardCamera(camera);
                alone.sensor.view.azimuth_half_rad = angle::radians(20.0);
                alone.aiming.placements[0].target.kind = TargetKind::Board;
            }
            Self::OnMat => {
                let camera = Camera { pixels_across: 1_280, pixels_down: 960 };
                alone.sensor.kind = SensorKind::SurroundCamera(camera);
                let placement = &mut alone.aiming.placements[0];
                (placement.height, placement.target.kind) = (TargetHeight::OnFloor, TargetKind::Mat);
                (placement.target.stand, placement.stand_off.aside_mm) = (None, MAT_MIDDLE_MM - 3_000.0);
                alone.bay.ceiling_mm = LOW_CEILING_MM;
            }
            // A hand's breadth over the roof is another column's.
            Self::Car | Self::UnderCar => alone.shop.over_car_mm = 0.0,
            Self::Sight | Self::Feet | Self::OverCar | Self::Tyre | Self::BeforeStand | Self::WorkedIn => {}
        }
        alone
    }
}
