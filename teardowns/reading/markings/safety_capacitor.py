"""Interference-suppression capacitors, IEC 60384-14: class X1–X3 or Y1–Y4, each with its voltage.

Combined parts carry one a.c. voltage per class: `X1 400~ Y1 250~`. Which part may sit on which
barrier is no matter of reading.
"""

from __future__ import annotations

import re

from teardowns.reading.markings import written
from teardowns.reading.markings.capacitor_code import read_capacitance
from teardowns.reading.markings.decoding import Decoding
from teardowns.reading.markings.tolerance import capacitor_tolerance, read_percent

# A class stands alone or follows another one: X1, X1Y2, X1/Y2, but not the X7 of X7R.
_CLASS = re.compile(
    r"(?<![A-Z0-9])([XY][1-4])(?![0-9A-WZ])|(?<=[XY][1-4])([XY][1-4])(?![0-9A-WZ])"
)
_CLASS_WORD = re.compile(r"(?:[XY][1-4][/+&,]?)+")
_SPLIT_CLASS = re.compile(r"(?<=[XY][1-4])[:=/](?=[0-9])|(?<=[XY][1-4])(?=[0-9]{3}(?:V|~))")
_SPLIT_VOLTS = re.compile(r"(?<=[V~C])[/+,](?=[XY][1-4]|[0-9])|(?<=~)(?=[XY][1-4])")
_VOLT_LIST = re.compile(r"([0-9]{2,4})/([0-9]{2,4})(V?~|V(?:AC)?)")


def has_class(text: str) -> bool:
    return _CLASS.search(text) is not None


def decode_safety_capacitor(text: str, *, kind: str = "safety_capacitor") -> Decoding:
    found: dict = {}
    unread: list[str] = []
    ratings: list[str | float] = []  # classes and voltages in printed order
    for token in written.tokens(_separated(text)):
        read = _read_rating(token)
        if read:
            ratings += read
        elif (fields := _read_other(token, found)) is not None:
            found |= {name: value for name, value in fields.items() if name not in found}
        else:
            unread.append(token)
    classes, notes = pair_classes(ratings)
    voltages = sorted({v for _, v in classes if v is not None} or _numbers(ratings))
    if voltages:
        found |= {"rated_voltage": voltages[0], "voltage_kind": "ac"}
    if len(voltages) > 1:
        notes += ("The rated voltage shown is the lowest of those printed.",)
    # A printed class settles that the part is a capacitor.
    others = tuple(other for other in found.pop("others", ()) if other.unit == "F" or not classes)
    notes = found.pop("notes", ()) + notes
    return Decoding(
        kind, text, unit="F", others=others, safety_classes=classes, unread=" ".join(unread),
        notes=notes, **found,
    )  # fmt: skip


def _separated(text: str) -> str:
    plain = _VOLT_LIST.sub(r"\1\3 \2\3", written.plain(text))
    return _SPLIT_VOLTS.sub(" ", _SPLIT_CLASS.sub(" ", plain))


def _read_rating(token: str) -> list[str | float]:
    if _CLASS_WORD.fullmatch(token):
        return [m[1] or m[2] for m in _CLASS.finditer(token.replace("/", " ").replace("+", " "))]
    voltage = written.read_voltage(token)
    if voltage is None or voltage[1] == "dc":
        return []
    return [voltage[0]]


def _read_other(token: str, found: dict) -> dict | None:
    if (percent := read_percent(token)) is not None:
        return {"tolerance": percent}
    if token in ("AC", "~", "V~"):
        return {}
    if "value" not in found:
        return read_capacitance(token)
    if "tolerance" not in found and (letter := capacitor_tolerance(token, found["value"])):
        return {"tolerance": letter}
    return None


def _numbers(ratings: list[str | float]) -> set[float]:
    return {rating for rating in ratings if isinstance(rating, float)}


Classes = tuple[tuple[str, float | None], ...]


def pair_classes(ratings: list[str | float]) -> tuple[Classes, tuple[str, ...]]:
    """Which voltage belongs to which class; a note where the print leaves it open."""
    classes = [rating for rating in ratings if isinstance(rating, str)]
    voltages = [rating for rating in ratings if isinstance(rating, float)]
    if not classes:
        return (), ("No class (X1, X2, Y1, Y2 …) was found in this marking.",)
    if not voltages:
        return tuple((c, None) for c in classes), ("No rated a.c. voltage was found.",)
    if len(voltages) == 1:
        notes: tuple[str, ...] = ()
        if len(classes) > 1:
            notes = (f"One voltage is printed for {' and '.join(classes)}; taken for each.",)
        return tuple((c, voltages[0]) for c in classes), notes
    if len(voltages) == len(classes):
        return tuple(zip(classes, voltages, strict=True)), ()
    note = "The number of voltages does not match the number of classes: check which belongs where."
    return tuple((c, None) for c in classes), (note,)
