"""When two people change one thing: the second hears of it, and both texts are kept."""
from collections.abc import Mapping
from typing import Any


class Stale(Exception):
    """What was to be changed has changed since the page was drawn; nothing was saved.

    `current` has the text of each field as it stands now, `version` what to send with another try.
    """

    def __init__(self, current: Mapping[str, Any], version: int | None = None) -> None:
        super().__init__("It was changed elsewhere in the meantime.")
        self.current = {name: _text(value) for name, value in current.items()}
        self.version = version


def both_texts(stale: Stale, typed: Mapping[str, Any],
               labels: Mapping[str, str]) -> list[dict[str, str]]:
    """For `core/_stale.html`: the fields that differ, in the order of their labels."""
    return [
        {"label": label, "yours": yours, "current": stale.current[name]}
        for name, label in labels.items() if name in stale.current
        if not _same(yours := _text(typed.get(name)), stale.current[name])
    ]


def _text(value):
    return "" if value is None else str(value)


def _same(one, other):
    """A browser ends lines by CR LF and a form strips what surrounds a text."""
    return one.replace("\r\n", "\n").strip() == other.replace("\r\n", "\n").strip()
