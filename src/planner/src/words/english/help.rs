//! English of the same: see `words/help.rs`.

use crate::words::help::{Help, Key, Section};

/// The longer texts.
pub const TEXTS: Help = Help { first_steps: FIRST_STEPS, sections: SECTIONS, keys: KEYS };

const FIRST_STEPS: &[Section] = &[
    (
        "Is this space clear enough?",
        &[
            "A car's radar, cameras or lidar are aimed at a target in the room. Nearly everything that goes wrong goes \
             wrong in the room. This program tells, before and while you work, whether the space lets the job succeed: \
             what is in the way, by how many millimetres, and what to move where.",
            "The line at the top is the answer. Under it, the drawing from above and from the side, to one scale. On \
             the right, what was found: each with its letter, its limit and what to do.",
        ],
    ),
    (
        "If you are about to aim a sensor",
        &[
            "1. Choose car, aiming and bay in the bar at the top.",
            "2. Put things where they really stand: drag them, or press one and type what your tape reads on the left. \
             Add what is missing, remove what is not there.",
            "3. Read the findings from the top. “Show” rings the place in both views; the blue button does what the \
             finding says, and can be undone.",
            "4. Under “Marks” is how each floor mark is laid and what the tape must read between them.",
        ],
    ),
    (
        "If you plan a bay",
        &[
            "Open the bay, then choose one car and aiming after another: the answer says whether each fits, and how \
             much is lacking. “Parking” tints the floor where the car can stand and names the best spots, by tape from two \
             walls. “Echoes” says what here the radar may take for its target. “Measure” gives the distance between any two points.",
        ],
    ),
    (
        "If you explain the job to a customer",
        &[
            "The picture is to scale: the blue dashed area must be clear while the sensor is aimed. Drag something into \
             it, and the answer changes while you drag; undo puts it back.",
        ],
    ),
    (
        "Care",
        &[
            "Every shipped car, aiming and bay is an invented example. The vehicle maker's procedure decides. The \
             program speaks of the space; it never says that a sensor is aimed.",
        ],
    ),
];

const SECTIONS: &[Section] = &[
    (
        "What is in the drawing",
        &[
            "Dotted outline at the end of an arrow: where a thing is out of the way.",
            "Hatched band: a wall; a broken line in it is a door. Numbered crosses: the floor marks; dashed lines \
             between them: straight runs of tape or laser.",
            "Blue dashed area: a keep-clear zone, with what must not be in it. Light blue fan: what the sensor sees. \
             Heavy short line with a box behind it: the target's face on its mark, and its stand.",
            "Outlines with hatching: things, hatched by what they are made of; dashed if they hang overhead. Orange \
             hatching: where a thing and a zone share the same place.",
            "Octagon: stops the aiming. Triangle: needs care. The letter is the one in the list on the right.",
        ],
    ),
    (
        "Figures",
        &[
            "Lengths may be typed with comma or point and with a unit: 1250, 1.25 m, 125 cm, 4 ft 1 1/4 in, 4'-6\", and as sums \
             or multiples: 1200+35, 2*300. Without a \
             unit they are in the one that is shown; with feet and inches a bare number is inches. What may be thousands or \
             thousandths, such as 1,200 mm, is asked about. Enter or leaving \
             the field takes the figure; Esc puts the old one back.",
            "“From wall” is measured square to the wall, to the nearest part of the thing, as a tape reads it.",
        ],
    ),
    (
        "What it does not do",
        &[
            "It speaks of the space. It never says that a sensor is aimed, and it never controls a car or a scan tool. \
             What the radar would see it works out for smooth ideal shapes, without the car itself and the target’s own \
             stand; no verdict is made of that.",
            "It knows the shapes that it is told: upright outlines between two heights. What it is not told it cannot \
             find. Without floor levels the best answer is “ready with care”.",
        ],
    ),
    (
        "Take care",
        &[
            "The vehicle maker's procedure decides. Chock the wheels and set the brake as told before lying down near a \
             car; never be under one that stands on a jack alone. Look away from the laser, keep it below eye level \
             and off shiny panels. A radar in aiming mode radiates: keep the distance that its maker asks. Airbag and \
             high-voltage parts behind bumpers are for people trained for them.",
            "Keep exits, extinguishers and electrical panels free as local rules say. Local building, fire and \
             electrical codes and licensed people decide on floors, walls and wiring.",
        ],
    ),
];

const KEYS: &[Key] = &[
    ("Tab", "reaches every control and everything on the drawing"),
    ("Arrows", "move what is in hand 10 mm; with Shift 100 mm, with Alt 1 mm"),
    ("[  ]", "turn it by 1°; with Shift by 15°"),
    ("Ctrl or Alt, held", "keeps what is dragged from snapping"),
    ("Space or middle button, held", "the pointer drags the paper, whatever is under it"),
    ("Wheel; Shift and wheel", "zooms; shifts the paper sideways"),
    ("Two fingers; pinch", "shift the paper; zoom"),
    ("Esc", "puts back what is dragged, the paper too; lets go"),
    ("Tab, F2", "from what is in hand to its figures; to its name"),
    (
        "Page up, Page down",
        "turn what is longer than its place; arrows, where Tab leads to marks or findings",
    ),
    ("Up and down in a field", "its figure more or less, by as much as arrows move a thing"),
    ("Shift and a press, a frame", "several in hand: moved, turned, copied, lined up together"),
    ("Ctrl+A", "all things in hand"),
    ("Ctrl+C, Ctrl+X, Ctrl+V", "copy, cut, paste: in this bay or into another"),
    ("Ctrl+D", "puts a second one beside it"),
    ("Right button, Shift+F10", "what can be done with it"),
    ("Delete", "takes it out of this set-up"),
    ("Ctrl+Z, Ctrl+Shift+Z", "undo, do again"),
    ("P", "parking: where the car can stand, tinted on the floor, and the best spots"),
    ("F7", "what fits where: all aimings of a list by all places of the bay"),
    ("M; K", "measure; keep what was measured in the top view with the bay"),
    ("+  −  0, Ctrl+0", "larger, smaller, all; so does a double press on empty paper"),
    ("Ctrl+N, Ctrl+O", "draw a new bay, open one; a file that is dropped on the window opens, too"),
    ("Ctrl+S, Ctrl+Shift+S", "save, save as"),
    ("Ctrl+F", "search in the list"),
    ("Ctrl and +  −", "letters larger, smaller"),
    ("Ctrl+P", "sheets on paper: seen as they will be (+ and - size them, Page keys turn), printed, saved"),
    (
        "Ctrl+R",
        "the record of this visit, step by step: Enter does a step, - goes back, + shows more, digits choose",
    ),
    ("F5", "the page for the customer; arrows turn it, Esc leaves it"),
    (
        "F6",
        "to the first card of what is in the way; Enter does what its press says, and the next card follows",
    ),
    ("F1", "help"),
    ("F11", "full screen, and back"),
    ("Ctrl+W, Ctrl+Q", "close; asks first if something is not saved"),
];
