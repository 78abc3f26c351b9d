"""Spots of thermal pictures: 70 °C shown at ε = 1 is 71.93 °C on tape (ε = 0.95) before 25 °C.

From the Stefan-Boltzmann law with a mirrored background: 343.15⁴ = 0.95 T⁴ + 0.05 · 298.15⁴,
T = 345.08 K.
"""
from dataclasses import replace

import pytest
from django.http import Http404

from teardowns.models import Measurement, PhotoTemperature
from teardowns.services.read_temperature import Spot, SpotRefused, read_temperature, surface

SPOT = Spot(reading=70.0, reading_u=1.0, set_emissivity=1.0, emissivity=0.95, emissivity_u=0.01,
            background=25.0)


def test_the_surface_is_warmer_than_it_looks():
    kelvin = ((343.15 ** 4 - 0.05 * 298.15 ** 4) / 0.95) ** 0.25
    assert surface(SPOT)[0] == pytest.approx(kelvin - 273.15, abs=1e-9)
    assert surface(SPOT)[0] == pytest.approx(71.93, abs=0.01)


def test_its_uncertainty_adds_up_in_squares():
    # Reading: dT/dTr = (Tr/T)³/ε = (343.15/345.08)³/0.95 = 1.035 for 1 K. Background:
    # 0.05/0.95·(298/345)³·1.15 K = 0.04 K. Emissivity: dT/dε = (T⁴ − Tb⁴)/(4 ε T³).
    emissivity = (345.08 ** 4 - 298.15 ** 4) / (4 * 0.95 * 345.08 ** 3) * 0.01
    total = (1.035 ** 2 + emissivity ** 2 + (1.5 ** 2) / 3 + 0.04 ** 2) ** 0.5
    assert surface(SPOT)[1] == pytest.approx(total, rel=0.01)


def test_less_known_is_less_sure():
    for name in ("reading_u", "emissivity_u", "background_u"):
        assert surface(replace(SPOT, **{name: 3 * getattr(SPOT, name)}))[1] > surface(SPOT)[1]


def test_a_reading_that_no_such_surface_can_give_is_refused():
    with pytest.raises(SpotRefused, match="Check the reading"):
        surface(replace(SPOT, reading=-200.0, emissivity=0.1, background=300.0))


@pytest.mark.parametrize("legend", [None, (24.0, 88.0), (70.0, 88.0), (24.0, 69.6)])
def test_a_reading_within_its_legend_is_taken(legend):
    """A legend in whole degrees may be off by half of one."""
    assert surface(replace(SPOT, legend=legend)) == surface(SPOT)


@pytest.mark.parametrize("legend", [(24.0, 69.0), (71.0, 88.0)])
def test_a_reading_outside_its_legend_is_refused_with_what_to_check(legend):
    with pytest.raises(SpotRefused, match="70 °C lies outside the legend, which goes from") as no:
        surface(replace(SPOT, legend=legend))
    assert "Check the reading and both ends of the legend" in str(no.value)


@pytest.mark.django_db
def test_the_legend_is_kept_with_the_reading(alice, photo):
    value, u, _ = read_temperature(
        author=alice, photo=photo, shape="box", points=((100.0, 80.0), (120.0, 90.0)),
        spot=replace(SPOT, legend=(24.5, 88.0)), quantity="case_temperature")
    row = PhotoTemperature.objects.get()
    assert (row.legend_low, row.legend_high, row.reading) == (24.5, 88.0, 70.0)
    assert (row.value, row.uncertainty, row.shape) == (value, u, "box")
    assert "Legend 24.5 to 88 °C." in Measurement.objects.get().note


@pytest.mark.django_db
def test_it_becomes_evidence_with_its_note_and_a_mark(alice, photo):
    value, u, _ = read_temperature(author=alice, photo=photo, shape="point",
                                   points=((100.0, 80.0),), spot=SPOT, quantity="case_temperature")
    row = Measurement.objects.get(quantity="case_temperature")
    assert (row.value, row.uncertainty, row.photo) == (value, u, photo)
    assert "ε = 0.95" in row.note and photo.annotations.get().shows == f"measurement/{row.key}"


@pytest.mark.django_db
def test_nobody_else_reads_it_into_the_evidence(bob, photo):
    with pytest.raises(Http404):
        read_temperature(author=bob, photo=photo, shape="point", points=((1.0, 1.0),), spot=SPOT,
                         quantity="case_temperature")
    assert not PhotoTemperature.objects.exists()
