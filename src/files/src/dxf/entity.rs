//! One entity of a DXF file out of its groups.

use baywright_planner::geometry::{DVec2, angle};
use baywright_planner::model::fault::LeftOut;

use super::groups::{Group, decoded};
use super::shape::{Arc, Piece, Placing};

/// What an entity is, in the frame that it was drawn in.
#[derive(Clone, Debug, PartialEq)]
pub enum Kind {
    /// Lines and arcs, one after the other; whether they close.
    Path(Vec<Piece>, bool),
    /// A block that is put there.
    Insert(Box<Insert>),
    /// A note.
    Text(DVec2, String),
}

/// A block that is put somewhere, perhaps in rows and columns.
#[derive(Clone, Debug, PartialEq)]
pub struct Insert {
    pub block: String,
    /// Where the block's base point goes, how it is turned and stretched.
    pub placing: Placing,
    pub columns: u32,
    pub rows: u32,
    /// From one column, and one row, to the next.
    pub apart: [DVec2; 2],
}

/// One entity.
#[derive(Clone, Debug, PartialEq)]
pub struct Entity {
    pub layer: String,
    pub line: u32,
    pub kind: Kind,
}

/// A polyline of the older kind, whose corners are entities that follow it.
#[derive(Clone, Debug)]
pub struct Polyline {
    layer: String,
    line: u32,
    placing: Placing,
    closed: bool,
    corners: Vec<(DVec2, f64)>,
}

/// What groups turn out to be.
pub enum Read {
    Entity(Entity),
    /// Corners follow.
    Polyline(Polyline),
    /// A corner of the polyline before it: where, and its bulge.
    Corner(DVec2, f64),
    /// Nothing that is seen: the end of a list, a window of a paper.
    Nothing,
    LeftOut(LeftOut),
}

/// The largest table of copies of a block, either way: the format's own.
const MOST_COPIES: i64 = 32_767;

/// Reads the entity of this kind: `groups` are all after its name.
pub fn read(kind: &[u8], line: u32, groups: &[Group<'_>]) -> Read {
    let own = Own { groups };
    if matches!(kind, b"SEQEND" | b"ATTDEF" | b"VIEWPORT") {
        return Read::Nothing;
    }
    if own.first(67).and_then(Group::whole) == Some(1) {
        return Read::LeftOut(LeftOut::OnPaper);
    }
    let Ok(placing) = own.frame() else { return Read::LeftOut(LeftOut::Tilted) };
    let layer = own.text(8).unwrap_or_else(|| "0".to_owned());
    let made = match kind {
        b"LINE" => own.line_piece().map(|piece| Kind::Path(vec![piece], false)),
        b"ARC" => own.arc(&placing).map(|arc| Kind::Path(vec![Piece::Arc(arc)], false)),
        b"CIRCLE" => own.circle(&placing).map(|arc| Kind::Path(vec![Piece::Arc(arc)], true)),
        b"ELLIPSE" => own.ellipse().map(|arc| Kind::Path(vec![Piece::Arc(arc)], arc.is_closed())),
        b"LWPOLYLINE" => own.light_polyline(&placing),
        b"POLYLINE" => match own.polyline(layer.clone(), line, placing) {
            Ok(polyline) => return Read::Polyline(polyline),
            Err(left_out) => return Read::LeftOut(left_out),
        },
        b"VERTEX" => return own.corner(),
        b"INSERT" => own.insert(&placing).map(|insert| Kind::Insert(Box::new(insert))),
        b"TEXT" | b"ATTRIB" => own.note(&placing),
        b"MTEXT" => own.long_note(),
        _ => return Read::LeftOut(LeftOut::Kind),
    };
    match made {
        Some(kind) if kind.is_finite() => Read::Entity(Entity { layer, line, kind }),
        _ => Read::LeftOut(LeftOut::Damaged),
    }
}

impl Kind {
    fn is_finite(&self) -> bool {
        match self {
            Self::Path(pieces, _) => pieces.iter().all(Piece::is_finite),
            Self::Insert(insert) => {
                insert.placing.is_finite() && insert.apart.iter().all(|own| own.is_finite())
            }
            Self::Text(at, _) => at.is_finite(),
        }
    }
}

impl Polyline {
    pub fn corner(&mut self, at: DVec2, bulge: f64) {
        self.corners.push((at, bulge));
    }

    /// All of it, once its corners are read; `None` if it has none.
    pub fn end(self) -> Option<Entity> {
        let (pieces, closed) = path(&self.corners, self.closed, &self.placing);
        let kind = Kind::Path(pieces, closed);
        let sound = matches!(&kind, Kind::Path(pieces, _) if !pieces.is_empty()) && kind.is_finite();
        sound.then_some(Entity { layer: self.layer, line: self.line, kind })
    }

    pub const fn line(&self) -> u32 {
        self.line
    }
}

/// The pieces between corners, each with the bulge to the next one; and whether they close.
fn path(corners: &[(DVec2, f64)], closed: bool, placing: &Placing) -> (Vec<Piece>, bool) {
    let (first, last) = (corners.first(), corners.last());
    let meets = corners.len() > 2 && first.map(|own| own.0) == last.map(|own| own.0);
    let next = corners.iter().cycle().skip(1);
    let count = if closed { corners.len() } else { corners.len().saturating_sub(1) };
    let pieces = corners.iter().zip(next).take(count).filter(|((from, _), (to, _))| from != to);
    let pieces = pieces.map(|((from, bulge), (to, _))| {
        let piece = Arc::bulging(*from, *to, *bulge).map_or(Piece::Line(*from, *to), Piece::Arc);
        piece.placed(placing)
    });
    (pieces.collect(), (closed || meets) && corners.len() > 1)
}

/// The groups of one entity.
struct Own<'a> {
    groups: &'a [Group<'a>],
}

