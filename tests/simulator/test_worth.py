"""What a line of evidence is worth."""
import pytest

from teardowns.engine import rulebook

from .habits import REGIMES
from .worth import weigh_lines, without


def test_a_rulebook_less_one_line_has_all_the_others():
    book = rulebook.load()
    left = without(book, book.power[0])
    assert [rule.id for rule in left.lines] == [rule.id for rule in book.lines[1:]]


@pytest.fixture(scope="module")
def worth():
    only = {"power/failed_power", "power/bulk_capacitor", "power/fuse"}
    return {one.line: one for one in weigh_lines(300, 5, REGIMES[2:], only)}


def test_a_failed_load_counts_against_claims_that_are_not_met(worth):
    assert worth["power/failed_power"].not_met < -12
    assert worth["power/failed_power"].brier > 0


def test_a_part_that_rarely_binds_says_little(worth):
    assert abs(worth["power/fuse"].met) < 3 < abs(worth["power/bulk_capacitor"].not_met)


def test_lines_that_do_not_speak_are_not_listed():
    assert not list(weigh_lines(20, 5, REGIMES[:1], {"power/failed_power"}))
