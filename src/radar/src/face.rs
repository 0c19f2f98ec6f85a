//! Flat rectangular faces: walls, cabinets, doors, boards.
