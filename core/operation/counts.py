"""What web processes count of requests, by the library that speaks the open format.

With several processes each keeps its counts in a file of the folder PROMETHEUS_MULTIPROC_DIR, and
whichever is asked adds them up; without it the counts are those of the process that is asked.
"""
import os

from prometheus_client import CollectorRegistry, Counter, Histogram
from prometheus_client.multiprocess import MultiProcessCollector

SECONDS = (0.01, 0.025, 0.05, 0.1, 0.25, 0.5, 1.0, 2.5, 10.0)
own = CollectorRegistry()
REQUESTS = Counter("underplate_requests", "Requests answered.", ["method", "route", "status"],
                   registry=own)
DURATION = Histogram("underplate_request_seconds", "Time to the answer's first byte.", ["route"],
                     buckets=SECONDS, registry=own)


def count_request(method: str, route: str, status: int, seconds: float) -> None:
    REQUESTS.labels(method, route, str(status)).inc()
    DURATION.labels(route).observe(seconds)


def counted() -> CollectorRegistry:
    """The counts of all web processes of this host."""
    if not os.environ.get("PROMETHEUS_MULTIPROC_DIR"):
        return own
    everybody = CollectorRegistry()
    MultiProcessCollector(everybody)
    return everybody
