//! What is known of a sensor, and what is taken instead where nothing is.

use baywright_geometry::angle::radians;
use baywright_geometry::fresnel::LIGHT_MM_PER_S;

use super::antenna::{Pattern, PatternFault};
use super::band::Band;
use super::window::Window;

/// A view that is not known is taken in so many steps.
const AZIMUTH_STEPS: u32 = 16;
const ELEVATION_STEPS: u32 = 4;

/// A figure of a sensor that its profile may leave open.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Figure {
    /// How wide the antennas see, in azimuth.
    ViewAzimuth,
    /// How wide the antennas see, in elevation.
    ViewElevation,
    /// How much the side lobes see, one way.
    SideLobes,
    /// How much of the other polarisation is let in.
    Isolation,
    /// The bandwidth of a chirp.
    Bandwidth,
    /// The range window.
    Window,
    /// Below which range nothing is seen.
    BlindRange,
    /// How wide the beam is by which bearings are told apart.
    Beam,
}

/// What a profile states of a sensor.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Known {
    /// The sensor's own pattern; then the next three are not asked.
    pub pattern: Option<Pattern>,
    /// Full width in azimuth at half power, one way, radians.
    pub view_azimuth: Option<f64>,
    /// Full width in elevation at half power, one way, radians.
    pub view_elevation: Option<f64>,
    /// Side lobes, dB one way against the best direction, at most 0.
    pub side_lobes_db: Option<f64>,
    /// How much lower a wave of the other polarisation is received, dB, at most 0.
    pub isolation_db: Option<f64>,
    /// Chirp bandwidth, Hz.
    pub bandwidth_hz: Option<f64>,
    /// Range window.
    pub window: Option<Window>,
    /// Blind range, mm.
    pub blind_mm: Option<f64>,
    /// Full width of the beam by which azimuths are told apart (the array's, not one antenna's), radians.
    pub beam_azimuth: Option<f64>,
    /// The same for elevations. A sensor for which none is stated is taken to tell no elevations apart: the careful way.
    pub beam_elevation: Option<f64>,
}

/// A sensor, all of whose figures are there: stated, or a band over what is usual.
#[derive(Clone, Debug, PartialEq)]
pub struct Sensor {
    patterns: Vec<Pattern>,
    /// How much lower a wave of the other polarisation is received, dB.
    pub isolation_db: Band,
    /// The range cell c/2B, mm, not widened yet.
    pub cell_mm: Band,
    /// The windows that it may use.
    pub windows: Vec<Window>,
    /// The blind range, mm.
    pub blind_mm: Band,
    /// Full width of the beam by which azimuths are told apart, radians.
    pub beam_azimuth: Band,
    /// Full width of the beam by which elevations are told apart, radians; `None` if it tells none apart.
    pub beam_elevation: Option<Band>,
    /// The figures that are not the sensor's own but what is usual.
    pub assumed: Vec<Figure>,
}

/// A figure that makes no sense.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SensorFault {
    /// Which.
    pub figure: Figure,
    /// What was given, in its unit.
    pub given: f64,
}

impl std::fmt::Display for SensorFault {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{self:?}")
    }
}

impl std::error::Error for SensorFault {}

impl Sensor {
    /// The sensor of what is known. What is not known is a band over what is usual for 76 to 81 GHz automotive radar; every one of
    /// these is `common practice, no source` (the characteristics of Recommendation ITU-R M.2057 are known from memory only, and
    /// the bands are wide enough for all its five kinds as recalled):
    ///
    /// | figure | taken |
    /// | --- | --- |
    /// | view in azimuth, half power, one way | 20° to 100° |
    /// | view in elevation | 6° to 20° |
    /// | side lobes, one way | -30 to -15 dB |
    /// | isolation of the other polarisation | -30 to -15 dB |
    /// | chirp bandwidth | 0.5 to 4 GHz: cells of 300 to 37 mm |
    /// | range window | any |
    /// | blind range | 0 to 300 mm |
    /// | beam that tells azimuths apart | 2° to 20° |
    ///
    /// # Errors
    /// The first figure that makes no sense: a width, bandwidth or cell that is not above 0, a level above 0 dB, no number.
    pub fn of(known: &Known) -> Result<Self, SensorFault> {
        let mut assumed = Vec::new();
        let mut figure = |figure, given: Option<f64>, usual: (f64, f64), makes_sense: fn(f64) -> bool| {
            let (low, high) = match given {
                Some(given) if !(given.is_finite() && makes_sense(given)) => {
                    return Err(SensorFault { figure, given });
                }
                Some(given) => (given, given),
                None => {
                    assumed.push(figure);
                    usual
                }
            };
            Band::between(low, high).ok_or(SensorFault { figure, given: low })
        };
        let is_width = |width: f64| width > 0.0;
        let is_loss = |db: f64| db <= 0.0;
        let patterns = match &known.pattern {
            Some(pattern) => vec![pattern.clone()],
            None => {
                let wide = |degrees: (f64, f64)| (radians(degrees.0), radians(degrees.1));
                let azimuth = figure(Figure::ViewAzimuth, known.view_azimuth, wide((20.0, 100.0)), is_width)?;
                let elevation =
                    figure(Figure::ViewElevation, known.view_elevation, wide((6.0, 20.0)), is_width)?;
                let side = figure(Figure::SideLobes, known.side_lobes_db, (-30.0, -15.0), is_loss)?;
                among(&azimuth, &elevation, &side)?
            }
        };
        let isolation_db = figure(Figure::Isolation, known.isolation_db, (-30.0, -15.0), is_loss)?;
        let bandwidth = figure(Figure::Bandwidth, known.bandwidth_hz, (0.5e9, 4e9), is_width)?;
        let blind_mm = figure(Figure::BlindRange, known.blind_mm, (0.0, 300.0), |mm| mm >= 0.0)?;
        let beam_azimuth = figure(Figure::Beam, known.beam_azimuth, (radians(2.0), radians(20.0)), is_width)?;
        let beam_elevation = match known.beam_elevation {
            Some(_) => Some(figure(Figure::Beam, known.beam_elevation, (0.0, 0.0), is_width)?),
            None => None,
        };
        let cell = |hz: f64| LIGHT_MM_PER_S / (2.0 * hz);
        let cell_mm = Band::between(cell(bandwidth.low()), cell(bandwidth.high()))
            .ok_or(SensorFault { figure: Figure::Bandwidth, given: bandwidth.low() })?;
        let windows = known.window.map_or_else(|| Window::ALL.to_vec(), |window| vec![window]);
        if known.window.is_none() {
            assumed.push(Figure::Window);
        }
        assumed.sort_unstable();
        Ok(Self { patterns, isolation_db, cell_mm, windows, blind_mm, beam_azimuth, beam_elevation, assumed })
    }

