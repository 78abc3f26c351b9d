"""The walk over the items of one text: what is in force, what stands beside, what was found."""

from __future__ import annotations

from teardowns.reading.plates.claims import Fields
from teardowns.reading.plates.entry import Entry, input_fields, output_fields
from teardowns.reading.plates.items import QUANTITIES, Item

_SUBSTANCE = ("voltage", "voltage_low", "current", "power", "frequency_low", "apparent_power")


class Walk:
    """State of the walk. Claims are dicts of PlateClaim fields with normalised offsets."""

    def __init__(self, items: list[Item]) -> None:
        self.items = items
        self.at = 0
        self.claims: list[Fields] = []
        self.questions: list[tuple[int, int, str]] = []
        self.read: list[tuple[int, int]] = []  # what was understood
        self.section = ""  # the label in force: "input", "output" or ""
        self.side = ""  # where the last quantity went
        self.ports: tuple[str, ...] = ()
        self.joined = ""  # the sign between the ports
        self.port_line = -1  # the line of the port label in force
        self.port_stated = False  # a label with a colon: a plate's way of writing, not a listing's
        self.ratings_at_port = 0
        self.watts_at_port = 0  # how many of those ratings print their own watts
        self.protocol = ("", "")
        self.total: Item | None = None  # the word, until the quantity it announces
        self.total_line = -1  # the line of the last total that was read
        self.entry: Entry | None = None
        self.pending_nature: Item | None = None
        self.pending_protocol: Item | None = None

    def neighbour(self, step: int, skip: str = "sign dashes max noise") -> Item | None:
        """The next item of substance in the direction of `step`."""
        skipped = skip.split()
        at = self.at + step
        while 0 <= at < len(self.items) and self.items[at].kind in skipped:
            at += step
        return self.items[at] if 0 <= at < len(self.items) else None

    def sign(self, step: int) -> str:
        return self.sign_at(self.at + step)

    def past(self, at: int, step: int, signs: str = "") -> int:
        """The first place from `at` on that is neither filling nor one of the signs."""
        while 0 <= at < len(self.items) and (
            self.items[at].kind in ("max", "noise") or (signs and self.sign_at(at) in tuple(signs))
        ):
            at += step
        return at

    def kind_at(self, at: int) -> str:
        return self.items[at].kind if 0 <= at < len(self.items) else ""

    def sign_at(self, at: int) -> str:
        return self.items[at].value if self.kind_at(at) == "sign" else ""

    def in_brackets(self) -> bool:
        return self.sign(-1) == "(" and self.sign(+1) == ")"

    def input_given(self) -> bool:
        """The voltage of an input was read already."""
        if any(claim["kind"] == "input" for claim in self.claims):
            return True
        return self.entry is not None and self.entry.kind == "input" and self.entry.has("volt")

    def understood(self, *items: Item) -> None:
        self.read += [(item.start, item.end) for item in items if not item.question]

    def ask(self, item: Item, question: str) -> None:
        self.questions.append((item.start, item.end, question))

    def claim(self, fields: Fields, start: int, end: int) -> None:
        self.claims.append(fields | {"start": start, "end": end})

    def new_ports(self, ports: tuple[str, ...], joined: str = "", line: int = -1) -> None:
        """Put another port label in force, or none; what came before it no longer counts."""
        self.close()
        self.ports, self.joined, self.port_line, self.port_stated = ports, joined, line, False
        self.ratings_at_port = self.watts_at_port = 0
        self.protocol, self.pending_protocol = ("", ""), None

    def open(self, kind: str) -> Entry:
        """Begin a rating of the port, protocol and total that are in force."""
        self.close()
        if kind == "input":
            entry = Entry("input")
        else:
            self.ratings_at_port += 1
            ports, shared = self._ports_of_rating()
            kind = "total" if shared and len(ports) > 1 else kind
            entry = Entry(
                kind, ports, self.joined, self.ratings_at_port, shared, protocol=self.protocol
            )
            if self.pending_protocol is not None:
                entry.cover(self.pending_protocol)
        if self.total is not None:
            entry.cover(self.total)
        self.total = self.pending_protocol = None
        self.entry = entry
        return entry

    def _ports_of_rating(self) -> tuple[tuple[str, ...], bool | None]:
        """C1+A: 20V⎓2A + 5V⎓2A names one port a rating; without the + they share it."""
        if self.joined != "+":
            return self.ports, None
        if self._plus_ahead_or_behind() and self.ratings_at_port <= len(self.ports):
            return (self.ports[self.ratings_at_port - 1],), True
        return self.ports, True

    def _plus_ahead_or_behind(self) -> bool:
        """A + stands between ratings of the ports in force."""
        if self.ratings_at_port > 1:
            return self.sign(-1) == "+"
        seen = 0
        for item in self.items[self.at :]:
            if item.kind in ("port", "input", "output", "total"):
                return False
            seen += item.kind in QUANTITIES
            if item.kind == "sign" and item.value == "+" and seen:
                return True
        return False

    def take(self, entry: Entry, item: Item) -> None:
        self.understood(item)
        entry.take(item)

    def close(self) -> None:
        """End the rating that is being collected and make its claims."""
        entry, self.entry = self.entry, None
        if entry is None or not entry.items:
            return
        start, end = entry.span()
        if doubt := entry.doubt():
            self.questions.append((start, end, doubt))
        make = input_fields if entry.kind == "input" else output_fields
        for fields in make(entry):
            if any(fields.get(name) is not None for name in _SUBSTANCE):
                self.claim(fields, start, end)
