# tools/mutating/questions.py -- the battery: what is asked of the core, with and without a fault.
"""questions(root) gives lines VERB <tab> TEXT for tools/mutating/battery.cpp, cheap ones first.

Documents come from tests/data and from here; each made-up one leads through what the others miss.
"""
import copy
import json

BLANK = {
    "format": "canewright/1", "air": {"room_c": 17, "humidity_percent": 60},
    "tube": {"bore": [{"at_mm": 0, "diameter_mm": 17.6, "across_mm": 17.2},
                      {"at_mm": 220, "diameter_mm": 18.1}, {"at_mm": 390, "diameter_mm": 17.3}],
             "wall_mm": 2.7, "end_mm": 432, "above_mm": 140, "material": "bamboo"},
    "plug": {"offset_mm": 1.5, "thickness_mm": 8},
    "sound_hole": {"length_mm": 5.2, "width_mm": 9.2, "wall_mm": 2.4},
    "song": {"lowest": "G4", "scale": "minor pentatonic", "holes": 5, "play_c": 21,
             "tolerance_cents": 8},
    "shop": {"diameter_mm": {"min": 3, "max": 10}, "spacing_mm": {"min": 16, "max": 40},
             "hands": [2, 3], "ruler_mm": 0.4, "bit_mm": 0.15, "bore_mm": 0.12, "wall_mm": 0.2,
             "temperature_c": 1.5},
}
HOLES = [{"at_mm": 178, "diameter_mm": 6.5, "wall_mm": 2.2},
         {"at_mm": 206, "diameter_mm": 7.5, "inner_diameter_mm": 9},
         {"at_mm": 238, "diameter_mm": 8}, {"at_mm": 277, "diameter_mm": 6}, {"at_mm": 305, "diameter_mm": 8.8}]
OPEN = [[], [5], [4, 5], [3, 4, 5], [2, 3, 4, 5], [1, 2, 3, 4, 5]]


def having(base, **changes):
    """The document with keys replaced; a dict is merged, None takes a key away."""
    made = copy.deepcopy(base)
    for key, value in changes.items():
        if value is None:
            made.pop(key, None)
        elif isinstance(value, dict) and isinstance(made.get(key), dict):
            made[key] = {**made[key], **value}
        else:
            made[key] = value
    return made


PLAYED = having(BLANK, foot_mm=392, finger_holes=HOLES,
                notes=[{"open": o, "target_hz": 392 * 2 ** (c / 12)} for o, c in zip(OPEN, (0, 3, 5, 7, 10, 12))])


def log_of(foot_to=392.0, off=0.0, upto=5, room_c=17):
    """A build that goes well, each note a few cents off."""
    log = [{"bore": "sealed"}, {"foot": {"at_mm": foot_to + 14}},
           {"read": {"open": [], "hz": 375.0, "sigma_cents": 3}, "room_c": room_c},
           {"foot": {"at_mm": foot_to}, "error_mm": 0.3},
           {"read": {"open": [], "hz": round(386.5 * 2 ** (off / 1200), 3), "sigma_cents": 3}, "room_c": room_c}]
    for number in range(5, 5 - upto, -1):
        hole = HOLES[number - 1]
        log += [{"hole": {"number": number, "at_mm": hole["at_mm"] + 6, "diameter_mm": hole["diameter_mm"] - 1},
                 "room_c": room_c},
                {"read": {"open": list(range(number, 6)), "sigma_cents": 4,
                          "hz": round(386.5 * 2 ** (((0, 3, 5, 7, 10, 12)[6 - number] * 100 - 40 + off) / 1200), 3)},
                 "room_c": room_c + 1}]
    return log


