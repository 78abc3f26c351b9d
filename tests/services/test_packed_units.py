"""Which units a saved search found, as one bit a unit."""
import pytest

from teardowns.services.packed_units import pack, unpack


@pytest.mark.parametrize("pks", [set(), {1}, {8, 9, 64, 1000}, set(range(1, 3000, 7))])
def test_a_set_of_units_comes_back_as_it_was(pks):
    assert unpack(pack(pks)) == pks


def test_a_hundred_thousand_units_take_12_kilobytes_at_most():
    # One bit a unit is 12 500 bytes; units by lot hardly compress, and all of them to nothing.
    assert len(pack(set(range(1, 100_001)))) < 500
    assert len(pack({n * 2654435761 % 100_000 for n in range(50_000)})) < 13_000
