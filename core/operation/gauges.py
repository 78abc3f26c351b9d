"""What is looked up at the moment somebody asks: the queue, workers, the log, room on the disk."""
import shutil
from collections.abc import Iterator
from contextlib import suppress

from django.conf import settings
from django.db import DatabaseError, connection
from django.utils import timezone
from django_q.models import OrmQ, Task
from prometheus_client.core import GaugeMetricFamily

from core.audit.models import Head
from core.workers import workers_alive


class Gauges:
    """A collector; each of its figures is one query, and left out where that fails."""

    def collect(self) -> Iterator[GaugeMetricFamily]:
        for name, words, figure in FIGURES:
            with suppress(DatabaseError):
                yield GaugeMetricFamily(f"underplate_{name}", words, value=figure())


def _waiting_seconds():
    oldest = OrmQ.objects.order_by("lock").values_list("lock", flat=True).first()
    return max(0.0, (timezone.now() - oldest).total_seconds()) if oldest else 0.0


def _database_bytes():
    sql = ("SELECT pg_database_size(current_database())" if connection.vendor == "postgresql" else
           "SELECT page_count * page_size FROM pragma_page_count(), pragma_page_size()")
    with connection.cursor() as cursor:
        cursor.execute(sql)
        return cursor.fetchone()[0]


FIGURES = (
    ("jobs_waiting", "Jobs in the queue.", lambda: OrmQ.objects.count()),
    ("jobs_oldest_seconds", "How long the oldest job has waited.", _waiting_seconds),
    ("jobs_failed", "Jobs given up, as long as they are kept.",
     lambda: Task.objects.filter(success=False).count()),
    ("workers", "Worker processes alive.",
     lambda: sum(len(each.workers) for each in workers_alive())),
    ("log_entries", "Number of the audit log's last entry.",
     lambda: Head.objects.values_list("sequence", flat=True).first() or 0),
    ("database_bytes", "Size of the database.", _database_bytes),
    ("disk_free_bytes", "Room left where the data folder lies.",
     lambda: shutil.disk_usage(settings.DATA_DIR).free),
)
