import pytest

from teardowns.models import Findable
from teardowns.models.search_texts import KINDS, of_text_key, text_key


@pytest.mark.parametrize("kind", Findable)
def test_a_key_tells_kind_and_number(kind):
    assert of_text_key(text_key(kind, 12)) == (kind, 12)


def test_no_two_things_have_the_same_key_and_a_newer_one_has_a_larger():
    keys = [text_key(kind, pk) for pk in range(1, 50) for kind in Findable]
    assert len(set(keys)) == len(keys) and keys == sorted(keys)
    assert len(Findable) < KINDS
