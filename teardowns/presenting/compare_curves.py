"""Load curves of several units in one drawing, each named by the letter of its unit."""
from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from django.utils.safestring import SafeString, mark_safe

from core.words.said import said
from teardowns.figures.load_curves import LoadCurve, LoadCurves, load_curve_table, load_curves
from teardowns.models import Recording

from .compare_columns import Column
from .recorded_curves import bands_of, curve_label, volts_text

TITLE = "Output voltage and power over output current"


@dataclass(frozen=True, slots=True)
class ComparedCurves:
    drawing: SafeString
    table: SafeString
    legend: list[tuple[str, str, str]]      # "A2", what it is, address of the log
    without: str                            # letters of the units that have none, or ""


def compared_curves_shown(
    columns: Sequence[Column],
    found: Sequence[Sequence[tuple[Recording, Sequence[tuple[float, float]]]]],
) -> ComparedCurves | None:
    """None where no log has a curve. found : of each unit, its logs with their (A, V)"""
    curves = [_curve(column, number, log, points, len(logs))
              for column, logs in zip(columns, found, strict=True)
              for number, (log, points) in enumerate(logs, start=1)]
    if not curves:
        return None
    says = " ".join(map(_spoken, curves))
    chart = LoadCurves("curves", TITLE, says, tuple(curves),
                       bands_of([log for logs in found for log, _ in logs]))
    return ComparedCurves(
        mark_safe(load_curves(chart)),
        mark_safe(load_curve_table("Voltage at common currents", curves, volts_text)),
        [(curve.name, curve.label, curve.href) for curve in curves],
        ", ".join(column.letter for column, logs in zip(columns, found, strict=True) if not logs))


def _curve(column, number, log, points, of) -> LoadCurve:
    name = f"{column.letter}{number}" if of > 1 else column.letter
    label = ", ".join(filter(None, (column.title, curve_label(log, several_units=False))))
    return LoadCurve(label, tuple(points), log.get_absolute_url(), name)


def _spoken(curve: LoadCurve) -> str:
    (_, first), (amperes, last) = curve.points[0], curve.points[-1]
    return said(f"{curve.name}, {curve.label}: from {volts_text(first)} to {volts_text(last)} at "
                f"{amperes:.3g} A.")
