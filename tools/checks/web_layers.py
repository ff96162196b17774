# tools/checks/web_layers.py -- part of tools/checks/layers.py: each room of web/ imports only rooms below it.
"""single <- engine <- state <- text <- widgets <- the rooms by the names on the screen <- main.js

A room is a station, paper, or guide: none knows another, main.js opens them. What is loaded later counts as
what is loaded at once; types do not count.
"""
import posixpath
import re

BELOW = {
    "single": set(),
    "engine": {"single"},
    "state": {"engine"},
    "text": {"state"},
    "widgets": {"state", "text"},
    "offline": {"text", "widgets"},
    "ear": {"text", "widgets"},  # listens for the bench, and beside a flute that exists
}
for room in ("cane", "song", "marks", "voice", "bench", "shelf", "paper", "guide", "suits"):
    BELOW[room] = {"engine", "state", "text", "widgets"}
for room in ("bench", "shelf"):
    BELOW[room].add("ear")
TOP = {"web/main.js", "web/single/start.js"}  # know everybody
LEAVES = {"web/text/version.js"}  # a few constants of the build: anybody may know them
BUILT = "web/core/"  # the modules, which the build puts there
LIBRARIES = "node_modules/"

COMMENT = re.compile(r"/\*.*?\*/|^\s*//.*?$", re.DOTALL | re.MULTILINE)
IMPORT = re.compile(r"(?:\bimport|\bexport)\b\s*(?:[^'\";()]*?\bfrom\s*)?\(?\s*['\"]([^'\"]+)['\"]")


def imports_of(path, text):
    for name in IMPORT.findall(COMMENT.sub("", text)):
        if name.startswith("."):
            yield posixpath.normpath(posixpath.join(posixpath.dirname(path), name))


def faults_of(path, used_paths):
    own = path.split("/")[1]
    if path in TOP or path.count("/") == 1:  # main.js and the service workers, which import nothing
        return
    if own not in BELOW:
        yield f"{path}: room web/{own} has no place in tools/checks/web_layers.py"
        return
    for used in used_paths:
        room = used.split("/")[1]
        if used in LEAVES or used.startswith((BUILT, LIBRARIES)) or room == own or room in BELOW[own]:
            continue
        yield f"{path}: {own} may not import {used}"


def circles(graph):
    """Each file that can be reached from itself, once a circle."""
    told = set()
    for start in sorted(graph):
        way, seen = [(start, [start])], set()
        while way:
            here, behind = way.pop()
            for used in graph.get(here, ()):
                if used == start and not told & set(behind):
                    told |= set(behind)
                    yield f"{' -> '.join([*behind, start])}: a circle"
                elif used not in seen:
                    seen.add(used)
                    way.append((used, [*behind, used]))


def faults_in(root):
    graph = {}
    for path in sorted((root / "web").rglob("*.js")):
        name = path.relative_to(root).as_posix()
        graph[name] = list(imports_of(name, path.read_text(encoding="utf-8")))
    found = [fault for path in graph for fault in faults_of(path, graph[path])]
    return found + list(circles(graph))


CLEAN = {
    "web/main.js": "import { cane } from './cane/cane.js';\nimport('./shelf/listen.js');\n",
    "web/bench/b.js": "import { a } from './a.js';\n",
    "web/paper/plain.js": "// import '../bench/b.js'\n/** @typedef {import('../bench/b.js').B} B */\n"
                          "export { wellFormed } from '../engine/start_core.js';\n",
    "web/state/plan.js": "import { VERSION } from '../text/version.js';\n",
    "web/engine/where_file.js": "import create from '../core/workshop.js';\n",
}
PLANTED = [
    ("web/state/keep.js", "const { tell } = await import('../shelf/tell.js');\n", "may not import"),
    ("web/engine/up.js", "import { store } from '../state/store.js';\n", "may not import"),
    ("web/shelf/deeds.js", "import('../paper/paper.js');\n", "may not import"),
    ("web/widgets/field.js", "export * from '../cane/cane.js';\n", "may not import"),
    ("web/text/sure.js", "import {\n  h,\n} from '../widgets/dom.js';\n", "may not import"),
    ("web/attic/old.js", "import '../engine/engine.js';\n", "no place"),
    ("web/bench/a.js", "import { b } from './b.js';\n", "circle"),
    ("web/song/self.js", "import './self.js';\n", "circle"),
]
