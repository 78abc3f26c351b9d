"""A number for each request: in its answer, in every line that it logs and in its audit entries."""
import logging
from contextvars import ContextVar
from uuid import uuid4

HEADER = "X-Request-ID"
current: ContextVar[str] = ContextVar("request_id", default="")


def numbered_requests(get_response):
    """Middleware, the outermost: what a client or a proxy calls its request is not believed."""

    def middleware(request):
        token = current.set(uuid4().hex)
        request.number = current.get()          # Django logs a bad answer when all is over
        try:
            response = get_response(request)
            response.headers[HEADER] = current.get()
            return response
        finally:
            current.reset(token)

    return middleware


class WithRequest(logging.Filter):
    """Gives each line of the log a `request_id`, `-` outside of requests."""

    def filter(self, record):
        of_record = getattr(getattr(record, "request", None), "number", "")
        record.request_id = current.get() or of_record or "-"
        return True
