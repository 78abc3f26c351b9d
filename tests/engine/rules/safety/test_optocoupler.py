"""The inside of an optocoupler: never decided by looking."""
import pytest

from tests.engine.rules.safety.asked import asked, grade_of


# Three test reports on chargers grade its pins as paths (6.5 mm, 10.5 mm: two of them) and leave
# its inside to the certificate of the type.
@pytest.mark.parametrize("known, expected", [
    ({"role": "optocoupler", "state": "recorded"}, "cannot tell"),
    ({"role": "optocoupler", "state": "not_readable"}, "cannot tell"),
    ({"role": "optocoupler", "state": "not_found"}, None),
    ({"role": "varistor", "state": "recorded"}, None),
])
def test_its_inside_stays_an_open_question(known, expected):
    assert grade_of("optocoupler", **known) == expected


def test_it_names_the_figure_that_would_be_asked():
    # 0.4 mm: three test reports on chargers.
    found = asked("optocoupler", role="optocoupler", state="recorded")
    assert found.low[0] == pytest.approx(0.4e-3) and found.why[0] == 1
