from dataclasses import FrozenInstanceError

import pytest

from teardowns.engine.outcome import CANNOT_TELL, CONSISTENT, INCONSISTENT, Outcome


def test_cannot_tell_is_an_outcome_of_its_own():
    assert (CONSISTENT, INCONSISTENT, CANNOT_TELL) == (
        "consistent", "inconsistent", "cannot tell")


def test_an_outcome_without_numbers_has_none():
    first, second = (Outcome(CANNOT_TELL, "Not recorded.") for _ in range(2))
    assert first.numbers == {} and first.numbers is not second.numbers


def test_an_outcome_cannot_be_changed_afterwards():
    with pytest.raises(FrozenInstanceError):
        Outcome(INCONSISTENT, "4 is more than 3.").outcome = CONSISTENT
