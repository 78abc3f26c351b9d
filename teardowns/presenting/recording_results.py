"""What was read out of a log, as a page shows it: value, span, working, and the row it went to."""
from __future__ import annotations

from collections.abc import Mapping, Sequence
from math import sqrt
from typing import Any

from teardowns.figures.lanes import letter
from teardowns.reading.quantity import print_quantity

COVERED = 2          # expanded uncertainty, 95 %
PERCENT = 100


def shown_results(results: Sequence[Mapping[str, Any]], taken: Mapping[str, Mapping[str, Any]]
                  ) -> dict[str, list[dict[str, Any]]]:
    """`read`: numbers and words in their order; `unread`: what the log does not show, and why.

    results : as stored with the recording; taken : by name, the row of evidence it went into
    """
    placed = [result for result in results if result["kind"] != "unread"]
    read = [(_number(result, taken.get(result["name"])) if result["kind"] == "number"
             else _word(result)) | {"letter": letter(i)} for i, result in enumerate(placed)]
    return {"read": read, "unread": [
        {"name": result["name"], "anchor": _anchor(result["name"]), "label": result["label"],
         "why": result["why"], "taken": taken.get(result["name"])}
        for result in results if result["kind"] == "unread"]}


def _number(result, row):
    return _placed(result) | {
        "value": print_quantity(result["value"], result["unit"],
                                uncertainty=COVERED * result["uncertainty"]),
        "budget": _budget(result), "taken": row, "conditions": _conditions(result["conditions"]),
    }


def _word(result):
    return _placed(result) | {"value": result["says"], "is_word": True, "budget": [],
                              "taken": None, "conditions": ""}


def _placed(result):
    start, end, name = result["start"], result["end"], result["name"]
    return {"name": name, "anchor": _anchor(name), "label": result["label"],
            "span": span_text(start, end), "working": list(result["working"]),
            # To the last digit for the machine, as a person would type it for the person.
            "start": repr(start), "end": repr(end),
            "start_typed": f"{start:.9g}", "end_typed": f"{end:.9g}"}


def _anchor(name):
    return name.replace("#", "-")


def span_text(start: float, end: float) -> str:
    """ "12.0 to 22.0 min": where in the log; one time where both are the same."""
    if start == end:
        return f"at {print_quantity(start, 's', digits=4)}"
    return (f"from {print_quantity(start, 's', digits=4)} to "
            f"{print_quantity(end, 's', digits=4)}")


def _budget(result):
    """Sources of error, the largest first; those below a thousandth of the variance left out."""
    shares = sorted(result["budget"], key=lambda part: -abs(part[1]))
    variance = sum(share ** 2 for _, share in shares)
    return [{"name": name, "share": print_quantity(abs(share), _difference(result["unit"]),
                                                   digits=2),
             "part": f"{PERCENT * share ** 2 / variance:.0f} %"}
            for name, share in shares if abs(share) > sqrt(variance) / 30]


def _difference(unit):
    """The unit of a difference of two values."""
    return "K" if unit == "°C" else unit


CONDITION_WORDS = {"output_voltage": ("at", "V"), "duration": ("held for", "s"),
                   "mains_voltage": ("mains", "V"), "mains_frequency": ("mains", "Hz"),
                   "ambient": ("air of", "°C")}


def _conditions(stated):
    return ", ".join(f"{words} {print_quantity(stated[name], unit)}"
                     for name, (words, unit) in CONDITION_WORDS.items() if name in stated)
