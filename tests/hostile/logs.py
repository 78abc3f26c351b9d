"""Texts that are nearly logs, and what each must become.

A case is read right (the numbers it holds), asked about (the field), or refused at a line and a
column, counted from 1; column None: the line as a whole, line None: the file as a whole.
"""
from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

NAN = float("nan")
HEADING = "Time (s),Voltage (V),Current (A)\n"
ROWS = 12
BAD_LINE, BAD_COLUMN = 8, 2           # of `with_cell`: line 1 is the heading


@dataclass(frozen=True)
class Case:
    name: str
    data: bytes
    numbers: tuple[tuple[float, ...], ...] | None = None      # time, then channels
    asks: str = ""
    place: tuple[int | None, int | None] | None = None
    codes: tuple[str, ...] = ()       # any of them; () = not stated


def cases() -> Iterator[Case]:
    yield from structure()
    yield from decimals()
    yield from numbers()
    yield from formulas()


def row(k: int) -> str:
    return f"{0.5 * k},{5 + 0.01 * k:.2f},{0.25 * k}\n"


# Written as the text has them: 5.07 and not 5 + 0.01·7.
EXPECTED = (tuple(0.5 * k for k in range(ROWS)), tuple(float(f"{5 + 0.01 * k:.2f}") for k in
            range(ROWS)), tuple(0.25 * k for k in range(ROWS)))
PLAIN = HEADING + "".join(map(row, range(ROWS)))


def right(name, text, numbers=EXPECTED):
    return Case(name, as_bytes(text), numbers)


def asked(name, text, field):
    return Case(name, as_bytes(text), asks=field)


def refused(name, text, line=None, column=None, *codes):
    return Case(name, as_bytes(text), place=(line, column), codes=codes)


def as_bytes(text):
    return text if isinstance(text, bytes) else text.encode()


def with_line(line: int, text: str, ends: str = "\n") -> str:
    lines = PLAIN.splitlines()
    lines[line - 1] = text
    return ends.join(lines) + ends


def with_cell(cell: str) -> str:
    """The cell stands in line BAD_LINE, column BAD_COLUMN."""
    time, _, current = PLAIN.splitlines()[BAD_LINE - 1].split(",")
    return with_line(BAD_LINE, f"{time},{cell},{current}")


def structure():
    for codec in ("utf-8", "utf-8-sig", "utf-16", "utf-16-le", "utf-16-be", "cp1252"):
        yield right(f"encoding-{codec}", PLAIN.encode(codec))
    yield right("utf-16-be-with-mark", b"\xfe\xff" + PLAIN.encode("utf-16-be"))
    for name, end in (("cr", "\r"), ("crlf", "\r\n"), ("blank-lines-between", "\n\n")):
        yield right(f"line-end-{name}", PLAIN.replace("\n", end))
    yield right("no-last-line-end", PLAIN.rstrip("\n"))
    yield right("empty-lines-at-the-end", PLAIN + "\n" * 50)
    yield right("trailing-separators", PLAIN.replace("\n", ",\n"))
    yield right("rows-of-separators-at-the-end", PLAIN + ",,\n" * 9)
    yield right("all-quoted", "".join(
        ",".join(f'"{cell}"' for cell in line.split(",")) + "\n" for line in PLAIN.splitlines()))
    yield right("blanks-around-cells", PLAIN.replace(",", " , "))
    yield right("semicolons", PLAIN.replace(",", ";"))
    yield right("tabs", PLAIN.replace(",", "\t"))
    yield right("separator-told", "sep=,\n" + PLAIN)
    yield right("long-preamble", "Remark: none\n" * 400 + PLAIN)
    yield refused("mark-inside", PLAIN + "\ufeff" + "6.0,5.1,1\n", 14, None, "mark_inside")
    yield refused("nul-cell", with_cell("5.0\0"), BAD_LINE, None, "zero_bytes")
    yield refused("nul-tail", PLAIN.encode() + bytes(64), 14, None, "zero_bytes")
    yield refused("unclosed-quote", with_cell('"5.06'), BAD_LINE, 2, "quotes")
    yield refused("quote-inside-a-number", with_cell('5"06'), BAD_LINE, 2)
    yield refused("quoted-line-break", with_cell('"5.0\n6"'), BAD_LINE, 2, "quotes")
    yield refused("short-line", with_line(8, "3.0,5.06"), 8, 3, "too_few_cells")
    yield refused("long-row", with_line(8, "3.0,5.06,1.5,7"), 8, 4, "too_many_cells")
    yield refused("cut-off", PLAIN + "6.0,5.1", 14, 3, "too_few_cells")
    yield refused("two-logs-pasted", PLAIN + PLAIN, 14, None, "second_log")
    yield refused("two-logs-without-heading", PLAIN + PLAIN.removeprefix(HEADING), 14, 1,
                  "second_log")
    yield refused("time-runs-back", with_line(8, "1.0,5.06,1.5"), 8, 1, "time_runs_back")
    yield refused("closing-line", PLAIN + "End of recording\n", 14, None, "text_among_rows")
    yield refused("comment-among-rows", with_line(8, "# load on"), 8, None, "text_among_rows")
    yield refused("hundred-thousand-columns", ",".join(["1.5"] * 100_000) + "\n"
                  + ",".join(["2.5"] * 100_000) + "\n")
    yield refused("line-of-1.9-MB", PLAIN + "7" * 1_900_000, 14, None, "line_too_long")
    yield refused("first-line-of-1.9-MB", "7" * 1_900_000)
    yield refused("cell-of-5000-digits", with_cell("5." + "1" * 5000), BAD_LINE, BAD_COLUMN,
                  "cell_too_long")
    yield refused("empty-file", "")
    yield refused("only-a-heading", HEADING)
    yield refused("only-line-ends", "\n" * 5000)
    yield refused("one-row", HEADING + row(0))
    yield refused("no-text", bytes(range(256)) * 8)


