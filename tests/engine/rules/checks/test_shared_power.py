"""Sums worked out by hand; labels invented."""
import pytest

from teardowns.engine.outcome import CANNOT_TELL, CONSISTENT, INCONSISTENT
from teardowns.engine.rules.checks.shared_power import shared_power
from tests.engine.make import NAN
from tests.engine.rules.ask import checks


def ask(*claims):
    """claims : (power, kind[, port[, shared]])"""
    rows = [(*claim, *("", False)[len(claim) - 2:]) for claim in claims]
    return shared_power(*zip(*rows, strict=True))


def total(watts):
    return watts, "total"


def part(watts, port=""):
    return watts, "output", port, True


def port(watts, label):
    return watts, "output", label


@pytest.mark.parametrize("watts, parts, sentence", [
    (50, (30, 20), "30 W + 20 W = 50 W fits the total of 50 W."),
    (65, (45, 18), "45 W + 18 W = 63 W fits the total of 65 W."),
    (65, (30, 20, 15), "30 W + 20 W + 15 W = 65 W fits the total of 65 W.")])
def test_parts_that_add_up_to_no_more_than_the_total_fit(watts, parts, sentence):
    done = ask(total(watts), *map(part, parts))
    assert (done.outcome, done.sentence.replace("\u202f", " ")) == (CONSISTENT, sentence)


def test_parts_of_named_ports_that_add_up_to_more_contradict_the_label():
    # 30 + 30 = 60
    done = ask(total(50), part(30, "C1"), part(30, "A"))
    assert done.outcome == INCONSISTENT
    assert "C1 30\u202fW + A 30\u202fW = 60\u202fW" in done.sentence


def test_parts_without_a_port_do_not_decide():
    # They may be two ratings that are never meant at once.
    assert ask(total(50), part(30), part(30)).outcome == CANNOT_TELL


def test_several_combinations_of_the_same_ports_are_not_added_up():
    # C1+C2: 45+20, C1+A: 45+18: no 128 W
    found = ask(total(65), part(45, "C1"), part(20, "C2"), part(45, "C1"), part(18, "A"))
    assert found is None


def test_two_pairs_are_not_added_up():
    pairs = (part(45, "C1"), part(18, "A1"), part(45, "C2"), part(18, "A2"))
    assert ask(total(65), *pairs) is None


def test_a_port_may_have_the_total_alone():
    done = ask(total(65), port(65, "C1"), port(18, "A"))
    assert done.outcome == CONSISTENT
    assert "they share it" in done.sentence


def test_ports_that_need_not_share_fit():
    assert "share" not in ask(total(42), port(30, "C1"), port(12, "A")).sentence


@pytest.mark.parametrize("more", [port(65, "C1"), part(65, "C1"), part(65)])
def test_no_port_and_no_part_has_more_than_the_total(more):
    done = ask(total(50), more)
    assert done.outcome == INCONSISTENT
    assert "65\u202fW is printed for a part, and 50\u202fW for the whole" in done.sentence


def test_the_highest_rating_of_a_port_is_its_own():
    done = ask(total(50), port(15, "C1"), port(45, "C1"), port(12, "A"))
    assert "C1 45\u202fW and A 12\u202fW" in done.sentence


def test_a_total_above_all_ports_together_is_asked_about():
    done = ask(total(100), port(30, "C1"), port(20, "A"))
    assert done.outcome == CANNOT_TELL
    assert "come to 50\u202fW" in done.sentence


def test_rounding_on_the_plate_is_no_excess():
    # 20 V 2.25 A + 5 V 2.4 A = 57 W, printed as 55 W
    assert ask(total(55), part(45, "C1"), part(12, "A")).outcome == CONSISTENT


@pytest.mark.parametrize("claims", [
    [port(65, "C1"), part(30), part(20)], [total(65)], [total(65), port(65, "C1")],
    [(NAN, "total"), part(30), part(20)], [(45, "listing"), port(65, "C1"), port(12, "A")],
    [(65, "total", "C1"), port(20, "A"), port(12, "B")],
    [(17, "total", "", True), port(20, "C"), port(18, "A")]])
def test_without_a_total_of_the_unit_or_with_one_output_there_is_nothing_to_check(claims):
    # The total of a port, or of two ports used together, is none of the unit, nor is “45 W fast”.
    assert ask(*claims) is None


def test_a_plate_of_50_watts_in_two_parts():
    claims = [(NAN, NAN, 50.0, "", "total"), (NAN, NAN, 30.0, "usb_c", "output", 0, True),
              (NAN, NAN, 20.0, "usb_a", "output", 1, True)]
    done = checks(shared_power, [], claims, [("C", "usb_c"), ("A", "usb_a")])
    assert [each["outcome"] for each in done] == [CONSISTENT]
