"""Logs of a test, read whole or in slices."""
import io
from contextlib import contextmanager

import pytest

from teardowns.logs.channel_files import finish, open_channels
from teardowns.logs.layout import Layout, LogColumn
from teardowns.logs.reading import read_slice
from teardowns.logs.refusals import RefusedLog

TIME = LogColumn(0, "Time", "time")
VOLTS = LogColumn(1, "Voltage", "output_voltage")
AMPERES = LogColumn(2, "Current", "output_current")
COLUMNS = (TIME, VOLTS, AMPERES)


def laid_out(separator=",", decimal=".", first_line=1, columns=COLUMNS, **others):
    others.setdefault("encoding", "utf-8")
    return Layout(separator=separator, decimal=decimal, first_line=first_line, columns=columns,
                  **others)


def read(data, layout, folder, most_bytes=16 << 20):
    """The channels of a log that is read to its end."""
    data = data.encode(layout.encoding) if isinstance(data, str) else data
    progress = None
    while not (progress and progress.finished):
        progress = read_slice(io.BytesIO(data), len(data), layout, progress, folder, most_bytes)
    finish(folder, layout)
    return open_channels(folder, layout)


def numbers(channels):
    """Time and values as lists."""
    return [channels.time.tolist(), *(channel.values.tolist() for channel in channels.channels)]


@contextmanager
def refused(code, line=None, column=None):
    with pytest.raises(RefusedLog) as caught:
        yield
    refusal = caught.value
    assert (refusal.code, refusal.line, refusal.column) == (code, line, column)
    assert refusal.why.endswith(".") and not ("_" in code and code in refusal.why)