    /// The patterns between which the sensor's lies: one if it is known, else those of the ends of each figure and of steps
    /// between. For a target about the middle of the view nothing lies outside what these give; for one far aside, where a narrow
    /// pattern hardly sees it, some dB may.
    pub fn patterns(&self) -> &[Pattern] {
        &self.patterns
    }

    /// The range cell as the window widens it, mm: echoes nearer to one another than that are one hump. Between the narrowest of
    /// what the sensor may be and the widest.
    pub fn widened_cell_mm(&self) -> Band {
        let cells = self.windows.iter().map(|window| window.resolved_cells());
        let (low, high) = cells.fold((f64::INFINITY, 0.0_f64), |(low, high), of| (low.min(of), high.max(of)));
        let (low, high) = (self.cell_mm.low() * low, self.cell_mm.high() * high);
        Band::between(low, high).unwrap_or(self.cell_mm)
    }
}

fn among(azimuth: &Band, elevation: &Band, side: &Band) -> Result<Vec<Pattern>, SensorFault> {
    let mut found = Vec::new();
    for a in steps(azimuth, AZIMUTH_STEPS) {
        for e in steps(elevation, ELEVATION_STEPS) {
            for s in steps(side, 1) {
                found.push(Pattern::beams(a, e, s).map_err(|fault| match fault {
                    PatternFault::Width { rad } => SensorFault { figure: Figure::ViewAzimuth, given: rad },
                    _ => SensorFault { figure: Figure::SideLobes, given: s },
                })?);
            }
        }
    }
    Ok(found)
}

/// Both ends, and between them so many steps less one, each by the same factor.
fn steps(band: &Band, count: u32) -> Vec<f64> {
    if band.low() == band.high() {
        return vec![band.low()];
    }
    let factor = band.high() / band.low();
    (0..=count).map(|step| band.low() * libm::pow(factor, f64::from(step) / f64::from(count))).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_stated_is_no_band() {
        let known = Known {
            view_azimuth: Some(0.5),
            view_elevation: Some(0.1),
            side_lobes_db: Some(-20.0),
            isolation_db: Some(-25.0),
            bandwidth_hz: Some(1e9),
            window: Some(Window::Hann),
            blind_mm: Some(100.0),
            beam_azimuth: Some(0.1),
            ..Known::default()
        };
        let sensor = Sensor::of(&known).unwrap();
        assert!(sensor.assumed.is_empty());
        assert_eq!(sensor.patterns(), [Pattern::beams(0.5, 0.1, -20.0).unwrap()]);
        // references: c/2B of 1 GHz is 149.8962 mm; Hann's window doubles it.
        assert!((sensor.cell_mm.low() - 149.8962).abs() < 1e-4);
        let widened = sensor.widened_cell_mm();
        assert!(widened.low() == widened.high() && (widened.low() - 299.7925).abs() < 1e-4);
    }

    #[test]
    fn what_is_not_stated_is_named() {
        let sensor = Sensor::of(&Known::default()).unwrap();
        assert_eq!(sensor.assumed.len(), 8);
        assert_eq!(sensor.patterns().len(), 17 * 5 * 2);
        // Computed c/2B: 299.7925 and 37.4741 mm for 0.5 and 4 GHz.
        assert!(
            (sensor.cell_mm.high() - 299.7925).abs() < 1e-4 && (sensor.cell_mm.low() - 37.4741).abs() < 1e-4
        );
        assert_eq!(sensor.beam_elevation, None);
        let own = Known { pattern: Some(Pattern::beams(1.0, 1.0, -9.0).unwrap()), ..Known::default() };
        assert_eq!(Sensor::of(&own).unwrap().assumed.len(), 5);
    }

    #[test]
    fn figures_without_sense_are_refused() {
        for given in [0.0, -1.0, f64::NAN, f64::INFINITY] {
            let known = Known { bandwidth_hz: Some(given), ..Known::default() };
            let fault = Sensor::of(&known).unwrap_err();
            assert_eq!(fault.figure, Figure::Bandwidth);
            let known = Known { view_elevation: Some(given), ..Known::default() };
            assert_eq!(Sensor::of(&known).unwrap_err().figure, Figure::ViewElevation);
        }
        let known = Known { isolation_db: Some(3.0), ..Known::default() };
        assert_eq!(Sensor::of(&known), Err(SensorFault { figure: Figure::Isolation, given: 3.0 }));
    }
}
