"""Words composed by hand from the layout of USB PD 3.1, tables 6-9 and 6-13 (from memory)."""
from teardowns.presenting.advertised import advertised_words


def test_a_fixed_supply_is_its_voltage_and_current():
    # 100 × 50 mV << 10 | 300 × 10 mA = 0x1912C; the high bits are flags of the first word
    assert advertised_words(["0A01912C"]) == ["5\u202fV 3\u202fA (0A01912C)"]


def test_a_programmable_supply_is_its_range_and_current():
    # 1100 b, 110 × 100 mV << 17, 33 × 100 mV << 8, 60 × 50 mA
    word = f"{0b1100 << 28 | 110 << 17 | 33 << 8 | 60:08X}"
    assert advertised_words([word]) == [f"3.3 to 11\u202fV 3\u202fA ({word})"]


def test_other_supplies_are_shown_without_invented_numbers():
    assert advertised_words(["7C000000"]) == [
        "battery, variable or adjustable supply (7C000000)"]


def test_what_is_no_word_is_shown_as_it_is():
    assert advertised_words(["zz"]) == ["zz (not a 32-bit word)"]
