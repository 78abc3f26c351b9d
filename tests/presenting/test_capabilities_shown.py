"""Words and modes in sentences, with what the rules for lists say of them."""
from teardowns.logs.capabilities import read_capabilities
from teardowns.presenting.capabilities_shown import NOT_COUNTED, capabilities_shown, shown_orders


def shown(text):
    return capabilities_shown(read_capabilities(text))


def test_modes_are_said_with_how_they_are_asked_for():
    found = shown("5 V 3 A\nPPS 3.3-11 V 3 A\nnothing of it")
    assert found["modes"] == ["5.00\u202fV 3.00\u202fA",
                              "3.3 to 11.0\u202fV 3.00\u202fA, programmable"]
    assert found["remark"] == NOT_COUNTED
    assert found["unread"] == [{"line": 3, "text": "nothing of it"}]


def test_fixed_modes_count_without_a_remark():
    assert shown("5 V 3 A\n9 V 2 A")["remark"] == ""


def test_words_are_held_against_the_rules():
    # 9 V first: a list begins with 5 V (USB PD, source capabilities; from memory).
    assert any("5" in sentence for sentence in shown("0002D12C")["rules"])
    assert "0002D12C" in shown("0002D12C")["words"][0]


def test_each_order_is_said_with_what_it_would_mean():
    first, second = shown_orders(read_capabilities("2C D1 02 00 2C D1 02 00").readings)
    assert (first["value"], second["value"]) == ("as_written", "reversed")
    assert "0002D12C" in second["words"][0] and "2CD10200" in first["words"][0]
