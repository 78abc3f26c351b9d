"""The published schema: sound, documented, at one with nomenclature, models and our reader."""
from copy import deepcopy

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from jsonschema import Draft202012Validator

from teardowns import models
from teardowns.engine.quantities import CODES
from teardowns.exchange.schema import FILE, FORM, KEYWORDS, problems, row_schema, unit_schema
from tests.exchange.renew_codes import renewed
from tests.exchange.strategies import documents
from tests.exchange.whole_document import WHOLE

NOUNS = {
    "printed_texts": models.PrintedText, "claims": models.Claim, "ports": models.Port,
    "components": models.Component, "stack": models.StackLayer,
    "insulation": models.InsulationObservation, "measurements": models.Measurement,
    "photos": models.Photo, "recordings": models.Recording, "parts": models.Part,
}
ODD = [None, True, -1, 0, 1.5, 10**400, "", "x" * 60_000, [], {}, "nonsense", {"a": 1}, [[]]]


def subschemas(node):
    """Every schema inside the resolved schema, itself included."""
    yield node
    inner = list(node.get("properties", {}).values())
    inner += [node[word] for word in ("items", "propertyNames") if word in node]
    if isinstance(node.get("additionalProperties"), dict):
        inner.append(node["additionalProperties"])
    for schema in inner:
        yield from subschemas(schema)


def fields():
    """(schema of the field, column of the model) for every field of unit and rows."""
    for name, schema in unit_schema()["properties"]["unit"]["properties"].items():
        yield schema, models.Unit._meta.get_field(name)
    for list_name, model in NOUNS.items():
        for name, schema in row_schema(list_name)["properties"].items():
            if name != "limits":
                yield schema, model._meta.get_field(name)
    for name, schema in row_schema("parts")["properties"]["limits"]["items"]["properties"].items():
        yield schema, models.PartLimit._meta.get_field(name)


def test_it_is_a_schema_of_the_2020_12_draft_with_the_name_of_the_form():
    schema = unit_schema()
    Draft202012Validator.check_schema(schema)
    assert schema["$id"] == schema["properties"]["form"]["const"] == FORM
    assert schema["$schema"] == "https://json-schema.org/draft/2020-12/schema"


def test_it_uses_no_keyword_that_our_reader_does_not_know():
    for schema in subschemas(unit_schema()):
        assert set(schema) <= KEYWORDS


def test_everything_in_it_is_described_bounded_and_closed():
    for schema in subschemas(unit_schema()):
        assert schema["description"]
        kind = schema.get("type")
        if kind in ("number", "integer"):
            assert schema["minimum"] < schema["maximum"], schema
        elif kind == "string":
            assert "maxLength" in schema or schema["pattern"].startswith("^"), schema
        elif kind == "array":
            assert schema["maxItems"] > 0
        elif kind == "object":
            assert schema["additionalProperties"] is False or "propertyNames" in schema


def test_its_quantities_are_those_of_the_nomenclature():
    for schema in (row_schema("measurements")["properties"]["quantity"],
                   row_schema("parts")["properties"]["limits"]["items"]["properties"]["quantity"]):
        assert schema["enum"] == list(CODES)
    text = FILE.read_text("utf-8")
    assert renewed(text) == text, "run python -m tests.exchange.renew_codes"


def test_its_choices_defaults_and_lengths_are_those_of_the_models():
    for schema, column in fields():
        if column.choices:
            assert schema["enum"] == [value for value, _ in column.choices if value is not None]
        if column.has_default() and not callable(column.default):
            assert schema["default"] == column.default, column
        if "maxLength" in schema and column.max_length:
            assert schema["maxLength"] == column.max_length, column


def test_what_may_be_left_out_is_what_a_model_does_without():
    for schema, column in fields():
        may_be_empty = column.null or column.has_default() or column.empty_strings_allowed
        assert "default" not in schema or may_be_empty, column


def test_every_key_of_the_form_occurs_in_the_whole_document():
    assert set(WHOLE) == set(unit_schema()["properties"])
    assert set(WHOLE["unit"]) == set(unit_schema()["properties"]["unit"]["properties"])
    for name in NOUNS:
        used = {key for row in WHOLE[name] for key in row}
        assert used == set(row_schema(name)["properties"]), name


@pytest.fixture(scope="module")
def judge():
    return Draft202012Validator(unit_schema())


@settings(max_examples=100, deadline=None)
@given(document=documents())
def test_our_reader_and_a_general_validator_both_take_sound_documents(judge, document):
    assert list(problems(document, unit_schema())) == []
    assert judge.is_valid(document)


def places(node, path=()):
    yield path
    items = node.items() if isinstance(node, dict) else enumerate(node) if isinstance(
        node, list) else ()
    for key, inner in items:
        yield from places(inner, (*path, key))


@settings(max_examples=300, deadline=None)
@given(data=st.data())
def test_our_reader_and_a_general_validator_agree_on_a_damaged_document(judge, data):
    document = deepcopy(WHOLE)
    *way, last = data.draw(st.sampled_from([path for path in places(document) if path]))
    place = document
    for key in way:
        place = place[key]
    damage = data.draw(st.sampled_from(["replace", "remove", "add"]))
    if damage == "replace":
        place[last] = data.draw(st.sampled_from(ODD))
    elif damage == "remove":
        del place[last]
    elif isinstance(place, dict):
        place["extra"] = 1
    assert (not list(problems(document, unit_schema()))) == judge.is_valid(document)
