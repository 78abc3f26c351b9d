"""The walk through the grid, of a record that was published once."""
import pytest

from tests.core.policy_states import check_state, marked, quiet  # noqa: F401  (a fixture)
from tests.core.policy_world import PUBLIC_ONCE


@pytest.mark.django_db
@pytest.mark.parametrize("state", marked(PUBLIC_ONCE))
def test_each_person_is_answered_as_the_grid_says(state, tmp_path, quiet):  # noqa: F811
    check_state(state, tmp_path)
