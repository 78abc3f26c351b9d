"""Volts, amperes, watts and hertz: which of them make one rating, and of which side."""

from __future__ import annotations

from dataclasses import replace

from teardowns.reading.plates.entry import Entry, agrees
from teardowns.reading.plates.items import Item
from teardowns.reading.plates.walk import Walk

_LOW = 60.0  # V; common practice: outputs of chargers lie below, mains voltages at 85 V and above
_MAINS = 85.0


class Ratings(Walk):
    """What the walk does at a quantity and at the signs for a.c. and d.c."""

    def on_sign(self, item: Item) -> None:
        if item.value == "~":
            self._nature("ac", item)
        elif item.value == "⎓" or (item.value in "=—" and self._after_bare_volts()):
            self._nature("dc", item)

    def on_dashes(self, item: Item) -> None:
        if item.value not in ("...", "…") and self._after_bare_volts():
            self._nature("dc", item)

    def on_nature(self, item: Item) -> None:
        self.understood(item)
        self._nature(item.value, item)

    def _after_bare_volts(self) -> bool:
        before = self.neighbour(-1, "max")
        return before is not None and before.kind == "volt" and self.at + 1 < len(self.items)

    def _nature(self, nature: str, item: Item) -> None:
        """Of the volts just before it, else of the volts right behind it."""
        before = self.neighbour(-1, "sign dashes nature")
        if before is None or before.kind != "volt" or self.entry is None:
            self.pending_nature = replace(item, value=nature)
            return
        if self.entry.nature is None:
            self.entry.nature = nature
            unlabelled = self.entry.kind == "output" and not self.section
            if unlabelled and nature == "ac" and before.parts:
                self.ask(before, "a.c. at a low voltage without a label: is it input or output?")
        self.entry.cover(item)

    def on_volt(self, item: Item) -> None:
        kind = self._side_of(item)
        entry = self._waiting_for_volts(kind) or self.open(kind)
        if kind == "input":
            entry.kind, entry.ports = kind, ()
        self.side = "input" if kind == "input" else "output"
        self.take(entry, item)
        if self.pending_nature is not None and entry.nature is None:
            entry.nature = self.pending_nature.value
            entry.cover(self.pending_nature)

    def _waiting_for_volts(self, kind: str) -> Entry | None:
        """The rating at hand where its amperes or hertz were printed first."""
        entry = self.entry
        if self.total is not None or entry is None or entry.has("volt"):
            return None
        same_side = (entry.kind == "input") == (kind == "input")
        return entry if same_side or (kind == "input" and not entry.has("watt")) else None

    def _side_of(self, item: Item) -> str:
        """Input, output or total: by the label in force, unless the voltage contradicts it."""
        if self.total is not None:
            return "total"
        if not item.parts:
            return self.side or "output"
        nature = self.pending_nature.value if self.pending_nature else self._nature_ahead()
        lowest = min(low for low, _ in item.parts)
        highest = max(high for _, high in item.parts)
        mains = lowest >= _MAINS and nature != "dc"
        if self.section == "input" and highest < _LOW and nature != "ac" and self.input_given():
            self.ask(item, "a low voltage under the input label; read as an output")
            return "output"
        if self.section == "output" and mains and self.entry is not None:
            self.ask(item, "a mains voltage under the output label; read as an input")
            return "input"
        return self.section or ("input" if mains else "output")

    def _nature_ahead(self) -> str | None:
        """a.c. or d.c. as printed right behind the quantity at hand."""
        for item in self.items[self.at + 1 : self.at + 3]:
            if item.kind == "nature":
                return item.value
            if item.kind == "sign" and item.value in "~⎓=":
                return "ac" if item.value == "~" else "dc"
        return None

    def on_hertz(self, item: Item) -> None:
        """A frequency is the mains', unless it follows an output that is a.c."""
        entry = self.entry
        if entry is None or entry.has("hertz") or not self._may_be_ac(entry):
            if self.section == "output":
                return
            entry = self.open("input")
        self.take(entry, item)

    @staticmethod
    def _may_be_ac(entry: Entry) -> bool:
        return entry.kind == "input" or entry.nature == "ac"

    def on_ampere(self, item: Item) -> None:
        entry = self.entry
        if entry is not None and entry.kind == "input" and self.side == "input":
            if self._begins_mains_line(entry, item):
                entry = self.open("input")
            elif entry.has("ampere"):
                self.ask(item, "a second current for the same input: what is it for?")
                return
        elif entry is not None and entry.has("volt", "ampere") and self.sign(-1) == "(":
            self.ask(item, "a second current in brackets: which port does it belong to?")
            return
        elif entry is None or entry.has("ampere") or entry.kind == "input":
            announced = "total" if self.total is not None else "output"
            entry = self.open("input" if self.section == "input" else announced)
        self.take(entry, item)

    def _begins_mains_line(self, entry: Entry, item: Item) -> bool:
        """16A 250V~ in a line below a complete input is a rating of its own."""
        following = self.neighbour(+1)
        if following is None or following.kind != "volt" or not following.parts:
            return False
        mains = all(low >= _MAINS for low, _ in following.parts)
        return mains and entry.has("volt", "ampere") and entry.line < item.line == following.line

    def on_voltampere(self, item: Item) -> None:
        if self.entry is not None and self.entry.kind == "input":
            self.take(self.entry, item)

    def on_watt(self, item: Item) -> None:
        entry = self.entry
        if self.total is not None:
            self._power_alone("total", item)
        elif self._parts_follow(item):
            self._whole(item)
        elif self._is_part():
            self._powers_together(item)
        elif self._is_listing(item):
            self._power_alone("listing", item)
        elif entry is not None and entry.kind == "input":
            self._input_power(entry, item)
        elif entry is not None and entry.has("volt") and not entry.has("watt"):
            self._output_power(entry, item)
        elif self.section == "output" or self.port_stated or self._behind_total(item):
            self._port_power(item)
        else:
            self._power_alone("listing", item)

    def _parts_follow(self, item: Item) -> bool:
        """50 W (30 W + 20 W), 50 W: C1 30 W + A 20 W. The first watts are those of the whole."""
        entry = self.entry
        if entry is not None and entry.line == item.line and entry.has("volt"):
            return False
        opening = self.past(self.at + 1, +1)
        if self.sign_at(opening) not in ("(", ":", "="):
            return False
        part = self.past(opening + 1, +1)
        if self.kind_at(part) == "watt":
            return self.items[part].joined == "+"
        watts = self.past(part + 1, +1, ":(")
        added = self.sign_at(self.past(watts + 1, +1, ")")) == "+"
        return (self.kind_at(part), self.kind_at(watts)) == ("port", "watt") and added

    def _whole(self, item: Item) -> None:
        if item.line != self.port_line:
            self.new_ports(())
        self._power_alone("total", item)

    def _is_part(self) -> bool:
        """USB-C1 30 W + USB-A 20 W: what each port gives while both are used."""
        label = self.past(self.at - 1, -1, ":(")
        if len(self.ports) != 1 or self.kind_at(label) != "port":
            return False
        ahead = self.past(self.at + 1, +1, ")")
        if self.sign_at(ahead) == "+" and self.kind_at(self.past(ahead + 1, +1)) == "port":
            return True
        behind = self.past(label - 1, -1)
        before = self.past(behind - 1, -1, ")")
        return self.sign_at(behind) == "+" and self.kind_at(before) == "watt"

    def _behind_total(self, item: Item) -> bool:
        """Total 65 W: C1 45 W, A 18 W. Ports in the line of a total are outputs."""
        return bool(self.ports) and self.total_line == item.line

    def _is_listing(self, item: Item) -> bool:
        """Advertising words stand right beside the watts."""
        before, after = self.neighbour(-1, "sign max"), self.neighbour(+1, "sign max protocol port")
        if before is not None and before.line == item.line and (
            before.kind in ("up_to", "listing") or before.value == "gan"
        ):
            return True
        return after is not None and after.kind == "listing" and after.line == item.line

    def _input_power(self, entry: Entry, item: Item) -> None:
        if self.section == "input" and entry.line == item.line and not entry.has("watt"):
            self.take(entry, item)
        else:
            self._power_alone("listing", item)

    def _output_power(self, entry: Entry, item: Item) -> None:
        """Watts behind volts and amperes: this level's, unless they disagree among several levels.

        A lone level keeps watts that disagree, and so does one of several that print theirs:
        that is for the engine to judge.
        """
        products = entry.products()
        matches = any(agrees(p, watts) for p in products for _, watts in item.parts)
        earlier = entry.number_at_port - 1
        own = entry.line == item.line and self.watts_at_port == earlier
        if matches or not products or not item.parts or (own and len(entry.levels()) == 1):
            self.take(entry, item)
            self.watts_at_port += 1
            return
        self.ask(item, "not the product of the level before it; read as the most of all levels")
        if item.line != self.port_line:
            self.new_ports(())
        self._power_alone("total", item)

    def _port_power(self, item: Item) -> None:
        if item.joined == "+" or len(item.parts) == len(self.ports) > 1:
            self._powers_together(item)
        elif not self.ports or (self.joined == "+" and len(item.parts) == 1):
            self._power_alone("total", item)
        else:
            self.take(self.open("output"), item)

    def _powers_together(self, item: Item) -> None:
        """C1+A: 45W+18W: what each port gives while both are used."""
        self.close()
        self.understood(item)
        named = len(item.parts) == len(self.ports)
        if not named:
            self.ask(item, "several powers: which port has which?")
        for number, (_, high) in enumerate(item.parts):
            fields = {"kind": "output", "power": high, "power_stated": True, "shared": True}
            port = self.ports[number] if named else ""
            self.claim(fields | {"port": port}, item.start, item.end)

    def _power_alone(self, kind: str, item: Item) -> None:
        """Watts without volts: the total of the unit or of a port, or a listing's phrase."""
        if kind == "listing" and item.joined == "+":
            self._powers_together(item)
            return
        total, self.total, self.pending_protocol = self.total, None, None
        self.close()
        self.understood(item)
        start, end = self._phrase(item) if kind == "listing" else (item.start, item.end)
        start = total.start if total is not None else start
        self.total_line = item.line if kind == "total" else self.total_line
        common = {
            "kind": kind, "power_stated": True, "port": self.joined.join(self.ports),
            "shared": True if self.joined == "+" else None,
            "protocol": self.protocol[0], "protocol_version": self.protocol[1],
        }  # fmt: skip
        for _, high in item.parts:
            self.claim(common | {"power": high}, start, end)

    def _phrase(self, item: Item) -> tuple[int, int]:
        """The watts with the advertising words on either side."""
        start, end = item.start, item.end
        for word in (self.neighbour(-1, "sign max"), self.neighbour(+1, "sign max")):
            if word is None or word.line != item.line:
                continue
            if word.kind in ("listing", "up_to") or word.value == "gan":
                start, end = min(start, word.start), max(end, word.end)
        return start, end
