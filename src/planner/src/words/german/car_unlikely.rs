//! What hardly any car has, in words.

use super::marks::wheel_name;
use crate::assessment::Unlikely;

const fn axle(is_front: bool) -> &'static str {
    if is_front { "vorn" } else { "hinten" }
}

pub(super) fn title(own: &Unlikely) -> String {
    match own {
        Unlikely::Toe(wheel) => format!("so viel Spur {} hat kaum ein Fahrzeug", wheel_name(*wheel)),
        Unlikely::Camber(wheel) => format!("so viel Sturz {} hat kaum ein Fahrzeug", wheel_name(*wheel)),
        Unlikely::CambersApart { is_front } => {
            format!("die Stürze {} liegen weit auseinander", axle(*is_front))
        }
        Unlikely::RearBack(wheel) => format!("das Rad {} steht zurück", wheel_name(*wheel)),
        Unlikely::Track { is_front } => {
            format!("die Spurweite {} ist nicht die des Profils", axle(*is_front))
        }
        Unlikely::Turned => "die Mittellinie nach den Rädern ist gegenüber dem Profil gedreht".to_owned(),
        Unlikely::Arch(wheel) => {
            format!("so hoch oder tief ist der Radlauf {} kaum bei einem Fahrzeug", wheel_name(*wheel))
        }
        Unlikely::BodyPoint(id) => format!("„{id}“ liegt weit neben dem Ort im Profil"),
        Unlikely::SheetAhead => "der Tag der Achsvermessung kommt erst noch".to_owned(),
        Unlikely::SheetOld => "die Achsvermessung ist nicht von diesem Besuch".to_owned(),
    }
}

pub(super) fn measure(own: &Unlikely, value: &str, limit: &str) -> String {
    match own {
        Unlikely::SheetAhead => format!("noch {value}"),
        Unlikely::SheetOld => format!("Alter {value}, üblich bis {limit}"),
        Unlikely::Arch(_) => format!("{value} neben der Oberkante des Reifens, üblich bis {limit}"),
        Unlikely::Track { .. } | Unlikely::Turned | Unlikely::BodyPoint(_) => {
            format!("{value} daneben, üblich bis {limit}")
        }
        Unlikely::CambersApart { .. } => format!("{value} auseinander, üblich bis {limit}"),
        Unlikely::Toe(_) | Unlikely::Camber(_) | Unlikely::RearBack(_) => {
            format!("{value}, üblich bis {limit}")
        }
    }
}

pub(super) const fn detail(own: &Unlikely) -> &'static str {
    match own {
        Unlikely::Toe(_) => {
            "Nachsehen, ob Einheit und Durchmesser die des Protokolls sind. Wenn ja, das Rad einstellen lassen, bevor ein Sensor \
             eingestellt wird."
        }
        Unlikely::Camber(_) | Unlikely::CambersApart { .. } => {
            "Nachsehen, ob Einheit und Richtung die des Protokolls sind. Wenn ja, ist ein Teil verbogen, und eine gelotete Nabe liegt \
             weit neben der Reifenmitte: zuerst das Fahrzeug in Ordnung bringen."
        }
        Unlikely::RearBack(_) => {
            "Die vier Räder neu messen. Bleibt es dabei, sitzt eine Achse schief: zuerst das Fahrzeug in Ordnung bringen. Wenige \
             Fahrzeuge sind so gebaut; dann sagen es die Werte ihres Herstellers."
        }
        Unlikely::Track { .. } => {
            "Die Räder neu messen. Andere Felgen oder Distanzscheiben ändern die Spurweite; nachlesen, was die Anleitung dazu sagt."
        }
        Unlikely::Turned => {
            "Der Sensor zählt von der Mittellinie des Profils aus, die Marken von der nach den Rädern. Die Räder neu messen; bleibt es \
             dabei, sitzt der Aufbau schief auf den Achsen."
        }
        Unlikely::Arch(_) => "Von der Radmitte, nicht vom Boden, hinauf zur Kante des Radlaufs messen.",
        Unlikely::BodyPoint(_) => {
            "Neu loten und nach Vorzeichen und Anfang der Strecke sehen. Was von diesem Punkt aus zählt, liegt um ebenso viel daneben."
        }
        Unlikely::SheetAhead => "Nach dem Datum sehen.",
        Unlikely::SheetOld => {
            "Eingestellt wird nach der Achsvermessung, wie sie jetzt ist: neu messen oder den Tag des Protokolls eintragen, das gilt."
        }
    }
}
