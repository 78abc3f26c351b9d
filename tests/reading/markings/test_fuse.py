"""IEC 60127: L is 35 A or ten times the rated current, E 150 A, H 1500 A (from memory)."""

import pytest

from teardowns.reading.markings.fuse import decode_fuse

DECODED = [
    ("T1AL250V", "T", 1.0, 35.0, 250.0),
    ("F2AL250V", "F", 2.0, 35.0, 250.0),
    ("T5AL250V", "T", 5.0, 50.0, 250.0),  # ten times 5 A is more than 35 A
    ("T3.15A H 250V", "T", 3.15, 1500.0, 250.0),
    ("T3,15AL250V~", "T", 3.15, 35.0, 250.0),
    ("T500mAE250V", "T", 0.5, 150.0, 250.0),
    ("T1A 250V", "T", 1.0, None, 250.0),
    ("250V T1AL", "T", 1.0, 35.0, 250.0),
    ("FF630mA", "FF", 0.63, None, None),
    ("1A 125V", None, 1.0, None, 125.0),
    ("T 2A", "T", 2.0, None, None),
]


@pytest.mark.parametrize(("text", "time", "amperes", "capacity", "volts"), DECODED)
def test_a_marking_is_decoded(text, time, amperes, capacity, volts):
    decoding = decode_fuse(text)
    assert (decoding.time_characteristic, decoding.rated_current) == (time, amperes)
    assert (decoding.breaking_capacity, decoding.rated_voltage) == (capacity, volts)
    assert decoding.unread == ""


def test_a_current_without_its_unit_is_noted():
    decoding = decode_fuse("T2 250V")
    assert decoding.rated_current == 2.0
    assert "no A" in decoding.notes[0]


def test_what_is_not_understood_is_kept():
    decoding = decode_fuse("QZX 1A 250V")
    assert (decoding.rated_current, decoding.unread) == (1.0, "QZX")
