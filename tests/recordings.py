"""Logs of Alice's unit: written as text, taken in, laid out and read as any file is."""
import pytest

from teardowns.logs.conditions import Conditions
from teardowns.logs.layout import Layout, LogColumn
from teardowns.models import Recording
from teardowns.services.lay_out_recording import lay_out_recording
from teardowns.services.read_recording import read_on
from teardowns.services.receive_recording import About, receive_recording

THERMAL = Layout("utf-8", ",", ".", 2, (
    LogColumn(0, "Time (s)", "time", "s"),
    LogColumn(1, "Case (°C)", "temperature", "°C", "case_temperature"),
    LogColumn(2, "Air (°C)", "ambient_temperature", "°C")))
SETTLED, AIR = 60.0, 25.0            # °C, from the first row to the last


def thermal_log(folder, name="warm.csv", rows=241, case=SETTLED):
    """A case that stands at one temperature, a row every 10 s."""
    lines = [f"{10 * row},{case:.1f},{AIR:.1f}\n" for row in range(rows)]
    path = folder / name
    path.write_text("Time (s),Case (°C),Air (°C)\n" + "".join(lines), "utf-8")
    return path


def take_in(alice, unit, path, kind="thermal", **about):
    return receive_recording(contributor=alice, unit_pk=unit.pk, path=path, name=path.name,
                             about=About(kind, **about)).recording


def lay_out(alice, recording, layout=THERMAL, conditions=None, kind="thermal"):
    lay_out_recording(author=alice, recording=recording, layout=layout, kind=kind,
                      conditions=conditions or Conditions(), version=recording.version)
    return again(recording)


def read_whole(recording):
    while not read_on(recording).finished:
        pass
    return again(recording)


def again(recording):
    """The row as it stands."""
    return Recording.objects.select_related("unit", "port").get(pk=recording.pk)


@pytest.fixture
def laid_out(alice, unit, tmp_path):
    """Alice's log of temperatures, its layout confirmed, nothing read yet."""
    return lay_out(alice, take_in(alice, unit, thermal_log(tmp_path), instrument="Logger 8"))


@pytest.fixture
def recording(laid_out):
    """The same, read to its end."""
    return read_whole(laid_out)
