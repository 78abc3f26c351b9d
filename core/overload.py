"""More requests than can be served: those that waited too long are refused, so the rest are quick.

gunicorn lets what it accepted wait for a thread without bound. Served in turn, everybody would wait
until they have gone; so the line is kept short by refusing at its head, which takes less than a
millisecond. How long a request has waited the kernel knows: the time since its last byte came in.

A rush that passes may make everybody wait a little. Where it does not pass, a line in which each
waits its three seconds serves nobody better than a short one: as long as everybody comes late, who
reads is refused early (controlled delay, after Nichols and Jacobson, “Controlling queue delay”,
ACM Queue 10(5), 2012; RFC 8289; figures ours).

Writers may wait long, for the one lock of SQLite or for a body that trickles in. They never take
every thread of a process: some are left to those who read.
"""
import socket
import struct
import time
from threading import BoundedSemaphore

from core.outages import BUSY, SAFE, unavailable

LONGEST, LONGEST_TO_WRITE = 3.0, 10.0       # s; who has filled in a form waits rather than repeats
SHORT = 0.5                                 # s; a wait that is none
RUSH, LATE = 10.0, 32                       # s, and requests in a row, after which it is no rush
CALM = 2.0                                  # s without anybody late, after which it is over
GAP = 0.5                                   # s without anybody, after which it is another rush
MOST_WRITERS = 12                           # at once in a process, of the 16 threads that it has
ALWAYS = ("/health/", "/metrics")
LAST_DATA_RECEIVED = 8 + 11 * 4             # offset in Linux's struct tcp_info: u32, ms


writers = BoundedSemaphore(MOST_WRITERS)


class Waits:
    """Whether everybody has come late to their thread for a while, as one process sees it.

    Threads share it without a lock: one request that is not counted moves nothing.
    """

    def __init__(self) -> None:
        self.is_long, self._late, self._since, self._last = False, 0, 0.0, 0.0

    def longest(self, wait: float, now: float) -> float:
        """What who reads may have waited, once this request is counted too. All in s."""
        if wait > SHORT:
            if now - self._last > GAP:
                self._late = 0                   # nobody came between: no line
            self._since = self._since if self._late else now
            self._late, self._last = self._late + 1, now
            self.is_long |= self._late >= LATE and now - self._since >= RUSH
        else:
            self._late = 0
            self.is_long &= now - self._last < CALM
        return SHORT if self.is_long else LONGEST


waits = Waits()


def refuse_late(get_response):
    """Middleware: stands outside of all that asks the database."""

    def middleware(request):
        if request.path_info.startswith(ALWAYS):
            return get_response(request)
        wait = waited(request)
        most = waits.longest(wait, time.monotonic())
        if wait > (most if request.method in SAFE else LONGEST_TO_WRITE):
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