def documents():
    """{name: (document, verbs)}"""
    build = [{"foot": {"at_mm": 410}}]
    odd = [
        {"block": "moved"}, {"sound_hole": {"length_mm": 5.6, "width_mm": 9.4}},
        {"read": {"open": [], "hz": 389, "sigma_cents": 3}, "room_c": 18},
        {"undercut": {"number": 5}}, {"narrow": {"number": 4, "diameter_mm": 4.5}},
        {"foot_plug": {"opening_mm": 14}},
        {"read": {"open": [5], "hz": 455, "sigma_cents": 3}, "room_c": 22}]
    dried = log_of(upto=2)
    dried = [e for e in dried if "bore" not in e] + [{"bore": "sealed"}]
    sound = ("sound", "link")
    made = {
        "played": (PLAYED, ("sound", "spread", "link", "builds")),
        "flat fingers": (having(PLAYED, fingers="flat", foot_plug={"opening_mm": 13, "thickness_mm": 4}), sound),
        "ridge": (having(PLAYED, tube={"ridge": {"at_mm": 150, "opening_mm": 13.5}}), ("sound", "spread")),
        "ridge at the sound hole": (having(PLAYED, tube={"ridge": {"at_mm": 16, "opening_mm": 14}}), sound),
        "high air": (having(PLAYED, air={"pressure_kpa": 78, "room_c": 27, "humidity_percent": 85}), sound),
        "lossless": (having(PLAYED, air=None) | {"air": {"sound_speed_m_s": 345, "density_kg_m3": 1.18, "lossless": True}}, sound),
        "cone": (having(PLAYED, tube={"bore": [{"at_mm": 0, "diameter_mm": 19.5}, {"at_mm": 400, "diameter_mm": 15}], "outer_mm": 25, "wall_mm": None}), sound),
        "wide": (having(BLANK, foot_mm=500, finger_holes=[{"at_mm": 300, "diameter_mm": 15}], notes=[{"open": []}, {"open": [1]}],
                        tube={"bore": [{"at_mm": 0, "diameter_mm": 24}], "wall_mm": 6, "end_mm": 560}), sound),
        "plan": (BLANK, ("layout", "fingerings", "next", "pattern")),
        "bits": (having(BLANK, shop={"bits": [{"mm": m / 2} for m in range(6, 20)]}), ("layout",)),
        "few bits": (having(BLANK, shop={"bits": [{"mm": 5}, {"mm": 7, "label": "seven"}]}), ("layout",)),
        "tight": (having(BLANK, shop={"spacing_mm": {"min": 24, "max": 29}, "diameter_mm": {"min": 5, "max": 7}}), ("layout",)),
        "fixed": (having(BLANK, finger_holes=[HOLES[0] | {"fixed": "at"}, HOLES[1] | {"fixed": "diameter"}, HOLES[2] | {"fixed": ["at", "diameter"]}] + HOLES[3:]), ("layout",)),
        "too short": (having(BLANK, tube={"end_mm": 360}), ("layout", "next")),
        "floating": (having(BLANK, song={"lowest": "free", "scale": {"cents": [0, 200, 400, 700, 900, 1200]}}), ("layout",)),
        "own fingering": (having(BLANK, song={"holes": 6, "scale": "major", "breath": 1.2}), ("layout", "fingerings")),
        "drones": (having(PLAYED, notes=[{"open": [1, 3]}, {"open": [2, 4, 5], "target_hz": 600}]), sound),
        "hummed": (having(BLANK, tube={"end_mm": 620}, song={"lowest": {"hz": 262}, "a4_hz": 442}), ("layout",)),
        "sawn": (having(BLANK, log=build), ("next",)),
        "voiced": (having(BLANK, log=log_of(upto=0)), ("next", "layout", "pattern", "sound")),
        "one hole": (having(BLANK, log=log_of(upto=1)), ("next",)),
        "sharp": (having(BLANK, log=log_of(off=25, upto=3)), ("next", "pattern")),
        "flat": (having(BLANK, log=log_of(off=-15, upto=4)), ("next", "sound")),
        "done": (having(BLANK, log=log_of(off=38, upto=5), shop={"bits": [{"mm": m / 2} for m in range(6, 20)]}), ("next", "layout")),
        "odd log": (having(BLANK, log=log_of(upto=2) + odd), ("next", "layout", "link")),
        "jump": (having(BLANK, log=log_of(upto=1) + [{"read": {"open": [5], "hz": 905, "sigma_cents": 3}, "room_c": 18}]), ("next",)),
        "dried": (having(BLANK, log=dried), ("next",)),
        "new voice": (having(BLANK, log=log_of(upto=1) + odd[:2]), ("next", "pattern")),
    }
    return {name: (document, verbs) for name, (document, verbs) in made.items()}


