"""What can be wrong with a request, as problems (RFC 9457): one place for every operation."""
import json
import logging

from django.core.exceptions import PermissionDenied, SuspiciousOperation
from django.core.exceptions import ValidationError as Unclean
from django.http import Http404, UnreadablePostError
from django.http.multipartparser import MultiPartParserError
from ninja.errors import HttpError, ValidationError
from ninja.parser import Parser

from core.outages import AWAY, outage_of, unavailable
from core.problems import problem
from core.stale import Stale
from teardowns.api.gone import gone
from teardowns.api.idempotency import NO_KEY, BadKey, refusal
from teardowns.api.pointers import BodyErrors, placed, pointer
from teardowns.exchange.document import DocumentError
from teardowns.exchange.parsing import parse
from teardowns.services.cite_part import SaveRefused
from teardowns.services.proposals import Refused
from teardowns.services.receive_photo import NO_ROOM, PhotoRefused
from teardowns.services.receive_recording import RecordingRefused
from teardowns.services.save_section import StaleRows
from teardowns.services.state_reasons import NoReason
from teardowns.services.submit_unit import Incomplete
from teardowns.workflow import NotNow

logger = logging.getLogger(__name__)
FAULTY = "Some of what was sent cannot be taken: each entry of “errors” says which, why, and " \
         "what mends it. Nothing was changed."
NO_JSON = "The body cannot be read as JSON. Nothing was changed."
NOT_READ = ("line ", "byte ")               # so the document's reader begins, where it is no JSON
ONLY_JSON = "Send the body as application/json."
MEANWHILE = "It was changed elsewhere since you read it, so nothing was changed now. “current” " \
            "is what stands there, “yours” what you sent: choose, and send it with the new ETag."
READ_AGAIN = "It was changed elsewhere since you read it, so nothing was changed now: read it " \
             "again, and send what you want changed with the new ETag."
SENTENCES = {
    "missing": "It is missing: add it.",
    "extra_forbidden": "There is no such field here: leave it out, or check its spelling.",
    "string_type": "Write text in quotes.",
    "string_too_long": "It is too long: shorten it to {max_length} characters.",
    "string_too_short": "It is too short: write at least {min_length} characters.",
    "string_pattern_mismatch": "It is not written as it has to be: see the description of this "
                               "field.",
    "int_type": "Write a whole number.", "int_parsing": "Write a whole number.",
    "int_from_float": "Write a whole number.", "int_parsing_size": "This number is too large.",
    "float_type": "Write a number.", "float_parsing": "Write a number.",
    "finite_number": "Write a number that is finite.",
    "bool_type": "Write true or false.", "bool_parsing": "Write true or false.",
    "greater_than_equal": "It begins at {ge}.", "less_than_equal": "It ends at {le}.",
    "list_type": "Write a list in brackets.", "too_long": "At most {max_length} are taken.",
    "dict_type": "Write an object in braces.", "model_type": "Write an object in braces.",
    "model_attributes_type": "Write an object in braces.",
    "literal_error": "Choose one of {expected}.", "enum": "Choose one of {expected}.",
    "uuid_parsing": "Write a UUID.",
}


class NotJson(Exception):
    """The body is of another media type."""


class StrictParser(Parser):
    """JSON as the documents are read: no key twice, no NUL, no endless nesting, no infinity."""

    def parse_body(self, request):
        if request.content_type != "application/json":
            raise NotJson
        return parse(request.body)


def add_faults(api):
    """Every exception that an operation may end with, and the answer it becomes."""
    for kinds, answer in ANSWERS:
        for kind in kinds:
            api.add_exception_handler(kind, answer)


def _invalid(request, error):
    errors = [_of_field(each) for each in error.errors]
    return problem(422, FAULTY, errors=errors)


def _of_field(error):
    source, *steps = error["loc"]
    words = SENTENCES.get(error["type"], "").format(**error.get("ctx", {})) or error["msg"]
    if source == "body":
        return {"detail": words, "pointer": pointer(*steps[1:])}
    return {"detail": words, "parameter": str(steps[-1]) if steps else ""}


def not_json():
    return problem(415, ONLY_JSON, headers={"Accept": "application/json"})


def _unreadable(request, error):
    cause = error.__cause__
    if isinstance(cause, NotJson):
        return not_json()
    if isinstance(cause, DocumentError):
        if cause.problems[0].startswith(NOT_READ):
            return problem(400, NO_JSON, errors=placed(cause.problems))
        return problem(422, FAULTY, errors=placed(cause.problems))
    if isinstance(cause, SuspiciousOperation):
        return _too_large(request, cause)
    return problem(error.status_code, NO_JSON if error.status_code == 400 else str(error))


def _too_large(request, error):
    return problem(413, "What was sent is too large. Documents hold 2.5 MB at most; photos and "
                        "logs travel by themselves.")


def _absent(request, error):
    return gone(request) or problem(404, str(error))


def _document(request, error):
    below = getattr(error, "below", ())         # steps that lead to the document in the body
    return problem(422, FAULTY, errors=placed(error.problems, *below))


def _unclean(request, error):
    found = getattr(error, "message_dict", None) or {"": error.messages}
    return problem(422, FAULTY, errors=[
        {"detail": words, "pointer": pointer(*filter(None, [name]))}
        for name, listed in found.items() for words in listed])


def _refused(request, error):
    return problem(422, FAULTY, errors=[
        {"detail": words, "pointer": pointer(*filter(None, name.split("/")))}
        for name, words in error.errors.items()])


def _incomplete(request, error):
    return problem(422, FAULTY, errors=[
        {"detail": each.sentence, "pointer": pointer(*filter(None, [each.field]))}
        for each in error.missing])


def _stale(request, error):
    body = json.loads(request.body)
    yours = {name: body.get(name) for name in error.current if name in body}
    return problem(412, MEANWHILE, yours=yours, current=error.current, version=error.version)


def _not_stored(request, error):
    logger.error("a file could not be read or stored", exc_info=error)
    if outage_of(error) == AWAY:
        return unavailable(request, AWAY)
    return problem(507, NO_ROOM)


ANSWERS = (
    ((ValidationError,), _invalid),
    ((HttpError,), _unreadable),
    ((Http404,), _absent),
    ((PermissionDenied,), lambda request, error: problem(403, str(error))),
    ((SuspiciousOperation,), _too_large),
    ((UnreadablePostError,), lambda request, error: problem(400, "The body broke off.")),
    ((MultiPartParserError,), lambda request, error: problem(
        400, "The form cannot be read: its parts, or their boundary, are not as they have to be.")),
    ((BadKey,), lambda request, error: refusal(NO_KEY)),
    ((DocumentError,), _document),
    ((Unclean,), _unclean),
    ((BodyErrors,), lambda request, error: problem(422, FAULTY, errors=error.errors)),
    ((Refused,), _refused),
    ((Incomplete,), _incomplete),
    ((Stale,), _stale),
    ((StaleRows,), lambda request, error: problem(412, READ_AGAIN)),
    ((NotNow, SaveRefused), lambda request, error: problem(409, str(error))),
    ((NoReason,), lambda request, error: problem(
        422, FAULTY, errors=[{"detail": str(error), "pointer": "/reason"}])),
    ((OSError,), _not_stored),
    ((PhotoRefused, RecordingRefused), lambda request, error: problem(422, str(error))),
)

