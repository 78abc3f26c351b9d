"""What two units have in common, and what speaks against one board."""
from math import log

import pytest

from teardowns.likeness.compare import compare, readings_apart
from teardowns.likeness.features import Feature, features
from tests.likeness.made import component, document, winding

HUNDRED = 100


def scored(ours, theirs, units_with=2, units=HUNDRED):
    return compare(ours, theirs, lambda word: units_with, units)


def controller(marking):
    return features(document([component("primary_controller", marking)]))


def test_a_rare_marking_in_common_speaks_by_its_rarity():
    """2 of 100 units have it: ln(100 / 2) = 3.912; the score is 3.912 / (3.912 + ln 100)."""
    made = scored(controller("UWK-12"), controller("uwk 12"))
    assert made.speaks_for[0].weight == pytest.approx(3.912, abs=5e-4)
    assert made.score == pytest.approx(3.912 / (3.912 + 4.605), abs=5e-4)


def test_what_every_unit_has_says_nothing():
    made = scored(controller("UWK-12"), controller("UWK-12"), units_with=HUNDRED)
    assert made.score == 0 and made.speaks_for[0].weight == 0


def test_another_controller_speaks_against_by_twice_what_singles_out_one_unit():
    made = scored(controller("UWK-12"), controller("PZ6318"))
    assert made.speaks_against[0].weight == pytest.approx(2 * log(HUNDRED))
    assert (made.speaks_against[0].ours, made.speaks_against[0].theirs) == ("UWK-12", "PZ6318")
    assert made.score == 0


def test_what_was_recorded_in_one_alone_speaks_neither_way():
    core = features(document([component("core", "EE16")]))
    assert scored(controller("UWK-12"), core) == scored((), ())


def turns(number):
    return features(document(stack=[winding("primary", 1, number)]))


def test_turns_within_their_uncertainty_agree_and_beyond_it_they_do_not():
    """2 % each, k = 1: 100 and 105 lie 5 / sqrt(2.0² + 2.1²) = 1.7 apart, 100 and 107 2.4."""
    assert scored(turns(100.0), turns(105.0)).speaks_for
    assert scored(turns(100.0), turns(107.0)).speaks_against


def test_it_is_the_same_from_both_sides():
    ours = features(document([component("primary_controller", "UWK-12"),
                              component("core", "EE16")], [winding("primary", 1, 100.0)]))
    theirs = features(document([component("primary_controller", "UWK-12"),
                                component("core", "EE19")], [winding("primary", 1, 103.0)]))
    one, other = scored(ours, theirs), scored(theirs, ours)
    assert one.score == pytest.approx(other.score, rel=1e-12)
    assert [reason.slot for reason in one.speaks_for] == [
        reason.slot for reason in other.speaks_for]


def test_another_bulk_capacitor_weighs_less_than_another_transformer():
    def board(core, microfarads):
        return features(document([
            component("core", core),
            component("bulk_capacitor", nominal=microfarads * 1e-6, rated_voltage=400.0)]))
    against = {one.slot: one.weight for one in scored(board("EE16", 10), board("EE19", 15))
               .speaks_against}
    assert against["value/bulk_capacitor"] < against["marking/core"] / 3


def fuse(**rating):
    return features(document([component("fuse", "F1", **rating)]))


def test_a_rating_that_was_not_read_in_one_speaks_neither_way():
    whole, half = fuse(rated_current=2.0, rated_voltage=250.0), fuse(rated_current=2.0)
    assert scored(whole, half) == scored((), ())
    assert scored(whole, fuse(rated_current=1.0)).speaks_against


def test_of_several_parts_all_are_named_where_none_is_the_same():
    ours = features(document([component("core", "EE16", "a"), component("core", "EE19", "b")]))
    theirs = features(document([component("core", "EFD15")]))
    reason, = scored(ours, theirs).speaks_against
    assert (reason.ours, reason.our_refs) == ("EE16, EE19", ("component/a", "component/b"))


def picture(bits):
    return (Feature("photo/component_side", "photo a", picture=bits, refs=("photo/a",)),)


def test_pictures_speak_for_the_nearer_they_are_and_never_against():
    """4 bits of 64 apart: half of what the very same picture says."""
    same, near, far = (scored(picture(-1), picture(-1 ^ flipped)) for flipped in (0, 15, 255))
    assert near.speaks_for[0].weight == same.speaks_for[0].weight / 2
    assert far == scored((), ())


def test_a_designator_alone_says_little():
    row = component("bulk_capacitor", designator="C1", nominal=1e-5)
    other = component("bulk_capacitor", designator="C1", nominal=2e-5)
    made = scored(features(document([row])), features(document([other])))
    assert made.speaks_for[0].weight == 0.5


def test_exact_readings_lie_infinitely_apart_or_not_at_all():
    assert readings_apart(3.0, 0.0, 3.0, 0.0) == 0
    assert readings_apart(3.0, 0.0, 4.0, 0.0) == float("inf")
