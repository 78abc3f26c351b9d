"""Small drawings beside a word; the drawings are the symbols of `_marks.html`."""
from .markup import element, escape

VERDICTS = {
    "supported": "v-supported",
    "possible": "v-possible",
    "doubtful": "v-doubtful",
    "implausible": "v-implausible",
    "not attainable on this evidence": "v-not",
    "no evidence": "v-none",
    "evidence contradicts itself": "v-contra",
}
REVIEWS = ("open", "confirmed", "disputed", "remeasured")
LOOKED = ("not_looked", "not_found", "not_readable")
CHECKS = {
    "consistent": "c-consistent", "inconsistent": "c-inconsistent", "cannot tell": "c-cannot",
}
GRADES = {"meets": "g-meets", "falls short": "g-short", "cannot tell": "g-cannot"}
KINDS = ("limit", "practice", "passed", "failed", "switch")
SQUARE = "0 0 14 14"
WIDE = "0 0 24 12"


def verdict_chip(word: str) -> str:
    return _mark("mark chip", VERDICTS[word], WIDE, escape(word))


def review_mark(state: str, label: str) -> str:
    return _mark("mark sq", f"r-{state}", SQUARE, escape(label))


def looking_mark(state: str, label: str) -> str:
    """How a thing was looked for when there is no value to print."""
    return _mark(f"mark sq s-{state}", f"s-{state}", SQUARE, escape(label))


def check_mark(outcome: str) -> str:
    return _mark("mark", CHECKS[outcome], WIDE, escape(outcome))


def grade_mark(grade: str) -> str:
    return _mark("mark", GRADES[grade], WIDE, escape(grade))


def kind_mark(kind: str, contents: str) -> str:
    """A line of evidence: the drawing of its kind before its name (markup)."""
    return _mark(f"mark kind k-{kind}", f"k-{kind}", WIDE, element("span", contents))


def _mark(cls: str, symbol: str, box: str, contents: str) -> str:
    use = element("use", href=f"#{symbol}")
    return element("span", element("svg", use, viewBox=box, aria_hidden="true"), contents, cls=cls)
