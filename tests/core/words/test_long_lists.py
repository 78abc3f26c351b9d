"""Sentences of many parts, in the site's own German: a place takes no more of a list than its own.

What a line of evidence rests on is such a list: each input with its value, or whether it was found.
"""
import random

import pytest

from core.words.catalogue_file import read_translations
from core.words.said import Catalogue, mo_file
from teardowns.engine.quantities import QUANTITIES
from teardowns.presenting.evidence_names import quantity_in_words

NUMBERS = (0.0, 1.0, 2.5, 130.0)


@pytest.fixture(scope="module")
def german():
    return Catalogue("de", read_translations(mo_file("de")))


def one_input(rng):
    quantity = QUANTITIES[rng.choice(sorted(QUANTITIES))]
    entry = {"code": quantity.code, "value": rng.choice(NUMBERS), "u": None, "how": "measured",
             "unit": quantity.unit}
    return f"{quantity.label[:1].lower()}{quantity.label[1:]} {quantity_in_words(entry)}"


@pytest.mark.parametrize("joint", [", ", "; ", " · "])
def test_each_part_of_a_long_list_is_said_as_it_is_alone(german, joint):
    rng = random.Random(7)
    for _ in range(60):
        parts = [one_input(rng) for _ in range(rng.randint(2, 9))]
        missed = []
        german.missed = missed.append
        assert german.say(joint.join(parts)) == joint.join(map(german.say, parts))
        assert missed == []


def test_two_points_that_miss_their_figures_are_two(german):
    """Their sentence has the place of a list, and each of its items has four."""
    items = ["the clearance (board), 1.8 mm where 3 mm is tabulated",
             "the number of insulating layers (primary to core), 0 where 2 to 3 is tabulated"]
    said = german.say("In the unit examined 2 of the 9 points that the evidence decides fall short "
                      f"of their tabulated figure: {'; '.join(items)}, and 4 more.")
    for one in items:
        assert german.say(one) in said
