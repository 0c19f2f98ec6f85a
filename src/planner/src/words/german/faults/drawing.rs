//! What is wrong with a drawing of another program, as it stands within a file's sentence.

use super::allowed::did_you_mean;
use crate::model::fault::{Choice, DrawingTrouble, TooMuch};
use crate::words::Lengths;
use crate::words::imports::tenth;

pub fn drawing(trouble: &DrawingTrouble) -> String {
    // To a tenth: what a drawing's own arithmetic adds to that nobody can look for.
    let mm = |length: f64| tenth(length, Lengths::InFile);
    match trouble {
        DrawingTrouble::NoDxf => "das ist keine DXF-Zeichnung; die Zeichnung als DXF in Textform ausgeben".to_owned(),
        DrawingTrouble::Binary => {
            "das ist eine DXF-Zeichnung in Binärform, die hier nicht gelesen wird; als DXF in Textform (ASCII) speichern".to_owned()
        }
        DrawingTrouble::Dwg => {
            "das ist eine DWG-Zeichnung, die hier nicht gelesen wird; als DXF in Textform speichern".to_owned()
        }
        DrawingTrouble::Cut => {
            "die Zeichnung hört vor ihrem Ende auf: Sie wurde abgeschnitten; neu kopieren oder neu ausgeben".to_owned()
        }
        DrawingTrouble::NoCode(found) => {
            format!("{:?} steht, wo die Nummer eines Gruppencodes stehen muss; die Zeichnung neu als DXF ausgeben", found.text())
        }
        DrawingTrouble::TooMuch(of) => format!(
            "diese Zeichnung hat mehr, als gelesen wird: {}; löschen oder einfrieren, was nicht gebraucht wird, und neu ausgeben",
            too_much(*of)
        ),
        DrawingTrouble::NoUnit(number) => {
            let says = match number {
                None | Some(0) => "nicht angegeben ist, in welcher Einheit gezeichnet ist".to_owned(),
                Some(number) => {
                    format!("in einer Einheit gezeichnet, die hier nicht gelesen wird ($INSUNITS {number})")
                }
            };
            format!("{says}; angeben, welche es ist: mm, cm, m, in oder ft")
        }
        DrawingTrouble::NoLayer { name, there } => format!("keine Ebene {name:?} gefunden; {}", layers(there)),
        DrawingTrouble::NoOutline { layer, gap } => {
            let gap = gap.map_or_else(
                || "es gibt darauf keine Linien, die sich schließen könnten".to_owned(),
                |(size, at)| {
                    format!(
                        "die kleinste offen gebliebene Lücke ist {}, bei {} längs, {} quer: so große Lücken erlauben oder sie in der \
                         Zeichnung schließen",
                        mm(size),
                        mm(at.x),
                        mm(at.y)
                    )
                },
            );
            format!("die Linien auf der Ebene {layer:?} umschließen keinen Raum; {gap}")
        }
        DrawingTrouble::SeveralOutlines { layer, outlines } => {
            let told = outlines.iter().enumerate().map(|(at, (size, low))| {
                format!("{}: {} mal {}, ab {} längs, {} quer", at + 1, mm(size.x), mm(size.y), mm(low.x), mm(low.y))
            });
            format!(
                "mehrere Umrisse auf der Ebene {layer:?} können der Raum sein; angeben, welcher: {}. Von den beiden Seiten einer Wand \
                 ist die innere der Raum",
                told.collect::<Vec<_>>().join("; ")
            )
        }
        DrawingTrouble::NoSuchOutline { number, count: 1 } => {
            format!("keinen Umriss {number} gefunden; auf der Ebene ist nur einer")
        }
        DrawingTrouble::NoSuchOutline { number, count } => {
            format!("keinen Umriss {number} gefunden; auf der Ebene sind {count}")
        }
        DrawingTrouble::NoRoom(layer) => format!(
            "der Umriss auf der Ebene {layer:?} kreuzt sich selbst oder umschließt nichts; an den inneren Seiten der Wände neu zeichnen"
        ),
    }
}

fn layers(there: &Choice) -> String {
    if there.names.is_empty() {
        return "es ist nichts darin gezeichnet".to_owned();
    }
    let names: Vec<String> = there.names.iter().map(|own| format!("{:?}", own.as_str())).collect();
    let more = match there.more {
        0 => String::new(),
        1 => " und 1 weitere".to_owned(),
        more => format!(" und {more} weitere"),
    };
    let meant = did_you_mean(there.meant.as_ref().map(|own| own.as_str()));
    format!("vorhanden: {}{more}{meant}", names.join(", "))
}

fn too_much(of: TooMuch) -> String {
    match of {
        TooMuch::Layers(most) => format!("höchstens {most} Ebenen"),
        TooMuch::Blocks(most) => format!("höchstens {most} Blöcke"),
        TooMuch::Pieces(most) => {
            format!("höchstens {most} Linien und Bögen, jeder Block so oft gezählt, wie er gesetzt ist")
        }
        TooMuch::Tangled(most) => {
            format!(
                "höchstens {most} gerade Stücke und Ecken auf den gewählten Ebenen, und nicht zu viele, die sich kreuzen"
            )
        }
        TooMuch::Things(most) => format!("höchstens {most} innere Wände und Gegenstände"),
    }
}
