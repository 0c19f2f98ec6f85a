//! Invariants of a shop's settings.

use super::super::fault::{Allowed, Found};
use super::super::{Shop, ShopFace, ShopFigure, WorkStep};
use super::{Faults, limits};

pub(super) fn check(shop: &Shop, faults: &mut Faults) {
    for figure in ShopFigure::ALL {
        faults.number(figure.name(), shop.get(*figure), &figure.range());
    }
    let age = shop.survey_age_days;
    if ShopFigure::SurveyAge.range().holds(age) && age != age.round() {
        faults.add(
            ShopFigure::SurveyAge.name(),
            Found::Number(age, ShopFigure::SurveyAge.range().unit),
            whole_days(),
        );
    }
    for (rough, taped) in [
        (ShopFigure::ByEye, ShopFigure::Taped),
        (ShopFigure::CarPlanned, ShopFigure::CarTaped),
        (ShopFigure::CarPlannedTurn, ShopFigure::CarTapedTurn),
    ] {
        let (value, least) = (shop.get(rough), shop.get(taped));
        // What no range holds is said already.
        if rough.range().holds(value) && value < least {
            let unit = rough.range().unit;
            faults.add(rough.name(), Found::Number(value, unit), Allowed::FromTaped(least, unit));
        }
    }
}

pub(super) fn check_face(face: &ShopFace, faults: &mut Faults) {
    if let Some(name) = &face.name {
        faults.name("name", name);
    }
    if let Some(picture) = &face.picture {
        faults.text("picture", picture, limits::LONGEST_TEXT);
    }
    for step in WorkStep::ALL {
        if let Some(minutes) = face.minutes(step) {
            faults.number(format!("minutes.{}", step.field()), minutes, &WorkStep::MINUTES);
        }
    }
}

fn whole_days() -> Allowed {
    let range = ShopFigure::SurveyAge.range();
    Allowed::Whole(range.low as u64, range.high as u64)
}
