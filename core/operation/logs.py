"""Lines of the log as JSON objects, and paths kept out of them.

A path may hold a key (of a new password, of a receipt) and a message what somebody typed. Lines
about requests name the route instead. JSON lines carry of an exception its kind and where it was
raised, not its message.
"""
import json
import logging
import traceback
from datetime import UTC, datetime

FIELDS = ("method", "route", "status", "milliseconds", "user")     # of a line about a request


class WithoutPaths(logging.Filter):
    """Puts the route where Django's own lines about a request have its path."""

    def filter(self, record):
        request = getattr(record, "request", None)
        path = getattr(request, "path", None)
        if path and isinstance(record.args, tuple) and path in record.args:
            route = route_of(request)
            record.args = tuple(route if each == path else each for each in record.args)
        return True


class JsonLines(logging.Formatter):
    """One object a line: when, level, logger, request, message; of a request its fields besides."""

    def format(self, record):
        at = datetime.fromtimestamp(record.created, UTC)
        line = {"at": at.isoformat(timespec="milliseconds"), "level": record.levelname,
                "logger": record.name, "request_id": getattr(record, "request_id", "-"),
                "message": record.getMessage()}
        line |= {name: getattr(record, name) for name in FIELDS if hasattr(record, name)}
        if record.exc_info and record.exc_info[0]:
            line |= _exception(*record.exc_info)
        return json.dumps(line, ensure_ascii=False, default=str)


def _exception(kind, error, frames):
    return {"exception": f"{kind.__module__}.{kind.__qualname__}",
            "raised": [f"{frame.filename}:{frame.lineno} {frame.name}"
                       for frame in traceback.extract_tb(frames)]}


def route_of(request) -> str:
    """The name of the address that a request was for; `-` where it met none."""
    match = getattr(request, "resolver_match", None)
    return match.view_name if match and match.view_name else "-"
