"""Logs of demo units come in as any log does, and the rows they agree with name them."""
import pytest

from teardowns.drawing.logs.logs_of import logs_of
from teardowns.models import Measurement, Recording, State
from teardowns.services.draw_demo_logs import draw_demo_logs, keep_logs
from tests.drawing.units import demo

pytestmark = pytest.mark.django_db


@pytest.fixture
def held(unit, alice):
    """The row of the demo document that its first sweep stands behind."""
    return Measurement.objects.create(
        unit=unit, author=alice, key="held-110v", quantity="sustained_power", value=3.5,
        uncertainty=0.035, uncertainty_kind="standard", state=State.RECORDED)


def sweep():
    return next(log for log in logs_of(demo("23")) if log.key == "sweep-1")


def test_a_log_is_read_to_its_end_and_said_to_be_made(unit, held):
    keep_logs(unit, [sweep()])
    recording = Recording.objects.get(unit=unit)
    assert recording.is_shown and recording.generated and recording.rows > 900


def test_the_row_that_agrees_names_its_log(unit, held):
    keep_logs(unit, [sweep()])
    held.refresh_from_db()
    reading = held.recording.readings.get()
    assert (reading.shows, reading.code) == ("measurement/held-110v", "sustained_power")
    assert reading.value == pytest.approx(3.5, rel=0.01)
    assert held.history.first().history_change_reason == "The log behind it"


def test_a_row_that_disagrees_is_left_alone(unit, held):
    Measurement.objects.filter(pk=held.pk).update(value=9.0)
    keep_logs(unit, [sweep()])
    held.refresh_from_db()
    assert held.recording is None


def test_units_that_have_logs_are_passed_over(unit, held):
    uid = demo("23")["unit"]["uid"]
    type(unit).objects.filter(pk=unit.pk).update(uid=uid)
    keep_logs(unit, [sweep()])
    assert list(draw_demo_logs()) == []
