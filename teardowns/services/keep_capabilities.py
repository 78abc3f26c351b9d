"""Keep what a port told an analyser: the text as a recording, its words or modes as evidence."""
from __future__ import annotations

import tempfile
from pathlib import Path

from django.conf import settings

from teardowns.access import unit_to_change
from teardowns.logs.capabilities import Capabilities, Mode
from teardowns.models import How, Measurement, Port, RecordingKind, State

from .receive_recording import About, receive_recording
from .save_section import RowChange, SavedSection, save_section

SECTION = "recordings"
OF_A_LIST = "fixed"              # the only modes that the advertised quantities count
LONGEST_KEY = 64


def keep_capabilities(*, contributor, unit_pk: int, port: str, version: int, text: str,
                      instrument: str, found: Capabilities) -> SavedSection:
    """The port with its words, or with what its modes advertise.

    version : of the port. Raises Http404, RecordingRefused, StaleRows or SaveRefused. The text is
    stored before the rows that name it, as every recording is.
    """
    unit = unit_to_change(contributor, unit_pk)
    settings.INCOMING.mkdir(parents=True, exist_ok=True)
    with tempfile.NamedTemporaryFile(dir=settings.INCOMING, prefix="list-") as file:
        file.write(text.encode())
        file.flush()
        recording = receive_recording(
            contributor=contributor, unit_pk=unit.pk, path=Path(file.name), name="capabilities.txt",
            about=About(RecordingKind.PROTOCOL, port, instrument)).recording
    return save_section(contributor, unit.pk, SECTION, _rows(unit, port, version, recording, found))


def _rows(unit, key, version, recording, found):
    if found.words:
        return [RowChange(Port, key, version, {
            "advertised": list(found.words), "recording": recording, "state": State.RECORDED})]
    port = Port.objects.get(unit=unit, key=key)
    return [_measured(unit, port, recording, code, value)
            for code, value in advertised_by_modes(found.modes).items()]


def advertised_by_modes(modes: tuple[Mode, ...]) -> dict[str, float]:
    """What modes in words say of the quantities that rules read: those of a list, fixed ones."""
    fixed = [mode for mode in modes if mode.scheme == OF_A_LIST]
    powers = [mode.voltage * mode.current for mode in fixed if mode.current is not None]
    found = {"advertised_voltage": max(mode.voltage for mode in fixed)} if fixed else {}
    return found | ({"advertised_power": max(powers)} if powers else {})


def _measured(unit, port, recording, code, value):
    key = f"{code.replace('_', '-')}-{port.key}"[:LONGEST_KEY]
    row = Measurement.objects.filter(unit=unit, key=key).first()
    return RowChange(Measurement, key, row.version if row else 0, {
        "quantity": code, "state": State.RECORDED, "how": How.READ_OFF, "value": value,
        "port": port.key, "recording": recording, "instrument": recording.instrument})
