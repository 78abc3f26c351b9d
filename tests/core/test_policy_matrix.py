"""Every address × method × person × state answers as the grid says, and a refusal writes nothing.

The grid is expanded from `policy_expected.py`, which is written from the matrix and not from the
code: `python -m tests.core.policy_expected > tests/core/policy_grid.txt`.
"""
import logging

import pytest

from core.policy import POLICY
from tests.core.policy_expected import ADDRESSES, PEOPLE, STATES, grid
from tests.core.policy_walk import GRID, client_of, differences, read_grid
from tests.core.policy_world import world_in

PLAIN_IN = "published"       # the state in which is asked what hangs on none


@pytest.fixture
def quiet():
    """Thousands of refusals are no news."""
    logging.disable(logging.CRITICAL)
    yield
    logging.disable(logging.NOTSET)


def asked_in(state):
    _, _, lines = read_grid(GRID.read_text("utf-8"))
    return [line for line in lines if line.varies or state == PLAIN_IN]


def test_the_grid_is_what_the_table_of_actions_comes_to():
    assert GRID.read_text("utf-8") == grid()


def test_every_address_and_method_has_its_line_and_no_other():
    stated = {(name, method) for name, methods in POLICY.items() for method in methods}
    said = {(name, method) for name, methods in ADDRESSES.items() for method in methods}
    assert said == stated


def test_it_asks_at_least_five_thousand_times():
    assert sum(len(asked_in(state)) for state in STATES) * len(PEOPLE) >= 5000


@pytest.mark.django_db
@pytest.mark.parametrize("state", STATES)
def test_each_person_is_answered_as_the_grid_says(state, tmp_path, quiet):
    world = world_in(state, tmp_path)
    clients = {who: client_of(who, world) for who in PEOPLE}
    found = list(differences(world, clients, asked_in(state), STATES.index(state)))
    assert not found, "\n".join(found)
