"""How a reading of an invented sweep compares with its truth."""
from collections import Counter

import numpy as np

from teardowns.logs.extracted import Extracted, Told
from teardowns.logs.load_tests import read_load_test
from tests.logs.staircases import random_sweep

HELD, TRIP = 0.01, 0.02          # relative: what is asked of the readers
LEAST = 0.99                     # of what was read, right
# Of what could be read; the rest says why not. Of outputs that stay away, a plug may have been
# pulled: a power is said to be lost only beside the mains.
LEAST_READ = {"held": 0.96, "trip": 0.92, "lost": 0.75, "kind": 0.92}
# Of all logs: a plug that was pulled just when the load rose, the log going on for long.
MOST_FALSE = {"held": 0.0, "trip": 0.005, "lost": 0.0, "kind": 0.005}


def score(sweep):
    """{what was asked: "right" | "wrong" | "unread" | "silent" | "false"} of one sweep."""
    found = {one.code: one for one in read_load_test(sweep.channels, sweep.conditions)}
    truth, port, bench = sweep.truth, sweep.notes["port"], sweep.notes["bench"]
    digit = bench.digit_i / 2 * port.nominal             # the file holds no more
    scores = {"held": _number(found["sustained_power"], truth.held, lambda value: abs(
        value - truth.held) <= HELD * truth.held + digit)}
    scores["trip"] = _number(found["overcurrent_point"], truth.last_good, lambda value: abs(
        value - truth.last_good) <= TRIP * truth.last_good + bench.digit_i / 2)
    lost = found["failed_power"]
    # Nothing that the port did give may be said to have been lost.
    scores["lost"] = _number(lost, truth.trip, lambda value: value + 2 * lost.uncertainty >= (
        truth.last_good * port.nominal))
    scores["kind"] = _word(found["after_limit"], truth.kind)
    return scores


def _number(found, truth, is_right):
    if not isinstance(found, Extracted):
        return "unread" if truth else "silent"
    if truth is None:
        return "false"
    return "right" if is_right(found.value) else "wrong"


def _word(found, truth):
    if not isinstance(found, Told):
        return "unread" if truth else "silent"
    return "false" if not truth else "right" if found.word == truth else "wrong"


def scores_of(seeds):
    """{what was asked: Counter}, and the seeds of whatever was not right."""
    counts, missed = {}, {}
    for seed in seeds:
        for asked, result in score(random_sweep(np.random.default_rng(seed))).items():
            counts.setdefault(asked, Counter())[result] += 1
            if result not in ("right", "silent"):
                missed.setdefault((asked, result), []).append(seed)
    return counts, missed


def shares(count):
    """(right among what was read, read among what could be)"""
    read = count["right"] + count["wrong"]
    return count["right"] / max(read, 1), read / max(read + count["unread"], 1)


def is_enough(asked, count):
    """Whether the readers do what is asked of them."""
    right, read = shares(count)
    return (right >= LEAST and read >= LEAST_READ[asked]
            and count["false"] <= MOST_FALSE[asked] * count.total())
