"""Which way a rule may answer when one thing alone grows."""
import numpy as np

from teardowns.engine import rulebook
from tests.engine.rules.safety.any_inputs import random_inputs, run

SIZE = 4000


def grades_as_grows(name, column, factor=1.3, least=0.0):
    """(m,) grades by safety/`name` before and after one column of random subjects, of at least so
    much, grew."""
    before, after = _as_grows(name, column, factor, SIZE, least)
    # Beyond the tables nothing is required as far as it is known.
    both = before.applies & after.applies & (np.isnan(before.low) | ~np.isnan(after.low))
    return before.grade[both], after.grade[both]


def known_grades_as_grows(name, column, factor=1.3):
    """As above, where length and requirement are known before and after alike."""
    before, after = _as_grows(name, column, factor, 8 * SIZE)
    both = before.applies & after.applies & (before.why == 0) & (after.why == 0)
    both &= ~np.isnan(before.high) & ~np.isnan(after.high)
    assert (before.grade[both] != after.grade[both]).any(), "nothing changed: nothing was tested"
    return before.grade[both], after.grade[both]


def _as_grows(name, column, factor, size, least=0.0):
    rule = rulebook.load()[f"safety/{name}"]
    inputs = random_inputs(rule, np.random.default_rng(sum(map(ord, name + column))), size)
    inputs[column] = np.fmax(inputs[column], least)
    return run(rule, inputs), run(rule, {**inputs, column: factor * inputs[column]})


def more_is_never_worse(name, column, factor=1.3, least=0.0):
    before, after = grades_as_grows(name, column, factor, least)
    assert (after >= before).all()
    assert (after > before).any(), "nothing changed: nothing was tested"


def more_is_never_better(name, column, factor=1.3):
    before, after = grades_as_grows(name, column, factor)
    assert (after <= before).all()
    assert (after < before).any(), "nothing changed: nothing was tested"
