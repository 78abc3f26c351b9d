"""Columns on disk: NumPy files that can be mapped, stored elsewhere and put back."""
import shutil

import numpy as np
import pytest

from teardowns.logs.channel_files import (
    HEADER,
    Appending,
    file_names,
    finish,
    holds,
    last_digit,
    open_channels,
)
from teardowns.logs.layout import LogColumn
from tests.logs.reading import COLUMNS, laid_out

LAYOUT = laid_out(columns=(*COLUMNS, LogColumn(3, "Mode")))
TIMES, VOLTS, AMPERES = np.arange(4.0), np.array([5.0, 5.02, np.nan, 5.01]), np.ones(4)


def written(folder):
    with Appending(folder, LAYOUT, 0) as files:
        files.append([TIMES, VOLTS, AMPERES])
    return folder


def test_only_used_columns_and_what_is_known_of_them_are_named():
    assert file_names(LAYOUT) == ("time.npy", "column_1.npy", "column_2.npy", "meta.json")


def test_what_was_written_is_mapped_and_not_read(tmp_path):
    finish(written(tmp_path), LAYOUT)
    channels = open_channels(tmp_path, LAYOUT)
    assert isinstance(channels.time, np.memmap)
    assert np.array_equal(channels.of("output_voltage").values, VOLTS, equal_nan=True)
    assert [channel.column.index for channel in channels.channels] == [1, 2]


def test_the_named_files_alone_open_elsewhere(tmp_path):
    finish(written(tmp_path / "here"), LAYOUT)
    (tmp_path / "there").mkdir()
    for name in file_names(LAYOUT):
        shutil.copy(tmp_path / "here" / name, tmp_path / "there" / name)
    assert open_channels(tmp_path / "there", LAYOUT).time.tolist() == TIMES.tolist()


def test_finishing_twice_changes_nothing(tmp_path):
    finish(written(tmp_path), LAYOUT)
    before = {name: (tmp_path / name).read_bytes() for name in file_names(LAYOUT)}
    finish(tmp_path, LAYOUT)
    assert before == {name: (tmp_path / name).read_bytes() for name in before}


def test_what_lies_beyond_the_known_rows_is_cut_off(tmp_path):
    with Appending(written(tmp_path), LAYOUT, 2) as files:
        files.append([TIMES[:1] + 9, VOLTS[:1], AMPERES[:1]])
    finish(tmp_path, LAYOUT)
    assert open_channels(tmp_path, LAYOUT).time.tolist() == [0.0, 1.0, 9.0]


def test_a_folder_holds_no_more_rows_than_its_shortest_file(tmp_path):
    assert not holds(tmp_path, LAYOUT, 0)
    assert holds(written(tmp_path), LAYOUT, 4)
    assert not holds(tmp_path, LAYOUT, 5)
    (tmp_path / "column_2.npy").write_bytes(b"\0" * (HEADER + 8))
    assert not holds(tmp_path, LAYOUT, 4)
    with pytest.raises(ValueError, match="differ in length"):
        finish(tmp_path, LAYOUT)


@pytest.mark.parametrize(("values", "step"), [
    ([5.12, 5.11, 5.15, 5.12], 0.01),       # neighbours 5.11 and 5.12
    ([0.3, 0.1, 0.2], 0.1), ([5.0, np.nan, 5.25], 0.25),
    ([5.0, 5.0], 0.0), ([np.nan, np.nan], 0.0), ([], 0.0)])
def test_the_last_digit_is_the_smallest_difference(values, step):
    assert last_digit(np.array(values)) == step


def test_the_last_digit_is_found_at_the_end_of_a_long_log():
    values = np.zeros(1_000_000)
    values[-1] = 0.001
    assert last_digit(values) == 0.001


def test_the_digit_of_a_load_that_only_steps_is_the_one_written():
    # 0 A and 2.000 A differ by 2 A, and the instrument still shows thousandths.
    assert last_digit(np.array([0.0, 2.0] * 50), 0.001) == 0.001


def test_among_many_readings_their_differences_count():
    # Six decimals written of a meter that resolves hundredths.
    assert last_digit(np.arange(100) * 0.01, 1e-6) == pytest.approx(0.01)


def test_a_constant_channel_has_the_digit_that_is_written():
    assert last_digit(np.full(9, 5.0), 0.01) == 0.01


def test_a_folder_that_is_gone_or_was_not_finished_is_said_to_be_missing(tmp_path):
    for folder in (tmp_path / "gone", written(tmp_path)):
        with pytest.raises(FileNotFoundError):
            open_channels(folder, LAYOUT)
