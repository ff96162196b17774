# tools/mutating/sow.py -- finds the places of a source where a single fault can be sown.
"""places(text) gives Places: each a line, an operator's name, and the edits that sow it.

It works on the text as clang-format leaves it, with comments and strings blanked out, and knows no
types: what does not compile is left out by tools/mutating/build.py. An edit is (start, end, text)
with {} for the number of the fault; edits of two places overlap only when one wraps the other.
"""
import re
from dataclasses import dataclass

BLANK = re.compile(
    r'//[^\n]*|/\*.*?\*/|R"\(.*?\)"|"(?:\\.|[^"\\\n])*"|(?<![\w])\'(?:\\.|[^\'\\\n])+\'|^[ \t]*#[^\n]*',
    re.S | re.M)
FLOAT = re.compile(r"(?<![\w.])(?:\d+\.\d*(?:e[+-]?\d+)?|\d+e[+-]?\d+)[Ff]?(?![\w.])")
WHOLE = re.compile(r"(?<![\w.'<])(?<!\de[+-])\d{1,6}(?![\w.'>])")
ARITHMETIC = re.compile(r"(?<=[\w)\]}]) ([+\-*/])(?=[ \n])")
COMPARISON = re.compile(r"(?<=[\w)\]}]) (<|>|<=|>=|==|!=)(?=[ \n])")
SUM = re.compile(r"(?<=[\w)\]]) ([+\-*/])=(?=[ \n])")
EXTREME = re.compile(r"std::(min|max)\(")
INDEX = re.compile(r"(?<=[\w)])\[([^\[\]]+)\](?!\()")
CONDITION = re.compile(r"\b(if|while) \(")
JOINT = re.compile(r" (&&|\|\|)(?=[ \n])")
NOT = re.compile(r"(?:(?<=\()|(?<=&& )|(?<=\|\| )|(?<=return ))!(?=[\w(])")
STATEMENT = re.compile(
    r"(?:(?<=[;{}\n])|(?<=\) ))[ \t]*((?:[\w:]|\.|->|\[[^\[\]\n]*\]|\(\w*\))+(?: [+\-*/]?= |\()[^;{}]*;)")
LEAVE = re.compile(r"(?<=\) )(continue|break|return);")
# A call that looks like a declaration, a keyword, or what ends a branch.
NO_STATEMENT = re.compile(r"^(?:return|else|case|using|if|for|while|switch|static_assert)\b")
PROXY = {"<": "Less", "<=": "NoMore", ">": "More", ">=": "NoLess", "==": "Same", "!=": "Other"}


@dataclass(frozen=True)
class Place:
    start: int
    line: int
    what: str
    edits: tuple


def blanked(text):
    return BLANK.sub(lambda m: re.sub(r"[^\n]", " ", m.group()), text)


def closing(text, at):
    """Where the parenthesis that opens at `at` closes."""
    depth = 0
    for n in range(at, len(text)):
        depth += {"(": 1, "[": 1, "{": 1, ")": -1, "]": -1, "}": -1}.get(text[n], 0)
        if depth == 0:
            return n
    return len(text)


def operand_end(text, at):
    """Where the operand of && or || that starts at `at` ends."""
    depth = 0
    for n in range(at, len(text)):
        c = text[n]
        if depth == 0 and (c in ")]},;:?" or text.startswith(("&&", "||"), n)) and \
                not text.startswith("::", n) and not text.startswith("::", n - 1):
            return len(text[:n].rstrip())
        depth += {"(": 1, "[": 1, "{": 1, ")": -1, "]": -1, "}": -1}.get(c, 0)
    return len(text)


def numbers(code):
    for m in FLOAT.finditer(code):
        if float(m.group().rstrip("Ff")) == 0.0:
            continue
        for factor in (1.1, 1.5):
            yield m.start(), f"constant {m.group()} times {factor}", [
                (m.start(), m.end(), f"mutant::scaled({{}}, {m.group()}, {factor})")]
    for m in WHOLE.finditer(code):
        by = 1 if int(m.group()) < 2 else -1
        yield m.start(), f"constant {m.group()} {by:+d}", [
            (m.start(), m.end(), f"mutant::stepped({{}}, {m.group()}, {by})")]


