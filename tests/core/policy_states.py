"""One state of the walk through the grid, asked as everybody."""
import logging

import pytest

from tests.core.policy_expected import PEOPLE, STATES
from tests.core.policy_walk import GRID, client_of, differences, read_grid
from tests.core.policy_world import world_in

PLAIN_IN = "published"       # the state in which is asked what hangs on none
ON_BOTH = (PLAIN_IN, "in_review")      # states that are asked on both databases


@pytest.fixture
def quiet():
    """Thousands of refusals are no news."""
    logging.disable(logging.CRITICAL)
    yield
    logging.disable(logging.NOTSET)


def marked(states):
    return [pytest.param(state, marks=() if state in ON_BOTH else pytest.mark.grid)
            for state in states]


def asked_in(state):
    _, _, lines = read_grid(GRID.read_text("utf-8"))
    return [line for line in lines if line.varies or state == PLAIN_IN]


def check_state(state, folder):
    world = world_in(state, folder)
    clients = {who: client_of(who, world) for who in PEOPLE}
    found = list(differences(world, clients, asked_in(state), STATES.index(state)))
    assert not found, "\n".join(found)
