"""The description of the API, OpenAPI 3.1: what ninja knows of the operations, made whole.

Added to it: the media types of problems, header fields, tokens, an example for every request and
answer (put together from the examples of the fields), and the exchange form, from its own file.
"""
import json
from copy import deepcopy
from functools import cache
from http import HTTPStatus
from typing import Any

from django.urls import reverse

from core.problems import MEDIA_TYPE
from teardowns.exchange.rules import EVIDENCE_LISTS
from teardowns.exchange.schema import FILE

from . import views
from .operation import api

assert views                                # declares the operations
JSON = "application/json"
DOCUMENT = "UnitDocument"
ABOUT = """What is recorded of opened chargers, and what that says about each printed claim.

Everything public is read without a token. A token (Account, API tokens) writes on its owner's own
bench and never carries the rights of a reviewer or moderator. SI units everywhere; null is what
nobody knows, never zero."""
KEY = {"name": "Idempotency-Key", "in": "header", "required": False,
       "description": "A UUID: the same POST under the same key is acted on once.",
       "schema": {"type": "string", "format": "uuid"},
       "example": "9b2f7c1e-0d7a-4f0e-8a63-5d2c5d1f1f10"}
LOCK = {"name": "If-Match", "in": "header", "required": False,
        "description": "ETag of what you change: 412 with both texts where it changed meanwhile.",
        "schema": {"type": "string"},
        "example": '"0c1f88ab0c1f88ab0c1f88ab0c1f88ab"'}
RATE = {"RateLimit": {"description": "What is left of the minute, as in the IETF draft.",
                      "schema": {"type": "string"}},
        "RateLimit-Policy": {"description": "How many a minute.", "schema": {"type": "string"}}}
TAG = {"ETag": {"description": "Of this state, for If-None-Match and If-Match.",
                "schema": {"type": "string"}}}
WAIT = {"Retry-After": {"description": "Seconds.", "schema": {"type": "integer"}}}


@cache
def openapi_document() -> dict[str, Any]:
    """The whole description; the same for everybody."""
    document = json.loads(json.dumps(api.get_openapi_schema(path_prefix="")))
    document["info"]["description"] = ABOUT
    document["servers"] = [{"url": reverse("api_index").rstrip("/")}]
    document["components"] |= {"securitySchemes": {"token": {
        "type": "http", "scheme": "bearer", "description": "Account, API tokens."}}}
    _add_exchange_form(document["components"]["schemas"])
    for path, methods in document["paths"].items():
        for method, operation in methods.items():
            _complete(document, path, method, operation)
    return document


def _add_exchange_form(schemas):
    """The published schema, its own definitions moved beside the others."""
    form = json.loads(FILE.read_text("utf-8"))
    inner = form.pop("$defs")
    for name in ("$id", "$schema"):
        form.pop(name, None)
    for name, schema in {DOCUMENT: form, **{f"{DOCUMENT}_{key}": value
                                            for key, value in inner.items()}}.items():
        schemas[name] = _moved(schema)
    rows = schemas[DOCUMENT]["properties"]
    schemas["EvidenceRow"] = {
        "title": "EvidenceRow", "description": "A row of one list of the exchange form.",
        "anyOf": [rows[name]["items"] for name in EVIDENCE_LISTS]}


def _moved(node):
    if isinstance(node, list):
        return [_moved(each) for each in node]
    if not isinstance(node, dict):
        return node
    return {key: value.replace("#/$defs/", f"#/components/schemas/{DOCUMENT}_")
            if key == "$ref" else _moved(value) for key, value in node.items()}


def _complete(document, path, method, operation):
    title, _, more = operation.get("description", "").partition("\n\n")
    operation["summary"], operation["description"] = title.strip(), " ".join(more.split())
    parameters = operation.setdefault("parameters", [])
    private, media_type, body, keyed = (operation.pop(f"x-{name}", None) for name in (
        "private", "media-type", "body", "keyed"))
    if body:
        operation["requestBody"] = deepcopy(body)
    if keyed:
        parameters.append(KEY)
    if method in ("put", "patch", "delete"):
        parameters.append(LOCK)
    operation["security"] = [{"token": []}] if private else []
    _add_ends(operation["responses"], operation.pop("x-ends"))
    for parameter in parameters:
        _example_of_parameter(parameter)
    _complete_responses(document, operation, media_type)
    if "requestBody" in operation:
        _complete_body(document, operation["requestBody"], path)


def _add_ends(responses, statuses):
    """Each ends as 429 does, in a problem."""
    problem = responses.pop("429")
    for status in sorted({*statuses, 429, 503}):        # 503 by core/outages.py and overload.py
        responses[str(status)] = {**deepcopy(problem), "description": HTTPStatus(status).phrase}


def _example_of_parameter(parameter):
    schema = parameter["schema"]
    examples = schema.pop("examples", None)
    parameter.pop("examples", None)
    example = schema.pop("example", parameter.pop("example", None))
    if example is None:
        example = examples[0] if examples else schema.get("default")
    if example not in (None, "", []):
        parameter["example"] = example


def _complete_responses(document, operation, media_type):
    for status, response in operation["responses"].items():
        response["headers"] = {} if status == "503" else dict(RATE)
        if status in ("429", "503"):
            response["headers"] |= WAIT
        content = response.get("content")
        if not content:
            continue
        if int(status) >= 400:
            problem = content[JSON] | {"example": {
                "type": "about:blank", "title": response["description"], "status": int(status),
                "detail": "What is wrong, and what mends it."}}
            response["content"] = {MEDIA_TYPE: problem}
            continue
        response["headers"] |= TAG
        whole = content[JSON]
        whole["example"] = example_of(document, whole["schema"])
        if media_type:
            response["content"] = {media_type: whole}


def _complete_body(document, body, path):
    for media_type, content in body["content"].items():
        if media_type != JSON:
            continue
        if path.endswith("/evidence/{list}/{key}"):
            example = content["schema"].pop("example", None)
            content["schema"] = {"type": "object", "maxProperties": 60}
            content["example"] = example or {"quantity": "mass_total", "value": 0.061}
            body["description"] = "As in EvidenceRow, but for what stays at its default."
        else:
            content["example"] = example_of(document, content["schema"])


def example_of(document: dict[str, Any], schema: dict[str, Any]) -> Any:
    """An example of a schema, from those of its fields."""
    if "$ref" in schema:
        name = schema["$ref"].rpartition("/")[2]
        return example_of(document, document["components"]["schemas"][name])
    given = schema.get("examples", [None])[0]
    if given is not None or _may_be_null(schema) and "examples" in schema and not _inner(schema):
        return given
    if schema.get("type") == "object":
        named = {name: example_of(document, each)
                 for name, each in schema.get("properties", {}).items()}
        return {name: value for name, value in named.items()
                if value is not None or name in schema.get("required", ())}
    if schema.get("type") == "array":
        return [example_of(document, schema["items"])]
    if found := _inner(schema):
        return example_of(document, found)
    return schema.get("default")


def _may_be_null(schema):
    return any(each.get("type") == "null" for each in schema.get("anyOf", ()))


def _inner(schema):
    """The schema that a choice is about, where there is one."""
    return next((each for each in schema.get("anyOf", schema.get("allOf", ()))
                 if "$ref" in each), None)
