#!/usr/bin/env python3
"""tools/checks/names.py -- no two types of the core share a name.

Two structs of one name in one namespace are one type to the linker, whatever their members (the
one-definition rule): natively it may work by luck, in wasm it read memory that was not there.
Types inside an unnamed namespace or another class do not count.
"""
import collections
import pathlib
import re
import sys

TYPE = re.compile(r"^(?:struct|class|enum class|enum) (\w+)(?: final)?(?: :[^;]*)?(?: \{|$)")


def types_of(text):
    """Names of the types that a file defines at namespace level, outside unnamed namespaces."""
    unnamed = False
    for line in text.splitlines():
        if line.startswith("namespace {"):
            unnamed = True
        elif line.startswith("}  // namespace") and line.strip() == "}  // namespace":
            unnamed = False
        match = TYPE.match(line)
        if match and not unnamed:
            yield match.group(1)


def faults_of(files):
    seen = collections.defaultdict(list)
    for path, text in files:
        for name in types_of(text):
            seen[name].append(path)
    return [f"{name}: {', '.join(paths)}" for name, paths in sorted(seen.items()) if len(paths) > 1]


def self_test():
    one = "namespace a {\nstruct Twin {\n};\n}  // namespace a\n"
    hidden = "namespace a {\nnamespace {\nstruct Twin {\n};\n}  // namespace\n}  // namespace a\n"
    assert faults_of([("x", one), ("y", one)]) == ["Twin: x, y"]
    assert faults_of([("x", one), ("y", hidden)]) == []


if __name__ == "__main__":
    self_test()
    root = pathlib.Path(__file__).resolve().parents[2]
    paths = sorted(p for p in (root / "core").rglob("*.[ch]pp"))
    faults = faults_of((str(p.relative_to(root)), p.read_text()) for p in paths)
    print("\n".join(faults) or f"{len(paths)} files, no type defined twice")
    sys.exit(1 if faults else 0)
