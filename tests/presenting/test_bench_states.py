import pytest

from teardowns.models import Status
from teardowns.presenting.bench_states import correction_words, state_words


@pytest.mark.parametrize("status", [each for each in Status if each != Status.DISCARDED])
def test_every_state_that_a_list_shows_has_its_words(status):
    assert state_words(status)


@pytest.mark.parametrize("remarks, words", [
    (0, "sent back"), (1, "sent back with 1 remark"), (3, "sent back with 3 remarks")])
def test_remarks_are_counted(remarks, words):
    assert state_words("sent_back", remarks=remarks) == words


def test_a_public_one_names_its_version():
    assert state_words("published", version=2) == "published, version 2"


def test_what_is_looked_into_says_so_whatever_its_state():
    assert state_words("published", version=2, quarantined=True).startswith("hidden while")


def test_a_correction_says_whose_it_is():
    assert correction_words("sent_back", is_own=True, remarks=2) == \
        "your correction: sent back with 2 remarks"
    assert "somebody else" in correction_words("draft", is_own=False)
