"""Bench sheets made up row by row, for the list of what a reviewer will ask for."""
from teardowns.models import Unit
from teardowns.presenting.asked_rows import AskedRow, Sheet, ShownPhoto


def row(kind, which, state="recorded", also="", **more):
    blank = {"key": which, "photo": None, "uncertainty": None, "mains": None, "off_photo": False}
    return AskedRow(kind=kind, state=state, which=which, also=also, **{**blank, **more})


def shot(stage, pk=1, alt="a board", has_scale=False):
    return ShownPhoto(pk, stage, alt, has_scale)


def sheet(*rows, photos=(), report=None, **unit):
    return Sheet(Unit(pk=7, title="Veltrice VQ-45", **unit), rows, photos, report)
