import pytest
from hypothesis import given
from hypothesis import strategies as st

from teardowns.figures.lanes import CHARACTER, letter, lettered

SPANS = st.lists(st.tuples(st.floats(0, 100), st.floats(0, 100)).map(sorted).map(tuple),
                 max_size=40)


@pytest.mark.parametrize(("index", "text"), [(0, "A"), (25, "Z"), (26, "AA"), (27, "AB"),
                                             (701, "ZZ"), (702, "AAA")])
def test_letters_count_as_an_ordered_list_does(index, text):
    assert letter(index) == text


def test_equal_spans_share_a_mark_and_name_all_who_mean_it():
    marks = lettered([(0, 100), (10, 20), (0, 100), (0, 100), (0, 100)])
    assert [mark.text for mark in marks] == ["A, C–E", "B"]


@given(SPANS)
def test_no_two_marks_of_a_lane_touch(spans):
    reach = {}
    for mark in lettered(spans):
        half = CHARACTER * len(mark.text) / 2
        left, right = min(mark.start, mark.middle - half), max(mark.end, mark.middle + half)
        for other_left, other_right in reach.setdefault(mark.lane, []):
            assert left > other_right or right < other_left
        reach[mark.lane].append((left, right))


@given(SPANS)
def test_every_letter_stays_on_the_drawing(spans):
    for mark in lettered(spans):
        assert len(mark.text) * CHARACTER > 100 or 0 <= mark.middle <= 100
