"""Every address × method × person × state answers as the grid says, and a refusal writes nothing.

The grid is expanded from `policy_expected.py`, which is written from the matrix and not from the
code: `python -m tests.core.policy_expected > tests/core/policy_grid.txt`. What was published once
is asked in a file of its own, so that workers share the walk.
"""
import pytest

from core.policy import POLICY
from tests.core.policy_expected import ADDRESSES, PEOPLE, STATES, grid
from tests.core.policy_states import asked_in, check_state, marked, quiet  # noqa: F401  (a fixture)
from tests.core.policy_walk import GRID
from tests.core.policy_world import PUBLIC_ONCE


def test_the_grid_is_what_the_table_of_actions_comes_to():
    assert GRID.read_text("utf-8") == grid()


def test_every_address_and_method_has_its_line_and_no_other():
    stated = {(name, method) for name, methods in POLICY.items() for method in methods}
    said = {(name, method) for name, methods in ADDRESSES.items() for method in methods}
    assert said == stated


def test_it_asks_at_least_five_thousand_times():
    assert sum(len(asked_in(state)) for state in STATES) * len(PEOPLE) >= 5000


@pytest.mark.django_db
@pytest.mark.parametrize("state", marked(state for state in STATES if state not in PUBLIC_ONCE))
def test_each_person_is_answered_as_the_grid_says(state, tmp_path, quiet):  # noqa: F811
    check_state(state, tmp_path)
