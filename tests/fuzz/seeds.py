"""What each reader is asked to begin with: sound things, and those of the hostile collections."""
from __future__ import annotations

import json
from functools import cache
from pathlib import Path

from teardowns.api.paging import cursor_of
from teardowns.engine.physics.power_objects import Fixed, encode
from teardowns.imaging.web_annotation import written
from tests.hostile import comments as hostile_comments
from tests.hostile import images
from tests.hostile import logs as hostile_logs
from tests.reading.plates.hostile import PIECES

ROOT = Path(__file__).parents[2]
LARGEST = 20_000            # bytes of a file to begin from; larger ones have tests of their own
WORDS = ["0A01912C", "0002D12C", "C1DC213C", "D1400000", "00000000", "FFFFFFFF"]


def plates():
    return ["Veltrice VQ-45\nInput: 100-240V~50/60Hz 1.5A\nOutput: 5V⎓3A/9V⎓3A, 20V=2.25A 45W",
            "USB-C1: PPS 3.3-11V 5A max 65W total", *(piece * 40 for piece in PIECES)]


def markings():
    return ["104K 2kV", "4R7", "X2 0.33µF K 275~", "T3.15AL250V", "brown black orange gold", "01C",
            "470µF 25V 105°C", "EE25/13/7 N87", "ETD29", "222M Y1 400VAC"]


def quantities():
    return ["4.7 µF ± 20 %", "4k7", "10(1) mm", "0,25 mm ± 0.05 mm", "1e-9 F", "R22", "−40 °C",
            "1.234", "12,345.6 V", "65 W", "½ A"]


def capabilities():
    lists = ["\n".join(WORDS[:4]), "0x0A01912C, 0x0002D12C", "2C 91 01 0A 2C D1 02 00",
             "5V 3A\n9 V 3 A\n3.3-11V PPS 5A", "0000 1010 0000 0001 1001 0001 0010 1100"]
    return lists + ["A1 63 2C 91 01 08 2C D1 02 00 00 00 00 00"]


def power_objects():
    return [*WORDS, f"{encode(Fixed(20.0, 3.25)):08X}", "0xE0000000"]


@cache
def documents():
    """The smallest of the demo units, and forms of nothing."""
    files = sorted((ROOT / "fixtures" / "units").glob("*.json"), key=lambda f: f.stat().st_size)
    return [file.read_text("utf-8") for file in files[:3]] + [
        '{"form": "underplate-unit/1", "unit": {"title": "a"}}', "[" * 50, "null", '{"a":1,"a":2}']


def annotations():
    return [json.dumps(written(shape, points, "bulk", "component/bulk-1", "/units/1/photos/a/"))
            for shape, points in (("point", [(3, 4)]), ("line", [(1, 2), (30, 40)]),
                                  ("polygon", [(1, 2), (30, 4), (5, 60)]))]


def questions():
    return ['hub "65 w" b8', "12/component/bulk-1", "Veltrice VQ-45", "EU Schuko", "O0I1", "  "]


def addresses():
    return ["q=hub&verdict=refuted&verdict=supported&sort=risk", "year=2024&controller=VX1",
            "q=%00&after=abc", "family=a-b&connector=usb_c&sort=rank", "risk=severe&power=none"]


def cursors():
    return [cursor_of(12, "a"), cursor_of(2**62, ""), "", "W10", "!!!!", "e30="]


def choices():
    return ["3,8v2,12", "1 1 1", "999999999v999999", "0", "٣", "3v0"]


def comments():
    return [*hostile_comments.HOSTILE, "*a* **b** `c`\n\n> d\n- e\n1. f", "[a](https://b.example)"]


@cache
def logs():
    return [case.data for case in hostile_logs.cases() if len(case.data) <= LARGEST]


@cache
def pictures():
    return [case.data for _, case in images.cases() if len(case.data) <= LARGEST]
