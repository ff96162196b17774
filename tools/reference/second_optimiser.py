#!/usr/bin/env python3
# tools/reference/second_optimiser.py -- three layouts found by a general library's least squares.
"""Writes tests/data/layouts/second_optimiser.json.

The same model (the native command's verb `sound`), another optimiser: scipy.optimize's
least_squares (trust region reflective, its own difference quotients, its own bounds) and SLSQP
(sequential least squares programming) place foot, holes and sizes so that all notes meet their
targets. None of the core's derivatives, walls, steps or starts is used: the start is holes at equal
distances, all of one size.

Each task leaves as many numbers free as there are notes (sizes are fixed but for one task), so that
the answer is one point and can be compared by millimetres.

Usage: second_optimiser.py PATH_TO_CANEWRIGHT
"""
import json
import math
import pathlib
import subprocess
import sys

import numpy
import scipy
from scipy.optimize import least_squares, minimize


def tube(bore_mm, wall_mm, end_mm, window_mm, plug_mm, lowest_hz, cents, sizes_mm):
    return {
        "document": {
            "format": "canewright/1",
            "air": {"room_c": 20, "humidity_percent": 50},
            "tube": {"bore": bore_mm, "wall_mm": wall_mm, "end_mm": end_mm},
            "plug": {"offset_mm": plug_mm},
            "sound_hole": {"length_mm": window_mm[0], "width_mm": window_mm[1], "ramp_mm": 0}, "block": "none",
            "song": {"lowest": {"hz": lowest_hz}, "scale": {"cents": cents},
                     "holes": len(sizes_mm)},
        },
        "sizes_mm": sizes_mm,
        "targets_hz": [lowest_hz * 2 ** (c / 1200) for c in cents],
    }


TASKS = {
    "five holes, uniform": tube([{"at_mm": 0, "diameter_mm": 18}], 3, 430, (5, 9.5), 0.5, 392,
                                [0, 300, 500, 700, 1000, 1200], [8, 7.5, 7, 8, 7.5]),
    "six holes, tapered": tube([{"at_mm": 0, "diameter_mm": 15}, {"at_mm": 330,
                                "diameter_mm": 14.6}], 2.2, 330, (4.5, 8), 0, 523.25,
                               [0, 200, 300, 500, 700, 800, 1000], [6.5, 6, 6.5, 5, 6.5, 6]),
    "four holes, narrow": tube([{"at_mm": 0, "diameter_mm": 8.7, "across_mm": 8.4}], 1.5, 190,
                               (3.5, 4), 0, 880, [0, 300, 500, 700, 1000], [3, 3, 2.8, 3]),
}


def fingerings(holes):
    return [list(range(first, holes + 1)) for first in range(holes + 1, 0, -1)]


class Model:
    def __init__(self, command, task):
        self.command = command
        self.task = task
        self.calls = 0

    def document(self, x):
        """x: places of the holes from the sound hole down, then the foot [mm]."""
        document = dict(self.task["document"])
        document["foot_mm"] = float(x[-1])
        document["finger_holes"] = [{"at_mm": float(at), "diameter_mm": size}
                                    for at, size in zip(x[:-1], self.task["sizes_mm"])]
        document["notes"] = [{"open": o} for o in fingerings(len(x) - 1)]
        return document

    def cents(self, x):
        self.calls += 1
        answer = subprocess.run([self.command, "sound", "-"], text=True, capture_output=True,
                                input=json.dumps(self.document(x)), check=True)
        heard = [note["hz"] for note in json.loads(answer.stdout)["notes"]]
        return numpy.array([1200 * math.log2(hz / target)
                            for hz, target in zip(heard, self.task["targets_hz"])])


def solve(command, task):
    model = Model(command, task)
    end = task["document"]["tube"]["end_mm"]
    holes = len(task["sizes_mm"])
    start = numpy.append(end * numpy.linspace(0.45, 0.8, holes), 0.93 * end)
    low = numpy.append(numpy.full(holes, 0.15 * end), 0.7 * end)
    high = numpy.append(numpy.full(holes, 0.9 * end), end)
    # relative steps of the difference quotient: well above the digits that JSON carries
    squares = least_squares(model.cents, start, bounds=(low, high), diff_step=1e-5, x_scale=end,
                            xtol=1e-12, ftol=1e-14, gtol=1e-12, max_nfev=60)
    # from its own start again, to a coarser end
    programmed = minimize(lambda x: float(numpy.sum(model.cents(x) ** 2)) / 100, start,
                          method="SLSQP", bounds=list(zip(low, high)),
                          options={"ftol": 1e-10, "eps": 1e-3, "maxiter": 200})
    return {
        "document": task["document"],
        "sizes_mm": task["sizes_mm"],
        "least_squares": {"at_mm": [round(v, 4) for v in squares.x[:-1].tolist()],
                          "foot_mm": round(float(squares.x[-1]), 4),
                          "worst_cents": round(float(numpy.max(numpy.abs(squares.fun))), 6)},
        "slsqp": {"at_mm": [round(v, 3) for v in programmed.x[:-1].tolist()],
                  "foot_mm": round(float(programmed.x[-1]), 3),
                  "worst_cents": round(float(numpy.max(numpy.abs(model.cents(programmed.x)))), 3)},
        "calls": model.calls,
    }


def main():
    if len(sys.argv) != 2:
        sys.exit(__doc__)
    found = {name: solve(sys.argv[1], task) for name, task in TASKS.items()}
    root = pathlib.Path(__file__).resolve().parents[2]
    out = root / "tests/data/layouts/second_optimiser.json"
    out.parent.mkdir(parents=True, exist_ok=True)
    text = {"origin": "tools/reference/second_optimiser.py build/native/canewright",
            "scipy": scipy.__version__, "tasks": found}
    out.write_text(json.dumps(text, indent=1) + "\n", encoding="utf-8")
    for name, each in found.items():
        print(name, each["least_squares"], each["slsqp"], each["calls"])


if __name__ == "__main__":
    main()
