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
