"""A program that speaks to the API: JSON out, JSON in, with a token or without."""
import json
from urllib.parse import urlsplit

from django.test import Client
from jsonschema import Draft202012Validator
from referencing import Registry, Resource
from referencing.jsonschema import DRAFT202012

from core.accounts.services.api_tokens import issue_token
from teardowns.api.openapi import openapi_document

BASE = "/api/v1"


def token_of(user, *scopes):
    """What its owner's program sends as Authorization."""
    _, secret = issue_token(owner=user, name=f"test {user.api_tokens.count()}",
                            scopes=scopes or ("read", "contribute"), days=1)
    return f"Bearer {secret}"


class Program:
    """`get`, `post` … of an address below the API; the last answer's body is `said`."""

    def __init__(self, user=None, *scopes):
        self.client = Client(raise_request_exception=False)
        self.headers = {"Authorization": token_of(user, *scopes)} if user else {}

    def ask(self, method, path, body=None, *, content_type="application/json", **headers):
        data = b"" if body is None else body if isinstance(body, bytes) else json.dumps(body)
        named = {name.replace("_", "-"): value for name, value in headers.items()}
        path = path if path.startswith(BASE) else BASE + path
        return self.client.generic(method, path, data, content_type,
                                   headers=self.headers | named)

    def get(self, path, **headers):
        return self.ask("GET", path, **headers)

    def post(self, path, body=None, **headers):
        return self.ask("POST", path, {} if body is None else body, **headers)

    def put(self, path, body, **headers):
        return self.ask("PUT", path, body, **headers)

    def patch(self, path, body, **headers):
        return self.ask("PATCH", path, body, **headers)

    def delete(self, path, **headers):
        return self.ask("DELETE", path, **headers)


def validator(schema):
    """Of a schema of the description, whose references lead into it."""
    root = Resource.from_contents(openapi_document(), default_specification=DRAFT202012)
    registry = Registry().with_resource("urn:api", root)
    return Draft202012Validator(
        {"$ref": f"urn:api#/{schema}"} if isinstance(schema, str) else
        {"$id": "urn:api:one", **_absolute(schema)}, registry=registry)


def _absolute(node):
    if isinstance(node, list):
        return [_absolute(each) for each in node]
    if not isinstance(node, dict):
        return node
    return {key: f"urn:api{value}" if key == "$ref" else _absolute(value)
            for key, value in node.items()}


def faults_of(response, path, method="get"):
    """What of an answer is not as the description says; path : as the description writes it."""
    operation = openapi_document()["paths"][path][method]
    stated = operation["responses"].get(str(response.status_code))
    if stated is None:
        return [f"status {response.status_code} is not described"]
    if "content" not in stated:
        return ["there is a body"] if response.content else []
    media_type = response["Content-Type"].partition(";")[0]
    if media_type not in stated["content"]:
        return [f"{media_type} is not described"]
    schema = stated["content"][media_type]["schema"]
    return [f"{each.json_path}: {each.message[:200]}"
            for each in validator(schema).iter_errors(response.json())]


def next_of(response):
    """The address of the next page in the header Link, without the host; None on the last."""
    for link in response.get("Link", "").split(", "):
        where, _, relation = link.partition("; ")
        if relation == 'rel="next"':
            parts = urlsplit(where.strip("<>"))
            return f"{parts.path}?{parts.query}"
    return None
