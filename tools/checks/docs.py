#!/usr/bin/env python3
# tools/checks/docs.py -- every public function of core/element states model, validity, error, source.
"""A comment block stands for all functions that follow it without a blank line. A function whose
answer is no physics (bool) and algebra of two-ports need none.

Usage: tools/checks/docs.py [--self-test]
"""
import pathlib
import re
import sys

WORDS = ("Model", "Valid", "Error", "Source")
FUNCTION = re.compile(r"^(?:inline )?(?!bool\b|using\b|struct\b|return\b|enum\b)[A-Z]?\w[\w:<>]* \w+\(")
ALGEBRA = {"core/element/two_port.hpp"}


def faults_of(path, text):
    if path in ALGEBRA:
        return
    block = ""
    for number, line in enumerate(text.split("\n"), 1):
        if line.startswith("//"):
            block += line
            continue
        if line == "":
            block = ""
        elif FUNCTION.match(line) and not line.startswith("inline constexpr"):
            missing = [word for word in WORDS if not re.search(rf"\b{word}\b {{1,}}", block)]
            if missing:
                yield f"{path}:{number}: {line.strip()[:60]} does not say: {', '.join(missing)}"


CLEAN = "// A.\n// Model  x\n// Valid  y\n// Error  z\n// Source w\ndouble f(double x);\ndouble g(double x);\n"


def self_test():
    assert not list(faults_of("core/element/a.hpp", CLEAN))
    for word in WORDS:
        planted = CLEAN.replace(f"// {word}", "// More")
        assert len(list(faults_of("core/element/a.hpp", planted))) == 2, word
    assert list(faults_of("core/element/a.hpp", CLEAN + "\nComplex h(\n    double x);\n"))
    print(f"self-test: {len(WORDS) + 1} planted faults found")


if __name__ == "__main__":
    if sys.argv[1:] == ["--self-test"]:
        self_test()
        sys.exit()
    root = pathlib.Path(__file__).resolve().parents[2]
    found = [fault for path in sorted((root / "core/element").glob("*.hpp"))
             for fault in faults_of(path.relative_to(root).as_posix(), path.read_text(encoding="utf-8"))]
    print("\n".join(found) or "no fault")
    sys.exit(bool(found))
