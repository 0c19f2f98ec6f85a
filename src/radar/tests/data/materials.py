#!/usr/bin/env python3
"""Powers that half spaces and plates reflect and let through, by the transfer-matrix library tmm 0.2.0 (MIT; numpy 2.4.6, BSD), with
the parameters of Recommendation ITU-R P.2040, table 3 (read second hand: three open programs that agree row for row).

Writes materials.json beside this file.

    python3 src/radar/tests/data/materials.py
"""

import cmath
import json
import math
import pathlib

import tmm

ROWS = {
    "Concrete": (5.24, 0, 0.0462, 0.7822, 1, 100), "Brick": (3.91, 0, 0.0238, 0.16, 1, 40),
    "Plasterboard": (2.73, 0, 0.0085, 0.9395, 1, 100), "Wood": (1.99, 0, 0.0047, 1.0718, 0.001, 100),
    "Glass": (6.31, 0, 0.0036, 1.3394, 0.1, 100), "CeilingBoard": (1.48, 0, 0.0011, 1.0750, 1, 100),
    "Chipboard": (2.58, 0, 0.0217, 0.78, 1, 100), "Plywood": (2.71, 0, 0.33, 0, 1, 40),
    "Marble": (7.074, 0, 0.0055, 0.9262, 1, 60), "Floorboard": (3.66, 0, 0.0044, 1.3515, 50, 100),
    "VinylTile": (3.62, 0, 0.0051, 0.8422, 1, 40), "CarpetTile": (2.08, 0, 0.0009, 0.82, 1, 40),
    "Asphalt": (4.83, 0, 0.0108, 1.3969, 1, 40), "Metal": (1, 0, 1e7, 0, 1, 100),
    "VeryDryGround": (3, 0, 0.00015, 2.52, 1, 10), "MediumDryGround": (15, -0.1, 0.035, 1.63, 1, 10),
    "WetGround": (30, -0.4, 0.15, 1.30, 1, 10),
}
PANELS = {"Plasterboard": (12.5, 9.5, 25.0), "Glass": (4.0, 6.0), "Wood": (20.0,), "Chipboard": (18.0,), "Concrete": (100.0,),
          "CeilingBoard": (15.0,), "Floorboard": (20.0,), "Plywood": (12.0,)}
LIGHT, VACUUM = 299_792_458.0, 8.8541878128e-12


def main():
    out = {"half": [], "plates": []}
    for ghz in (77.0, 24.125):
        wave = LIGHT / ghz / 1e6
        for name, (a, b, c, d, low, high) in ROWS.items():
            permittivity, conductivity = a * ghz**b, c * ghz**d
            # tmm counts e^(-iωt): losses are a positive imaginary part.
            index = cmath.sqrt(permittivity + 1j * conductivity / (2 * math.pi * ghz * 1e9 * VACUUM))
            for degrees in (0, 20, 45, 60, 70, 80, 89):
                angle = math.radians(degrees)
                within = tmm.snell(1, index, angle)
                power = [float(tmm.interface_R(p, 1, index, angle, within)) for p in "sp"]
                out["half"].append([name, ghz, low <= ghz <= high, permittivity, conductivity, degrees, *power])
                for thick in PANELS.get(name, ()):
                    got = [tmm.coh_tmm(p, [1, index, 1], [math.inf, thick, math.inf], angle, wave) for p in "sp"]
                    out["plates"].append([name, ghz, thick, degrees, *(float(g[x]) for x in "RT" for g in got)])
    text = json.dumps(out, separators=(",", ":")).replace("],", "],\n")
    (pathlib.Path(__file__).parent / "materials.json").write_text(text + "\n")


main()
