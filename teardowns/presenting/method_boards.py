"""How boards are held against each other and what a family lends, with the constants of both."""
from __future__ import annotations

from collections.abc import Iterable

from django.utils.safestring import mark_safe

from teardowns.engine.mathml import EQ, PLUS, equation, fn, frac, row, sym
from teardowns.exchange.inheritable import INHERITABLE, SAME_TYPE
from teardowns.exchange.inherited import CONTRADICTS
from teardowns.likeness.compare import (
    AGAINST,
    COMMON_SIGN,
    NEAR,
    PICTURE_FOR,
    SIGN_AGAINST,
    WIDE,
)
from teardowns.likeness.sentences import slot_name

from .evidence_names import quantity_label

THIN = "\u202f"
_F, _A, _N = sym("F"), sym("A"), sym("N")
RARITY = mark_safe(equation(sym("w"), EQ, fn("ln", frac(_N, sym("n")))))
SCORE = mark_safe(equation(
    sym("S"), EQ, frac(_F, row(_F, PLUS, _A, PLUS, fn("ln", _N)))))


def boards_chapter() -> dict:
    return {
        "rarity": RARITY, "score": SCORE,
        "against": [(f"{weight:g}", names) for weight, names in _by_number(
            (weight, slot_name(slot)) for slot, weight in AGAINST.items())],
        "sign_against": f"{SIGN_AGAINST:g}", "common_sign": f"{COMMON_SIGN:g}",
        "picture_for": f"{PICTURE_FOR:g}", "near": NEAR, "wide": f"{WIDE:g}",
        "lent": [(f"{100 * share:g}{THIN}%", names) for share, names in _by_number(
            (one.share, quantity_label(one.code)) for one in INHERITABLE.values())],
        "same_type": f"{100 * SAME_TYPE:g}{THIN}%", "contradicts": f"{CONTRADICTS:g}",
    }


def _by_number(pairs: Iterable[tuple[float, str]]) -> list[tuple[float, list[str]]]:
    """The names of each number, the largest number first."""
    found: dict[float, list[str]] = {}
    for number, name in pairs:
        found.setdefault(number, []).append(name)
    return sorted(found.items(), reverse=True)
