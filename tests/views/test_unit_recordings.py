"""All logs of a unit, and their load curves beside those of other units."""
import pytest

from teardowns.models import Recording, Unit
from teardowns.services.recording_files import drop_channels
from tests.published import published
from tests.views.log_page import held, text_of

pytestmark = pytest.mark.django_db


def opened(unit):
    published(unit)
    return unit


@pytest.fixture
def log(alice, unit, tmp_path):
    recording = held(alice, unit, tmp_path)
    opened(unit)
    return recording


@pytest.fixture
def other(alice, tmp_path):
    unit = Unit.objects.create(contributor=alice, title="Brimholt <B3>")
    recording = held(alice, unit, tmp_path, 1.5, "other.csv")
    opened(unit)
    return recording


def address(log):
    return f"/units/{log.unit_id}/recordings/"


def test_each_log_leads_to_its_page_and_its_curve_is_drawn(client, log):
    page = text_of(client.get(address(log)))
    assert f'href="{address(log)}{log.key}/"' in page and "Load curves" in page
    assert page.count("<svg") >= 1 and "The same as a table" in page
    assert " style=" not in page and " onclick=" not in page and "<style" not in page


def test_a_unit_without_logs_says_so(client, unit):
    page = text_of(client.get(f"/units/{opened(unit).pk}/recordings/"))
    assert "No instrument’s log is kept with this unit." in page
    assert "No log shows the voltage over several loads." in page


def test_another_unit_stands_beside_under_its_name(client, log, other):
    page = client.get(address(log)).content
    assert b"Brimholt &lt;B3&gt;" in page and b"Brimholt <B3>" not in page
    page = text_of(client.get(address(log), {"with": other.unit_id}))
    assert f'<option value="{other.unit_id}" selected>' in page
    assert f"{other.unit.title}, 5.00\u202fV" in page


@pytest.mark.parametrize("asked", ["nonsense", "-1", "999999999", "9" * 40, "²"])
def test_units_that_there_are_not_are_passed_over(client, log, asked):
    assert client.get(address(log), {"with": asked}).status_code == 200


def test_what_is_not_published_is_neither_offered_nor_drawn(client, log, other):
    other.unit.status = "draft"
    other.unit.save()
    assert "Brimholt" not in text_of(client.get(address(log), {"with": other.unit_id}))
    assert client.get(address(other)).status_code == 404


def test_a_log_whose_numbers_are_lost_has_no_curve(client, log):
    drop_channels(log.channels)
    page = text_of(client.get(address(log)))
    assert "No log shows the voltage over several loads." in page and log.key in page


def test_it_costs_at_most_twelve_queries(client, alice, log, other, django_assert_max_num_queries):
    client.force_login(alice)
    for n in range(10):
        Recording.objects.create(unit=log.unit, key=f"t-{n}", kind="thermal", author=alice,
                                 sha256=f"{n:064}", received=True, channels="aa/none")
    with django_assert_max_num_queries(12):
        assert client.get(address(log), {"with": other.unit_id}).status_code == 200
