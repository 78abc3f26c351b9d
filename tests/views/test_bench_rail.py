import pytest

from teardowns.forms.sections import BY_SLUG, SECTIONS
from teardowns.models import Component, Measurement
from teardowns.services.describe_photo import take_down_photo
from teardowns.views.bench_rail import LOG, SUBMIT, rail
from tests.handing_in import remark_on

pytestmark = pytest.mark.django_db


def station(unit, slug, unsaved=()):
    stations = rail(unit, BY_SLUG["origin"], unsaved)["sections"]
    return stations[SECTIONS.index(BY_SLUG[slug])]


def test_it_counts_what_is_filled_of_each_section(unit, alice):
    Measurement.objects.create(unit=unit, key="m", quantity="mass_total", value=0.07, author=alice)
    outside = station(unit, "outside")
    assert (outside["done"], outside["total"]) == (1, 8)
    assert [cell["cls"] for cell in outside["cells"]] == ["done"] + ["todo"] * 7


def test_looked_and_not_found_counts_as_filled(unit, alice):
    before = station(unit, "mains-side")["done"]
    Component.objects.create(unit=unit, key="f", role="fuse", state="not_found", author=alice)
    assert station(unit, "mains-side")["done"] == before + 1


def test_it_marks_the_current_section_and_those_with_unsaved_text(unit):
    assert station(unit, "origin")["current"] and not station(unit, "ports")["current"]
    assert station(unit, "ports", {"ports"})["unsaved"]


def test_it_counts_the_photos_that_are_shown(unit, alice, photo):
    assert rail(unit, BY_SLUG["origin"], ())["photos"]["count"] == 1
    take_down_photo(author=alice, photo=photo, reason="A face is in it.")
    assert rail(unit, BY_SLUG["origin"], ())["photos"]["count"] == 0


def test_on_the_page_of_the_photos_they_are_the_current_station(unit):
    on_photos, on_a_section = rail(unit, None, ()), rail(unit, BY_SLUG["ports"], ())
    assert on_photos["photos"]["current"] and on_photos["here"] is None
    assert not on_a_section["photos"]["current"] and on_a_section["here"]["title"] == "Ports"


def test_it_counts_the_logs_that_are_kept_and_shows_when_it_is_on_their_page(unit, recording):
    on_logs, on_a_section = rail(unit, LOG, ()), rail(unit, BY_SLUG["ports"], ())
    assert on_logs["logs"]["count"] == on_a_section["logs"]["count"] == 1
    assert on_logs["logs"]["current"] and not on_logs["photos"]["current"]
    assert not on_a_section["logs"]["current"]


def test_it_says_how_many_remarks_wait_for_an_answer(unit, mona):
    assert rail(unit, BY_SLUG["origin"], ())["submit"]["remarks"] == ""
    remark_on(unit, mona)
    remark_on(unit, mona, ref="")
    found = rail(unit, SUBMIT, ())["submit"]
    assert found["remarks"] == "2 remarks" and found["current"]


def test_it_takes_one_query(unit, django_assert_num_queries):
    with django_assert_num_queries(1):
        rail(unit, BY_SLUG["origin"], ())
