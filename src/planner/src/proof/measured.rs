//! All that is said of what was measured, one after the other.

use super::{Figure, Said, StandFigure, StandProof, said, stands};
use crate::model::Arrangement;
use crate::scene::Scene;

/// A figure of a target by what was measured.
#[derive(Clone, Debug, PartialEq)]
pub enum Measured {
    /// By what was taped between marks.
    Marks(Figure),
    /// By what was read of its stand.
    Stand(StandProof, StandFigure),
}

impl Measured {
    /// What is said of it.
    pub const fn said(&self) -> Said {
        match self {
            Self::Marks(figure) => figure.said,
            Self::Stand(_, figure) => figure.said,
        }
    }
}

/// Each figure that something was measured for, by the marks first; none where nothing was.
pub fn measured(arrangement: &Arrangement, scene: &Scene) -> Vec<Measured> {
    let marks = said(arrangement, scene).map(|(figures, _)| figures).unwrap_or_default();
    let is_read = |own: &StandProof| {
        arrangement.stands_read.iter().any(|read| read.placement == own.placement && !read.is_empty())
    };
    let stands = stands(arrangement, scene).into_iter().filter(is_read);
    let stands = stands.flat_map(|own| {
        let figures = own.figures.clone();
        figures.into_iter().map(move |figure| Measured::Stand(own.clone(), figure))
    });
    marks.into_iter().map(Measured::Marks).chain(stands).collect()
}
