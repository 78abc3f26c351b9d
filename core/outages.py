"""What to answer when the ground gives way: a lock not got, a connection lost, a disk that is full.

None of these is a fault of the program or of who asks. The answer is 503 with Retry-After, or 507
where there is no room: nothing was changed, and the same may be sent again. It stands in one place,
`handler500`, because any layer may meet them: a session that is read, a limit that is counted.
"""
from __future__ import annotations

import errno
import sys
from collections.abc import Iterator

from django.db import Error, InterfaceError, OperationalError, connection
from django.http import HttpRequest, HttpResponse
from django.template.loader import render_to_string
from django.views.defaults import server_error as broken

from core.problems import problem, speaks_json

BUSY, LOST, NOT_STORED, NO_ROOM, AWAY = "busy", "lost", "not_stored", "no_room", "away"
STATUS = {BUSY: 503, LOST: 503, NOT_STORED: 503, NO_ROOM: 507, AWAY: 503}
AFTER = 5           # s until it is worth another try
WORDS = {
    BUSY: "The site has more to do than it can at this moment. Nothing was changed: send the same "
          "again in a few seconds.",
    LOST: "The site cannot reach its database just now. Nothing is lost: send the same again in a "
          "few seconds, with the same key if you sent one.",
    NOT_STORED: "The server could not store it just now, and nothing was changed. Try again later.",
    NO_ROOM: "The server has no room for it just now. Nothing was changed, and all that was kept "
             "before can be read; try again later.",
    AWAY: "The site cannot reach its files just now. Nothing was changed and nothing is lost: try "
          "again in a minute.",
}
# Primary result codes of SQLite (sqlite.org/rescode.html); others are faults of ours.
SQLITE = {5: BUSY, 6: BUSY, 8: NOT_STORED, 10: NOT_STORED, 13: NO_ROOM, 14: NOT_STORED}
# SQLSTATE of PostgreSQL (appendix A of its manual): lock not available, deadlock, serialization
# failure, read-only transaction, disk full; whole classes by their first two letters.
POSTGRESQL = {"55P03": BUSY, "40P01": BUSY, "40001": BUSY, "25006": NOT_STORED, "53100": NO_ROOM,
              "57P01": LOST, "57P02": LOST, "57P03": LOST, "57P05": LOST, "08": LOST, "53": LOST,
              "58": NOT_STORED}
SYSTEM = {errno.ENOSPC: NO_ROOM, errno.EDQUOT: NO_ROOM, errno.EFBIG: NO_ROOM,
          errno.EROFS: NOT_STORED, errno.EIO: NOT_STORED}
SAFE = ("GET", "HEAD", "OPTIONS")


class FilesAway(OSError):
    """Where the files lie does not answer as it should."""


class FilesDamaged(FilesAway):
    """It gives back something else than was stored."""


def server_error(request: HttpRequest) -> HttpResponse:
    """What `handler500` names: 503 or 507 for an outage, 500 for everything else."""
    outage = outage_of(sys.exc_info()[1])
    if outage is None:
        return broken(request)
    response = unavailable(request, outage)
    response.lost_connection = outage == LOST           # type: ignore[attr-defined]
    return response


def unavailable(request: HttpRequest, outage: str) -> HttpResponse:
    headers = {"Retry-After": str(AFTER), "Cache-Control": "no-store"}
    if speaks_json(request):
        return problem(STATUS[outage], WORDS[outage], headers=headers)
    return HttpResponse(render_to_string("core/unavailable.html", {
        "request": request, "status": STATUS[outage], "words": WORDS[outage]}),
        status=STATUS[outage], headers=headers)


def read_again(get_response):
    """Middleware: what is only read is read once more where the connection to the database broke.

    A server that was restarted ends every connection; the next one that is asked for works.
    """

    def middleware(request):
        method = request.method
        response = get_response(request)
        if method in SAFE and getattr(response, "lost_connection", False):
            request.method = method                     # the API reads HEAD as GET
            connection.close_if_unusable_or_obsolete()
            response = get_response(request)
        return response

    return middleware


def outage_of(error: BaseException | None) -> str | None:
    """Which outage an exception comes from, through all that was raised after it; None: a fault."""
    found = (_outage(each) for each in _behind(error))
    return next((outage for outage in found if outage), None)


def _behind(error) -> Iterator[BaseException]:
    seen: set[int] = set()
    while error is not None and id(error) not in seen:
        seen.add(id(error))
        yield error
        error = error.__cause__ or error.__context__


def _outage(error):
    if isinstance(error, Error) and error.__cause__ is not None:
        return _of_database(error, error.__cause__)
    if isinstance(error, InterfaceError):               # Django's own: “connection already closed”
        return LOST
    if isinstance(error, FilesAway):
        return AWAY
    return SYSTEM.get(error.errno or 0) if isinstance(error, OSError) else None


def _of_database(error, cause):
    if (code := getattr(cause, "sqlite_errorcode", None)) is not None:
        return SQLITE.get(code & 0xFF)
    if state := getattr(cause, "sqlstate", None):
        return POSTGRESQL.get(state) or POSTGRESQL.get(state[:2])
    # psycopg gives no state where the server said nothing any more.
    is_of_postgresql = type(cause).__module__.startswith("psycopg")
    return LOST if is_of_postgresql and isinstance(error, OperationalError | InterfaceError) \
        else None
