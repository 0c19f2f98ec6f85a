//! German of the same: see `words/help.rs`.

use crate::words::help::{Help, Key, Section};

/// The longer texts.
pub const TEXTS: Help = Help { first_steps: FIRST_STEPS, sections: SECTIONS, keys: KEYS };

const FIRST_STEPS: &[Section] = &[
    (
        "Ist dieser Raum frei genug?",
        &[
            "Radar, Kameras oder Lidar eines Fahrzeugs werden auf ein Ziel im Raum eingestellt. Was dabei schiefgeht, liegt fast \
             immer am Raum. Dieses Programm sagt vor und während der Arbeit, ob der Raum sie gelingen lässt: was im Weg ist, um \
             wie viele Millimeter, und was wohin zu schieben ist.",
            "Die Zeile oben ist das Ergebnis. Darunter die Zeichnung von oben und von der Seite, in einem Maßstab. Rechts die \
             Befunde: jeder mit Buchstabe, Grenzwert und dem, was zu tun ist.",
        ],
    ),
    (
        "Wenn Sie einen Sensor einstellen wollen",
        &[
            "1. Oben in der Leiste Fahrzeug, Einstellung und Messplatz wählen.",
            "2. Alles dorthin stellen, wo es wirklich steht: ziehen, oder drücken und links eintippen, was das Bandmaß zeigt. \
             Fehlendes hinzufügen, was nicht da ist, entfernen.",
            "3. Die Befunde von oben lesen. „Zeigen“ kreist die Stelle in beiden Ansichten ein; der blaue Knopf tut, was der \
             Befund sagt, und lässt sich rückgängig machen.",
            "4. Unter „Marken“ steht, wie jede Marke angelegt wird und was das Bandmaß zwischen ihnen zeigen muss.",
        ],
    ),
    (
        "Wenn Sie einen Messplatz planen",
        &[
            "Den Messplatz öffnen, dann ein Fahrzeug und eine Einstellung nach der anderen wählen: Das Ergebnis sagt, ob es passt \
             und wie viel fehlt. „Parken“ tönt den Boden, wo das Fahrzeug stehen kann, und nennt die besten Stellen, mit dem \
             Bandmaß von zwei Wänden. „Echos“ sagt, was hier das Radar für sein Ziel halten kann. „Messen“ gibt den Abstand zwischen zwei beliebigen \
             Punkten.",
        ],
    ),
    (
        "Wenn Sie die Arbeit einem Kunden erklären",
        &[
            "Das Bild ist maßstäblich: Die blau gestrichelte Fläche muss frei sein, während der Sensor eingestellt wird. Etwas \
             hineinziehen, und das Ergebnis ändert sich beim Ziehen; „Rückgängig“ stellt es zurück.",
        ],
    ),
    (
        "Vorsicht",
        &[
            "Jedes mitgelieferte Fahrzeug, jede Einstellung und jeder Messplatz ist ein erfundenes Beispiel. Die Anleitung des \
             Herstellers entscheidet. Das Programm spricht vom Raum; es sagt nie, dass ein Sensor eingestellt ist.",
        ],
    ),
];

const SECTIONS: &[Section] = &[
    (
        "Was in der Zeichnung ist",
        &[
            "Gepunkteter Umriss am Ende eines Pfeils: wo ein Gegenstand nicht im Weg ist.",
            "Schraffiertes Band: eine Wand; eine unterbrochene Linie darin ist eine Tür. Kreuze mit Nummern: die Marken am Boden; \
             gestrichelte Linien dazwischen: gerade Strecken für Bandmaß oder Laser.",
            "Blau gestrichelte Fläche: ein Freiraum, mit dem, was nicht darin sein darf. Hellblauer Fächer: was der Sensor sieht. \
             Kurze dicke Linie mit einem Kasten dahinter: die Zielfläche auf ihrer Marke, und ihr Ständer.",
            "Schraffierte Umrisse: Gegenstände, schraffiert nach ihrem Material; gestrichelt, wenn sie oben hängen. Orange \
             Schraffur: wo ein Gegenstand und ein Freiraum dieselbe Stelle einnehmen.",
            "Achteck: verhindert die Einstellung. Dreieck: braucht Vorsicht. Der Buchstabe ist der aus der Liste rechts.",
        ],
    ),
    (
        "Zahlen",
        &[
            "Längen lassen sich mit Komma oder Punkt und mit Einheit eintippen: 1250, 1,25 m, 125 cm, 4 ft 1 1/4 in, 4'-6\", und \
             als Summe oder Vielfaches: 1200+35, 2*300. Ohne Einheit gilt die gezeigte; bei Fuß und Zoll ist eine bloße Zahl in \
             Zoll. Was Tausend oder Tausendstel heißen kann, wie 1,200 mm, wird nachgefragt. Eingabe oder das Verlassen des \
             Feldes nimmt den Wert; Esc holt den alten zurück.",
            "„Ab Wand“ wird rechtwinklig zur Wand gemessen, zum nächsten Teil des Gegenstands, wie es ein Bandmaß zeigt.",
        ],
    ),
    (
        "Was es nicht tut",
        &[
            "Es spricht vom Raum. Es sagt nie, dass ein Sensor eingestellt ist, und steuert weder Fahrzeug noch Diagnosegerät. Was \
             das Radar sehen würde, berechnet es für glatte ideale Formen, ohne das Fahrzeug selbst und den Ständer des Ziels; \
             kein Urteil wird daraus.",
            "Es kennt die Formen, die ihm gesagt werden: senkrechte Umrisse zwischen zwei Höhen. Was ihm nicht gesagt wird, kann es \
             nicht finden. Ohne Bodenhöhen ist das beste Ergebnis „bereit mit Vorsicht“.",
        ],
    ),
    (
        "Sicherheit",
        &[
            "Die Anleitung des Herstellers entscheidet. Räder mit Keilen sichern und die Bremse anziehen, wie vorgeschrieben, bevor \
             man sich neben ein Fahrzeug legt; nie unter ein Fahrzeug gehen, das nur auf einem Wagenheber steht. Nicht in den \
             Laser blicken; den Strahl unter Augenhöhe und von blanken Flächen fernhalten. Ein Radar sendet während der \
             Einstellung: den Abstand halten, den der Hersteller verlangt. Airbags und Hochvoltteile hinter Stoßfängern sind nur \
             für Personen mit Ausbildung dafür.",
            "Ausgänge, Feuerlöscher und Schaltschränke freihalten, wie es die örtlichen Vorschriften verlangen. Über Böden, Wände \
             und Leitungen entscheiden örtliche Bau-, Brandschutz- und Elektrovorschriften und zugelassene Fachleute.",
        ],
    ),
];

