"""Awkward logs for the style guide: a gap, a pause, a blank column, results on one span."""
import json
from dataclasses import dataclass
from functools import cache

import numpy as np
from django.utils.safestring import mark_safe

from teardowns.figures.load_curves import (
    Band,
    LoadCurve,
    LoadCurves,
    load_curve_table,
    load_curves,
)
from teardowns.logs.channels import Channel, Channels
from teardowns.logs.extracted import Extracted, Told
from teardowns.logs.layout import LogColumn
from teardowns.reading.printing import print_quantity

from .log_chart import ChartPart, chart_part, window_json

LONG = "Adapterkombination-ohne-jede-Trennstelle, Ausgang 2, 20 V eingestellt"


@dataclass(frozen=True, slots=True)
class Curves:
    drawing: str              # markup
    table: str                # markup


@cache
def log_part() -> ChartPart:
    return chart_part("sample-log", "Endurance run of <port 1>", _log(), _results())


@cache
def log_data() -> str:
    """What the server would answer, as a template holds it."""
    return json.dumps(window_json(_log(), 0, 1800, 3000))


def _log() -> Channels:
    """Half an hour: a load that steps, a drop-out, blank cells, a logger that paused."""
    time = np.arange(0, 1800, 5.0)
    time = time[(time < 900) | (time > 1080)]
    load = np.select([time < 300, time < 700], [1.0, 2.0], 3.0)
    volts = 5.1 - 0.08 * load + 0.004 * np.sin(time)
    volts[np.searchsorted(time, 615)] = 1.2                    # one sample long
    power = volts * load
    power[(time > 400) & (time < 470)] = np.nan
    core = 95 - 70 * np.exp(-time / 600)
    columns = (("output_voltage", "U", volts, 0.001), ("output_current", "I", load, 0.01),
               ("set_current", "I set", np.round(load), 0.01), ("output_power", "P", power, 0.01),
               ("temperature", LONG, core, 0.1), ("temperature", "Case", core / 2 + 10, 0.1),
               ("ambient_temperature", "Air", np.full(len(time), 23.5), 0.1))
    return Channels(time, tuple(
        Channel(LogColumn(i, heading, role), values, step)
        for i, (role, heading, values, step) in enumerate(columns, start=1)))


def _results():
    return [
        Extracted("sustained_power", "Sustained output power", 9.8, 0.1, "W", 300, 695),
        Extracted("source_resistance", "Source resistance", 0.08, 0.01, "Ω", 0, 1795),
        Extracted("efficiency", LONG, 0.7, 0.01, "1", 0, 1795),
        Told("drop_outs", "Drop-out", "drop_out", "The voltage was lost once.", 615, 615),
        Extracted("temperature", "Temperature at the end", 91.5, 0.5, "°C", 1700, 1795),
    ]


@cache
def curves() -> Curves:
    """Seven, so that one pattern comes again; two that end at one place; one that is lost."""
    shown = (
        _falling("Veltrice VQ-45, port 1 at 5 V", 5.1, 0.05, 3.0),
        _falling(LONG, 5.2, 0.25, 2.0),
        _falling("Orbanel <O/2>", 5.05, 0.02, 3.0),
        LoadCurve("Lost at 1.6 A & more", ((0, 5.0), (0.8, 4.9), (1.6, 4.7), (1.7, 0.6)),
                  "#logs"),
        _falling("Veltrice VQ-45, port 2", 5.1, 0.06, 2.4),
        _falling("One more", 5.0, 0.04, 2.4),
        _falling("And the seventh", 4.95, 0.01, 1.0),
    )
    chart = LoadCurves(
        "sample-curves", "Load curves of seven outputs", "Output voltage over output current.",
        shown, (Band(4.75, 5.25, "5 V ± 5 %"),))
    table = load_curve_table("Output voltage at common currents.", shown,
                             lambda volts: print_quantity(volts, "V"))
    return Curves(mark_safe(load_curves(chart)), mark_safe(table))


def _falling(label, open_voltage, resistance, most):
    amperes = np.linspace(0, most, 9)
    return LoadCurve(label, tuple(
        (float(a), float(open_voltage - resistance * a)) for a in amperes))
