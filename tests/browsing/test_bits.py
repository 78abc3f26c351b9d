import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from teardowns.browsing import bits
from tests.browsing.reference import quick

flags = st.lists(st.booleans(), max_size=140).map(lambda some: np.array(some, bool))


@quick
@given(flags)
def test_what_is_packed_comes_out_as_it_was(some):
    packed = bits.pack(some)
    assert (bits.unpack(packed, len(some)) == some).all()
    assert bits.count(packed) == some.sum()


@quick
@given(flags, st.data())
def test_single_units_go_in_and_out(some, data):
    slots = np.array(data.draw(st.lists(st.integers(0, max(len(some) - 1, 0)))), np.int64)
    slots = slots if len(some) else slots[:0]
    packed = bits.pack(some)
    bits.without(packed, slots)
    bits.put(packed, slots[:2])
    wanted = some.copy()
    wanted[slots] = False
    wanted[slots[:2]] = True
    assert (bits.unpack(packed, len(some)) == wanted).all()


@quick
@given(flags, flags)
def test_many_sets_lose_a_unit_at_once(some, others):
    n = min(len(some), len(others))
    sets = bits.pack(np.array([some[:n], others[:n]]))
    bits.without(sets, np.arange(0, n, 3))
    assert not any(bits.unpack(one, n)[::3].any() for one in sets)


def test_more_room_leaves_the_sets_as_they_are():
    packed = bits.pack(np.array([True, False, True]))
    assert bits.unpack(bits.grown(packed, 130), 130).sum() == 2


# 2000 units take 32 words: a set that lies in fewer than 8 of them is small.
scattered = st.lists(st.integers(0, 1999), max_size=60, unique=True).map(
    lambda some: np.array(sorted(some), np.int64))


@quick
@given(scattered)
def test_a_set_gives_the_units_that_it_was_made_of(slots):
    packed = bits.of_slots(slots, 2000)
    flags = np.zeros(2000, bool)
    flags[slots] = True
    assert (packed == bits.pack(flags)).all()
    assert (bits.members(packed, np.flatnonzero(packed), 2000) == slots).all()


@quick
@given(scattered, scattered)
def test_what_sets_have_in_common_is_counted_whether_they_are_small_or_not(some, others):
    sets = np.array([bits.of_slots(some, 2000), bits.pack(np.ones(2000, bool))])
    words = bits.of_slots(others, 2000)
    common = bits.count_both(sets, words, np.flatnonzero(words))
    assert common.tolist() == [len(np.intersect1d(some, others)), len(others)]
