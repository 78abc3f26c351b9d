"""Load curves of several logs in one drawing, each under the name of its unit and port."""
from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from django.utils.safestring import mark_safe

from core.words.as_written import AsWritten
from core.words.said import said
from teardowns.figures.lanes import letter
from teardowns.figures.load_curves import (
    Band,
    LoadCurve,
    LoadCurves,
    load_curve_table,
    load_curves,
)
from teardowns.logs.conditions import Conditions
from teardowns.models import Recording
from teardowns.reading.quantity import print_quantity

FROM, TO = 0.95, 1.05          # of the set voltage: a fixed supply's tolerance


@dataclass(frozen=True, slots=True)
class ShownCurves:
    drawing: str              # markup
    table: str                # markup
    legend: tuple[tuple[str, str, str], ...]      # letter, label, address of the log


def shown_curves(found: Iterable[tuple[Recording, Sequence[tuple[float, float]]]],
                 several_units: bool) -> ShownCurves | None:
    """None where no log has a curve. found : logs with their (A, V)"""
    drawn = [(recording, points) for recording, points in found if points]
    if not drawn:
        return None
    curves = tuple(LoadCurve(curve_label(recording, several_units), tuple(points),
                             recording.get_absolute_url()) for recording, points in drawn)
    says = " ".join(said(f"{curve.label}: from {volts_text(curve.points[0][1])} to "
                         f"{volts_text(curve.points[-1][1])} at {curve.points[-1][0]:.3g} A.")
                    for curve in curves)
    chart = LoadCurves("curves", "Output voltage and power over output current", says, curves,
                       bands_of([recording for recording, _ in drawn]))
    return ShownCurves(mark_safe(load_curves(chart)),
                       mark_safe(load_curve_table("Voltage at common currents", curves,
                                                  volts_text)),
                       tuple((letter(i), curve.label, curve.href)
                             for i, curve in enumerate(curves)))


def curve_label(recording: Recording, several_units: bool) -> AsWritten:
    """Unit, port, set voltage and mains, as far as stated."""
    stated = Conditions.from_json(recording.conditions)
    parts = [recording.unit.title] if several_units else []
    parts += [said(f"port {recording.port.label}")] if recording.port else []
    parts += [said(volts_text(stated.set_voltage))] if stated.set_voltage else []
    parts += [said(f"{print_quantity(stated.mains_voltage, 'V')} mains")] \
        if stated.mains_voltage else []
    return AsWritten(", ".join(parts or [recording.caption or recording.key]))


def bands_of(recordings: Iterable[Recording]) -> tuple[Band, ...]:
    """What each set voltage may be under load."""
    volts = {Conditions.from_json(row.conditions).set_voltage for row in recordings} - {None}
    return tuple(Band(FROM * at, TO * at, f"{volts_text(at)} ± 5 %") for at in sorted(volts))


def volts_text(value: float) -> str:
    return print_quantity(value, "V")
