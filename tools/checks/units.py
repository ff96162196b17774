#!/usr/bin/env python3
# tools/checks/units.py -- conversion factors stand in core/base/units.* and nowhere else.
"""Looks for a multiplication or division by a power of ten or by 1200, and for 25.4 and 273.15
anywhere, in the C++ of core/, wasm/ and tools/. Comments and texts do not count.

Usage: tools/checks/units.py [--self-test]
"""
import re

import planted

# A printed formula may carry such a factor of its own: file, the words on the line, why.
OWN_FACTORS = [
    ("core/element/sound_hole.cpp", "0.0254 * w * w * h", "a coefficient of a fitted polynomial"),
    ("core/air/air.cpp", "3.483740", "the density formula of CIPM-2007 is printed with 1e-3"),
]

POWER = r"(?:1000(?:\.0*)?|1[eE][+-]?[36]|0?\.001|1200(?:\.0*)?|0?\.0254|100000?0?\.0*)"
ALWAYS = re.compile(r"(?<![\w.])(?:25\.40*|273\.150*|0?\.0254)(?![\w.])")
FACTOR = re.compile(rf"(?:[*/]=?\s*{POWER}(?![\w.]))|(?:(?<![\w.]){POWER}\s*[*/](?![*/]))")
NO_CODE = re.compile(
    r"""//[^\n]*|/\*.*?\*/|"(?:\\.|[^"\\\n])*"|(?<!\w)'(?:\\.|[^'\\\n])*'""", re.DOTALL)


def blank(match):
    """Removes comments and texts but keeps the line numbers."""
    return "\n" * match.group().count("\n")


def faults_in(root):
    found = []
    for top in ("core", "wasm", "tools"):
        for file in sorted((root / top).rglob("*.[ch]pp")):
            path = file.relative_to(root).as_posix()
            if path.startswith("core/base/units."):
                continue
            code = NO_CODE.sub(blank, file.read_text(encoding="utf-8"))
            for number, line in enumerate(code.split("\n"), 1):
                hit = ALWAYS.search(line) or FACTOR.search(line)
                if hit and not any(path == p and w in line for p, w, _ in OWN_FACTORS):
                    found.append(f"{path}:{number}: '{hit.group().strip()}' belongs into core/base/units.hpp")
    return found


CLEAN = {
    "core/base/units.hpp": "double m_from_mm(double x_mm) { return x_mm / 1000.0; }\n",
    "core/flute/a.cpp": """// a bore of 25.4 mm, 1000 * 2
const char* kText = "1000 * 25.4";  /* / 1000
  * 1000 */
constexpr double kStep_m = 1e-3;
const double y = 2.0 * 1e-34 + x * 10000.5 / 1000.5 + 1e6;
constexpr Range kStation_mm{-1000, 2000};
const int big = 1'000'000;
""",
}
PLANTED = [
    ("core/flute/b.cpp", "double y = x * 1000;\n", "b.cpp:1"),
    ("core/flute/b.cpp", "\ndouble y = x_mm / 1000.0;\n", "b.cpp:2"),
    ("core/flute/b.cpp", "double y = 1e-3 * x_mm;\n", "1e-3"),
    ("core/flute/b.cpp", "x_mm *= 0.001;\n", "0.001"),
    ("core/flute/b.cpp", "double y = 1200.0 * std::log2(r);\n", "1200"),
    ("core/flute/b.cpp", "constexpr double kInch = 25.4;\n", "25.4"),
    ("wasm/b.cpp", "double t = c + 273.15;\n", "273.15"),
    ("tools/cli/main.cpp", "double t = inch * 0.0254;\n", "0.0254"),
]

if __name__ == "__main__":
    planted.main(faults_in, CLEAN, PLANTED)
