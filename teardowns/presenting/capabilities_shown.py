"""A list of capabilities in plain words, and what the rules for such lists say of it."""
from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from teardowns.engine.physics.power_objects import read_list
from teardowns.engine.physics.source_rules import examine_list
from teardowns.logs.capabilities import ORDERS, Capabilities, Mode
from teardowns.reading.quantity import print_interval, print_quantity

from .advertised import advertised_words

SCHEMES = {"fixed": "", "programmable": "programmable", "adjustable": "adjustable",
           "battery": "battery", "variable": "variable", "range": "a range, of what kind is not "
           "said", "data_lines": "asked for over the data lines"}
NOT_COUNTED = ("Only fixed modes of a list count as advertised. What is asked for over the data "
               "lines, or lies in a range, is kept with the text: measure whether it is given.")


def capabilities_shown(found: Capabilities) -> dict[str, Any]:
    """Context of the page: words and modes in sentences, remarks of the rules, lines unread."""
    words = [int(word, 16) for word in found.words]
    rules = [finding.sentence for finding in examine_list(read_list(words))] if words else []
    counts = all(mode.scheme == "fixed" for mode in found.modes)
    return {
        "words": advertised_words(found.words), "modes": [_mode(mode) for mode in found.modes],
        "rules": rules, "remark": "" if counts else NOT_COUNTED,
        "unread": [{"line": row.line, "text": row.text[:80]} for row in found.unread],
    }


def shown_orders(readings: Mapping[str, Sequence[str]]) -> list[dict[str, Any]]:
    """The list under each order of bytes, to choose between."""
    return [{"value": order, "label": ORDERS[order], "words": advertised_words(read)}
            for order, read in readings.items()]


def _mode(mode: Mode) -> str:
    volts = (print_quantity(mode.voltage, "V") if mode.low is None
             else print_interval(mode.low, mode.voltage, "V"))
    amperes = [] if mode.current is None else [print_quantity(mode.current, "A")]
    watts = [] if mode.power is None else [print_quantity(mode.power, "W")]
    return ", ".join(filter(None, [" ".join([volts, *amperes, *watts]), SCHEMES[mode.scheme]]))
