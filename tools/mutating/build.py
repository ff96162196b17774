# tools/mutating/build.py -- a copy of the core with every fault in it, compiled once.
"""Faulty(root, out) holds the copy: sow() writes it, compile() builds battery and tests from it.

What does not compile with a fault is found by the compiler's line and left out, and compiled again.
"""
import hashlib
import json
import re
import subprocess
from pathlib import Path

from mutating import sow

PRECOMPILED = "#include <Eigen/Dense>\n#include <nlohmann/json.hpp>\n" \
    "#include \"tools/mutating/mutant.hpp\"\n"
ERROR_LINE = re.compile(r"core/([\w/.]+):(\d+):\d+: +(?:error|required from|fatal)")
# A constant that is computed is no constant to the compiler, nor to a lambda that has not captured it.
NOT_CONSTANT = re.compile(r"(?:the value of |error: )'(?:[\w:]+::)?(\w+)(?:\[.*?\])?' is not (?:usable|captured)")


class Faulty:
    def __init__(self, root, out):
        self.root, self.out = root, out
        self.texts = {p.relative_to(root / "core").as_posix(): p.read_text()
                      for p in sorted((root / "core").rglob("*.[ch]pp"))}
        self.faults = {}  # number: (file, Place)
        self.known = out / "does_not_compile.json"  # from earlier runs

    def write(self):
        """Writes the sources whose faults have changed."""
        for file, text in self.texts.items():
            mine = {n: place for n, (of, place) in self.faults.items() if of == file}
            new = sow.sown(text, mine)
            path = self.out / "source" / "core" / file
            path.parent.mkdir(parents=True, exist_ok=True)
            if not path.exists() or path.read_text() != new:
                path.write_text(new)

    def drop_what_fails(self, log):
        """Leaves out the faults that the compiler's messages point at; says how many."""
        failed = set()
        constants = set(NOT_CONSTANT.findall(log))
        lines = {(m.group(1), int(m.group(2))) for m in ERROR_LINE.finditer(log)}
        for number, (file, place) in self.faults.items():
            text = self.texts[file]
            for s, e, new in place.edits:
                if (file, text.count("\n", 0, s) + 1) in lines or \
                        (file, text.count("\n", 0, e) + 1) in lines:
                    failed.add(number)
                statement = text[s:s + 120].split("=")[0]
                if new == "const" and constants & set(re.findall(r"\w+", statement)):
                    failed.add(number)
        if not failed:  # a constant of a class whose members are faulty: the whole header's
            files = {file for file, _ in lines}
            failed = {n for n, (file, place) in self.faults.items()
                      if file in files and file.endswith(".hpp") and "constant" in place.what}
        known = json.loads(self.known.read_text()) if self.known.exists() else []
        known += [self.key(number) for number in failed]
        self.known.write_text(json.dumps(sorted(set(known))))
        for number in failed:
            del self.faults[number]
        return len(failed)

    def key(self, number):
        file, place = self.faults[number]
        digest = hashlib.sha256(self.texts[file].encode()).hexdigest()[:16]
        return f"{file} {digest} {place.start} {place.what}"

    def drop_known(self):
        if self.known.exists():
            known = set(json.loads(self.known.read_text()))
            for number in [n for n in self.faults if self.key(n) in known]:
                del self.faults[number]

    def plan(self, native):
        """build.ninja: the core as the native build groups it, and the two programs."""
        commands = json.loads((native / "compile_commands.json").read_text())
        core = next(c for c in commands if "canewright_native.dir" in c["file"])
        flags = " ".join(re.findall(r"-[DI]\S+|-isystem \S+|-std=\S+|-ffp\S+", core["command"]))
        flags = flags.replace(f"-I{self.root} ", "")
        tests = sorted(set(re.findall(r"-o (CMakeFiles/canewright_test_(?:objects|support)\.dir/\S+\.o) ",
                                      "\n".join(c["command"] for c in commands))))
        groups = {}
        for file in native.glob("CMakeFiles/canewright_native.dir/Unity/unity_*_cxx.cxx"):
            sources = re.findall(r'#include ".*?/(core/\S+\.cpp)"', file.read_text())
            groups[file.stem] = [s for s in sources if s[5:] in self.texts]
        grouped = {s for g in groups.values() for s in g}
        for source in self.texts:
            if source.endswith(".cpp") and f"core/{source}" not in grouped:
                groups[source.replace("/", "_")] = [f"core/{source}"]
        (self.out / "pre").mkdir(parents=True, exist_ok=True)
        self.put("pre/all.hpp", PRECOMPILED)
        rules = [
            f"flags = -O1 -w -DNDEBUG -fmax-errors=0 {flags} -I{self.out}/source "
            f"-I{self.root}",
            "rule cxx\n  depfile = $out.d\n  command = LC_ALL=C g++ $flags $more -MD -MF $out.d"
            " -c $in -o $out",
            "rule link\n  command = g++ @$out.rsp -fuse-ld=lld -o $out\n"
            "  rspfile = $out.rsp\n  rspfile_content = $in",
            "build pre/all.hpp.gch: cxx pre/all.hpp\n  more = -x c++-header",
        ]
        objects = []
        for name, sources in groups.items():
            self.put(f"group/{name}.cpp", "".join(f'#include "{s}"\n' for s in sources))
            rules.append(f"build object/{name}.o: cxx group/{name}.cpp | pre/all.hpp.gch\n"
                         "  more = -include pre/all.hpp")
            objects.append(f"object/{name}.o")
        for name in ("chosen", "battery"):
            rules.append(f"build object/{name}.o: cxx {self.root}/tools/mutating/{name}.cpp")
        objects.append("object/chosen.o")
        all_objects = " ".join(objects)
        test_objects = " ".join(str(native / test) for test in tests)
        rules.append(f"build battery: link object/battery.o {all_objects}")
        rules.append(f"build tests: link {all_objects} {test_objects}")
        self.put("build.ninja", "\n".join(rules) + "\n")

    def put(self, name, text):
        path = self.out / name
        path.parent.mkdir(parents=True, exist_ok=True)
        if not path.exists() or path.read_text() != text:
            path.write_text(text)

    def compile(self, say, *programs):
        self.drop_known()
        while True:
            self.write()
            done = subprocess.run(["ninja", "-k", "0", "-j", "2", *programs], cwd=self.out, text=True,
                                  stdout=subprocess.PIPE, stderr=subprocess.STDOUT)
            (self.out / "compile.log").write_text(done.stdout)
            if done.returncode == 0:
                return
            dropped = self.drop_what_fails(done.stdout)
            say(f"{dropped} faults do not compile")
            if not dropped:
                raise SystemExit(f"does not compile: see {self.out / 'compile.log'}")
