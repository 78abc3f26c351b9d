"""The numbers of a log for those who see its unit: no more than the columns that are used."""
import json

import pytest

from teardowns.models import Recording
from teardowns.services.photo_files import original_name
from teardowns.services.recording_files import drop_channels
from tests.published import published
from tests.views.log_page import held, public

pytestmark = pytest.mark.django_db
PARTS = ("window.json", "values.csv", "chart.svg", "")


@pytest.fixture
def log(alice, unit, tmp_path):
    unit.status = "draft"
    unit.save()
    recording = held(alice, unit, tmp_path, name="Q. Privately, serial 4711.csv")
    published(unit)
    return recording


def content(response):
    return b"".join(response) if response.streaming else response.content


def window(client, log, **asked):
    response = client.get(public(log, "window.json"), asked)
    return response.status_code, json.loads(response.content)


def test_a_window_holds_what_lies_between_two_times(client, log):
    status, told = window(client, log, **{"from": "100", "to": "110"})
    assert (status, told["all"], told["rows"], told["last"]) == (200, True, 400, 1995.0)
    # A row every 5 s, and the neighbours that the lines run to.
    assert told["time"] == [95.0, 100.0, 105.0, 110.0, 115.0]
    assert [each["unit"] for each in told["channels"]] == ["V", "A"]


def test_without_ends_it_is_the_whole_log_and_backwards_is_the_same(client, log):
    assert window(client, log)[1]["from"] == 0.0
    assert window(client, log, **{"from": "110", "to": "100"}) == window(
        client, log, **{"from": "100", "to": "110"})


@pytest.mark.parametrize("points", ["1", "-5", "0", "999999999"])
def test_odd_numbers_of_points_are_drawn_in(client, log, points):
    status, told = window(client, log, points=points)
    assert status == 200 and 0 < len(told["time"]) <= 410


@pytest.mark.parametrize("asked", [
    {"from": "soon"}, {"to": "nan"}, {"from": "inf"}, {"points": "many"}, {"points": "2.5"},
    {"points": "9" * 5000}, {"from": "1" * 400}])
def test_what_is_no_number_is_400_in_words(client, log, asked):
    status, told = window(client, log, **asked)
    assert status == 400 and "write numbers" in told["message"]


@pytest.mark.parametrize("ends", [("-1e300", "1e300"), ("5000", "6000"), ("-9", "-8"),
                                  ("100", "100")])
def test_a_window_beside_the_log_is_no_fault(client, log, ends):
    status, told = window(client, log, **dict(zip(("from", "to"), ends, strict=True)))
    assert status == 200 and len(told["time"]) == len(told["channels"][0]["values"])


def test_the_values_are_every_sample_of_the_columns_that_are_used(client, log):
    response = client.get(public(log, "values.csv"))
    lines = content(response).decode("utf-8-sig").splitlines()
    assert response.headers["Content-Type"].startswith("text/csv") and len(lines) == 401
    assert lines[-1].split(",")[0] in ("1995", "1995.0") and len(lines[-1].split(",")) == 3


def test_the_drawing_stands_alone(client, log):
    response = client.get(public(log, "chart.svg"))
    assert response.headers["Content-Type"] == "image/svg+xml"
    assert response.content.startswith(b"<svg") and b" style=" not in response.content


@pytest.mark.parametrize("part", PARTS)
def test_nothing_else_of_the_file_is_shown(client, log, part):
    told = content(client.get(public(log, part)))
    assert b"Privately" not in told and b"Operator" not in told and b"4711" not in told


def test_not_even_its_name_stands_in_the_list(client, log):
    told = client.get(f"/units/{log.unit_id}/recordings/").content
    assert log.key.encode() in told and b"4711" not in told


def test_the_file_as_it_came_in_is_for_who_sent_it(client, alice, mona, bob,
                                                                      rita, log):
    for person, status in ((None, 404), (bob, 404), (rita, 404), (mona, 404), (alice, 200)):
        if person:
            client.force_login(person)
        response = client.get(public(log, "original/"))
        if person:
            assert response.status_code == status
        else:
            assert response.status_code in (302, 404)
    assert b"Q. Privately" in content(response)
    assert "attachment" in response.headers["Content-Disposition"]
    assert {"private", "no-store"} <= set(response.headers["Cache-Control"].split(", "))


def test_an_original_that_is_lost_is_not_found(client, alice, log, settings, tmp_path):
    client.force_login(alice)
    (tmp_path / "originals" / original_name(log.sha256)).unlink()
    assert client.get(public(log, "original/")).status_code == 404


@pytest.mark.parametrize("part", PARTS)
def test_numbers_that_are_lost_are_not_found(client, log, part):
    client.get(public(log))                       # results are kept, the channels go
    drop_channels(log.channels)
    assert client.get(public(log, part)).status_code == 404


@pytest.mark.parametrize("part", PARTS)
def test_a_log_is_seen_by_those_who_see_its_unit(client, alice, bob, mona, log, part):
    assert client.get(public(log, part)).status_code == 200
    log.unit.status = "submitted"
    log.unit.save()
    assert client.get(public(log, part)).status_code == 404
    for person, status in ((bob, 404), (alice, 200), (mona, 200)):
        client.force_login(person)
        assert client.get(public(log, part)).status_code == status


@pytest.mark.parametrize("part", PARTS)
def test_a_log_that_was_taken_down_is_gone(client, log, part):
    Recording.objects.update(taken_down_at=log.created_at)
    assert client.get(public(log, part)).status_code == 404


@pytest.mark.parametrize("part", PARTS)
def test_each_costs_at_most_twelve_queries(client, alice, log, part,
                                           django_assert_max_num_queries):
    client.force_login(alice)
    with django_assert_max_num_queries(12):
        content(client.get(public(log, part)))
