"""A core's name gives its family, area and window; values of the core library's table."""
import pytest

from teardowns.engine.physics.cores import FAMILIES
from tests.exchange.observing.seen import seen, values


def named(*markings):
    return {"components": [{"role": "core", "marking": marking} for marking in markings]}


# Effective areas: maker's catalogue figures, IEC 63093 sizes; EFD 15/8/5 of EPCOS B66413: 15 mm².
@pytest.mark.parametrize(("marking", "family", "area"), [
    ("EE16", "E", 19.2e-6), ("EF 12.6", "E", 12.4e-6), ("EFD15/8/5", "EFD", 15e-6),
    ("PQ 26/20", "PQ", 120e-6), ("EER28", "ER", 82e-6), ("PC40 EE13", "E", 17.1e-6)])
def test_a_standard_core_is_known_by_its_name(marking, family, area):
    assert values("core_family", **named(marking)) == [FAMILIES.index(family)]
    assert values("core_effective_area", **named(marking)) == [pytest.approx(area)]
    assert len(values("core_window_area", **named(marking))) == 1


def test_a_size_that_is_no_standard_one_gives_its_family_alone():
    assert values("core_family", **named("EE17")) == [FAMILIES.index("E")]
    assert values("core_effective_area", **named("EE17")) == []


def test_two_halves_of_one_name_are_one_core_and_two_names_decide_nothing():
    (one,) = seen("core_family", **named("EE16", "EE 16"))
    assert one.refs == ("component/r0",)
    assert values("core_family", **named("EE16", "EF16")) == []


@pytest.mark.parametrize("marking", ["", "ferrite, unmarked", "T1"])
def test_a_core_without_a_name_says_nothing(marking):
    assert values("core_family", **named(marking)) == []


def test_a_disputed_core_says_nothing():
    rows = {"components": [{"role": "core", "marking": "EE16", "review_state": "disputed"}]}
    assert values("core_effective_area", **rows) == []


def test_a_measured_area_comes_before_the_library_s():
    area = [{"quantity": "core_effective_area", "value": 18e-6}]
    assert values("core_effective_area", measurements=area, **named("EE16")) == [18e-6]
