# tools/mutating/judge.py -- whether two answers differ by what a maker would notice.
"""moved(before, after): 0.1 cent, 0.01 mm, or a verdict (a word, a place that is there or not).

Numbers that are neither pitches, lengths nor cents (shares, sigmas in their own unit, properties of
air) count as moved by a hundredth of themselves; steps that a solver took do not count.
"""
import json
import math
import re

CENTS, MM, SHARE = 0.1, 0.01, 0.01
NOT_ASKED = {"evaluations", "steps", "rounds", "sums"}


def number_moved(key, a, b):
    if a == b:
        return False
    if not (math.isfinite(a) and math.isfinite(b)):
        return True
    if re.search(r"cents", key):
        return abs(a - b) >= CENTS
    if re.search(r"(^|_)(mm|at|diameter|length)$|_mm_|_mm$", key):
        return abs(a - b) >= MM
    if re.search(r"(^|_)hz$", key):
        return a * b <= 0 or abs(1200 * math.log2(a / b)) >= CENTS
    return abs(a - b) >= SHARE * max(abs(a), abs(b), 1e-6)


def moved(a, b, key=""):
    if isinstance(a, bool) or isinstance(b, bool) or type(a) is not type(b):
        numbers = (int, float)
        if isinstance(a, numbers) and isinstance(b, numbers) and \
                not isinstance(a, bool) and not isinstance(b, bool):
            return number_moved(key, a, b)
        return a != b or type(a) is not type(b)
    if isinstance(a, dict):
        return a.keys() != b.keys() or any(
            moved(a[k], b[k], k) for k in a if k not in NOT_ASKED)
    if isinstance(a, list):
        return len(a) != len(b) or any(moved(x, y, key) for x, y in zip(a, b))
    if isinstance(a, (int, float)):
        return number_moved(key, a, b)
    return a != b


def differ(before, after):
    """Of two lines of the battery."""
    if before == after:
        return False
    try:
        return moved(json.loads(before), json.loads(after))
    except ValueError:
        return True
