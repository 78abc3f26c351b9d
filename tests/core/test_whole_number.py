import pytest

from core.whole_number import whole_number


@pytest.mark.parametrize(("text", "number"), [("0", 0), ("007", 7), ("9" * 18, 10**18 - 1)])
def test_digits_are_a_number(text, number):
    assert whole_number(text) == number


@pytest.mark.parametrize("text", ["", "-1", "+1", " 1", "1_0", "1.0", "٣", "²", "1\0", "9" * 19,
                                  "9" * 5000])
def test_all_else_is_none(text):
    assert whole_number(text) is None


def test_fewer_digits_may_be_asked_for():
    assert (whole_number("999", 3), whole_number("1000", 3)) == (999, None)
