"""The foot of a record names every set that stands in its rulebook's version."""
import pytest

from teardowns.presenting.record_foot import rulebook_text


@pytest.mark.parametrize("version, said", [
    ("3+0a1b2c3d", "edition 3, 0a1b2c3d"),
    ("3+0a1b2c3d+set2-4e5f6a7b", "edition 3, 0a1b2c3d, reference set set2-4e5f6a7b"),
    ("3+0a1b2c3d+risk1-99aabbcc", "edition 3, 0a1b2c3d, scenarios risk1-99aabbcc"),
    ("3+0a1b2c3d+set2-4e5f6a7b+risk1-99aabbcc",
     "edition 3, 0a1b2c3d, reference set set2-4e5f6a7b, scenarios risk1-99aabbcc"),
    ("sketch", "sketch")])
def test_each_set_by_its_kind(version, said):
    assert rulebook_text(version) == said
