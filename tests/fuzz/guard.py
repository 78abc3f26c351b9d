"""An end to what would never end, in processor time, so that a busy machine changes nothing."""
import signal
from collections.abc import Iterator
from contextlib import contextmanager

WHILE = 20.0        # s of the processor; the longest text that is asked takes less than one


class TooSlow(BaseException):
    """No Exception, lest a reader take it for something that it may refuse."""


@contextmanager
def within_a_while(seconds: float = WHILE) -> Iterator[None]:
    def stop(number, frame):
        raise TooSlow(f"it took more than {seconds:g} s of the processor")

    before = signal.signal(signal.SIGVTALRM, stop)
    signal.setitimer(signal.ITIMER_VIRTUAL, seconds)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_VIRTUAL, 0)
        signal.signal(signal.SIGVTALRM, before)
