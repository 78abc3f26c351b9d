"""The bench card in words."""
import numpy as np
import pytest

from teardowns.engine.bench_card import bench_card as engine_card
from teardowns.engine.columns import Column, Frame
from teardowns.presenting.bench_card import bench_card, duration


def words(**known):
    columns = {code: Column(np.array([value]), np.array([0.0]), np.ones(1, np.int8))
               for code, value in known.items()}
    card = bench_card(engine_card(Frame(1, columns), 0))
    return " ".join(card.sentences).replace("\u202f", " "), card


def test_nothing_known_is_charged_indefinitely_and_shows_usual_waiting_times():
    card = bench_card(None)
    said = " ".join(card.sentences)
    assert "assume it charged indefinitely, and measure" in said
    assert "the plate was not read" in said and not card.ways
    assert len(card.waits) == 7 and card.heads == ("10\u202fkΩ", "2.2\u202fkΩ")


def test_a_card_of_an_older_assessment_counts_as_unknown():
    assert bench_card({"capacitance": 1e-5, "path": None}) == bench_card(None)


# By hand for 22 µF at 373.4 V: 1.53 J; with 10 kΩ 14 W and 0.40 s, 5 R C = 1.1 s.
def test_a_known_capacitor_names_its_energy_and_the_resistor():
    said, card = words(bulk_capacitance_marked=22e-6, rated_voltage_high=240.0)
    assert "22 µF as marked, may hold up to 1.5 J at 373 V, the peak of 1.1 times 240 V" in said
    assert "Discharge it with 10 kΩ, a wire-wound power type with insulated clips: 14 W" in said
    assert "0.40 s until 60 V. Keep it on for at least 1.1 s" in said
    assert [way.is_chosen for way in card.ways] == [True, False] and not card.waits


# By hand: 22 µF with 1 MΩ 40 s; 330 nF with 1 MΩ 0.60 s.
def test_resistors_that_were_found_give_times_and_still_ask_to_measure():
    said, _ = words(bulk_capacitance=22e-6, bulk_discharge_resistance=1e6, x_capacitance=330e-9,
                    discharge_resistance=1e6)
    assert "The 1 MΩ found across it bring it down to 60 V in 40 s, if every joint holds" in said
    assert "The pins hold 330 nF; the 1 MΩ found across them bring it down to 60 V in 0.60" in said
    assert "Measure it all the same" in said and "indefinitely" not in said


def test_pins_without_a_known_resistor_are_taken_as_charged():
    said, _ = words(x_capacitance=330e-9)
    assert "no resistor across them is known: assume them charged, and measure" in said


@pytest.mark.parametrize("seconds, text", [
    (None, "not known"), (0.004, "less than 0.01 s"), (0.402, "0.40 s"), (1.83, "1.8 s"),
    (40.2, "40 s"), (59.9, "1.0 min"), (183.0, "3.0 min"), (9000.0, "2.5 h")])
def test_durations(seconds, text):
    assert duration(seconds).replace("\u202f", " ") == text
