import pytest

from teardowns.searching.near_words import edits, halves, nearest


@pytest.mark.parametrize(("one", "other", "count"), [
    ("hub", "hub", 0), ("hub", "hubs", 1), ("hub", "ub", 1), ("hub", "hib", 1),
    ("umberlisk", "umbrelisk", 1),          # two neighbours swapped
    ("kitten", "sitting", 3),               # the textbook example: k→s, e→i, +g
    ("ca", "abc", 3),                       # optimal string alignment: no letter changed twice
])
def test_edits_are_counted(one, other, count):
    assert edits(one, other, most=5) == edits(other, one, most=5) == count


def test_counting_ends_where_the_words_are_too_far_apart():
    assert edits("kitten", "sitting", most=2) == edits("a", "abcdefgh", most=2) == 3


def test_the_nearest_word_comes_first_and_far_ones_not_at_all():
    known = ["umberlisk", "umbrella", "umberlist", "brethuld"]
    assert nearest("umbrelisk", known) == ["umberlisk", "umberlist"]


def test_of_a_short_word_one_letter_may_differ():
    assert nearest("hubb", ["hub", "bulb", "hubs"]) == ["hub", "hubs"]


@pytest.mark.parametrize("typed", ["veltrce", "vetrice", "veltriice", "veltrixe", "vleltrice"])
def test_one_edit_leaves_the_first_or_the_last_half_as_it_is(typed):
    first, last = halves(typed)
    assert "veltrice".startswith(first) or "veltrice".endswith(last)
