import pytest

from teardowns.reading.plates.items import items_of
from teardowns.reading.plates.tokens import tokenise


def first(text):
    return items_of(tokenise(text))[0]


@pytest.mark.parametrize(
    ("text", "kind", "parts"),
    [("100-240V", "volt", ((100, 240),)), ("5V/9V/12V", "volt", ((5, 5), (9, 9), (12, 12))),
     ("3/2/1.5A", "ampere", ((3, 3), (2, 2), (1.5, 1.5))),
     ("50/60Hz", "hertz", ((50, 50), (60, 60))),
     ("100-120/200-240V", "volt", ((100, 120), (200, 240))), ("1.7-0.8A", "ampere", ((0.8, 1.7),)),
     ("45W+18W", "watt", ((45, 45), (18, 18))), ("500mA", "ampere", ((0.5, 0.5),))],
)  # fmt: skip
def test_numbers_that_belong_together_become_one_quantity(text, kind, parts):
    item = first(text)
    assert (item.kind, item.parts) == (kind, parts)


def test_another_unit_ends_the_list():
    kinds = [item.kind for item in items_of(tokenise("5V/3A")) if item.kind != "sign"]
    assert kinds == ["volt", "ampere"]


def test_a_number_without_a_unit_stays_loose():
    assert first("24").kind == "loose"


@pytest.mark.parametrize("text", ["1,000mA", "5,9V", "5OV", "5-9-12V"])
def test_what_can_be_read_in_two_ways_is_a_question_without_a_value(text):
    item = first(text)
    assert item.question
    assert item.parts == ()


@pytest.mark.parametrize("text", ["0,250A", "12,5V", "2,4A", "9,5V", "1000,5V"])
def test_a_decimal_comma_that_can_be_nothing_else_is_read(text):
    assert first(text).question == ""


def test_ports_named_together_are_one_item():
    item = first("USB-C1+A: 5V")
    assert (item.value, item.joined) == ("USB-C1\nUSB-A", "+")
