//! What an aiming asks of the room: each a place whose one edge runs straight ahead, in a bay where nothing else asks anything.

use super::rows::{KNOWN_MM, Row};
use super::support::*;

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
    /// The ground under a tyre.
    Tyre,
    /// A floor mark.
    Mark,
    /// A run of tape or light.
    Run,
    /// Room to work beside the car.
    WorkingRoom,
    /// A way that local rules want free.
    WayOut,
    /// No light in a camera's picture.
    Picture,
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
    pub const ALL: [Self; 16] = [
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
        Self::Tyre,
        Self::Mark,
        Self::Run,
        Self::WorkingRoom,
        Self::WayOut,
        Self::Picture,
    ];

    /// The bay with a row in this relation to the place; `None` where the two cannot be put together.
    pub fn with(self, row: Row, relation: Relation, variant: Variant) -> Option<Arrangement> {
        let mut arrangement = self.alone();
        // On runways these places are beside the runways themselves.
        let at_the_car = matches!(self, Self::Car | Self::Tyre | Self::Mark | Self::Run | Self::WorkingRoom);
        if variant == Variant::Raised && at_the_car {
            return None;
        }
        // Who has a picture is a camera.
        if self == Self::Picture && !matches!(variant, Variant::Radar | Variant::CarUnsure) {
            return None;
        }
        let edge = self.edge();
        // A wall that ends between the wheels is none that anyone builds.
        if matches!(row, Row::Wall(_)) && matches!(self, Self::Tyre | Self::WayOut) {
            return None;
        }
        // A thin thing meets a slanting edge at one place; a wall is as thick as walls are.
        let length = if matches!(row, Row::Wall(_)) { 100.0 } else { 0.002 };
        row.put(&mut arrangement, edge + DVec2::new(0.0, relation.gap()), length, 100.0);
        variant.set(&mut arrangement);
        Some(arrangement)
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
            Self::Car => DVec2::new(2_500.0, 3_900.0),
            // The tread of the front left tyre: 1540 / 2 + 200 / 2 left of the middle.
            Self::Tyre => DVec2::new(4_000.0, 3_870.0),
            Self::Mark => DVec2::new(1_400.0, 4_020.0),
            Self::Run => DVec2::new(6_000.0, 4_020.0),
            Self::WorkingRoom => DVec2::new(2_500.0, 4_500.0),
            Self::WayOut => DVec2::new(11_000.0, 1_000.0),
            // 3200 mm ahead of the lens, 20° to the left.
            Self::Picture => DVec2::new(8_000.0, 3_000.0 + 3_200.0 * libm::tan(angle::radians(20.0))),
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
            Self::Mark | Self::Run => alone.aiming.mark_plan = marks,
            Self::WorkingRoom => alone.aiming.working_room_mm = Some(600.0),
            Self::WayOut => {
                let outline = rectangle((10_500.0, 0.0), (11_500.0, 1_000.0));
                alone.bay.keep_free = vec![KeepFree { id: "way".into(), kind: KeepFreeKind::Exit, outline }];
            }
            // Feet narrower than the target.
            Self::Target => {
                let stand = alone.aiming.placements[0].target.stand.as_mut().unwrap();
                stand.base = rectangle((-500.0, -100.0), (-20.0, 100.0)).into();
            }
            Self::Picture => {
                let camera = Camera { pixels_across: 1_280, pixels_down: 960 };
                alone.sensor.kind = SensorKind::ForwardCamera(camera);
                alone.sensor.view.azimuth_half_rad = angle::radians(20.0);
                alone.aiming.placements[0].target.kind = TargetKind::Board;
            }
            Self::Sight | Self::Feet | Self::Car | Self::Tyre => {}
        }
        alone
    }
}
