#!/usr/bin/env python3
# tools/checks/layers.py -- each folder of core/ includes only folders below it; so do the rooms of web/.
"""base <- air <- element <- flute <- jet <- layout <- bench <- verbs <- api <- wasm, command
base <- music <- layout;  base, music <- listen <- verbs;  voice and choose stand beside bench.
base, music, flute's geometry <- document <- link <- verbs;  document, layout, bench <- task <- verbs.

Usage: tools/checks/layers.py [--self-test]
"""
import re

import web_layers
import planted

PHYSICS = {"base", "air", "element", "flute"}
MAY_USE = {
    "base": set(),
    "air": {"base"},
    "element": {"base", "air"},
    "flute": {"base", "air", "element"},
    "jet": PHYSICS,
    "tone": PHYSICS | {"jet"},
    "music": {"base"},
    "listen": {"base", "music"},
    "hand": set(),
    "layout": PHYSICS | {"music", "jet"},
    "bench": PHYSICS | {"music", "jet", "layout"},
    "voice": PHYSICS | {"music", "layout"},
    "choose": PHYSICS | {"music", "layout", "jet"},
}
MAY_USE["document"] = {"base", "music", "flute"}
MAY_USE["link"] = MAY_USE["document"] | {"document"}
MAY_USE["task"] = set(MAY_USE) - {"link", "listen"}
MAY_USE["verbs"] = set(MAY_USE)
MAY_USE["api"] = set(MAY_USE)  # core/api.hpp and core/api*.cpp
KNOW_JSON = {"document", "link", "task", "verbs", "api"}
# These may use core/api.hpp and nothing else of the core; benches and studies elsewhere in tools/
# look at single layers, so they may reach in.
OUTSIDE = ("wasm", "tools/cli")

INCLUDE = re.compile(r'^\s*#\s*include\s*[<"]([^>"]+)[>"]', re.MULTILINE)


def layer(path):
    """core/flute/chain.hpp -> flute; core/api.hpp, core/api_workshop.cpp -> api."""
    name = path.split("/")[1]
    return "api" if re.fullmatch(r"api(_\w+)?\.[ch]pp", name) else name.split(".")[0]


def faults_of(path, text):
    outside = path.startswith(OUTSIDE)
    for used in INCLUDE.findall(text):
        if outside:
            if used.startswith("core/") and used != "core/api.hpp":
                yield f"{path}: includes {used}; outside the core only core/api.hpp is known"
            continue
        own = layer(path)
        if own not in MAY_USE:
            yield f"{path}: folder core/{own} has no place in tools/checks/layers.py"
            return
        if used.startswith("core/"):
            if layer(used) != own and layer(used) not in MAY_USE[own]:
                yield f"{path}: {own} may not include {used}"
        elif used.startswith("nlohmann/") and own not in KNOW_JSON:
            yield f"{path}: {own} may not know JSON ({used})"
        elif used.startswith("emscripten"):
            yield f"{path}: the core may not know the browser ({used})"
        elif used.split("/")[0] in ("wasm", "tools", "tests") or used.startswith("."):
            yield f"{path}: includes {used}; write \"core/folder/file.hpp\""
        elif "/" not in used and used.endswith((".hpp", ".h")) and f'"{used}"' in text:
            yield f"{path}: includes \"{used}\"; write \"core/folder/file.hpp\""


def faults_in(root):
    found = []
    for top in ("core", *OUTSIDE):
        for path in sorted((root / top).rglob("*.[ch]pp")):
            found += faults_of(path.relative_to(root).as_posix(), path.read_text(encoding="utf-8"))
    return found + web_layers.faults_in(root)


CLEAN = {
    "core/air/air.cpp": '#include "core/air/air.hpp"\n#include "core/base/units.hpp"\n#include <cmath>\n',
    "core/layout/plan.cpp": '#include "core/music/scale.hpp"\n#include <Eigen/Dense>\n',
    "core/document/json.cpp": '#include <nlohmann/json.hpp>\n#include "core/music/scale.hpp"\n',
    "core/link/walk.cpp": '#include "core/document/json.hpp"\n',
    "core/verbs/next.cpp": '#include "core/bench/next.hpp"\n#include "core/link/walk.hpp"\n',
    "core/api.cpp": '#include "core/document/json.hpp"\n#include <nlohmann/json.hpp>\n',
    "wasm/bindings.cpp": '#include "core/api.hpp"\n#include <emscripten/bind.h>\n',
}
PLANTED = [
    ("core/air/up.cpp", '#include "core/flute/chain.hpp"\n', "may not include"),
    ("core/music/side.cpp", '#include "core/air/air.hpp"\n', "may not include"),
    ("core/layout/top.cpp", '#include "core/api.hpp"\n', "may not include"),
    ("core/document/up.cpp", '#include "core/verbs/next.hpp"\n', "may not include"),
    ("core/document/deep.cpp", '#include "core/bench/next.hpp"\n', "may not include"),
    ("core/link/up.cpp", '#include "core/verbs/next.hpp"\n', "may not include"),
    ("core/layout/json.cpp", "#include <nlohmann/json.hpp>\n", "may not know JSON"),
    ("core/flute/web.cpp", "#include <emscripten/val.h>\n", "browser"),
    ("core/flute/short.cpp", '#include "geometry.hpp"\n', "write"),
    ("core/flute/dots.cpp", '#include "../air/air.hpp"\n', "write"),
    ("core/extra/new.cpp", '#include "core/base/units.hpp"\n', "no place"),
    ("wasm/deep.cpp", '#include "core/flute/chain.hpp"\n', "only core/api.hpp"),
    ("tools/cli/main.cpp", '#include "core/document/json.hpp"\n', "only core/api.hpp"),
]

if __name__ == "__main__":
    planted.main(faults_in, {**CLEAN, **web_layers.CLEAN}, PLANTED + web_layers.PLANTED)
