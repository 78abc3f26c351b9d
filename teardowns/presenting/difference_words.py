"""One field of a row before and after, in the words and digits of the unit page."""
from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from difflib import SequenceMatcher
from typing import Any

from django.utils.safestring import SafeString, mark_safe

from core.words.as_written import AsWritten
from teardowns.engine.quantities import QUANTITIES
from teardowns.exchange.changes import RowChange
from teardowns.exchange.rules import CITES
from teardowns.figures.markup import element, escape
from teardowns.models import State, UncertaintyKind
from teardowns.reading.bounds import SIGNS
from teardowns.reading.quantity import print_quantity

from .advertised import advertised_words
from .difference_names import choice_label, field_label, field_unit, name_in
from .evidence_cells import SPREADS, limit_text, slot_size
from .evidence_names import quantity_label
from .numbers import THIN, as_recorded, printed, with_unit
from .record_foot import digest_text

NOT_STATED = "not stated"
# Told together.
VALUE = ("state", "value", "uncertainty", "uncertainty_kind", "bound", "bound_kind")
VALUED = ("insulation", "measurements")
TEXTS = {"text", "note", "notes", "condition", "caption", "alt", "place", "title"}
LOOKED = {"not_looked": "not looked at", "not_found": "looked for and not found",
          "not_readable": "not readable"}
OTHER_FILE = "another file of the same name"


@dataclass(frozen=True, slots=True)
class Line:
    label: str
    was: str | SafeString
    now: str | SafeString


def lines_of(change: RowChange, was: Mapping[str, Any], now: Mapping[str, Any]) -> list[Line]:
    """What moved in a row; of an added or removed one all that it states."""
    moved = [field.name for field in change.fields]
    return [*_value_line(change, moved),
            *(_line(change.list, name, change.was or {}, change.now or {}, was, now)
              for name in _told(change, moved))]


def unit_lines(moved: list[str], was: Mapping[str, Any], now: Mapping[str, Any]) -> list[Line]:
    return [_line("", name, was["unit"], now["unit"], was, now) for name in moved]


def _told(change, moved) -> Iterator[str]:
    whole = change.was is None or change.now is None
    for name in moved:
        if change.list in VALUED and name in VALUE:
            continue
        if not (whole and (name == "key" or _says_nothing(change, name))):
            yield name


def _says_nothing(change, name):
    """Whether a whole row leaves this field at what nobody has to be told."""
    value = (change.now or change.was).get(name)
    return (value in ("", None, [], {}) or (name == "state" and value == State.RECORDED)
            or (name == "all_ports" and not value))


def _value_line(change, moved) -> Iterator[Line]:
    if change.list in VALUED and set(VALUE) & set(moved):
        before, after = (_value(change.list, row) for row in (change.was, change.now))
        if before == after:
            before, after = (_exact(change.list, row) for row in (change.was, change.now))
        yield Line("Value", before, after)


def _value(rows, row) -> str:
    """`15.2 ± 0.3 µF, k = 1`; how it was looked for where there is none."""
    if row is None:
        return ""
    if row.get("bound_kind"):
        return limit_text(row["bound_kind"], row["bound"], field_unit(rows, "value", row))
    if row.get("value") is None:
        return LOOKED.get(row["state"], NOT_STATED)
    quantity = QUANTITIES.get(row.get("quantity", ""))
    if quantity is not None and quantity.is_flag:
        return "present" if row["value"] else "absent"
    unit = field_unit(rows, "value", row)
    if row.get("uncertainty") is None:
        return f"{as_recorded(row['value'], unit)}, uncertainty {NOT_STATED}"
    shown = print_quantity(row["value"], unit, uncertainty=row["uncertainty"])
    return f"{shown}, {SPREADS[row['uncertainty_kind']]}"


def _exact(rows, row) -> str:
    """Every digit, where rounding hides the difference."""
    unit = field_unit(rows, "value", row)
    if row.get("bound_kind"):
        return f"{SIGNS[row['bound_kind']]} {_digits(row['bound'], unit)}"
    spread = row.get("uncertainty")
    kind = UncertaintyKind(row["uncertainty_kind"]).label
    return f"{_digits(row.get('value'), unit)} ± {_digits(spread, unit)}, {kind}"


def _digits(value, unit):
    return NOT_STATED if value is None else with_unit(repr(value), unit if unit != "1" else "")


def _line(rows, name, old, new, was, now) -> Line:
    before = _words(rows, name, old, was) if old else ""
    after = _words(rows, name, new, now) if new else ""
    if before == after and old and new:
        before, after = _told_apart(name, old.get(name), new.get(name), before)
    elif name in TEXTS and old.get(name) and new.get(name):
        before, after = _marked(old[name], new[name])
    return Line(field_label(name), before, after)


def _told_apart(name, before, after, words):
    """Two values that print alike: in full, or said to be another file."""
    if before == after:
        return words, OTHER_FILE
    return repr(before), repr(after)


def _marked(before: str, after: str) -> tuple[SafeString, SafeString]:
    """Both texts, with the words struck out that went and those marked that came."""
    old, new = before.split(" "), after.split(" ")
    struck, came = [], []
    for step, a, b, c, d in SequenceMatcher(None, old, new, autojunk=False).get_opcodes():
        gone, fresh = escape(" ".join(old[a:b])), escape(" ".join(new[c:d]))
        struck += [gone if step == "equal" else element("del", gone)] if gone else []
        came += [fresh if step == "equal" else element("ins", fresh)] if fresh else []
    return mark_safe(" ".join(struck)), mark_safe(" ".join(came))


def _words(rows: str, name: str, row: Mapping[str, Any], document: Mapping[str, Any]) -> str:
    value = row.get(name)
    if name in CITES and (rows, name) != ("claims", "port") and value:
        return _cited(CITES[name], value, document)
    if (label := choice_label(rows, name, value)) is not None:
        return label
    if value in ("", None, [], {}):
        return NOT_STATED
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, list | dict):
        return _of_several(name, value)
    return _one(rows, name, value, row)


def _one(rows, name, value, row):
    if name == "quantity":
        return quantity_label(value)
    if isinstance(value, str):
        return digest_text(value) if name == "sha256" else AsWritten(value)
    if name == "tolerance":
        return f"±{THIN}{with_unit(printed(value * 100), '%')}"
    if name == "turns":
        return with_unit(printed(value), "turns")
    if name == "price":
        return f"{value:.2f}{THIN}{row.get('currency', '')}".rstrip()
    if isinstance(value, int):
        return str(value)
    return as_recorded(value, field_unit(rows, name, row))


def _of_several(name, value) -> str:
    if name == "advertised":
        return "; ".join(advertised_words(value))
    if name == "limits":
        return "; ".join(_limit(one) for one in value)
    if name == "slot":
        return ", ".join(slot_size(key, size) for key, size in value.items())
    if name == "extracted":
        return ", ".join(f"{quantity_label(code)} {_in_unit(code, number)}"
                         for code, number in value.items())
    return ", ".join(f"{key}: {text}" for key, text in value.items())


def _limit(one):
    return (f"{quantity_label(one['quantity'])} {_in_unit(one['quantity'], one['value'])} "
            f"({one['citation']})")


def _in_unit(code, number):
    quantity = QUANTITIES.get(code)
    return as_recorded(number, quantity.unit if quantity else "1")


def _cited(target, key, document):
    row = next((one for one in document[target]
                if one["marking" if target == "parts" else "key"] == key), None)
    return AsWritten(key) if row is None else name_in(target, row, document)