const KEYS: &[Key] = &[
    ("Tab", "erreicht jedes Bedienelement und alles in der Zeichnung"),
    ("Pfeiltasten", "schieben das Gewählte um 10 mm; mit Umschalt 100 mm, mit Alt 1 mm"),
    ("[  ]", "drehen es um 1°; mit Umschalt um 15°"),
    ("Strg oder Alt, gehalten", "kein Einrasten beim Ziehen"),
    ("Leertaste oder mittlere Taste, gehalten", "der Zeiger zieht das Blatt, was auch darunter liegt"),
    ("Mausrad; Umschalt und Mausrad", "größer oder kleiner; schiebt das Blatt seitwärts"),
    ("Zwei Finger; spreizen", "schieben das Blatt; größer oder kleiner"),
    ("Esc", "stellt zurück, was gezogen wird, auch das Blatt; lässt los"),
    ("Tab, F2", "vom Gewählten zu seinen Werten; zu seinem Namen"),
    (
        "Bild auf, Bild ab",
        "blättern, was länger ist als sein Platz; Pfeiltasten, wo Tab zu Marken oder Befunden führt",
    ),
    (
        "Auf und ab in einem Feld",
        "sein Wert mehr oder weniger, so viel wie Pfeiltasten einen Gegenstand schieben",
    ),
    ("Umschalt und Klick, ein Rahmen", "mehrere gewählt: zusammen schieben, drehen, kopieren, ausrichten"),
    ("Strg+A", "alle Gegenstände wählen"),
    ("Strg+C, Strg+X, Strg+V", "kopieren, ausschneiden, einfügen: auf diesem Messplatz oder einem anderen"),
    ("Strg+D", "stellt ein zweites daneben"),
    ("Rechte Taste, Umschalt+F10", "was sich damit tun lässt"),
    ("Entf", "nimmt es aus dieser Aufstellung"),
    ("Strg+Z, Strg+Umschalt+Z", "rückgängig, wiederholen"),
    ("P", "parken: wo das Fahrzeug stehen kann, am Boden getönt, und die besten Stellen"),
    ("F7", "was wohin passt: alle Einstellungen einer Liste an allen Stellen"),
    ("M; K", "messen; behalten, was in der Draufsicht gemessen wurde"),
    ("+  −  0, Strg+0", "größer, kleiner, alles; alles auch mit Doppelklick auf leeres Blatt"),
    (
        "Strg+N, Strg+O",
        "Messplatz neu zeichnen, einen öffnen; eine Datei, die auf das Fenster gezogen wird, öffnet sich auch",
    ),
    ("Strg+S, Strg+Umschalt+S", "speichern, speichern als"),
    ("Strg+F", "in der Liste suchen"),
    ("Strg und +  −", "Schrift größer, kleiner"),
    (
        "Strg+P",
        "Blätter auf Papier: sehen, wie sie werden (+ und - vergrößern, Bild-Tasten blättern), drucken, speichern",
    ),
    (
        "Strg+R",
        "das Protokoll dieses Auftrags, Schritt für Schritt: Enter erledigt, - geht zurück, + zeigt mehr, Ziffern wählen",
    ),
    ("F5", "die Seite für Kunden; Pfeiltasten blättern, Esc verlässt sie"),
    (
        "F6",
        "zur ersten Karte dessen, was im Weg ist; Eingabe tut, was ihr Knopf sagt, und die nächste Karte folgt",
    ),
    ("F1", "Hilfe"),
    ("F11", "ganzer Bildschirm, und zurück"),
    ("Strg+W, Strg+Q", "schließen; fragt zuerst, wenn etwas nicht gespeichert ist"),
];
