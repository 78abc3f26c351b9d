import pytest

from teardowns.models import State
from teardowns.presenting.asked import IN_WORDS, Asked, AskedGroup, Completeness, said, told


@pytest.mark.parametrize("states, found", [
    ([], "missing"), (["not_looked"], "not_looked"), (["not_looked", "not_found"], "not_found"),
    (["not_found", "not_readable"], "not_readable"), (["not_readable", "recorded"], "there")])
def test_of_several_rows_the_one_that_says_most_speaks(states, found):
    assert said(states) == found


@pytest.mark.parametrize("good, of, found", [
    (0, 0, "not_applicable"), (0, 3, "missing"), (2, 3, "partly"), (3, 3, "there")])
def test_a_thing_that_each_shall_have_is_there_when_all_have_it(good, of, found):
    assert told(good, of) == found


@pytest.mark.parametrize("state, is_answered, is_open", [
    ("there", True, False), ("not_found", True, False), ("not_readable", True, False),
    ("not_looked", False, True), ("partly", False, True), ("missing", False, True),
    ("not_applicable", False, False)])
def test_to_have_looked_in_vain_is_an_answer_and_not_to_have_looked_is_none(
        state, is_answered, is_open):
    item = Asked("Mass", state, "", "")
    assert (item.is_answered, item.is_open) == (is_answered, is_open)


def test_what_does_not_apply_is_not_counted():
    items = [Asked("a", state, "", "") for state in ("there", "missing", "not_applicable")]
    group = AskedGroup("Outside", tuple(items))
    assert group.count == "1 of 2"
    assert AskedGroup("Under load", (items[2],)).count == "none asked"


def test_the_whole_counts_its_groups_and_lists_what_is_open():
    there, missing = Asked("a", "there", "", ""), Asked("b", "missing", "", "")
    found = Completeness((AskedGroup("x", (there, missing)), AskedGroup("y", (there,))))
    assert (found.answered, found.asked, found.open) == (2, 3, [missing])
    assert [cell["cls"] for cell in found.cells] == ["done", "done", "todo"]


def test_every_state_of_looking_but_recorded_has_its_words():
    assert set(State.values) - {"recorded"} <= set(IN_WORDS)
