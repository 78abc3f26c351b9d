from types import SimpleNamespace

from teardowns.engine.quantities import QUANTITIES
from teardowns.models import Role, State
from teardowns.presenting.looked_states import READ_FROM, looked_states


def row(state, **fields):
    fields = {"bound_kind": ""} | fields
    return SimpleNamespace(state=state, get_state_display=lambda: State(state).label, **fields)


def test_a_quantity_without_value_tells_how_it_was_looked_for():
    found = looked_states([row("not_readable", quantity="mass_total")], [])
    assert found == {"mass_total": "not readable"}


def test_a_limit_is_no_value_and_more_than_nothing():
    found = looked_states([row("not_readable", quantity="mass_total", bound_kind="above")], [])
    assert found == {"mass_total": "known only as a limit"}


def test_the_state_of_a_part_is_that_of_what_is_read_from_it():
    found = looked_states([], [row("not_readable", role="primary_controller")])
    assert found["controller_power_wide"] == "not readable"


def test_a_measurement_says_more_than_the_part():
    found = looked_states([row("not_looked", quantity="bulk_capacitance")],
                          [row("not_readable", role="bulk_capacitor")])
    assert found["bulk_capacitance"] == "not looked"
    assert found["bulk_capacitance_marked"] == "not readable"


def test_recorded_rows_have_nothing_to_tell():
    assert looked_states([row("recorded", quantity="mass_total")], []) == {}


def test_the_table_of_parts_speaks_of_what_exists():
    assert set(READ_FROM) <= set(QUANTITIES)
    assert set(READ_FROM.values()) <= set(Role.values)
