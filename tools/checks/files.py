#!/usr/bin/env python3
# tools/checks/files.py -- what holds for every file: first line, length, words that stay out.
"""Each source file opens with a comment that names its path, has at most 300 lines, and carries
no forgotten marker; web/ never turns text into markup or code. A room's sentences stand in one file,
its words.js: a translator sees them all; where they are many, there are rooms within the room. Types
(.d.ts) may be longer.

Usage: tools/checks/files.py [--self-test]
"""
import re

import planted

TOPS = ("core", "wasm", "web", "tests", "tools")
SOURCES = {".cpp", ".hpp", ".js", ".mjs", ".css", ".py", ".cmake", ".html", ".ts"}
LONGEST = 300
# Split, so that this file does not find itself.
MARKER = re.compile(r"\b(?:TO" r"DO|FIX" r"ME|XX" r"X)\b")
MACHINE = re.compile(r"(?<![\w.])/(?:work|tmp|home|root)/")
MARKUP = re.compile(
    r"\binner" r"HTML\b|\bouter" r"HTML\b|insertAdjacent" r"HTML|document\.write" r"\b"
    r"|\bev" r"al\s*\(|\bnew\s+Func" r"tion\b")


def faults_of(path, text):
    lines = text.split("\n")
    # A script's first line is taken by #!, a page's by its doctype.
    if path not in "\n".join(lines[:2]):
        yield f"{path}: its first line does not name it"
    name = path.rsplit("/", 1)[-1]
    if path.startswith("web/") and name.endswith("_words.js"):
        yield f"{path}: a second file of sentences; they belong in words.js"
    if len(lines) - 1 > LONGEST and not name.endswith(".d.ts"):
        yield f"{path}: {len(lines) - 1} lines, at most {LONGEST}"
    for number, line in enumerate(lines, 1):
        if MARKER.search(line):
            yield f"{path}:{number}: a forgotten marker"
        if MACHINE.search(line):
            yield f"{path}:{number}: a path of one machine"
        if path.startswith("web/") and MARKUP.search(line):
            yield f"{path}:{number}: text must not become markup or code"


def faults_in(root):
    found = []
    for top in TOPS:
        for file in sorted((root / top).rglob("*")):
            path = file.relative_to(root).as_posix()
            if file.is_file() and file.suffix in SOURCES and "/data/" not in path:
                found += faults_of(path, file.read_text(encoding="utf-8"))
    return found


CLEAN = {
    "core/a.cpp": "// core/a.cpp -- an example\nint x = 1;  // a/wo" "rk/b\n",
    "tools/a.py": "#!/usr/bin/env python3\n# tools/a.py -- a script\n",
    "tests/data/long.js": "\n" * 400,
    "web/a/types.d.ts": "// web/a/types.d.ts -- types\n" + "\n" * 400,
    "web/a/words.js": "// web/a/words.js: sentences\n",
}
PLANTED = [
    ("core/b.cpp", "// core/a.cpp -- copied\n", "name"),
    ("core/b.cpp", "// core/b.cpp -- long\n" + "\n" * 300, "301 lines"),
    ("web/a/words.js", "// web/a/words.js -- long\n" + "\n" * 300, "301 lines"),
    ("tests/b.mjs", "// tests/b.mjs -- x\n// TO" "DO later\n", "marker"),
    ("tests/b.mjs", "// tests/b.mjs -- x\nread('/wo" "rk/x');\n", "machine"),
    ("web/a/late_words.js", "// web/a/late_words.js -- x\n", "second file"),
    ("web/b.js", "// web/b.js -- x\na.inner" "HTML = b;\n", "markup"),
    ("web/b.js", "// web/b.js -- x\nev" "al(b);\n", "markup"),
]

if __name__ == "__main__":
    planted.main(faults_in, CLEAN, PLANTED)
