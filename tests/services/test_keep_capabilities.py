"""A list of capabilities: the text first, then the rows that name it, all or nothing of them."""
import pytest
from django.http import Http404

from teardowns.logs.capabilities import read_capabilities
from teardowns.models import Measurement, Port, Recording
from teardowns.services.keep_capabilities import advertised_by_modes, keep_capabilities
from teardowns.services.save_section import StaleRows

pytestmark = pytest.mark.django_db
WORDS = "0A01912C\n0002D12C"


@pytest.fixture
def port(alice, unit):
    return Port.objects.create(unit=unit, author=alice, key="c1", label="C1")


def kept(alice, unit, text=WORDS, version=1, port="c1"):
    return keep_capabilities(contributor=alice, unit_pk=unit.pk, port=port, version=version,
                             text=text, instrument="Analyser 2", found=read_capabilities(text))


def test_the_words_stand_at_the_port_with_their_text_behind(alice, unit, port):
    saved = kept(alice, unit)
    port.refresh_from_db()
    assert port.advertised == WORDS.split() and port.recording == Recording.objects.get()
    assert (saved.changed, saved.assessed) == (1, True)


def test_two_ports_may_say_the_same(alice, unit, port):
    Port.objects.create(unit=unit, author=alice, key="c2", label="C2")
    kept(alice, unit)
    kept(alice, unit, port="c2")
    assert {row.recording_id for row in Port.objects.all()} == {Recording.objects.get().pk}


def test_the_same_again_changes_nothing(alice, unit, port):
    kept(alice, unit)
    assert kept(alice, unit, version=2).changed == 0


def test_a_port_that_was_changed_meanwhile_is_left_alone(alice, unit, port):
    with pytest.raises(StaleRows):
        kept(alice, unit, version=7)
    port.refresh_from_db()
    assert port.advertised == []


def test_modes_are_numbers_of_that_port(alice, unit, port):
    kept(alice, unit, "9 V 2 A")
    assert {(row.quantity, row.value, row.port, row.how) for row in Measurement.objects.all()} == {
        ("advertised_voltage", 9.0, port, "read_off"), ("advertised_power", 18.0, port, "read_off")}


@pytest.mark.parametrize("text, found", [
    ("5 V 3 A\n20 V 2.25 A", {"advertised_voltage": 20.0, "advertised_power": 45.0}),
    ("5 V\n9 V", {"advertised_voltage": 9.0}),
    ("PPS 3.3-21 V 5 A", {}), ("QC 12 V 1.5 A", {})])
def test_only_fixed_modes_of_a_list_count(text, found):
    assert advertised_by_modes(read_capabilities(text).modes) == found


def test_nobody_keeps_a_list_on_somebody_elses_sheet(bob, unit, port):
    with pytest.raises(Http404):
        kept(bob, unit)
    assert not Recording.objects.exists()
