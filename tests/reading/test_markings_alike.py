import pytest

from teardowns.reading.markings_alike import alike


@pytest.mark.parametrize("spelt", ["PZ6318", "pz6318", "PZ 63-18", "Pz/63.18", " pz_6318 "])
def test_case_and_what_stands_between_letters_do_not_matter(spelt):
    assert alike(spelt) == "PZ6318"


def test_letters_and_digits_do():
    assert alike("PZ6318") != alike("PZ6319") and alike("- -") == ""
