import pytest

from teardowns.reading.plates import read_plate
from teardowns.services.near_units import near_units
from tests.indexed import indexed

pytestmark = pytest.mark.django_db
PLATE = "VELTRICE\nMODEL: VQ-45\nOUTPUT: 5V 3A, 9V 2A, 20V 2.25A 45W"


@pytest.fixture(autouse=True)
def units():
    # 1 the same plate; 2 the same maker; 3 one of its four ratings; 4 nothing of it
    indexed(1, makers=["Veltrice"], models=["VQ-45"], claims=["5v3a", "9v2a", "20v2.25a", "45w"],
            markings=["PZ6318"])
    indexed(2, makers=["Veltrice"], models=["VQ-9"], claims=["5v1a"])
    indexed(3, makers=["Ombrell"], models=["K7"], claims=["5v3a"])
    indexed(4, makers=["Ombrell"], models=["K8"], claims=["12v1a"], markings=["ZHB-1"])


def near(text="", marking=""):
    return near_units(text, read_plate(text) if text else None, marking)


def test_the_same_model_comes_first_then_the_same_maker_then_like_ratings():
    assert [one.pk for one in near(PLATE)] == [1, 2, 3]


def test_each_says_what_it_shares():
    same, maker, ratings = near(PLATE)
    assert (same.same_model, same.same_maker, len(same.claims), same.asked) == (True, True, 4, 4)
    assert (maker.same_model, maker.same_maker, maker.claims) == (False, True, ())
    assert (ratings.same_model, ratings.same_maker) == (False, False)
    assert ratings.claims == ("5v3a",)


def test_a_name_is_found_without_a_label_and_misread():
    assert [one.pk for one in near("VELTRICE VQ-4S")] == [1, 2]
    assert near("VELTRICE VQ-4S")[0].same_model


def test_a_marking_inside_is_near_by_its_beginning():
    found, = near(marking="zhb")
    assert found.pk == 4 and found.has_marking


def test_one_rating_of_many_is_less_near_than_all():
    # All of four ratings, and one of four: 4 × 1 and 4 × ¼.
    first, second = near("OUTPUT: 5V 3A, 9V 2A, 20V 2.25A 45W")
    assert (first.pk, first.nearness, second.pk, second.nearness) == (1, 4.0, 3, 1.0)


@pytest.mark.parametrize("text", ["", "⎓ ⧈", "nothing like it", "(" * 500, "\n" * 999, "💥"])
def test_of_what_is_on_no_plate_nothing_is_near(text):
    assert near(text) == []


def test_it_takes_two_queries(django_assert_max_num_queries):
    with django_assert_max_num_queries(2):
        near(PLATE, "pz6318")
