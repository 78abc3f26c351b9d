"""Fields of the API's schemas: each with its meaning and an example, so that no operation lacks
one (`teardowns.api.openapi` puts them together)."""
from typing import Any

from ninja import Schema
from pydantic import ConfigDict, Field


def told(meaning: str, example: Any, default: Any = ..., **limits: Any) -> Any:
    """A field with its description and its example."""
    return Field(default, description=meaning, examples=[example], **limits)


def unknown(meaning: str, example: Any, **limits: Any) -> Any:
    """A field that is null where the fact is not known."""
    return told(meaning, example, None, **limits)


def following() -> Any:
    return told("Cursor of the next page; empty on the last.", "")


class Told(Schema):
    """What is given out."""


class Said(Schema):
    """What is sent: no field beside those that are known."""

    model_config = ConfigDict(extra="forbid", strict=True)     # JSON has types of its own
