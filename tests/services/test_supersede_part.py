import pytest

from teardowns.models import Part
from teardowns.services.proposals import Refused
from teardowns.services.supersede_part import check_successor, successors, supersede_part
from tests.library import listed

pytestmark = pytest.mark.django_db


@pytest.fixture
def chain(mona):
    """Three types, each superseded by the next."""
    last = listed(mona, "PZ3", None)
    middle = listed(mona, "PZ2", None, superseded_by=last)
    return listed(mona, "PZ1", None, superseded_by=middle), middle, last


def test_a_part_takes_another_s_place(mona, chain):
    newest = listed(mona, "PZ4", None)
    supersede_part(chain[2], newest)
    assert chain[2].superseded_by == newest


def test_the_chain_is_followed_to_its_end(chain):
    first, middle, last = chain
    assert successors(first) == [middle, last]


def test_no_circle_however_long(chain):
    first, middle, last = chain
    for later in (first, middle):
        with pytest.raises(Refused, match="itself superseded by PZ3"):
            check_successor(last, later)
    with pytest.raises(Refused, match="own place"):
        check_successor(last, last)


def test_what_stands_already_is_told(chain):
    with pytest.raises(Refused, match="says so already"):
        check_successor(chain[0], chain[1])
    check_successor(chain[0], None)


def test_an_entry_of_a_bench_sheet_takes_nobody_s_place(alice, chain):
    with pytest.raises(Refused, match="not in the library yet"):
        check_successor(chain[2], Part.objects.create(marking="KR905", curator=alice))