impl Own<'_> {
    fn first(&self, code: i32) -> Option<&Group<'_>> {
        self.groups.iter().find(|own| own.code == code)
    }

    fn number(&self, code: i32) -> Option<f64> {
        self.first(code)?.number()
    }

    /// A number that may be left out; `None` if something else stands there.
    fn number_or(&self, code: i32, default: f64) -> Option<f64> {
        self.first(code).map_or(Some(default), Group::number)
    }

    fn flags(&self, code: i32) -> i64 {
        self.first(code).and_then(Group::whole).unwrap_or_default()
    }

    fn text(&self, code: i32) -> Option<String> {
        self.first(code).map(|own| decoded(own.value)).filter(|text| !text.is_empty())
    }

    fn place(&self, code: i32) -> Option<DVec2> {
        Some(DVec2::new(self.number(code)?, self.number(code + 10)?))
    }

    /// The frame that it is drawn in, by where its height axis points: up, or down, which mirrors it.
    fn frame(&self) -> Result<Placing, ()> {
        let [x, y, z] =
            [(210, 0.0), (220, 0.0), (230, 1.0)].map(|(code, default)| self.number_or(code, default));
        let (Some(x), Some(y), Some(z)) = (x, y, z) else { return Err(()) };
        let upright = x.abs().max(y.abs()) <= 1e-6 * z.abs();
        match z {
            z if upright && z > 0.0 => Ok(Placing::SAME),
            z if upright && z < 0.0 => Ok(Placing::MIRRORED),
            _ => Err(()),
        }
    }

    /// A line's ends are given in the drawing's frame, whatever its own is.
    fn line_piece(&self) -> Option<Piece> {
        Some(Piece::Line(self.place(10)?, self.place(11)?))
    }

    fn circle(&self, placing: &Placing) -> Option<Arc> {
        let radius = self.number(40).filter(|radius| *radius > 0.0)?;
        placed(Arc::circle(self.place(10)?, radius), placing)
    }

    fn arc(&self, placing: &Placing) -> Option<Arc> {
        let radius = self.number(40).filter(|radius| *radius > 0.0)?;
        let (from, to) = (angle::radians(self.number(50)?), angle::radians(self.number(51)?));
        placed(Arc::circle(self.place(10)?, radius).between(from, to), placing)
    }

    /// Given in the drawing's frame; where its height axis points down it runs the other way round.
    fn ellipse(&self) -> Option<Arc> {
        let (centre, u) = (self.place(10)?, self.place(11)?);
        let side = if self.frame() == Ok(Placing::MIRRORED) { -1.0 } else { 1.0 };
        let v = u.perp() * (self.number(40).filter(|share| *share > 0.0)? * side);
        let (from, to) = (self.number_or(41, 0.0)?, self.number_or(42, std::f64::consts::TAU)?);
        (u != DVec2::ZERO).then(|| Arc { centre, u, v, from: 0.0, sweep: 0.0 }.between(from, to))
    }

    fn light_polyline(&self, placing: &Placing) -> Option<Kind> {
        let mut corners: Vec<(DVec2, f64)> = Vec::new();
        for own in self.groups {
            match own.code {
                10 => corners.push((DVec2::new(own.number()?, f64::NAN), 0.0)),
                20 => corners.last_mut()?.0.y = own.number()?,
                // Before its first corner a width is meant, or nothing that is known.
                42 => {
                    if let Some(last) = corners.last_mut() {
                        last.1 = own.number()?;
                    }
                }
                _ => {}
            }
        }
        let (pieces, closed) = path(&corners, self.flags(70) & 1 != 0, placing);
        (!pieces.is_empty()).then_some(Kind::Path(pieces, closed))
    }

    fn polyline(&self, layer: String, line: u32, placing: Placing) -> Result<Polyline, LeftOut> {
        const IN_SPACE: i64 = 8;
        const NETS: i64 = 16 | 64;
        let flags = self.flags(70);
        if flags & NETS != 0 {
            return Err(LeftOut::Kind);
        }
        // One in space is given in the drawing's frame.
        let placing = if flags & IN_SPACE != 0 { Placing::SAME } else { placing };
        Ok(Polyline { layer, line, placing, closed: flags & 1 != 0, corners: Vec::new() })
    }

    fn corner(&self) -> Read {
        const GUIDES_A_CURVE: i64 = 16;
        if self.flags(70) & GUIDES_A_CURVE != 0 {
            return Read::Nothing;
        }
        match (self.place(10), self.number_or(42, 0.0)) {
            (Some(at), Some(bulge)) => Read::Corner(at, bulge),
            _ => Read::LeftOut(LeftOut::Damaged),
        }
    }

    fn insert(&self, frame: &Placing) -> Option<Insert> {
        let turned = angle::radians(self.number_or(50, 0.0)?);
        let (along, across) = (angle::direction(turned), angle::direction(turned).perp());
        let (wide, high) = (self.number_or(41, 1.0)?, self.number_or(42, 1.0)?);
        let placing = Placing { x: along * wide, y: across * high, at: self.place(10)? };
        let copies = |code| match self.first(code) {
            None => Some(1),
            // None is one, as the format's own programs have it.
            Some(own) => u32::try_from(own.whole()?.clamp(1, MOST_COPIES)).ok(),
        };
        let apart = [along * self.number_or(44, 0.0)?, across * self.number_or(45, 0.0)?];
        Some(Insert {
            block: self.text(2)?,
            placing: frame.after(&placing),
            columns: copies(70)?,
            rows: copies(71)?,
            apart: apart.map(|own| frame.way(own)),
        })
    }

    fn note(&self, placing: &Placing) -> Option<Kind> {
        // A second place is the one that counts where the text is not set from its left.
        let set_otherwise = self.flags(72) != 0 || self.flags(73) != 0;
        let at = self.place(11).filter(|_| set_otherwise).or_else(|| self.place(10))?;
        Some(Kind::Text(placing.point(at), self.text(1).unwrap_or_default()))
    }

    /// A note of several lines: only its words, without how they are set.
    fn long_note(&self) -> Option<Kind> {
        let whole: Vec<u8> = self
            .groups
            .iter()
            .filter(|own| matches!(own.code, 1 | 3))
            .flat_map(|own| own.value.to_vec())
            .collect();
        Some(Kind::Text(self.place(10)?, unset(&decoded(&whole))))
    }
}

