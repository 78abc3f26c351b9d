"""Photos and logs: what is given out."""
from typing import Any

from .fields import Told, told, unknown


class Picture(Told):
    width: int = told("Pixels.", 1280)
    height: int = told("Pixels.", 960)
    media_type: str = told("Of the file.", "image/webp")
    href: str = told("The picture, without metadata.", "/units/8/photos/opened-1/1280.webp")


class PhotoRow(Told):
    """A photo, or a drawing, of a unit."""

    key: str = told("Within the unit.", "opened-1")
    href: str = told("The whole of it.", "/api/v1/units/8/photos/opened-1")
    page: str = told("The page for people.", "/units/8/photos/opened-1/")
    stage: str = told("At which stage of the teardown.", "opened")
    caption: str = told("What it shows.", "Primary side, bulk capacitor lifted.")
    alt: str = told("For those who do not see it.", "A board with a bulk capacitor at its edge.")
    is_drawing: bool = told("Whether it is a drawing and no photograph.", False)
    width: int | None = unknown("Pixels of the whole picture.", 4000)
    height: int | None = unknown("Pixels of the whole picture.", 3000)
    sha256: str = told("Of the original, which is private.", "aa11" * 16)
    pictures: list[Picture] = told("Smallest first.", None)


class Photos(Told):
    photos: list[PhotoRow] = told("Stage by stage.", None)


class Scale(Told):
    points: list[list[float]] = told("Pixels of the whole picture.", [[10, 10], [300, 10]])
    lengths: list[float] = told("Known lengths between them, m.", [0.0856])
    length_uncertainty: float = told("Standard uncertainty, m.", 0.0001)


class LengthRead(Told):
    shows: str = told("Name of the row.", "insulationobservation/slot")
    value: float = told("m", 0.004)
    uncertainty: float = told("Standard uncertainty, m.", 0.0001)
    shape: str = told("line or path.", "line")
    points: list[list[float]] = told("Pixels of the whole picture.", [[20, 20], [90, 20]])
    blind: bool = told("Whether a reviewer took it without seeing the first.", False)


class Photo(PhotoRow):
    annotations: str = told("W3C Web Annotations.", "/api/v1/units/8/photos/opened-1/annotations")
    scales: list[Scale] = told("What turns pixels into metres.", [])
    readings: list[LengthRead] = told("Lengths read off it.", [])


class RecordingRow(Told):
    """A log of an instrument."""

    key: str = told("Within the unit.", "load-sweep-1")
    href: str = told("The whole of it.", "/api/v1/units/8/recordings/load-sweep-1")
    page: str = told("The page for people.", "/units/8/recordings/load-sweep-1/")
    kind: str = told("What was recorded.", "load_sweep")
    caption: str = told("What it is about.", "Up to the limit, at 230 V.")
    instrument: str = told("As named by its contributor.", "electronic load")
    port: str = told("Key of the port that it was taken at; empty where none is said.", "c1")
    rows: int | None = unknown("Samples.", 1800)
    sha256: str = told("Of the original, which is private.", "bb22" * 16)
    values: str = told("Its numbers.", "/api/v1/units/8/recordings/load-sweep-1/values")


class Recordings(Told):
    recordings: list[RecordingRow] = told("In the order in which they came.", None)


class Taken(Told):
    code: str = told("Quantity.", "sustained_power")
    value: float = told("SI.", 32.0)
    uncertainty: float = told("Standard uncertainty, SI.", 0.3)
    start: float = told("Of the span that it was read from, s.", 0.0)
    end: float = told("s", 1800.0)
    shows: str = told("Name of the row that it became.", "measurement/held-at-20-v")


class Recording(RecordingRow):
    conditions: dict[str, Any] = told("That it was taken under.", {"mains_voltage": 230.0})
    results: list[dict[str, Any]] = told("What was read out of it.", [{"code": "ripple"}])
    taken: list[Taken] = told("What became evidence, as it was taken.", [])


class Channel(Told):
    label: str = told("What it is.", "Voltage")
    unit: str = told("Of its values.", "V")
    values: list[float | None] = told("One a time; null where the log has none.", [20.02, 19.98])


class Values(Told):
    """Numbers of a log, thinned to so many points: lowest and highest of each bucket stay."""

    first: float = told("s: where the log begins.", 0.0)
    last: float = told("s: where it ends.", 1800.0)
    rows: int = told("Samples in all.", 1800)
    all: bool = told("Whether these are every sample of the span.", True)
    time: list[float] = told("s", [0.0, 1.0])
    channels: list[Channel] = told("By column.", None)


class Kept(Told):
    """A file that was taken in."""

    key: str = told("Within the unit.", "opened-1")
    href: str = told("Where its contributor reads it.", "/api/v1/bench/8/photos")
    page: str = told("Where its contributor works on it.", "/bench/8/photos/opened-1/")
    sha256: str = told("Of the file as it came in.", "aa11" * 16)
    is_new: bool = told("false: the unit had this very file already.", True)
