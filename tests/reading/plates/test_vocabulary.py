import pytest

from teardowns.reading.plates.vocabulary import word_at

KNOWN = [
    ("INPUT:", "input", ""),
    ("Output 2: 5V", "output", "2"),
    ("OUTPUT 1-4: 5V", "output", "1-4"),
    ("Output 2 A", "output", ""),  # two amperes, not the second output
    ("USB-C1: 5V", "port", "USB-C1"),
    ("usb-a 5V", "port", "USB-A"),
    ("Type-C", "port", "USB-C"),
    ("USB 5V", "port", "USB"),
    ("C1+A", "port", "USB-C1"),
    ("A:", "port", "USB-A"),
    ("PD3.0", "protocol", "PD|3.0"),
    ("PD 20W", "protocol", "PD|"),
    ("USB PD", "protocol", "PD|"),
    ("QC 4+", "protocol", "QC|4+"),
    ("BC1.2", "protocol", "BC|1.2"),
    ("class II", "mark", "class_ii"),
    ("UL 62368-1", "mark", "standard:62368-1"),
    ("CE", "mark", "ce"),
    ("IP20", "mark", "ip:20"),
    ("Level V", "level", "V"),
    ("OVP", "feature", "over_voltage"),
    ("overheating protection", "feature", "over_temperature"),
    ("short-circuit proof", "feature", "short_circuit"),
    ("over current", "perhaps_feature", "over_current"),
    ("SCP", "perhaps_feature", "short_circuit"),
    ("socket-outlet", "outlet", ""),
]


@pytest.mark.parametrize(("text", "kind", "payload"), KNOWN)
def test_a_known_word_is_recognised(text, kind, payload):
    assert word_at(text, 0)[:2] == (kind, payload)


@pytest.mark.parametrize("text", ["Cent", "CE-65W", "ce", "PDF", "ACT", "回收", "A4", "Inputs1"])
def test_a_longer_word_is_not_taken_for_a_known_one(text):
    known = word_at(text, 0)
    assert known is None or known[0] not in ("mark", "protocol", "nature", "input")
