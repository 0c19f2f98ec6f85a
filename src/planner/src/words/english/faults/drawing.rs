//! What is wrong with a drawing of another program, as it stands within a file's sentence.

use super::allowed::did_you_mean;
use crate::model::fault::{Choice, DrawingTrouble, TooMuch};
use crate::words::Lengths;
use crate::words::imports::tenth;

pub fn drawing(trouble: &DrawingTrouble) -> String {
    // To a tenth: what a drawing's own arithmetic adds to that nobody can look for.
    let mm = |length: f64| tenth(length, Lengths::InFile);
    match trouble {
        DrawingTrouble::NoDxf => "this is no DXF drawing; export the drawing as DXF (text form)".to_owned(),
        DrawingTrouble::Binary => {
            "this is a DXF drawing in the binary form, which is not read here; save it as DXF in the text form (ASCII)".to_owned()
        }
        DrawingTrouble::Dwg => "this is a DWG drawing, which is not read here; save it as DXF (text form)".to_owned(),
        DrawingTrouble::Cut => {
            "the drawing ends before its end: it was cut short; copy or export it again".to_owned()
        }
        DrawingTrouble::NoCode(found) => {
            format!("found {:?} where the number of a group code should stand; export the drawing again as DXF", found.text())
        }
        DrawingTrouble::TooMuch(of) => {
            format!("this drawing has more than is read: {}; delete or freeze what is not needed, and export it again", too_much(*of))
        }
        DrawingTrouble::NoUnit(number) => {
            let says = match number {
                None | Some(0) => "it does not say in which unit it is drawn".to_owned(),
                Some(number) => format!("it is drawn in a unit that is not read here ($INSUNITS {number})"),
            };
            format!("{says}; say which one it is: mm, cm, m, in or ft")
        }
        DrawingTrouble::NoLayer { name, there } => format!("found no layer {name:?}; {}", layers(there)),
        DrawingTrouble::NoOutline { layer, gap } => {
            let gap = gap.map_or_else(
                || "it has no lines that could close".to_owned(),
                |(size, at)| {
                    format!(
                        "the smallest gap that was left open is {}, at {} along, {} across: allow gaps of that size, or close them in the drawing",
                        mm(size), mm(at.x), mm(at.y)
                    )
                },
            );
            format!("the lines on layer {layer:?} enclose no room; {gap}")
        }
        DrawingTrouble::SeveralOutlines { layer, outlines } => {
            let told = outlines.iter().enumerate().map(|(at, (size, low))| {
                format!("{}: {} by {}, from {} along, {} across", at + 1, mm(size.x), mm(size.y), mm(low.x), mm(low.y))
            });
            format!(
                "several outlines on layer {layer:?} may be the room; say which one: {}. Of both faces of a wall the inner one is the room",
                told.collect::<Vec<_>>().join("; ")
            )
        }
        DrawingTrouble::NoSuchOutline { number, count } => {
            format!("found no outline {number}; the layer has {count}")
        }
        DrawingTrouble::NoRoom(layer) => {
            format!("the outline on layer {layer:?} crosses itself or encloses nothing; draw it anew round the inner faces of the walls")
        }
    }
}

fn layers(there: &Choice) -> String {
    if there.names.is_empty() {
        return "nothing is drawn in it".to_owned();
    }
    let names: Vec<String> = there.names.iter().map(|own| format!("{:?}", own.as_str())).collect();
    let more = if there.more > 0 { format!(" and {} more", there.more) } else { String::new() };
    let meant = did_you_mean(there.meant.as_ref().map(|own| own.as_str()));
    format!("it has {}{more}{meant}", names.join(", "))
}

fn too_much(of: TooMuch) -> String {
    match of {
        TooMuch::Layers(most) => format!("at most {most} layers"),
        TooMuch::Blocks(most) => format!("at most {most} blocks"),
        TooMuch::Pieces(most) => {
            format!("at most {most} lines and arcs, with every block drawn wherever it is put")
        }
        TooMuch::Tangled(most) => {
            format!(
                "at most {most} straight pieces and corners on the layers that were chosen, and not too many that cross"
            )
        }
        TooMuch::Things(most) => format!("at most {most} inner walls and things"),
    }
}
