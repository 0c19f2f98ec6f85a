//! Layers of a drawing for another program: the names under which it lists what a bay holds.

texts! {
    layers: Layers, "The name of every layer.";
    walls, "The room's walls.";
    doors, "Doors and gaps.";
    windows, "Windows.";
    beyond, "Ground that is free beyond an open door.";
    floor_features, "Drains, pits, joints.";
    runways, "Raised runways.";
    fixed, "Things that stay where they are.";
    movable, "Things that can be moved.";
    overhead, "What hangs above.";
    keep_free, "What local rules want free.";
    bays, "The bays of a hall.";
    car, "The car.";
    centreline, "The car's centreline.";
    marks, "The floor marks of the aiming.";
    runs, "Straight runs of tape or light.";
    permanent_marks, "Marks that stay on the floor.";
    target, "The target.";
    stand, "The target's stand.";
    sight, "From the sensor to the target.";
    zones, "Keep-clear zones.";
    dimensions, "Dimensions that were measured and kept.";
    levels, "Levels of the floor.";
    title, "What the drawing is of.";
}
