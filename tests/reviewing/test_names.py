"""Names of makers as people write them; a rule of our own."""
import pytest

from teardowns.reviewing.names import names_meet


@pytest.mark.parametrize(("one", "other", "meet"), [
    ("Veltrice", "VELTRICE", True), ("Veltrice Ltd.", "Veltrice Electronics Co., Ltd", True),
    ("Veltrice", "Veltric", False), ("Veltrice", "", False), ("Ltd", "Lamplit Ltd", False),
    ("Lamplit Lab", "Lamplit Power", False)])
def test_all_words_of_the_shorter_name_stand_in_the_longer(one, other, meet):
    assert names_meet(one, other) is names_meet(other, one) is meet
