"""A log's numbers on disk: one NumPy file a column, appended to while a log is read.

The files of a folder can be stored elsewhere under `file_names` and put back: nothing else is
needed to open them.
"""
from __future__ import annotations

import io
import json
import os
from collections.abc import Mapping, Sequence
from pathlib import Path

import numpy as np

from teardowns.logs.channels import Channel, Channels
from teardowns.logs.layout import Layout, LogColumn
from teardowns.logs.roles import TIME

META = "meta.json"
_TIME = "time.npy"
_ITEM = 8                    # bytes of a float64
_SAMPLES, _SPANS = 1 << 14, 8      # readings a span, spans over the log, that tell the last digit
_FIGURES = 6                 # significant ones of a step; the rest is rounding of the SI factor
_MANY = 20                   # different readings from which their differences show the last digit


def value_columns(layout: Layout) -> tuple[LogColumn, ...]:
    return tuple(column for column in layout.used() if column.role != TIME)


def file_names(layout: Layout) -> tuple[str, ...]:
    """Everything that `finish` leaves in a folder."""
    return (_TIME, *(_name(column) for column in value_columns(layout)), META)


def _name(column):
    return f"column_{column.index}.npy"


def _header(rows):
    """The same 128 bytes long for any number of rows: NumPy leaves room for the count to grow."""
    header = io.BytesIO()
    np.lib.format.write_array_header_1_0(
        header, {"descr": "<f8", "fortran_order": False, "shape": (rows,)})
    return header.getvalue()


HEADER = len(_header(0))


class Appending:
    """The open files of a folder, cut back to the rows that are known to have been read."""

    def __init__(self, folder: Path, layout: Layout, rows: int):
        folder.mkdir(parents=True, exist_ok=True)
        self.files = []
        for name in file_names(layout)[:-1]:
            path = folder / name
            path.touch()
            file = path.open("r+b")
            self.files.append(file)
            if not rows:
                file.write(_header(0))
            file.truncate(HEADER + rows * _ITEM)
            file.seek(0, os.SEEK_END)

    def append(self, columns: Sequence[np.ndarray]) -> None:
        """columns : time, then the values in the order of `value_columns`, (n,) each."""
        for file, values in zip(self.files, columns, strict=True):
            file.write(np.ascontiguousarray(values, "<f8").data)

    def __enter__(self):
        return self

    def __exit__(self, *exception):
        for file in self.files:
            file.flush()
            os.fsync(file.fileno())       # before anybody notes how far the log was read
            file.close()


def holds(folder: Path, layout: Layout, rows: int) -> bool:
    """Whether all files are there and no shorter than so many rows."""
    paths = [folder / name for name in file_names(layout)[:-1]]
    return all(path.is_file() and path.stat().st_size >= HEADER + rows * _ITEM for path in paths)


def finish(folder: Path, layout: Layout) -> None:
    """Make NumPy files of what was read to its end, and note each channel's last digit."""
    sizes = {(folder / name).stat().st_size for name in file_names(layout)[:-1]}
    if len(sizes) > 1:
        raise ValueError("The files of the folder differ in length: read the log on first.")
    rows = (sizes.pop() - HEADER) // _ITEM
    for name in file_names(layout)[:-1]:
        with (folder / name).open("r+b") as file:
            file.write(_header(rows))
    written = _noted(folder).get("written", {})
    steps = {str(column.index): last_digit(np.load(folder / _name(column), mmap_mode="r"),
                                           written.get(str(column.index), 0.0))
             for column in value_columns(layout)}
    _note(folder, {"rows": rows, "steps": steps, "written": written})


def note_digits(folder: Path, digits: Mapping[int, float]) -> None:
    """What the last digit stands for as the text writes it, by column. [SI]"""
    _note(folder, {"written": {str(index): digit for index, digit in digits.items()}})


def _note(folder, told):
    (folder / META).write_text(json.dumps(told), encoding="utf-8")


def _noted(folder):
    try:
        return json.loads((folder / META).read_text(encoding="utf-8"))
    except (FileNotFoundError, ValueError):       # not written yet, or torn by a kill
        return {}


def open_channels(folder: Path, layout: Layout) -> Channels:
    """The columns of a finished folder, memory-mapped."""
    steps = _noted(folder).get("steps")
    if steps is None:
        raise FileNotFoundError(f"There are no finished channels in {folder}.")
    return Channels(np.load(folder / _TIME, mmap_mode="r"), tuple(
        Channel(column, np.load(folder / _name(column), mmap_mode="r"), steps[str(column.index)])
        for column in value_columns(layout)))


def last_digit(values: np.ndarray, written: float = 0.0) -> float:
    """What the last digit of an instrument stands for; 0 where nothing shows it.

    The smallest difference between readings, of samples. A load that only steps differs by whole
    amperes: among few different readings the digit that was written counts, where it is finer.
    """
    starts = np.unique(np.linspace(0, max(len(values) - _SAMPLES, 0), _SPANS).astype(int))
    seen = np.unique(np.concatenate([values[start:start + _SAMPLES] for start in starts]))
    steps = np.diff(seen[np.isfinite(seen)])
    if not len(steps):
        return written
    step = float(f"{steps.min():.{_FIGURES - 1}e}")
    return min(step, written) if written and len(steps) < _MANY else step
