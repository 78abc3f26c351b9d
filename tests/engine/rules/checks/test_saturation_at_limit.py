"""Worked by hand: 1400 µH, 100 turns, 20.1 mm² and 0.4 A (0.6 V over 1.5 Ω) reach 0.2786 T."""
import pytest

from teardowns.engine.outcome import CANNOT_TELL, CONSISTENT, INCONSISTENT
from teardowns.engine.rules.checks.saturation_at_limit import saturation_at_limit
from tests.engine.make import NAN, WIDE
from tests.engine.rules.ask import checks

INPUTS = {"primary_inductance": 1400e-6, "primary_turns": 100.0, "core_effective_area": 20.1e-6,
          "current_sense_resistance": 1.5, "current_sense_threshold": 0.6,
          "saturation_flux_density": 0.385, "power_factor_corrector": 0.0}
BENCH = [*WIDE, ("primary_inductance", 1400e-6, 0.0), ("primary_turns", 100.0, 0.0),
         ("core_effective_area", 20.1e-6, 0.0)]
CLAIM = [(5.0, 1.0, NAN)]


def checked(**changed):
    return saturation_at_limit(*(INPUTS | changed).values())


def test_0_2786_tesla_is_within_what_designs_keep_to():
    found = checked()
    assert found.outcome == CONSISTENT and found.numbers["flux_density"] == pytest.approx(0.2786,
                                                                                         rel=1e-3)
    assert "0.3\u202fT" in found.sentence


# 0.2786 T at 1.5 Ω: 0.418 T at 1.0 Ω, 0.557 T at 0.75 Ω, above 1.35 · 0.385 = 0.520 T.
@pytest.mark.parametrize("ohms, outcome", [(1.0, CANNOT_TELL), (0.75, INCONSISTENT)])
def test_between_the_usual_ceiling_and_cold_saturation_it_cannot_tell(ohms, outcome):
    assert checked(current_sense_resistance=ohms).outcome == outcome


def test_above_cold_saturation_it_speaks_of_the_unit_and_of_the_readings():
    sentence = checked(current_sense_resistance=0.5).sentence
    assert "in the unit examined" in sentence and "readings" in sentence


@pytest.mark.parametrize("code, unknown", [
    ("primary_inductance", NAN), ("current_sense_resistance", NAN),
    ("current_sense_resistance", 0.0), ("power_factor_corrector", 1.0)])
def test_nothing_to_check_without_inductance_and_resistor_or_behind_a_corrector(code, unknown):
    assert checked(**{code: unknown}) is None


@pytest.mark.parametrize("code", ["primary_turns", "core_effective_area"])
def test_without_turns_or_area_it_cannot_tell_and_says_what_to_do(code):
    found = checked(**{code: NAN})
    assert found.outcome == CANNOT_TELL and "count the turns" in found.sentence


# 0.5 V over the resistor: 0.279 T at 1.25 Ω, 0.139 T at 2.5 Ω, 0.871 T at 0.4 Ω; with 1.0 V twice
# that. What was not read is neither held against the unit nor a reassurance.
@pytest.mark.parametrize("ohms, outcome, word", [
    (1.25, CANNOT_TELL, "was not recorded"), (2.5, CONSISTENT, "at most"),
    (0.4, CANNOT_TELL, "data sheet")])
@pytest.mark.parametrize("unread", [NAN, 0.0])
def test_a_threshold_that_was_not_read_may_be_any_of_the_usual_ones(ohms, outcome, word, unread):
    found = checked(current_sense_resistance=ohms, current_sense_threshold=unread)
    assert found.outcome == outcome and word in found.sentence


def test_a_saturation_that_was_read_counts_in_place_of_the_usual_one():
    # 0.557 T at 0.75 Ω lies between 1.35 · 0.385 = 0.520 T and 1.35 · 0.42 = 0.567 T.
    found = checked(current_sense_resistance=0.75, saturation_flux_density=0.42)
    assert found.outcome == CANNOT_TELL
    assert checked(current_sense_resistance=0.75,
                   saturation_flux_density=NAN).outcome == INCONSISTENT


# An honest 20 W EE16: 700 µH, 115 turns, 19.2 mm², limit 1.15 A: 0.365 T. An honest 65 W PQ 26/20:
# 340 µH, 34 turns, 120 mm², limit 3 A: 0.25 T.
@pytest.mark.parametrize("inductance, turns, area, peak", [
    (700e-6, 115.0, 19.2e-6, 1.15), (340e-6, 34.0, 120e-6, 3.0)])
@pytest.mark.parametrize("threshold", [0.5, 0.8, 1.0])
def test_honest_designs_contradict_nothing(inductance, turns, area, peak, threshold):
    found = checked(primary_inductance=inductance, primary_turns=turns, core_effective_area=area,
                    current_sense_threshold=threshold, current_sense_resistance=threshold / peak)
    assert found.outcome != INCONSISTENT


def test_it_stands_once_in_the_report_of_the_unit():
    seen = [*BENCH, ("current_sense_resistance", 0.75, 0.0), ("current_sense_threshold", 0.6, 0.0)]
    claims = [*CLAIM, (9.0, 1.0, NAN)]
    assert [each["outcome"] for each in checks(saturation_at_limit, seen, claims)] == [INCONSISTENT]
