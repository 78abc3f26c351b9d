"""Settings under which a web process ends itself at a seam: between steps that must both hold.

In the folder DRILL_SEAMS the file `at` says at which seam of a request that writes, the first or
the seventh; it is gone once it was obeyed. `passed` gets the name of each seam gone by.
"""
import os
import signal
import threading
from pathlib import Path

from core.settings import *  # noqa: F403
from core.settings import MIDDLEWARE as SHIPPED

MIDDLEWARE = ["tests.drills.crashing.AtSeams", *SHIPPED]
PLACE = Path(os.environ["DRILL_SEAMS"])
now = threading.local()


class AtSeams:
    """Middleware, the outermost: what is patched is patched when all is loaded."""

    def __init__(self, get_response):
        self.get_response = get_response
        patch_storage()
        patch_commits()
        follow_rows()

    def __call__(self, request):
        now.number = 0 if request.method == "POST" else None
        seam("begun")
        response = self.get_response(request)
        seam("before the answer")
        now.number = None
        return response


def seam(name: str) -> None:
    if getattr(now, "number", None) is None:
        return
    now.number += 1
    with (PLACE / "passed").open("a") as passed:
        passed.write(f"{name}\n")
    at = PLACE / "at"
    if at.exists() and at.read_text() == str(now.number):
        at.unlink()
        os.kill(os.getpid(), signal.SIGKILL)


def between(name, act):
    def acted(*args, **kwargs):
        seam(f"before {name}")
        done = act(*args, **kwargs)
        seam(f"after {name}")
        return done
    return acted


class Os:
    """The module `os` of durable_storage alone."""

    fsync, replace = (staticmethod(between(name, getattr(os, name)))
                      for name in ("fsync", "replace"))

    def __getattr__(self, name):
        return getattr(os, name)


def patch_storage():
    from core import durable_storage

    durable_storage.os = Os()


def patch_commits():
    from django.db.backends.base.base import BaseDatabaseWrapper

    BaseDatabaseWrapper._commit = between("commit", BaseDatabaseWrapper._commit)


def follow_rows():
    from django.db.models.signals import post_save

    post_save.connect(_saved, dispatch_uid="drill", weak=False)


def _saved(sender, **kwargs):
    seam(f"row of {sender.__name__}")
