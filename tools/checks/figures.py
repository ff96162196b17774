#!/usr/bin/env python3
# tools/checks/figures.py -- the README's figures are those of tests/data/figures.csv, which tests are held to.
"""The README's section on figures is tests/data/figures.md with {id} filled in from figures.csv. {=5} is a number that is
no measurement (a limit, a name); any other digit in figures.md is a fault, and so is an id that the test named in
figures.csv does not ask for, or a command that is not there.

Usage: tools/checks/figures.py [--self-test]   check
       tools/checks/figures.py --write         fills the README in
       tools/checks/figures.py --makers OUT [OUT...]    takes what virtual-makers wrote into figures.csv, then as
                                               --write; the first of the nominal world, others by their settings
       tools/checks/figures.py --unheard OUT...         the same of `virtual-makers --only open_loop`, four times
       tools/checks/figures.py --hand OUT      the same of `virtual-makers --only hand`
"""
import csv
import io
import json
import pathlib
import re
import sys

import planted

TABLE, TEXT = "tests/data/figures.csv", "tests/data/figures.md"
BEGIN, END = "## How good the numbers are", "## Care"
SLOT = re.compile(r"\{(=?)([^{}]*)\}")


def printed(value):
    return f"{int(value):,}" if re.fullmatch(r"\d{4,}", value) else value


def section(root, figures):
    def fill(slot):
        if slot[1]:
            return slot[2]
        name, _, plain = slot[2].partition(",")
        value = figures[name]["value"]
        return value if plain else printed(value)
    return SLOT.sub(fill, (root / TEXT).read_text(encoding="utf-8"))


def readme_with(text, new):
    begin, end = text.index(BEGIN), text.index(END)
    return text[:begin] + new + text[end:]


def read(root):
    with open(root / TABLE, encoding="utf-8", newline="") as file:
        return {row["id"]: row for row in csv.DictReader(file)}


def asks(name, test):
    """Whether the test's text names this figure, or puts its name together: figure("end" + "_most")."""
    base, part = name.rsplit("_", 1) if "_" in name else (name, name)
    return re.search(rf"['\"`]{name}['\"`]", test) or (
        re.search(rf"['\"`]{base}['\"`]", test) and re.search(rf"['\"`]_{part}['\"`]", test))


def has_command(root, command):
    if command.startswith("tools/"):
        return (root / command.split()[0]).exists()
    name = re.search(r'"([^"]*)"', command)[1].replace(",", "").split("*")
    tests = "".join(path.read_text(encoding="utf-8").replace(",", "") for path in (root / "tests").rglob("*_test.cpp"))
    return all(re.search(r'TEST_CASE\(\s*"[^"]*' + re.escape(part), tests) for part in name if part)


def faults_in(root):
    figures, text = read(root), (root / TEXT).read_text(encoding="utf-8")
    found = []
    slots = {slot[2].partition(",")[0] for slot in SLOT.finditer(text) if not slot[1]}
    for name in sorted(slots - set(figures)):
        found.append(f"{TEXT}: {{{name}}} is not in {TABLE}")
    for number, line in enumerate(text.split("\n"), 1):
        bare = re.sub(r"`[^`]*`", lambda code: SLOT.sub("", code[0]) if "{" in code[0] else "", line)
        if re.search(r"\d", SLOT.sub("", bare)):
            found.append(f"{TEXT}:{number}: a number that is in no braces")
    for name, row in figures.items():
        if name not in slots:
            found.append(f"{TEXT}: {name} is not in it, but in {TABLE}")
        test = root / row["test"]
        if not test.exists():
            found.append(f"{TABLE}: no {row['test']}")
        elif not asks(name, test.read_text(encoding="utf-8")):
            found.append(f"{row['test']} does not ask for {name} of {TABLE}")
        if not has_command(root, row["command"]):
            found.append(f"{TABLE}: no command {row['command']} for {name}")
    if not found:
        readme = (root / "README.md").read_text(encoding="utf-8")
        if readme != readme_with(readme, section(root, figures)):
            found.append("README.md: its figures are not those of the table (tools/checks/figures.py --write)")
    return found


def write(root):
    path = root / "README.md"
    path.write_text(readme_with(path.read_text(encoding="utf-8"), section(root, read(root))), encoding="utf-8")


def setting(made):
    """A short name of how a run differs from the nominal one."""
    if made["world"] != "nominal":
        return made["world"]
    if made["maker"] != "careful":
        return made["maker"]
    return f"spoilt_{made['spoil_percent']}" if made["spoil_percent"] else f"good_{made['good_enough_cents']}"


def of_another(made):
    page, name = made["canewright"], setting(made)
    during = page["bands"]["during"]
    return {f"{name}_within_10": f"{page['within_10']:.2f}", f"{name}_within_5": f"{page['within_5']:.2f}",
            f"{name}_readings": f"{page['readings']:.0f}", f"{name}_steps": f"{page['steps']:.0f}",
            f"{name}_cover_68": f"{100 * during['cover_68']:.0f}", f"{name}_cover_95": f"{100 * during['cover_95']:.0f}",
            "others_builds": str(made["builds"])}


