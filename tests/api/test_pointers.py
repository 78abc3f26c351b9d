"""JSON pointers as RFC 6901 has them."""
import pytest

from teardowns.api.pointers import placed, pointer, strangers


@pytest.mark.parametrize("steps, text", [
    # RFC 6901, section 5: the document's examples, the other way round.
    ((), ""), (("foo",), "/foo"), (("foo", 0), "/foo/0"), (("",), "/"), (("a/b",), "/a~1b"),
    (("c%d",), "/c%d"), (("e^f",), "/e^f"), (("k\"l",), "/k\"l"), ((" ",), "/ "),
    (("m~n",), "/m~0n")])
def test_a_pointer_is_written_as_the_standard_has_it(steps, text):
    assert pointer(*steps) == text


@pytest.mark.parametrize("said, place, words", [
    ("measurements[3].value: is missing; add it", "/measurements/3/value", "is missing; add it"),
    ("unit.title: is empty", "/unit/title", "is empty"),
    ("parts[0].limits[2]: a: b", "/parts/0/limits/2", "a: b"),
    ("the document holds more than 200000 values; split it", "",
     "the document holds more than 200000 values; split it")])
def test_a_sentence_of_the_documents_reader_is_placed(said, place, words):
    assert placed([said]) == [{"detail": words, "pointer": place}]


def test_a_document_inside_a_body_is_pointed_into():
    assert placed(["unit.title: is empty"], "document")[0]["pointer"] == "/document/unit/title"


def test_a_field_that_nobody_reads_is_pointed_at_and_the_known_ones_are_named():
    """RFC 6901, section 3: a slash within a name is written ~1."""
    assert strangers(["maker", "a/b"], {"maker": 1, "model": 2}, "fields") == [
        {"detail": "There is no such field here: the fields are maker, model.",
         "pointer": "/fields/a~1b"}]
