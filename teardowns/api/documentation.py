"""The description for programs, and the same as a page for people."""
import json
from functools import cache
from html import escape
from typing import Any

from django.conf import settings
from django.shortcuts import render
from django.utils.safestring import mark_safe

from teardowns.api.answers import Answer, written
from teardowns.api.limits import Allowance
from teardowns.api.openapi import DOCUMENT, JSON, openapi_document

WHERE = {"path": "in the address", "query": "after the ?", "header": "header field"}
ENDS = {"400": "not JSON", "401": "no token", "403": "not allowed to you", "404": "not there",
        "409": "not in this state", "410": "withdrawn", "412": "changed meanwhile",
        "413": "too large", "415": "another media type", "422": "something of it is wrong",
        "428": "If-Match is missing", "429": "too often",
        "503": "too busy, or a part of the site is away", "507": "no room"}


def api_openapi(request):
    allowance = Allowance(request, writes=False)
    return allowance.taken() or allowance.told(written(request, Answer(openapi_document())))


def api_documentation(request):
    return render(request, "teardowns/api.html", {
        "chapters": chapters(), "base": openapi_document()["servers"][0]["url"],
        "fields": schema_fields(), "form": DOCUMENT, "reads": settings.API_READS,
        "reads_of_owner": settings.API_READS_OF_OWNER, "writes": settings.API_WRITES,
        "ends": ENDS.items()})


@cache
def chapters() -> list[dict[str, Any]]:
    """Operations by subject, as prepared strings."""
    found: dict[str, list[dict[str, Any]]] = {}
    for path, methods in openapi_document()["paths"].items():
        for method, operation in methods.items():
            found.setdefault(operation["tags"][0], []).append(_operation(path, method, operation))
    return [{"title": title, "anchor": title.lower().replace(" ", "-"), "operations": listed}
            for title, listed in found.items()]


def _operation(path, method, operation):
    status, answer = next((status, each) for status, each in operation["responses"].items()
                          if status.startswith("2"))
    body = operation.get("requestBody", {}).get("content", {})
    return {
        "anchor": operation["operationId"].replace("_", "-"), "method": method.upper(),
        "path": path, "title": operation["summary"], "text": operation["description"],
        "is_private": bool(operation["security"]),
        "parameters": [_parameter(each) for each in operation["parameters"]],
        "body": _json(body.get(JSON, {}).get("example")), "media_types": ", ".join(body),
        "status": status, "answer": _json(_example(answer)),
        "schema": _schema_of(answer),
        "ends": ", ".join(code for code in operation["responses"] if code in ENDS)}


def _example(answer):
    return next(iter(answer.get("content", {}).values()), {}).get("example")


def _schema_of(answer):
    content = next(iter(answer.get("content", {}).values()), {})
    return content.get("schema", {}).get("$ref", "").rpartition("/")[2]


def _json(example):
    """Between tags a quotation mark is itself: written as an entity it is six times as long."""
    if example is None:
        return ""
    return mark_safe(escape(json.dumps(example, indent=1, ensure_ascii=False), quote=False))


def _parameter(parameter):
    schema = parameter["schema"]
    return {"name": parameter["name"], "where": WHERE[parameter["in"]],
            "meaning": parameter.get("description", ""), "bounds": _bounds(schema),
            "required": parameter.get("required", False)}


def _bounds(schema):
    for inner in schema.get("anyOf", ()):
        if inner.get("type") != "null":
            return _bounds(inner)
    if schema.get("type") == "array":
        return f"several; {_bounds(schema['items'])}"
    if "enum" in schema:
        return ", ".join(map(str, schema["enum"]))
    words = [schema.get("type", "")]
    if "maxLength" in schema:
        words.append(f"at most {schema['maxLength']} characters")
    low, high = schema.get("minimum"), schema.get("maximum")
    if low is not None and high is not None and high < 10**12:
        words.append(f"{low} to {high}")
    return ", ".join(filter(None, words))


@cache
def schema_fields() -> list[dict[str, Any]]:
    """What each schema's fields mean; the exchange form has a file of its own."""
    schemas = openapi_document()["components"]["schemas"]
    return [{"name": name, "text": schema.get("description", ""), "fields": [
        {"name": field, "kind": _kind(each), "meaning": each.get("description", "")}
        for field, each in schema["properties"].items()]}
        for name, schema in sorted(schemas.items())
        if not name.startswith(DOCUMENT) and schema.get("properties")]


def _kind(schema):
    if "$ref" in schema:
        return schema["$ref"].rpartition("/")[2]
    if "anyOf" in schema:
        return " or ".join(_kind(each) for each in schema["anyOf"])
    if schema.get("type") == "array":
        return f"list of {_kind(schema['items'])}"
    if schema.get("type") == "object" and isinstance(schema.get("additionalProperties"), dict):
        return f"{_kind(schema['additionalProperties'])} by name"
    return schema.get("type", "any") if "const" not in schema else str(schema["const"])
