"""What no document may contain is refused, with its place and a remedy."""

import pytest

from teardowns.exchange.parsing import MOST_BYTES, MOST_DEPTH, MOST_VALUES, parse
from teardowns.exchange.problems import DocumentError


def problems_of(source):
    with pytest.raises(DocumentError) as refused:
        parse(source)
    return refused.value.problems



@pytest.mark.parametrize("text", ['{"a": [1, {"v": NaN}]}', '{"a": [1, {"v": -Infinity}]}',
                                  '{"a": [1, {"v": 1e999}]}'])
def test_a_number_that_is_none_is_named_by_its_path(text):
    assert problems_of(text) == (
        "a[1].v: is not a finite number; leave the key out when the value is not known",)


def test_not_a_number_inside_a_dict_is_refused_too():
    assert "v: is not a finite number" in problems_of({"v": float("nan")})[0]


def test_a_key_that_stands_twice_is_named_with_its_place():
    found = problems_of('{"unit": {"title": "a", "title": "b"}}')
    assert found == ('unit: the key "title" stands twice; keep one of the two',)


def test_half_a_character_is_refused_in_values_and_keys():
    assert problems_of(r'{"a": "\ud800"}')[0].startswith("a: contains half of a character")
    assert problems_of(r'{"\udfff": 1}')[0].startswith("contains half of a character")


def test_nul_is_refused():
    assert problems_of(r'{"a": ["\u0000"]}') == ("a[0]: contains the character NUL; remove it",)


def test_a_character_of_two_escapes_is_whole():
    assert parse(r'{"a": "\ud83d\udd0c"}') == {"a": "\U0001f50c"}


def test_depth_is_bounded():
    assert "nested deeper" in problems_of('{"a":' * MOST_DEPTH + "1" + "}" * MOST_DEPTH)[0]
    assert parse('{"a":' * (MOST_DEPTH - 1) + "1" + "}" * (MOST_DEPTH - 1))


def test_a_bottomless_text_does_not_exhaust_the_stack():
    assert "nested deeper" in problems_of("[" * 200_000)[0]


def test_size_is_bounded_in_bytes_and_in_values():
    assert "larger than 5 MB" in problems_of(b" " * (MOST_BYTES + 1))[0]
    assert "more than" in problems_of({"a": [0] * MOST_VALUES})[0]


def test_an_object_has_no_more_keys_than_any_form_knows():
    many = {f"k{n}": 1 for n in range(2_001)}
    assert problems_of({"a": many}) == ("a: has more than 2000 keys; no part of the form has",)


def test_an_integer_of_thousands_of_digits_is_no_trouble():
    assert "a: is not a finite number" in problems_of('{"a": ' + "9" * 9000 + "}")[0]


def test_a_key_without_end_is_refused_by_its_beginning():
    (problem,) = problems_of({"unit": {"k" * 5000: 1}})
    assert problem == (f'unit: the key "{"k" * 20}…" is 5000 characters long; '
                       "no key of the form is")


def test_broken_json_is_named_by_line_and_column():
    assert problems_of('{"a": 1,\n "b" 2}')[0].startswith("line 2, column 6 is not JSON")


def test_a_text_that_is_not_utf8_is_refused_and_a_byte_order_mark_is_not():
    assert problems_of(b'{"a": "\xff"}') == ("byte 7 is not UTF-8; save the file as UTF-8",)
    assert parse(b'\xef\xbb\xbf{"a": 1}') == {"a": 1}


def test_what_json_cannot_hold_is_refused_in_a_dict():
    assert "is a set" in problems_of({"a": {1}})[0]
    assert "is not text" in problems_of({1: "a"})[0]
