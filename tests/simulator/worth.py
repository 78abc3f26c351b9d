"""By how much each line of evidence helps: its weights, and the Brier score without it."""
from dataclasses import dataclass, replace

import numpy as np

from teardowns.engine import rulebook

from .scores import share
from .trial import join, run


@dataclass(frozen=True, slots=True)
class Worth:
    line: str
    seen: float             # share of the claims that it speaks of
    met: float              # mean weight for claims that are met, decibans
    not_met: float          # … that are not
    brier: float            # by how much the score gets worse without it
    condemned: float        # share of met claims with p < 0.1 without it
    reliability: float      # largest error without it


def weigh_lines(n, seed, regimes, only=None):
    """Every line, or those of `only`, that speaks of any drawn claim; one draw for all."""
    book = rulebook.load()
    whole = _trial(n, seed, regimes, book)
    mine, base = whole.of((0, 1)), whole.score().brier
    for k, rule in enumerate(book.lines):
        weight = whole.weights[mine, k]
        spoken, met = ~np.isnan(weight), whole.met[mine]
        if spoken.any() and (only is None or rule.id in only):
            left = _trial(n, seed, regimes, without(book, rule)).score()
            yield Worth(rule.id, share(spoken), share(weight[spoken & met]),
                        share(weight[spoken & ~met]), left.brier - base, left.condemned,
                        left.reliability_error)


def without(book, rule):
    """The rulebook less one line."""
    return replace(book, power=tuple(one for one in book.power if one is not rule),
                   voltage=tuple(one for one in book.voltage if one is not rule))


def _trial(n, seed, regimes, book):
    return join([run(n, seed + k, regime, book=book) for k, regime in enumerate(regimes)])
