"""The query of an address of the list."""
from teardowns.browsing.addresses import query_of


def test_what_was_not_asked_for_is_left_out():
    assert query_of("", {"verdict": ()}) == "?"
    assert query_of("a b", {"kind": ("desktop", "other")}) == "?q=a+b&kind=desktop&kind=other"


def test_order_and_place_come_last():
    assert query_of("", {"risk": ("high",)}, "gap", "1_2") == "?risk=high&sort=gap&after=1_2"
