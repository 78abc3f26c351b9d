"""The conditions and marks that a plate prints, which are exact: they are not readings."""
from __future__ import annotations

from collections.abc import Iterator, Sequence

from teardowns.exchange.observing.observation import Observation, Row, is_recorded, the_one

LEVEL = "efficiency_level:"
ROMAN = {"I": 1.0, "II": 2.0, "III": 3.0, "IV": 4.0, "V": 5.0, "VI": 6.0, "VII": 7.0}


def of_claims(claims: Sequence[Row], printed_texts: Sequence[Row]) -> Iterator[Observation]:
    """claims : those that count"""
    source = {row["key"]: row["source"] for row in printed_texts}
    yield from _rated_input(_before_others([row for row in claims if row["kind"] == "input"
                                            and is_recorded(row)], source))
    yield from _efficiency_level(_before_others([row for row in claims if _is_level(row)], source))


def _before_others(rows, source):
    """The rows of the plate; of other texts only where the plate has none."""
    plate = [row for row in rows if source.get(row.get("printed_text"), "plate") == "plate"]
    return plate or rows


def _rated_input(inputs):
    """The rated input: the widest that is printed."""
    for code, fields, widest in (
        ("rated_voltage_low", ("voltage_low", "voltage_high"), min),
        ("rated_voltage_high", ("voltage_high", "voltage_low"), max),
        ("rated_frequency", ("frequency_low", "frequency_high"), min),
        ("rated_input_current", ("current",), max),
    ):
        printed = [(row.get(fields[0], row.get(fields[-1])), row) for row in inputs]
        printed = [pair for pair in printed if pair[0] is not None]
        if printed:
            value, row = widest(printed, key=lambda pair: pair[0])
            yield Observation(code, value, 0.0, (f"claim/{row['key']}",))


def _is_level(row):
    return (row["kind"] == "mark" and is_recorded(row) and row["mark"].startswith(LEVEL)
            and row["mark"].removeprefix(LEVEL) in ROMAN)


def _efficiency_level(marks):
    """The efficiency mark; two different ones decide nothing."""
    level = the_one([ROMAN[row["mark"].removeprefix(LEVEL)] for row in marks])
    if level is not None:
        yield Observation("efficiency_level", level, 0.0, (f"claim/{marks[0]['key']}",))