def take_hand(root, out):
    """What `virtual-makers --only hand` wrote."""
    made = json.loads(pathlib.Path(out).read_text(encoding="utf-8"))
    pairs, hand = made["pairs"], made["hand"]
    new = {"pair_count": str(pairs["pairs"]), "hand_makers": str(hand["makers"]), "hand_floor": f"{hand['floor']:.0f}",
           "hand_noticed": str(hand["changes_noticed"]), "hand_noticed_falsely": str(hand["changes_false"]),
           "hand_odd_at": f"{hand['odd_at']:.1f}", "hand_odd_worst": f"{hand['odd_worst']:.1f}",
           "hand_even_worst": f"{hand['after'][4]['worst']:.1f}", "hand_odd_named": str(hand["odd_named"]),
           "hand_odd_falsely": str(hand["odd_false"]), "hand_odd_told": str(hand["odd_told"]),
           "hand_told_falsely": str(hand["told_false"])}
    for name in ("marks", "stranger", "readings", "floor"):
        new[f"pair_{name}"] = f"{pairs[name]:.0f}"
    for stage in hand["after"]:
        new[f"hand_{stage['flutes']}"] = f"{stage['worst']:.0f}"
    new["hand_cover_68"] = f"{100 * hand['after'][4]['cover_68']:.0f}"
    put(root, new)


def take_makers(root, outs):
    made, *others = (json.loads(pathlib.Path(out).read_text(encoding="utf-8")) for out in outs)
    tubes, off, page = made["tubes"], made["first_layout_cut_exactly"], made["canewright"]
    new = {"makers_builds": str(made["builds"]), "makers_cuts": f"{page['cuts_per_note']:.1f}",
           "makers_steps": f"{page['steps']:.0f}", "makers_readings": f"{page['readings']:.0f}",
           "makers_rejected": str(tubes["rejected_a_note_not_met"] + tubes["rejected_nothing_to_saw"])}
    for short, name in (("makers", "canewright"), ("copied", "pattern"), ("first", "layout_by_ear")):
        for what in ("within_10", "within_5", "sharp"):
            new[f"{short}_{what}"] = f"{made[name][what]:.3f}"
    for when, bands in page["bands"].items():
        for band in ("cover_68", "cover_95"):
            new[f"makers_{when}_{band}"] = f"{100 * bands[band]:.0f}"
    for short, name in (("lowest", "lowest_note"), ("intervals", "intervals")):
        for part in ("mean", "sd"):
            new[f"makers_{short}_{part}"] = f"{off[name][part + '_cents']:.1f}"
    for other in others:
        new |= of_another(other)
    put(root, new)


def take_unheard(root, outs):
    """What `virtual-makers --only open_loop` wrote, of each pair of voice and breath that the README tells."""
    short = {("measured", 5): "unheard", ("measured", 0): "unheard_even", ("bare", 5): "unheard_bare", ("bare", 0): "unheard_before"}
    new = {}
    for out in outs:
        made = json.loads(pathlib.Path(out).read_text(encoding="utf-8"))
        name = short.pop((made["told"], made["lift_cents"]))
        new[f"{name}_within_10"] = f"{made['open_loop']['within_10']:.3f}"
        if name == "unheard":
            new["hands_within_10"] = f"{made['floor']['within_10']:.3f}"
    if short:
        sys.exit(f"not run: {sorted(short)}")
    put(root, new)


def put(root, new):
    figures = read(root)
    for name, value in new.items():
        figures.setdefault(name, {"id": name, "command": "tools/virtual-makers",
                                  "test": "tests/cli/virtual_makers_test.mjs"})["value"] = value
        print(f"{name},{value}")
    text = io.StringIO()
    table = csv.DictWriter(text, ["id", "value", "command", "test"], lineterminator="\n")
    table.writeheader()
    table.writerows(figures.values())
    (root / TABLE).write_text(text.getvalue(), encoding="utf-8")


CLEAN = {
    TABLE: 'id,value,command,test\nends,1200,"canewright_tests ""an end, any""",tests/a_test.cpp\n',
    TEXT: "## How good the numbers are\n{ends} of {=7} by `sha1`, {ends,plain}\n",
    "README.md": "x\n## How good the numbers are\n1,200 of 7 by `sha1`, 1200\n## Care\n",
    "tests/a_test.cpp": 'TEST_CASE("an end, any") { figure("ends"); }\n',
}
PLANTED = [
    ("README.md", CLEAN["README.md"].replace("1,200", "1,100"), "not those"),
    (TEXT, CLEAN[TEXT].replace("{=7}", "7"), "no braces"),
    (TEXT, CLEAN[TEXT] + "{others}", "is not in"),
    (TEXT, CLEAN[TEXT].replace("{ends}", "{=1}").replace("{ends,plain}", ""), "ends is not in it"),
    ("tests/a_test.cpp", CLEAN["tests/a_test.cpp"].replace("ends", "end"), "does not ask"),
    (TABLE, CLEAN[TABLE].replace("an end", "a foot"), "no command"),
    (TABLE, CLEAN[TABLE].replace("tests/a_test", "tests/b_test"), "no tests/b_test"),
]

if __name__ == "__main__":
    here = pathlib.Path(__file__).resolve().parents[2]
    if sys.argv[1:2] == ["--makers"]:
        take_makers(here, sys.argv[2:])
    if sys.argv[1:2] == ["--unheard"]:
        take_unheard(here, sys.argv[2:])
    if sys.argv[1:2] == ["--hand"]:
        take_hand(here, sys.argv[2])
    if sys.argv[1:2] in (["--makers"], ["--unheard"], ["--hand"], ["--write"]):
        write(here)
    else:
        planted.main(faults_in, CLEAN, PLANTED)
