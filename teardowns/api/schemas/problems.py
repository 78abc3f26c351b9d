"""Problems (RFC 9457)."""
from pydantic import ConfigDict

from .fields import Told, told


class Fault(Told):
    """One thing that is wrong, and where."""

    detail: str = told("What is wrong and what mends it.", "Write a number.")
    pointer: str | None = told("Place in the body, a JSON pointer (RFC 6901).",
                               "/measurements/3/value", None)
    parameter: str | None = told("Name of the parameter.", "size", None)
    header: str | None = told("Name of the header field.", "Idempotency-Key", None)


class Problem(Told):
    """What went wrong, in words for whoever sent the request."""

    model_config = ConfigDict(extra="allow")
    type: str = told("“about:blank”: the status says what kind of problem it is.", "about:blank")
    title: str = told("The status in words.", "Not Found")
    status: int = told("The status.", 404)
    detail: str = told("What is wrong and what mends it.", "There is nothing at this address.")
    errors: list[Fault] | None = told("Each thing that is wrong.", [], None)
