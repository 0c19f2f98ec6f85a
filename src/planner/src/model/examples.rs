//! Which figures of an arrangement are invented examples.

use super::{Arrangement, Provenance};

/// A group of figures that has one source and is entered in one place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Figures {
    /// Of the car's body.
    Body,
    /// Of the sensor that is aimed.
    Sensor,
    /// Of the aiming.
    Aiming,
    /// Of the bay, or of the building as planned.
    Bay,
    /// Of the floor's levels, or of those of a runway that the car stands on.
    Levels,
}

impl Arrangement {
    /// The groups of figures that are invented examples, in the order in which they are told; none if all are somebody's own.
    pub fn examples(&self) -> Vec<Figures> {
        let runways = self.bay.runways.iter().filter(|own| self.on_runways.contains(&own.id));
        let surveys = self.bay.survey.iter().chain(runways.filter_map(|own| own.survey.as_ref()));
        [
            (Figures::Body, &self.vehicle.provenance),
            (Figures::Sensor, &self.sensor.provenance),
            (Figures::Aiming, &self.aiming.provenance),
            (Figures::Bay, &self.bay.provenance),
        ]
        .into_iter()
        .chain(surveys.map(|survey| (Figures::Levels, &survey.provenance)))
        .filter(|(_, from)| **from == Provenance::Example)
        .map(|(figures, _)| figures)
        .fold(Vec::new(), |mut told, figures| {
            if !told.contains(&figures) {
                told.push(figures);
            }
            told
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::FloorSurvey;

    #[test]
    fn each_group_is_told_once_and_goes_with_its_source() {
        let mut arrangement = crate::check::testing::clear();
        let own = || Provenance::Measured { by: "us".to_owned(), date: None };
        arrangement.vehicle.provenance = Provenance::Example;
        arrangement.sensor.provenance = Provenance::Example;
        arrangement.aiming.provenance = Provenance::Example;
        arrangement.bay.provenance = Provenance::Example;
        if let Some(survey) = &mut arrangement.bay.survey {
            survey.provenance = Provenance::Example;
        }
        let levels = arrangement.bay.survey.is_some().then_some(Figures::Levels);
        let all = [Figures::Body, Figures::Sensor, Figures::Aiming, Figures::Bay].into_iter().chain(levels);
        assert_eq!(arrangement.examples(), all.collect::<Vec<_>>());
        arrangement.vehicle.provenance = own();
        arrangement.bay.survey = None::<FloorSurvey>;
        assert_eq!(arrangement.examples(), [Figures::Sensor, Figures::Aiming, Figures::Bay]);
        arrangement.sensor.provenance = own();
        arrangement.aiming.provenance = own();
        arrangement.bay.provenance = own();
        assert_eq!(arrangement.examples(), []);
    }
}
