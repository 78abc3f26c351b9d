"""Settings under which a process has a clock of its own: the file DRILL_CLOCK says how far off.

In whole seconds beside the right time, looked at twice a second. The clock that counts from the
start of the machine goes on as it does where an operator sets the other one.
"""
import datetime
import os
import threading
import time
from pathlib import Path

import time_machine

from core.settings import *  # noqa: F403

FILE = Path(os.environ["DRILL_CLOCK"])
BEGAN = time.time(), time.monotonic()           # both right; a child begins with another's time


def follow() -> None:
    going, apart = None, None
    while True:
        if (said := FILE.read_text()) and said != apart:
            right = BEGAN[0] + time.monotonic() - BEGAN[1]
            if going:
                going.stop()
            going = time_machine.travel(
                datetime.datetime.fromtimestamp(right + float(said), datetime.UTC), tick=True)
            going.start()
            apart = said
        READY.set()
        threading.Event().wait(0.5)


def begin() -> None:
    threading.Thread(target=follow, daemon=True).start()


READY = threading.Event()
begin()
READY.wait(5)
os.register_at_fork(after_in_child=begin)           # threads stay behind in the parent