def wrong():
    """Documents that are refused, each for reasons of its own."""
    return [
        having(PLAYED, tube={"wall_mm": 0.01, "end_mm": 100}, foot_mm=5000),
        having(PLAYED, finger_holes=[{"at_mm": 200, "diameter_mm": 30}, {"at_mm": 190, "diameter_mm": 1, "inner_diameter_mm": 60}]),
        having(PLAYED, notes=[{"open": [7]}, {"open": [1, 1]}, {"open": 3}]),
        having(BLANK, song={"lowest": "H9", "scale": {"cents": [0, 0, -5]}, "holes": 40}, unknown=1),
        having(BLANK, air={"room_c": 80, "humidity_percent": -3, "pressure_kpa": 3}, shop={"bits": [{"mm": -1}], "hands": [1, 9]}),
        having(BLANK, log=[{"hole": {"number": 9, "at_mm": 3}}, {"read": {"open": [2], "hz": 400}}, {"foot": {"at_mm": 9000}}, {}]),
        having(BLANK, sound_hole={"length_mm": 40, "width_mm": 30}, tube={"bore": [], "ridge": {"at_mm": 100, "opening_mm": 40}}),
        having(BLANK, log=[{"foot": {"at_mm": 400}}, {"foot": {"at_mm": 410}}, {"narrow": {"number": 2, "diameter_mm": 9}}]),
    ]


def questions(root):
    def one(verb, text):
        return f"{verb}\t{text if isinstance(text, str) else json.dumps(text)}"

    lines = [one("air", t) for t in ("20 0.5 0.0004 101325 0", "8 0.2 0.0004 70000 0.3", "29 0.9 0.002 103000 0.45", "0 0 0.0004 101325 0.9",
                                     "15 1 0.01 60000 1")]
    for text in ("53.2", "1 3/8", "2 3/32\"", "5,4 cm", "1.2.3", "-4", "7/0", "11/64 in", "40 mm", "٣", ""):
        lines += [one("mm", text), one("inch", text)]
    lines += [one("write", t) for t in ("53.18", "0.4", "25.4", "-3", "1e9")]
    for text in ("440", "A4 +12", "-35", "G4 -7 c", "392,5 Hz", "+4", "abc", "98", "A4", "8 cents", "−12"):
        lines += [one("reading", {"text": text, "note_hz": 392.4, "name": "G4"}),
                  one("reading", {"text": text, "expected_hz": 380, "a4_hz": 442})]
    lines += [one("bore", t) for t in (
        {"way": "water_g", "amount": 101.5, "length_mm": 400}, {"way": "water_g", "amount": 80, "length_mm": 410, "water_c": 11, "scale_step_g": 1},
        {"way": "water_ml", "amount": 102, "length_mm": 400}, {"way": "gauges", "go_mm": 17.5, "no_go_mm": 18},
        {"way": "girth", "girth_mm": 75.7, "paper_mm": 0.1}, {"way": "girth", "girth_mm": 70}, {"way": "guess"})]
    lines += [one("attempts", {"hz": h}) for h in ([440], [440, 441], [440, 441.5, 439.8, 452], [400, 400.1, 400.2, 400.3])]
    lines += [one("strokes", {"blows": [{"strokes": 5 if n else 0, "hz": h} for n, h in enumerate(hz)], "stop_hz": stop})
              for hz, stop in (([380], 392), ([380, 382, 384.5], 392), ([380, 388], 392), ([380, 391.8], 392), ([380, 380], 392), ([395], 392),
                               ([380, 379, 386, 388, 389.5], 392))]
    lines += [one("choices", ""), one("example", "")]
    data = root / "tests" / "data"
    lines += [one("unlink", p.read_text().strip()) for p in sorted((data / "links").glob("*.link"))]
    lines += [one("link", p.read_text().replace("\n", " ")) for p in sorted((data / "links").glob("*.json"))]
    for document in wrong():
        lines += [one("sound", document), one("layout", document)]
    later = []
    for document, verbs in documents().values():
        for verb in verbs:
            (lines if verb in ("sound", "link", "fingerings") else later).append(one(verb, document))
    for path in sorted((data / "documents").glob("*.json")):
        text = path.read_text().replace("\n", " ")
        lines += [one("sound", text)]
        later += [one("next" if '"log"' in text else "layout", text)]
    lines += [one("listen", str(seed)) for seed in range(16)]
    return lines + later
