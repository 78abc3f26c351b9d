import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from teardowns.models import Findable
from teardowns.searching.question import NOTHING
from teardowns.services.search import search, snippets
from tests.indexed import indexed

pytestmark = pytest.mark.django_db
HOSTILE = ['"', "'", "\\", "(", ")", "*", "AND", "OR", "NOT", "NEAR(", ":", "^", "-", "%", "_",
           ";--", "\x00", "\x1b", "\u202e", "💥", "{", "tokens:", "ur", "&", "|",
           "!", "<->", "é", "0"]


@pytest.fixture
def units():
    indexed(1, "Desk charger", makers=["Veltrice"], models=["VQ-45"],
            lines=["OUTPUT: 5V 3A", "primary controller: PZ6318"], markings=["PZ6318"])
    indexed(2, "Wall charger with a Veltrice board", makers=["Ombrell"], models=["O8"],
            lines=["OUTPUT: 5V 2.4A", "made on board 85"], markings=["ZHB-1"])
    indexed(3, "Cube", models=["PZ6318"], lines=["a cube for a desk"])


@pytest.mark.parametrize(("text", "found"), [
    ("veltrice vq-45", [1]),                # maker and model
    ("VELTRICE VQ 45", [1]), ("vq45", [1]), ("vq 4", [1]),
    ("zhb1", [2]), ("z-hb 1", [2]),         # a marking, however it is parted
    ("charg", [2, 1]),                      # the beginning of a word
    ("6318", [3, 1]), ("HB-1", [2]),        # a piece of a marking
    ("board", [2]), ("desk cube", [3]), ("desk wall", []),
    ("𝓿𝓺 ４５", [1]),                       # letters and digits of another shape
    ("5v", [2, 1]), ("5 V 2.40 A", [2]), ("24a", []),
])
def test_words_beginnings_and_pieces_of_markings_are_found(units, text, found):
    assert search(text).units == found


@pytest.mark.parametrize(("misread", "found"), [
    ("P263I8", [3, 1]), ("PZG318", [3, 1]), ("2HBI", [2]), ("VQ-4S", [1]), ("VELTR1CE", [2, 1]),
    ("OB", [2]), ("pz63l8", [3, 1]),
])
def test_what_was_misread_is_found(units, misread, found):
    assert search(misread).units == found


def test_a_model_comes_before_a_marking_and_a_title_before_the_rest(units):
    assert search("pz6318").units == [3, 1]
    # `Veltrice VQ-45` begins with it; the title of 2, which is newer, only holds it.
    assert search("veltrice").units == [1, 2]
    assert search("desk").units == [1, 3]


def test_pieces_of_a_marking_that_stand_apart_are_found_only_where_it_stands_nowhere(units):
    indexed(4, "Cube", lines=["primary controller: UWK-36", "fuse: KL150-18"])
    assert search("uwk-18").units == [4]
    indexed(5, "Cube", lines=["primary controller: UWK-18", "output: 18W"])
    assert search("uwk-18").units == [5]
    assert "18W" not in snippets([5], "uwk-18")[5]


def test_a_short_word_is_looked_for_as_misread_only_where_nothing_else_is_found(units):
    assert search("85").units == [2]            # a word; a model `B5` would not be one
    indexed(4, models=["B5"])
    assert search("85").units == [4, 2]         # a whole model is
    assert search("b5 made").units == [2]       # nothing has both: then 85 is one


def test_quoted_words_stand_one_after_the_other(units):
    assert search('"desk charger"').units == [1]
    assert search('"charger desk"').units == []
    assert search('"charger with" veltrice').units == [2]


def test_parts_and_families_are_named_apart(units):
    indexed(1, "PZ6318", kind=Findable.PART, markings=["PZ6318"], lines=["primary controller"])
    indexed(7, "Board VB-2", kind=Findable.FAMILY, models=["Board VB-2"])
    hits = search("pz6318")
    assert (hits.units, hits.parts, hits.families) == ([3, 1], [1], [])
    hits = search("vb2")
    assert (hits.units, hits.parts, hits.families) == ([], [], [7])
    assert search("controller").parts == [1]


def test_the_end_of_a_long_answer_is_said(units):
    hits = search("charger", limit=1)
    assert (hits.units, hits.total, hits.is_cut) == ([2], 1, True)
    assert not search("charger", limit=2).is_cut


@pytest.mark.parametrize("text", [*HOSTILE, "(((", "💥💥", "a" * 10_000, "é" * 10_000,
                                  "' OR 1=1 --", "\ud800", '" OR "', "*" * 300, "x\x00y"])
def test_no_text_breaks_a_search(units, text):
    assert search(text).units == []
    assert snippets([1, 2, 3], text) == {}


def test_signs_alone_are_answered_with_a_remark(units):
    assert search("⎓ (((").remark == NOTHING


@settings(max_examples=30, deadline=None,
          suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.lists(st.sampled_from([*HOSTILE, "veltrice", "5v", " "]), max_size=8).map("".join)
       | st.text(max_size=30))
def test_no_combination_of_signs_breaks_a_search(units, text):
    assert set(search(text).units) <= {1, 2, 3}
    assert set(snippets([1, 2, 3], text)) <= {1, 2, 3}


def test_a_search_takes_few_queries(units, django_assert_max_num_queries):
    with django_assert_max_num_queries(4):
        search("veltrice 6318")
    with django_assert_max_num_queries(1):
        snippets([1, 2, 3], "veltrice")


def test_a_snippet_is_the_printed_line_with_what_was_asked_for_marked(units):
    assert snippets([1], "pz63l8") == {1: "primary controller: <mark>PZ6318</mark>"}


def test_a_snippet_of_printed_markup_is_escaped():
    indexed(1, lines=["<script>alert(1)</script> & hub"])
    assert snippets([1], "hub") == {
        1: "&lt;script&gt;alert(1)&lt;/script&gt; &amp; <mark>hub</mark>"}
    assert "<script>" not in snippets([1], "script")[1]