fn placed(arc: Arc, placing: &Placing) -> Option<Arc> {
    match Piece::Arc(arc).placed(placing) {
        Piece::Arc(arc) => Some(arc),
        Piece::Line(..) => None,
    }
}

/// A text without what sets it: `\H2.5;` and the like, `\P` for a new line, braces.
fn unset(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut letters = text.chars();
    while let Some(letter) = letters.next() {
        match letter {
            '{' | '}' => {}
            '\\' => match letters.next() {
                Some('P' | '~') => out.push(' '),
                Some('A' | 'C' | 'F' | 'f' | 'H' | 'Q' | 'T' | 'W' | 'p') => {
                    letters.by_ref().take_while(|own| *own != ';').for_each(drop);
                }
                Some('L' | 'l' | 'O' | 'o' | 'K' | 'k') | None => {}
                Some(plain) => out.push(plain),
            },
            plain => out.push(plain),
        }
    }
    out.trim().to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_note_loses_how_it_is_set() {
        assert_eq!(unset("{\\fArial|b0;\\H2.5x;Tool\\Pchest \\{1\\}}"), "Tool chest {1}");
        assert_eq!(unset("\\"), "");
    }

    #[test]
    fn a_closed_path_has_a_piece_for_each_corner() {
        let corners = [(DVec2::ZERO, 0.0), (DVec2::X, 0.0), (DVec2::Y, 0.0)];
        assert_eq!(path(&corners, true, &Placing::SAME).0.len(), 3);
        assert_eq!(
            path(&corners, false, &Placing::SAME),
            (vec![Piece::Line(DVec2::ZERO, DVec2::X), Piece::Line(DVec2::X, DVec2::Y)], false)
        );
        // One that ends where it began is closed, whatever its flag says.
        let meets = [corners[0], corners[1], corners[2], corners[0]];
        assert!(path(&meets, false, &Placing::SAME).1);
        assert_eq!(path(&[], true, &Placing::SAME), (vec![], false));
    }
}
