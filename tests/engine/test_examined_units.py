"""What was worked out for many units is told of each as if it had been examined alone."""
import json
from functools import cache

import numpy as np
import pytest

from teardowns.engine.explain import explain
from teardowns.engine.judging import ENDS
from teardowns.engine.pipeline import examine_unit
from teardowns.engine.report import report
from tests.engine.test_pipeline import any_unit, assessed, random_unit

UNITS = [*(random_unit(np.random.default_rng(seed)) for seed in range(20)),
         *(any_unit(np.random.default_rng(seed)) for seed in range(5)), ([], [])]
PLACES = range(0, len(UNITS), 5)


@cache
def together():
    return assessed(UNITS)


@pytest.mark.parametrize("place", PLACES)
def test_a_report_among_others_is_to_the_bit_that_of_the_unit_alone(place):
    # Rows are numbered on from unit to unit, so that only their names may differ.
    among, alone = report(together(), place), report(assessed([UNITS[place]]), 0)
    assert json.dumps(without_names(among)) == json.dumps(without_names(alone))


@pytest.mark.parametrize("place", PLACES[:3])
def test_each_line_is_explained_as_of_the_unit_alone(place):
    alone = assessed([UNITS[place]])
    for rule in alone.rulebook.lines:
        for end in ENDS:
            assert json.dumps(without_names(explain(together(), place, rule.id, end))
                              ) == json.dumps(without_names(explain(alone, 0, rule.id, end)))


def test_each_unit_has_its_own_cases_and_claims():
    whole = together()
    for place in range(len(UNITS)):
        examined, mine = examine_unit(whole, place)
        assert len(examined.cases.of_claim) == len(mine) == len(UNITS[place][1])
        assert set(examined.cases.of_claim) <= set(range(len(examined.cases.unit)))
        assert (whole.claims.row[mine] == place).all()


def without_names(node):
    if isinstance(node, dict):
        return {key: without_names(value) for key, value in node.items()
                if key not in ("evidence", "ref", "claim")}
    return [without_names(item) for item in node] if isinstance(node, list) else node