def decimals():
    comma = PLAIN.replace(",", ";").replace(".", ",")
    yield right("semicolon-and-comma", comma)
    yield right("tab-and-comma", comma.replace(";", "\t"))
    yield right("quoted-comma", "".join(
        ",".join(f'"{cell}"' for cell in line.split(";")) + "\n" for line in comma.splitlines()))
    # 1.234 s may be 1234 s, and 5.678 V may be 5678 V.
    three = "Zeit [s];Spannung [V]\n" + "".join(f"{k}.250;5.1{k}8\n" for k in range(1, 9))
    yield asked("three-decimals-everywhere", three, "decimal")
    yield asked("three-after-a-comma", three.replace(".", ","), "decimal")
    yield asked("points-and-commas", PLAIN.replace(",", ";").replace(";5.", ";5,"), "decimal")
    yield refused("one-comma-among-points", with_cell("5,06").replace(",", ";").replace(
        "5;06", "5,06"), BAD_LINE, BAD_COLUMN, "decimal_mark")
    thousands = ("Time (s);Voltage (mV);Current (A)\n0.5;1,234.5;1\n1.0;12,345.25;1\n"
                 "1.5;1,234,567.5;1\n2.0;999.5;1\n")
    yield right("thousands-with-comma", thousands,
                ((0.0, 0.5, 1.0, 1.5), (1.2345, 12.34525, 1234.5675, 0.9995), (1.0,) * 4))
    yield right("thousands-with-point", thousands.translate(str.maketrans(",.", ".,")),
                ((0.0, 0.5, 1.0, 1.5), (1.2345, 12.34525, 1234.5675, 0.9995), (1.0,) * 4))
    yield refused("commas-for-both", "Time (s),Voltage (V)\n" + "".join(
        f"{k},5,5,1{k}\n" for k in range(8)), 2, None, "double_comma")


def numbers():
    for name, cell in {
        "nan": "NaN", "nan-small": "nan", "inf": "inf", "minus-inf": "-inf", "infinity": "Infinity",
        "too-large": "1e999", "too-small": "1e-400", "underscore": "1_000", "hexadecimal": "0x10",
        "arabic-digits": "٥.٠٦", "full-width-digits": "５.０６", "superscript": "5²",
        "minus-sign": "\u22125.06", "spreadsheet-error": "#DIV/0!", "spreadsheet-na": "#N/A",
        "date": "05-Jan", "unit": "5.06V", "text": "five", "two-points": "5.0.6",
        "two-signs": "--5.06", "exponent-alone": "e5", "exponent-cut": "5e", "fortran": "5.06d0",
        "over-range": "OL", "null": "null", "complex": "5j", "zero-width": "5\u200b.06",
        "direction": "\u202e60.5", "in-brackets": "(5.06)", "percent": "50%", "true": "TRUE",
        "huge-exponent": "1e" + "9" * 40, "long-zero": "0." + "0" * 190 + "1e-300",
    }.items():
        yield refused(f"number-{name}", with_cell(cell), BAD_LINE, BAD_COLUMN)
    for name, cell in {"plus": "+5.06", "exponent": "506E-2", "leading-zeros": "0005.06",
                       "trailing-blank": "5.06\u00a0", "many-digits": "5.0600000000000000000000"
                       }.items():
        yield right(f"number-{name}", with_cell(cell))
    blank = EXPECTED[1][:BAD_LINE - 2] + (NAN,) + EXPECTED[1][BAD_LINE - 1:]
    for name, cell in {"empty": "", "blanks": "   ", "quotes": '""', "dashes": "---"}.items():
        yield right(f"blank-{name}", with_cell(cell), (EXPECTED[0], blank, EXPECTED[2]))
    yield refused("time-blank", with_line(8, ",5.06,1.5"), 8, 1, "time_missing")
    yield refused("time-nan", with_line(8, "NaN,5.06,1.5"), 8, 1, "not_a_number")


def formulas():
    for name, cell in {"equals": "=1+1", "call": "=cmd|' /C calc'!A0", "at": "@SUM(A1)",
                       "plus": "+1+1", "minus": "-1+cmd", "full-width": "＝1+1"}.items():
        yield refused(f"formula-{name}", with_cell(cell), BAD_LINE, BAD_COLUMN)
    yield right("tab-before-a-number", with_cell("\t5.06"))
    for name, start in {"equals": "=", "plus": "+", "minus": "-", "at": "@", "full-width": "＝",
                        "link": '=HYPERLINK(""http://x.example"")&'}.items():
        heading = f'Time (s),"{start}Voltage (V)",Current (A)\n'
        yield right(f"heading-{name}", PLAIN.replace(HEADING, heading))
    remark = "".join(line + ",=1+1\n" for line in PLAIN.splitlines()[1:])
    yield right("formula-in-a-remark", HEADING.rstrip("\n") + ",Remark\n" + remark)


def endless_line(size: int, before: bytes = PLAIN.encode()) -> EndlessLine:
    return EndlessLine(before, size)


class EndlessLine:
    """An open file of so many bytes that has no line end after `before`, and is never in memory."""

    def __init__(self, before: bytes, size: int):
        self.before, self.size, self.place, self.given = before, size, 0, 0

    def seek(self, place: int) -> None:
        self.place = place

    def read(self, count: int) -> bytes:
        count = min(count, self.size - self.place)
        start = self.before[self.place:self.place + count]
        self.place += count
        self.given += count
        return start + b"7" * (count - len(start))
