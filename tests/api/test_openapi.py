"""The description of the API is valid OpenAPI 3.1, and its examples are what it describes."""
import re

import pytest
from openapi_spec_validator import OpenAPIV31SpecValidator

from core.policy import ANYONE, POLICY
from teardowns.api.openapi import openapi_document
from teardowns.api.operation import api

from .speaking import Program, validator


def operations():
    for path, methods in openapi_document()["paths"].items():
        for method, operation in methods.items():
            yield path, method, operation


def test_it_is_valid_openapi():
    assert [each.message for each in
            OpenAPIV31SpecValidator(openapi_document()).iter_errors()] == []


@pytest.mark.parametrize("path, method, operation", list(operations()),
                         ids=lambda each: each if isinstance(each, str) else "")
def test_every_answer_and_body_has_an_example_that_is_valid(path, method, operation):
    contents = [content for status, answer in operation["responses"].items()
                for content in answer.get("content", {}).values()]
    contents += [content for media_type, content in
                 operation.get("requestBody", {}).get("content", {}).items()
                 if media_type == "application/json"]
    assert contents
    for content in contents:
        found = [each.message for each in validator(content["schema"]).iter_errors(
            content["example"])]
        assert found == []


def test_every_operation_says_what_it_is_in_a_line_of_its_own():
    lines = [operation["summary"] for _, _, operation in operations()]
    assert all(lines) and len(set(lines)) == len(lines)


def test_every_parameter_of_an_address_has_an_example_and_a_meaning():
    lacking = [(path, parameter["name"]) for path, _, operation in operations()
               for parameter in operation["parameters"] if parameter["in"] == "path"
               and not ("example" in parameter and parameter.get("description"))]
    assert lacking == []


def test_what_it_says_of_tokens_is_what_the_policy_says():
    said = {}
    for bound in api._get_bound_routers():
        for path, view in bound.path_operations.items():
            for operation in view.operations:
                plain = re.sub(r"{\w+:", "{", path) or "/"
                described = openapi_document()["paths"][plain][operation.methods[0].lower()]
                said[operation.url_name, operation.methods[0]] = bool(described["security"])
    stated = {(name, method): rule is not ANYONE for name, methods in POLICY.items()
              if name.startswith("api_") for method, rule in methods.items()
              if name not in ("api_openapi", "api_documentation")}
    assert said == stated


@pytest.mark.django_db
def test_it_is_handed_out_as_it_is():
    answer = Program().get("/openapi.json")
    assert answer.json() == openapi_document()
    assert Program().get("/openapi.json", If_None_Match=answer["ETag"]).status_code == 304
