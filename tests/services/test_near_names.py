import pytest

from teardowns.models import Findable, SearchText
from teardowns.services.near_names import NearName, near_names
from tests.indexed import indexed

pytestmark = pytest.mark.django_db


@pytest.fixture
def units():
    indexed(1, "Desk charger", makers=["Umberlisk"], models=["Hub 65"], markings=["PZ6318"],
            lines=["umbrella isolated supply"])
    indexed(2, "Wall charger", makers=["Brethuld"], models=["B5"])
    indexed(1, "QX5500", kind=Findable.PART, markings=["QX5500"])
    indexed(1, "Veltrice board", kind=Findable.FAMILY, models=["Veltrice board"])


# Each shares with the text at least 0.6 of the letters of both, in their order (difflib's ratio):
# "umberlisk" and "umbelix" share u, m, b, e, l, i: 2 · 6 / 16 = 0.75.
@pytest.mark.parametrize(("typed", "near"), [
    ("umbelix", [NearName("maker", "Umberlisk")]),
    ("Umberlisk Hub 99", [NearName("model", "Umberlisk Hub 65"), NearName("maker", "Umberlisk"),
                          NearName("model", "Hub 65")]),
    ("PZ6377", [NearName("marking", "PZ6318")]),
    ("ZZ6318", [NearName("marking", "PZ6318")]),            # by its end
    ("qx5511", [NearName("part", "QX5500")]),
    ("veltrix board", [NearName("board family", "Veltrice board")]),
])
def test_a_near_name_says_what_it_is_a_name_of(units, typed, near):
    assert near_names(typed) == near


@pytest.mark.parametrize("typed", ["xyzzy", "65", "", "%", "💥", "'; --", "\x00", "b" * 999])
def test_far_words_and_numbers_bring_no_name(units, typed):
    assert near_names(typed) == []


def test_a_word_of_a_text_that_is_nobodys_name_is_not_offered(units):
    assert "umbrella" not in {one.name for one in near_names("umbrello")}


def test_a_name_that_is_not_public_any_more_is_not_near(units):
    SearchText.objects.of(Findable.UNIT, [1]).delete()
    assert near_names("umbelix") == []


def test_a_text_is_not_near_itself(units):
    assert near_names("umberlisk") == [NearName("model", "Umberlisk Hub 65")]


def test_eight_words_take_two_queries(units, django_assert_num_queries):
    with django_assert_num_queries(2):
        near_names("umbelix hab pz6377 brethold desk chorger isolatid supplie")
