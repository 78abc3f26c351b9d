"""Reach: what is known of it, and that it is not known."""
from types import SimpleNamespace

from teardowns.presenting.reach import reach, reach_sentence


def unit(**known):
    return SimpleNamespace(**{
        "listing_reach": None, "price": None, "currency": "", "channel": "unknown",
        "get_channel_display": lambda: "street or market stall"} | known)


def test_each_thing_known_is_said():
    found = reach(unit(listing_reach=1200, price="9.90", currency="EUR", channel="street"))
    assert found == ["its listing shows 1200 sales", "price 9.90\u202fEUR",
                     "street or market stall"]


def test_no_sales_shown_are_a_fact_and_not_unknown():
    assert reach(unit(listing_reach=0)) == ["its listing shows 0 sales"]


def test_nothing_known_is_said_and_never_a_level():
    assert reach(unit()) == [] and "is not known" in reach_sentence(unit())
    assert "never changes a level" in reach_sentence(unit(listing_reach=3))