def operators(code):
    for m in ARITHMETIC.finditer(code):
        at, end, sign = m.start(1), m.end(1), m.group(1)
        if sign in "+-":
            other = "-" if sign == "+" else "+"
            yield at, f"{sign} to {other}", [(end, end, " mutant::Sign{{{}, false}}*")]
            yield at, f"term after {sign} dropped", [(end, end, " mutant::Sign{{{}, true}}*")]
        else:
            proxy, other = ("Over", "/") if sign == "*" else ("Times", "*")
            yield at, f"{sign} to {other}", [(end, end, f" mutant::{proxy}{{{{{{}}}}}} %")]
    for m in COMPARISON.finditer(code):
        end, sign = m.end(1), m.group(1)
        yield m.start(1), f"{sign} turned round or moved by one", [
            (end, end, f" mutant::{PROXY[sign]}{{{{{{}}}}}} {sign}")]
    for m in SUM.finditer(code):
        if m.group(1) in "+-":
            yield m.start(1), f"{m.group(1)}= turned", [
                (m.end(), m.end(), " mutant::Sign{{{}, false}}*")]


def calls(code):
    for m in EXTREME.finditer(code):
        name = "lesser" if m.group(1) == "min" else "greater"
        yield m.start(), f"{m.group(1)} to the other", [
            (m.start(), m.end(), f"mutant::{name}({{}}, ")]
    for m in INDEX.finditer(code):
        s, e = m.span(1)
        if not m.group(1).strip():
            continue  # a key, blanked out
        yield s, f"index {m.group(1)} off by one", [(s, s, "mutant::beside({}, "), (e, e, ")")]


def conditions(code):
    for m in CONDITION.finditer(code):
        s, e = m.end(), closing(code, m.end() - 1)
        inside = code[s:e]
        if ";" in inside or re.search(r"[^=!<>]=[^=]", inside):
            continue
        yield s, "condition negated", [
            (s, s, "mutant::on({}) != static_cast<bool>("), (e, e, ")")]
        yield s, "condition never holds", [(s, s, "!mutant::on({}) && ("), (e, e, ")")]
    for m in JOINT.finditer(code):
        s = m.end() + 1
        while s < len(code) and code[s].isspace():
            s += 1
        e = operand_end(code, s)
        before = "(mutant::on({}) || (" if m.group(1) == "&&" else "(!mutant::on({}) && ("
        yield s, f"what follows {m.group(1)} dropped", [(s, s, before), (e, e, "))")]
    for m in NOT.finditer(code):
        yield m.start(), "! dropped", [(m.start(), m.start(), "mutant::on({}) != ")]


def statements(code):
    for found in (STATEMENT, LEAVE):
        for m in found.finditer(code):
            s, e = m.span(1)
            if NO_STATEMENT.match(m.group(1)) or code[s:e].count("(") != code[s:e].count(")"):
                continue
            if code[:s].rstrip()[-1:] not in (";", "{", "}", ")", ":") and \
                    not code[:s].rstrip().endswith("else"):
                continue  # goes on from the line before
            yield s, "statement deleted", [(s, s, "if (!mutant::on({})) {{ "), (e, e, " }}")]


def constexpr_before(code, start):
    """The edit that makes the constant around `start` one that is reckoned at run time."""
    head = code.rfind("constexpr", 0, start)
    if head < 0 or re.search(r";|\)\s*\{", code[head:start]):
        return []
    return [(head, head + len("constexpr"), "const")]


def places(text):
    code = blanked(text)
    found = []
    for kind in (numbers, operators, calls, conditions, statements):
        for start, what, edits in kind(code):
            edits = tuple(edits) + tuple(constexpr_before(code, start))
            found.append(Place(start, code.count("\n", 0, start) + 1, what, edits))
    return sorted(found, key=lambda p: (p.start, p.what))


def compatible(one, others):
    """Whether no edit of `one` cuts into an edit of the others."""
    for s, e, text in one.edits:
        if text == "const":
            continue
        for other in others:
            for os, oe, other_text in other.edits:
                if other_text != "const" and (s < oe and os < e or (s == os and e == oe)):
                    return False
    return True


def sown(text, numbered):
    """The text with every numbered place's fault in it: {number: Place}."""
    edits = {}
    for number, place in numbered.items():
        for s, e, new in place.edits:
            # At one point: what ends comes before what begins, the outer begins first.
            wraps = e == s and new.startswith((")", " }}"))
            if new == "const":
                edits[(s, 2, 0, e)] = new
                continue
            own = [x for x in place.edits if x[2] != "const"]
            span = max(x[1] for x in own) - min(x[0] for x in own)
            edits[(s, 0 if wraps else 1 if s == e else 2, span if wraps else -span, e)] = \
                new.format(number)
    for (s, _, _, e), new in sorted(edits.items(), reverse=True):
        text = text[:s] + new + text[e:]
    return text
