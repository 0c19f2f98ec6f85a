//! German of what a finding's code means.

use crate::check::finding::Code;

/// What a finding's code means, in one sentence.
pub const fn code(code: Code) -> &'static str {
    match code {
        Code::OutsideRoom => {
            "Ein Teil der Aufstellung (Freiraum, Ziel, Ständer) liegt außerhalb des Raums, durch eine Wand oder eine geschlossene Tür."
        }
        Code::CarClash => "Das Fahrzeug und etwas anderes brauchen denselben Platz.",
        Code::StandClash => {
            "Das Ziel oder sein Ständer und etwas anderes brauchen denselben Platz, oder es steht auf einer Grube oder einem Rost."
        }
        Code::ZoneObject => "In einem Freiraum ist etwas, das nicht darin sein darf.",
        Code::ZonesMissing => {
            "Für die Einstellung ist kein Freiraum eingetragen; dazu wurde nichts beurteilt."
        }
        Code::NoZoneNamed => {
            "Eingetragen ist, dass die Anleitung keinen Freiraum nennt; dazu wurde nichts beurteilt."
        }
        Code::SightBlocked => "Etwas verdeckt dem Sensor einen Teil des Ziels.",
        Code::FresnelEntered => "Etwas ragt in die erste Fresnelzone zwischen einem Radar und seinem Ziel.",
        Code::EchoTaken => "Etwas wirft ein Echo zurück, das ein Radar für sein Ziel halten kann.",
        Code::EchoDraws => {
            "Etwas wirft ein Echo zurück, das die Einstellung eines Radars weiter verziehen kann als erlaubt."
        }
        Code::EchoesTogether => {
            "Echos, die einzeln wenig ausmachen, können die Einstellung eines Radars zusammen weiter verziehen als erlaubt."
        }
        Code::FieldOfView => "Das Ziel ist außerhalb dessen, was der Sensor sieht.",
        Code::StandOffMark => "Das Ziel ist nicht dort, wo es hingehört.",
        Code::MarkFault => "Eine Bodenmarke ist so, wie sie gebildet werden soll, nicht zu finden.",
        Code::MarkOffTarget => "Die Marken führen anderswohin als der Abstand.",
        Code::MarkMissing => {
            "Keine Marke führt zu einem Ziel: Wie sein Platz am Boden gefunden wird, ist nicht angegeben."
        }
        Code::LaidOff => "Nach den Maßen zwischen seinen Marken liegt ein Ziel weiter daneben als erlaubt.",
        Code::LaidUnproven => {
            "Die Maße zwischen seinen Marken belegen noch nicht, dass ein Ziel innerhalb des Erlaubten liegt."
        }
        Code::ReadingOff => "Die Maße zwischen Marken passen nicht zusammen.",
        Code::ReadingUnused => {
            "Etwas Abgelesenes gehört zu keiner Marke, keiner Strecke und keinem Ziel dieses Aufbaus und zählt nicht."
        }
        Code::ReadingDay => {
            "Zwischen Marken wurde an einem anderen Tag abgelesen als dem, nach dem gefragt ist."
        }
        Code::MarkElsewhere => {
            "Eine bleibende Marke liegt nach ihrer letzten Prüfung nicht, wo der Platz sie hat."
        }
        Code::MarkCheckUnused => {
            "Eine Prüfung einer bleibenden Marke sagt nicht, wo sie liegt, und zählt nicht."
        }
        Code::InstrumentOverdue => {
            "Marken wurden mit einem Gerät gelegt, gemessen oder geprüft, dessen Prüfung abgelaufen war."
        }
        Code::InstrumentUnfit => "Zwischen Marken soll mit einem Gerät abgelesen sein, das keine Maße liest.",
        Code::InstrumentUnlisted => {
            "Zwischen Marken wurde mit einem Messgerät gemessen, das nicht in der Liste der Werkstatt steht."
        }
        Code::MarkDrifted => "Eine bleibende Marke liegt nicht mehr, wo eine frühere Prüfung sie fand.",
        Code::StandSetOff => {
            "Nach dem, was an seinem Ständer abgelesen wurde, hängt, steht oder neigt sich ein Ziel weiter daneben als erlaubt."
        }
        Code::StandUnproven => {
            "Was an seinem Ständer abgelesen wurde, belegt noch nicht, dass ein Ziel innerhalb des Erlaubten liegt."
        }
        Code::MarkUnsure => {
            "Die Marke eines Ziels lässt sich nicht so genau legen, wie das Ziel stehen muss."
        }
        Code::MarkPlace => {
            "Eine Bodenmarke liegt, wo keine sein kann: unter einem Gegenstand, auf einer Rinne oder Grube, hinter einer Wand."
        }
        Code::BesidePermanentMark => {
            "Eine Bodenmarke liegt neben einer, die am Boden bleibt, und ist mit ihr zu verwechseln."
        }
        Code::RunBlocked => {
            "Eine Messstrecke mit Bandmaß oder Laser führt durch etwas hindurch oder über eine offene Grube."
        }
        Code::TapeOver => "Ein Bandmaß läge über etwas, das die Ablesung verlängert.",
        Code::HeadRoom => "Über dem Fahrzeug, einem Ständer oder einer Person ist zu wenig Höhe.",
        Code::StandReach => "Ein Ständer erreicht die verlangte Höhe nicht.",
        Code::MatBelow => "Eine Matte liegt am Boden, unter der Ebene eines angehobenen Fahrzeugs.",
        Code::MarkInAir => "Eine Marke neben einem angehobenen Fahrzeug hinge in der Luft.",
        Code::HeightsFromFloor => "Höhen sind vom Boden aus angegeben, und das Fahrzeug ist angehoben.",
        Code::WheelPlace => "Ein Rad steht auf einer Grube, einem Rost oder einer Fuge.",
        Code::WheelOffRunway => {
            "Ein Rad steht nicht ganz auf seiner Fahrschiene, oder die Fahrschienen sind ungleich hoch."
        }
        Code::ZoneUnjudged => "In einem Freiraum ist etwas, und ob es stört, lässt sich nicht beurteilen.",
        Code::ZoneNear => {
            "Etwas ist so nah an einem Freiraum, dass es darin sein kann: Seine Lage ist nicht genau genug bekannt."
        }
        Code::PlaceUnsure => {
            "Etwas kann Sicht, Fahrzeug, Ständer, Marken oder Messstrecken stören: Seine Lage ist nicht genau genug bekannt."
        }
        Code::CarPlace => {
            "Der Platz des Fahrzeugs ist nicht genau genug bekannt: Die Aufstellung kann auf etwas im Raum treffen."
        }
        Code::AlignmentOff => {
            "Fahrachswinkel oder Radversatz des Fahrzeugs sind größer, als die Einstellung erlaubt."
        }
        Code::AlignmentUnknown => {
            "Die Einstellung begrenzt Fahrachswinkel oder Radversatz, und die Achsvermessung ist nicht oder nur halb eingetragen."
        }
        Code::SheetOpen => {
            "Ein Wert aus dem Protokoll der Achsvermessung zählt nicht: Es ist nicht gesagt, wohin er geht oder für welchen Durchmesser die Spur gilt."
        }
        Code::SheetDiffers => "Der gedruckte Fahrachswinkel ist nicht der aus der Spur hinten.",
        Code::CarUnlikely => {
            "Ein an diesem Fahrzeug gemessener Wert kommt so kaum vor: ein Versehen, ein fremdes Protokoll oder ein verbogenes Teil."
        }
        Code::RideHeight => {
            "Ein Radlauf ist höher oder tiefer als erlaubt oder nicht gemessen; der Aufbau neigt sich, allein oder mit dem Boden; oder er nimmt \
             einen Sensor mit, den niemand gemessen hat."
        }
        Code::CentrelinesApart => {
            "Die Mittellinie nach Punkten der Karosserie führt woandershin als die Linie, von der die Einstellung zählt."
        }
        Code::CarMoved => "Das Fahrzeug hat sich bewegt, seit seine Marken liegen.",
        Code::BeyondDoor => {
            "Ein Teil der Aufstellung liegt draußen, durch eine offene Tür; was dort ist, ist nicht bekannt."
        }
        Code::Beside => {
            "Was gleichzeitig auf einem anderen Stellplatz der Halle gemacht wird, geht nicht zugleich, oder das ist nicht bekannt."
        }
        Code::BeyondBay => {
            "Ein Teil der Aufstellung liegt auf einem anderen Stellplatz oder im Rest der Halle; ein anderer Stellplatz wird dafür leer gehalten; oder zwei teilen sich den Boden."
        }
        Code::WayIn => "Keine eingetragene Tür oder Öffnung lässt das Fahrzeug herein.",
        Code::WalkIn => "In einen Freiraum, der frei von Personen sein muss, können Personen treten.",
        Code::ShutDoor => {
            "Eine geschlossene Tür kann bei der Einstellung auf die Aufstellung zu geöffnet werden, oder sie wird so lange geschlossen gehalten."
        }
        Code::PersonNear => {
            "Jemand steht keinen Schritt entfernt von einem Freiraum, der frei von Personen sein muss, oder von der Sichtlinie, oder im Bild einer Kamera."
        }
        Code::UnderCar => "Etwas oder jemand ist unter dem Fahrzeug, oder vielleicht.",
        Code::LightOnMat => "Auf eine Matte, die eine Kamera ansieht, kann Tageslicht fallen.",
        Code::LightInPicture => "Tageslicht oder Lampenlicht ist im Bild einer Kamera, oder vielleicht.",
        Code::GlassBehind => "Hinter dem Ziel eines Lidars steht in gerader Linie Glas.",
        Code::OffBeam => "Das Ziel ist außerhalb der Strahlbreite des Radars, von wo weniger zurückkommt.",
        Code::DoorLeaf => {
            "Das Türblatt einer offenen Tür oder der Ballen eines Rolltors ist vielleicht im Weg."
        }
        Code::OpenPit => {
            "Eine Grube liegt offen, wo Marken gelegt und Ziele aufgestellt werden, oder nahe daran."
        }
        Code::WorkingRoom => "Um das Fahrzeug ist zu wenig Platz zum Gehen und Arbeiten.",
        Code::StandRoom => "Es ist zu wenig Platz, um vor ein Ziel zu treten oder daneben zu stehen.",
        Code::ThingPlace => {
            "Ein Gegenstand ist außerhalb des Raums oder in einem anderen: Eine Angabe muss falsch sein."
        }
        Code::KeepFree => {
            "Ein Fluchtweg, ein Schaltschrank oder ein Feuerlöscher ist nicht frei; es gelten die Vorschriften vor Ort."
        }
        Code::FloorLevels => {
            "Die Bodenhöhen sind hier nicht bekannt, zu alt oder zu unsicher, oder nicht so, wie die Einstellung verlangt."
        }
        Code::AxisUnknown => {
            "Die Einstellung folgt der geometrischen Fahrachse, und die Achsvermessung ist nicht eingetragen."
        }
        Code::ProfileChanged => "Das Profil des Fahrzeugs ist nicht das, das sich der Messplatz gemerkt hat.",
        Code::ShopUnread => {
            "Die eigenen Vorgaben der Werkstatt sind nicht lesbar; statt ihrer gelten die üblichen Werte."
        }
        Code::ShopChanged => {
            "Die Vorgaben der Werkstatt sind nicht die, nach denen der Messplatz beim Speichern beurteilt wurde."
        }
        Code::OwnBuilding => "Das Gebäude ist nur für diese Aufstellung geplant, nicht das des Messplatzes.",
        Code::OlderByEye => "Lagen nach Augenmaß stammen aus einer älteren Datei, in der das weniger hieß.",
        Code::SourceNotGiven => "Werte sind eingetragen, ihre Herkunft ist nicht genannt.",
        Code::ExampleFigures => "Werte des Fahrzeugs sind ein Beispiel, von keinem Hersteller.",
        Code::AssumedFigures => {
            "Werte des Fahrzeugs sind nicht eingetragen: angenommen nach der Fahrzeugklasse oder nach dem Üblichen."
        }
        Code::MeasuredOnCar => {
            "Ein Wert, der an diesem Fahrzeug gemessen wurde, gilt statt des Werts im Profil."
        }
        Code::ViewByAngles => "Das Bild einer Kamera wird nach Winkeln beurteilt, ohne ihr Objektiv.",
        Code::Condition => "Etwas ist zu erfüllen, bevor gemessen wird.",
        Code::HaveReady => "Etwas ist bereitzuhalten.",
    }
}
