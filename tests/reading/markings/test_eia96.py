"""Values of E96, IEC 60063, with the multiplier letters of EIA-96."""

import pytest

from teardowns.reading.markings.eia96 import read_eia96

CODES = [
    ("01C", 10e3), ("68X", 49.9), ("01A", 100.0), ("96D", 976e3), ("66X", 47.5), ("10Z", 0.124),
    ("30C", 20.0e3), ("85B", 7.50e3),
]  # fmt: skip


@pytest.mark.parametrize(("code", "ohms"), CODES)
def test_a_code_is_read(code, ohms):
    assert read_eia96(code) == ohms


@pytest.mark.parametrize("code", ["00A", "97A", "01Q", "1A", "001A"])
def test_what_is_no_code_is_not_read(code):
    assert read_eia96(code) is None
