import errno

import pytest

from teardowns.imaging import making
from teardowns.imaging.decoding import Damaged, ProfileTooLong


@pytest.mark.parametrize("error, code", [
    (MemoryError(), "too_complex"), (ProfileTooLong(), "too_much_metadata"),
    (Damaged(), "corrupt_image"), (OSError("broken data stream"), "corrupt_image"),
    (SyntaxError("not a PNG"), "corrupt_image"), (ZeroDivisionError(), "decode_failed"),
])
def test_whatever_a_decoder_raises_becomes_a_code(monkeypatch, error, code):
    assert outcome_of(monkeypatch, error)["refused"] == code


def test_a_full_disk_is_told_apart_from_damage(monkeypatch):
    said = outcome_of(monkeypatch, making.NotWritten(errno.ENOSPC))
    assert said == {"errno": errno.ENOSPC}


def outcome_of(monkeypatch, error):
    def fail(job):
        raise error

    monkeypatch.setattr(making, "_make", fail)
    monkeypatch.setattr(making.Job, "from_json", lambda text: None)
    return making.outcome("{}")
