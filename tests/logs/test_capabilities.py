"""Lists of capabilities as analysers write them.

The words and what they mean: power.md's public logs and driver sources, decoded in print there
(0A01912C is 5 V 3 A, 0002D12C 9 V 3 A, 0003C12C 12 V 3 A, 0004B12C 15 V 3 A, 000641F4 20 V 5 A).
"""
import pytest

from teardowns.logs.capabilities import (
    AS_WRITTEN,
    REVERSED,
    UnreadableCapture,
    read_capabilities,
)

FIVE_NINE = ("0A01912C", "0002D12C")
SPELLINGS = [
    "0A01912C 0002D12C", "0a01912c,0002d12c", "0x0A01912C; 0x0002D12C", "0A01912Ch 0002D12Ch",
    "$0A01912C\n$0002D12C", "PDO1: 0x0A01912C\nPDO2: 0x0002D12C", "[1] 0A01 912C\n[2] 0002 D12C",
    "0A01_912C\n0002_D12C", "1;0A01912C;fixed\n2;0002D12C;fixed",
    "2C 91 01 0A 2C D1 02 00", "2C:91:01:0A:2C:D1:02:00", "2C-91-01-0A\n2C-D1-02-00",
    "0x2C, 0x91, 0x01, 0x0A, 0x2C, 0xD1, 0x02, 0x00", "2C91010A2CD10200", "2C91010A 2CD10200",
    "00001010000000011001000100101100\n0000 0000 0000 0010 1101 0001 0010 1100",
    "0A 01 91 2C 00 02 D1 2C", "0A01912C0002D12C",
]


@pytest.mark.parametrize("text", SPELLINGS)
def test_a_list_is_read_in_any_common_spelling(text):
    found = read_capabilities(text)
    assert (found.words, found.unread) == (FIVE_NINE, ())


def test_a_message_loses_its_header_and_its_check():
    # Header 0x21A1, lowest byte first: two objects; four bytes of check at the end.
    assert read_capabilities("A1 21 2C 91 01 0A 2C D1 02 00").words == FIVE_NINE
    assert read_capabilities("A1 21 2C 91 01 0A 2C D1 02 00 DE AD BE EF").words == FIVE_NINE


def test_a_list_that_begins_with_5_v_in_neither_order_of_its_bytes_is_asked_about():
    found = read_capabilities("2C D1 02 00")        # 9 V 3 A alone
    assert (found.words, found.order) == ((), "")
    assert found.readings == {AS_WRITTEN: ("2CD10200",), REVERSED: ("0002D12C",)}
    assert read_capabilities("2C D1 02 00", REVERSED).words == ("0002D12C",)


def test_whole_words_without_5_v_are_read_as_they_are_written():
    assert read_capabilities("0002D12C 000641F4").words == ("0002D12C", "000641F4")


def test_lines_that_say_nothing_are_told_by_number():
    found = read_capabilities("Port C1, no cable mark\n\n0A01912C\nend of list")
    assert found.words == ("0A01912C",)
    assert [(row.line, row.text) for row in found.unread] == [
        (1, "Port C1, no cable mark"), (4, "end of list")]


@pytest.mark.parametrize(("text", "mode"), [
    ("PDO2: Fixed 9 V 3 A", ("fixed", None, 9.0, 3.0, None)),
    ("9V=2,22A", ("fixed", None, 9.0, 2.22, None)),
    ("20.00V @ 3250mA 65W", ("fixed", None, 20.0, 3.25, 65.0)),
    ("PPS 3.3-21 V 5 A", ("programmable", 3.3, 21.0, 5.0, None)),
    ("AVS 15 V to 28 V, 140 W", ("adjustable", 15.0, 28.0, None, 140.0)),
    ("QC 2.0 12 V", ("data_lines", None, 12.0, None, None)),
    ("5 to 12 V 2 A", ("range", 5.0, 12.0, 2.0, None)),
])
def test_a_mode_in_words(text, mode):
    found, = read_capabilities(text).modes
    assert (found.scheme, found.low, found.voltage, found.current, found.power) == mode


def test_the_time_of_a_line_is_no_list():
    mode, = read_capabilities("2026-11-26 01:30:12 9 V 3 A").modes
    assert mode.voltage == 9.0


def test_several_modes_stand_in_one_line():
    modes = read_capabilities("5V3A 9V2.22A 12V1.67A").modes
    assert [(mode.voltage, mode.current) for mode in modes] == [(5, 3), (9, 2.22), (12, 1.67)]


@pytest.mark.parametrize("text", ["", "no list here", "12345", "0A01912", "GG01912C"])
def test_what_holds_no_list_says_what_would(text):
    with pytest.raises(UnreadableCapture, match="0A01912C"):
        read_capabilities(text)


def test_too_much_of_it_says_what_to_leave_out():
    with pytest.raises(UnreadableCapture, match="leave in only"):
        read_capabilities("0A01912C\n" * 3000)
    with pytest.raises(UnreadableCapture, match="one port alone"):
        read_capabilities("0A01912C " * 14)
