import pytest

from teardowns.models import Part
from teardowns.presenting.search_also import also_found
from tests.library import family, listed

pytestmark = pytest.mark.django_db


def test_parts_and_families_are_links_in_the_order_found(mona):
    one, other, board = listed(mona), listed(mona, "KR905", function=""), family(mona)
    found = also_found([other.pk, one.pk], [board.pk])
    assert [(also.what, also.name, also.about) for also in found] == [
        ("part", "KR905", ""), ("part", "PZ6318", "primary controller"),
        ("board family", "Board HB-12", "")]
    assert found[1].address == one.get_absolute_url()


def test_what_is_not_listed_or_is_gone_is_left_out(alice):
    part = Part.objects.create(marking="KR905", curator=alice)
    assert also_found([part.pk, part.pk + 9], [4]) == []


def test_nothing_found_asks_nothing(django_assert_num_queries):
    with django_assert_num_queries(0):
        assert also_found([], []) == []
