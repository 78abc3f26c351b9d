"""Words from public logs and driver sources; layouts after USB PD revision 3.2, version 1.1,
tables 6.14 and 6.15, and the Linux kernel's include/linux/usb/pd.h (kinds, and the macros that
made the words to encode). The fixed supplies up to 20 V are decoded in print where they were found.
"""
import pytest
from hypothesis import given
from hypothesis import strategies as st

from teardowns.engine.physics.power_objects import (
    Adjustable,
    AdjustableStandard,
    Battery,
    Fixed,
    PowerObjectError,
    Programmable,
    Variable,
    decode,
    encode,
    read_list,
    read_word,
)

PUBLISHED = [
    (0x0A01912C, Fixed(5, 3, flags=frozenset({"unconstrained power", "dual-role data"}))),
    (0x0002D12C, Fixed(9, 3)), (0x0003C12C, Fixed(12, 3)), (0x0003C1F4, Fixed(12, 5)),
    (0x0004B12C, Fixed(15, 3)), (0x0004B1B1, Fixed(15, 4.33)), (0x00064145, Fixed(20, 3.25)),
    (0x000641C2, Fixed(20, 4.5)), (0x000641F4, Fixed(20, 5)), (0x00019096, Fixed(5, 1.5)),
    (0xC1A42164, Programmable(3.3, 21, 5)),
    (0xC9A43741, Programmable(5.5, 21, 3.25, power_limited=True)),
    (0xC92C2264, Programmable(3.4, 15, 5, power_limited=True)),
    (0xC9A4225A, Programmable(3.4, 21, 4.5, power_limited=True)),
    (0xC8DC3728, Programmable(5.5, 11, 2, power_limited=True)),
    (0xC9903728, Programmable(5.5, 20, 2, power_limited=True)),
]
WRITTEN = [
    (0x0401912C, Fixed(5, 3, flags=frozenset({"USB communication"}))),
    (0x8F0190C8, Variable(5, 12, 2)), (0x4F01903C, Battery(5, 12, 15)),
    (0xC076213C, Programmable(3.3, 5.9, 3)), (0xC0DC213C, Programmable(3.3, 11, 3)),
    (0xC140213C, Programmable(3.3, 16, 3)),
    (0xC9A42141, Programmable(3.3, 21, 3.25, power_limited=True)),
    (0xD230968C, Adjustable(15, 28, 140)), (0xD3C096F0, Adjustable(15, 48, 240)),
    (0xE004B145, AdjustableStandard(3, 3.25)),
    (0x0008C1F4, Fixed(28, 5)), (0x000F01F4, Fixed(48, 5)),
]
by_word = pytest.mark.parametrize("word, item", [
    pytest.param(word, item, id=f"{word:08X}") for word, item in PUBLISHED + WRITTEN])


@by_word
def test_a_published_word_is_read(word, item):
    assert decode(word, first=True) == item


@by_word
def test_and_written_again(word, item):
    assert encode(item) == word


@given(st.integers(1, 2**32 - 1), st.booleans())
def test_every_word_comes_back_as_it_was_or_is_refused(word, first):
    if word >> 28 == 0b1111:
        with pytest.raises(PowerObjectError):
            decode(word, first)
    else:
        assert encode(decode(word, first)) == word


def test_01_is_a_battery_and_10_a_variable_supply():
    # the kernel's order: fixed 0, battery 1, variable 2, augmented 3; a copied header swaps them
    assert isinstance(decode(0b01 << 30, first=False), Battery)
    assert isinstance(decode(0b10 << 30, first=False), Variable)


def test_flags_belong_to_the_first_object_only():
    later = decode(0x0A01912C, first=False)
    # 0A01912C and 0001912C (5 V 3 A) differ in bits 27 and 25
    assert (later.flags, later.reserved) == (frozenset(), 0x0A000000)


@pytest.mark.parametrize("word, reserved", [
    (0x0042D12C, 1 << 22),      # fixed: bit 22 lies between the flags and the peak current
    (0xC1A421E4, 1 << 7),       # programmable: the current has seven bits
    (0xD231968C, 1 << 16),      # adjustable: bit 16 lies between its two voltages
    (0xE104B145, 1 << 24),      # adjustable, standard range: bits 25 to 20
])
def test_reserved_bits_are_reported(word, reserved):
    assert decode(word, first=False).reserved == reserved


def test_the_peak_current_is_a_code_of_its_own():
    assert decode(0x0032D12C, first=False) == Fixed(9, 3, peak=3)


def test_an_adjustable_supply_ends_at_15_volts_where_no_current_is_named_for_20():
    assert AdjustableStandard(3, 0).high == 15
    assert AdjustableStandard(3, 3.25).high == 20


@pytest.mark.parametrize("text", ["0A01912C", "0x0a01912c", " 0A01912C "])
def test_a_word_is_eight_hexadecimal_digits(text):
    assert read_word(text) == 0x0A01912C


@pytest.mark.parametrize("text", ["", "zz", "0A01912", "0A01912C0", "0G01912C"])
def test_what_is_no_word_is_named_with_the_remedy(text):
    with pytest.raises(PowerObjectError, match=f"“{text}”.*eight hexadecimal digits"):
        read_word(text)


@pytest.mark.parametrize("word, told", [
    (0, "00000000 fills an empty place.*leave it out"),
    (0xF0000001, "F0000001 is of a kind that is not defined.*compare it"),
    (1 << 32, "4294967296 does not fit into 32 bits: enter one"),
    (-1, "-1 does not fit"),
])
def test_a_word_that_is_no_object_is_named_with_the_remedy(word, told):
    with pytest.raises(PowerObjectError, match=told):
        decode(word, first=False)


@pytest.mark.parametrize("item", [Fixed(5.02, 3), Fixed(51.2, 3), Battery(5, 12, 256),
                                  Programmable(3.3, 11, 3.02)])
def test_values_that_no_word_can_hold_are_refused(item):
    with pytest.raises(PowerObjectError, match="goes in steps of"):
        encode(item)


def test_a_list_is_read_in_its_order_past_empty_places_and_strange_words():
    found = read_list([0x0A01912C, 0, 0xFFFFFFFF, 0x0002D12C])
    assert [item.voltage for item in found.objects] == [5, 9]
    assert [told for told in found.problems if "FFFFFFFF" in told] == list(found.problems)


def test_objects_of_one_kind_are_picked_out():
    found = read_list([0x0A01912C, 0xC1A42164])
    assert found.of(Programmable) == (Programmable(3.3, 21, 5),)
