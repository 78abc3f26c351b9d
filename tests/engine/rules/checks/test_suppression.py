"""Roles of suppression parts by capacitor makers' class pages; absence proves nothing."""
from teardowns.engine.outcome import CANNOT_TELL, CONSISTENT
from teardowns.engine.rules.checks.suppression import suppression
from tests.engine.make import NAN


def test_two_kinds_of_parts_are_typical_and_one_is_reduced():
    assert "typical" in suppression("", 1.0, NAN, 1.0, 0.0, 0.0).sentence
    one = suppression("", NAN, NAN, 0.0, 1.0, 0.0)
    assert one.outcome == CONSISTENT and "reduced" in one.sentence


def test_none_is_no_verdict():
    none = suppression(" ce ", 0.0, 0.0, 0.0, 0.0, 0.0)
    assert none.outcome == CANNOT_TELL and "proves nothing" in none.sentence
    assert "claims conformity" in none.sentence


def test_where_nobody_looked_nothing_is_said():
    assert suppression(" ce ", NAN, NAN, NAN, 0.0, NAN) is None


def test_one_choke_noted_twice_is_one_kind():
    assert "reduced" in suppression("", 1.0, 0.0, 0.0, 0.0, 1.0).sentence
    assert "typical: 2" in suppression("", 1.0, 1.0, 0.0, 0.0, 1.0).sentence


def test_one_kind_found_while_others_were_not_looked_for_decides_nothing():
    assert suppression("", NAN, NAN, 1.0, NAN, NAN).outcome == CANNOT_TELL
