#!/usr/bin/env python3
# tools/bench_numpy.py -- times tools/reference/flute_model.py on what canewright_bench prints.
"""JSON from canewright_bench on standard input; JSON on standard output: for each note the
frequency, the evaluations, the seconds for a solve and for one evaluation."""
import json
import pathlib
import sys
import time

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent / "reference"))
from flute_model import first_resonance, loop_impedance  # noqa: E402


def best_s(rounds, calls, call):
    best = float("inf")
    for _ in range(rounds):
        since = time.perf_counter()
        for _ in range(calls):
            call()
        best = min(best, (time.perf_counter() - since) / calls)
    return best


given = json.load(sys.stdin)
flute, air = given["flute"], given["air"]
notes = []
for note in given["notes"]:
    opened = set(note["open"])
    hz, count = first_resonance(flute, air, opened)
    notes.append({
        "hz": hz,
        "evaluations": count,
        "solve_s": best_s(5, 2, lambda: first_resonance(flute, air, opened)),
        "evaluation_s": best_s(5, 20, lambda: loop_impedance(flute, air, opened, hz)),
    })
json.dump({"notes": notes}, sys.stdout)
