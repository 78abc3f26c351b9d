"""Every hostile log is read right, asked about, or refused at its place."""
import io
import tracemalloc

import numpy as np
import pytest

from teardowns.logs.channel_files import finish, open_channels
from teardowns.logs.detect import detect_layout
from teardowns.logs.limits import MOST_BYTES
from teardowns.logs.reading import read_slice
from teardowns.logs.refusals import RefusedLog
from teardowns.logs.text_encoding import HEAD
from teardowns.logs.written import rows_as_text
from tests.hostile.logs import PLAIN, cases, endless_line
from tests.logs.reading import refused

FORMULA_STARTS = tuple("=+-@\t\r\n＝＋－＠")
MOST_MEMORY = 40 << 20            # bytes, for a line of any length


def test_there_are_at_least_60_cases_with_names_of_their_own():
    names = [case.name for case in cases()]
    assert len(set(names)) == len(names) >= 60


@pytest.mark.parametrize("case", list(cases()), ids=lambda case: case.name)
def test_a_hostile_log_gets_what_it_must(case, tmp_path):
    try:
        proposal = detect_layout(case.data[:HEAD], name="log.csv")
        if case.asks:
            check_question(case, proposal)
            return
        channels = whole(case.data, proposal.layout, tmp_path)
    except RefusedLog as refusal:
        check_refusal(case, refusal)
        return
    check_numbers(case, channels)


def whole(data, layout, folder):
    progress = None
    while not (progress and progress.finished):
        progress = read_slice(io.BytesIO(data), len(data), layout, progress, folder, 256)
    finish(folder, layout)
    return open_channels(folder, layout)


def check_question(case, proposal):
    question = next((q for q in proposal.questions if q.field == case.asks), None)
    assert question, f"asks only {[q.field for q in proposal.questions]}"
    assert len({choice.reading for choice in question.choices}) == len(question.choices) >= 2


def check_refusal(case, refusal):
    assert case.place, f"was refused: {refusal}"
    line, column = case.place
    assert line is None or refusal.line == line, str(refusal)
    assert column is None or refusal.column == column, str(refusal)
    assert not case.codes or refusal.code in case.codes, refusal.code
    assert refusal.why.endswith(".") and refusal.code not in refusal.why.split()


def check_numbers(case, channels):
    assert case.numbers, f"was read: {[list(c.values) for c in channels.channels]}"
    found = [channels.time, *(channel.values for channel in channels.channels)]
    for values, expected in zip(found, case.numbers, strict=True):
        assert np.array_equal(values, expected, equal_nan=True)
        assert not np.isinf(values).any()
    headings = next(rows_as_text(channels, 0.0, 1.0)).rstrip("\r\n").split(",")
    assert not any(heading.strip('"').startswith(FORMULA_STARTS) for heading in headings)


@pytest.mark.parametrize("before", [PLAIN.encode(), b""], ids=["after rows", "from the start"])
def test_a_line_of_100_mb_is_refused_in_flat_memory(before, tmp_path):
    layout = detect_layout(PLAIN.encode()).layout
    source = endless_line(100_000_000, before)
    assert source.size < MOST_BYTES
    tracemalloc.start()
    with refused("line_too_long", 14 if before else 1):
        read_slice(source, source.size, layout, None, tmp_path)
    peak = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    assert peak < MOST_MEMORY and source.given < MOST_MEMORY
