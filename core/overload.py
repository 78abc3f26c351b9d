"""More requests than can be served: those that waited too long are refused, so the rest are quick.

gunicorn lets what it accepted wait for a thread without bound. Served in turn, everybody would wait
until they have gone; so the line is kept short by refusing at its head, which costs a thousandth of
serving. How long a request has waited the kernel knows: the time since its last byte came in.

Writers may wait long, for the one lock of SQLite or for a body that trickles in. They never take
every thread of a process: some are left to those who read.
"""
import socket
import struct
from threading import BoundedSemaphore

from core.outages import BUSY, SAFE, unavailable

LONGEST, LONGEST_TO_WRITE = 3.0, 10.0       # s; who has filled in a form waits rather than repeats
MOST_WRITERS = 12                           # at once in a process, of the 16 threads that it has
ALWAYS = ("/health/", "/metrics")
LAST_DATA_RECEIVED = 8 + 11 * 4             # offset in Linux's struct tcp_info: u32, ms


writers = BoundedSemaphore(MOST_WRITERS)


def refuse_late(get_response):
    """Middleware: stands outside of all that asks the database."""

    def middleware(request):
        most = LONGEST if request.method in SAFE else LONGEST_TO_WRITE
        if waited(request) > most and not request.path_info.startswith(ALWAYS):
            return unavailable(request, BUSY)
        return get_response(request)

    return middleware


def leave_threads_to_readers(get_response):
    """Middleware: stands beside `refuse_late`."""

    def middleware(request):
        if request.method in SAFE:
            return get_response(request)
        if not writers.acquire(blocking=False):
            return unavailable(request, BUSY)
        try:
            return get_response(request)
        finally:
            writers.release()

    return middleware


def waited(request) -> float:
    """Seconds since the last byte of the request came in; 0 where nobody knows."""
    line = request.META.get("gunicorn.socket")
    try:
        info = line.getsockopt(socket.IPPROTO_TCP, socket.TCP_INFO, LAST_DATA_RECEIVED + 4)
        return struct.unpack_from("=I", info, LAST_DATA_RECEIVED)[0] / 1000
    except (AttributeError, OSError, struct.error):     # another server, a local socket, not Linux
        return 0.0
