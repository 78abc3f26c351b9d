"""IEC 62368-1, F.3.2 and F.3.3; Regulation (EU) 2019/1782, annex II: what a plate prints."""
from teardowns.engine.outcome import CANNOT_TELL, CONSISTENT, INCONSISTENT
from teardowns.engine.rules.checks.plate_markings import plate_markings
from tests.engine.make import NAN

FULL = (240.0, 0.5, 50.0, 5.0, 2.0, 10.0)


def test_a_full_plate():
    assert plate_markings(*FULL, NAN).outcome == CONSISTENT


def test_what_is_missing_counts_only_where_all_faces_were_photographed():
    without = (*FULL[:5], NAN)
    assert plate_markings(*without, NAN).outcome == CANNOT_TELL
    found = plate_markings(*without, 1.0)
    assert found.outcome == INCONSISTENT and "output power" in found.sentence


def test_an_unread_plate_says_nothing():
    assert plate_markings(*[NAN] * 6, 1.0) is None
