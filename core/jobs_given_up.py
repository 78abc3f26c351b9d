"""Jobs that end their worker each time are given up, as those that fail are.

The queue counts the failures that it was told of. A worker that was killed, for want of memory or
by a library, tells nothing: its job would come back every three minutes for good.
"""
from django.core.cache import cache
from django.utils import timezone
from django_q.conf import Conf
from django_q.models import OrmQ, Task
from django_q.utils import get_func_repr

KEPT = 7 * 86400        # s for which starts are remembered
WHY = "Given up: its worker ended without a word each of the {} times that it was begun."


class GivenUp(Exception):
    """Ends the worker's process, which the cluster starts anew: nothing gentler stops a job."""


def count_start(sender, func, task, **kwargs):
    """Receiver of `pre_execute`, in the process that is about to do the job."""
    if task.get("sync"):
        return
    key = f"{__name__}:{task['id']}"
    cache.add(key, 0, KEPT)
    if cache.incr(key) > Conf.MAX_ATTEMPTS > 0:
        give_up(task)
        raise GivenUp(task["name"])


def give_up(task) -> None:
    """A row among the failed jobs, which `doctor` and the metrics count; none in the queue."""
    now = timezone.now()
    Task.objects.update_or_create(id=task["id"], defaults={
        "name": task["name"], "func": get_func_repr(task["func"]), "args": task["args"],
        "kwargs": task["kwargs"], "group": task.get("group"), "started": now, "stopped": now,
        "success": False, "attempt_count": Conf.MAX_ATTEMPTS,
        "result": WHY.format(Conf.MAX_ATTEMPTS)})
    OrmQ.objects.filter(pk=task.get("ack_id")).delete()
