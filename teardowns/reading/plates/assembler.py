"""Labels, ports, protocols, marks and names: what is in force when a quantity comes."""

from __future__ import annotations

from teardowns.reading.plates.items import QUANTITIES, Item
from teardowns.reading.plates.ratings import Ratings

_ROMAN = {"3": "III", "4": "IV", "5": "V", "6": "VI", "7": "VII"}
_OUTPUT = "output"
_DENIALS = frozenset(("no", "not", "without"))
_BETWEEN_LABEL_AND_NUMBER = "sign dashes max noise output nature up_to"


class Assembler(Ratings):
    """Walks the items once and puts them together to claims."""

    def run(self) -> None:
        for at, item in enumerate(self.items):
            self.at = at
            handler = _HANDLERS.get(item.kind)
            if handler is not None:
                handler(self, item)
            if item.kind not in ("sign", "nature", "max"):
                self.pending_nature = None
            if item.question:
                self.ask(item, item.question)
        self.close()

    def on_input(self, item: Item) -> None:
        self._new_section("input", item)

    def on_output(self, item: Item) -> None:
        self._new_section(_OUTPUT, item)
        if item.value:
            self.new_ports((f"{_OUTPUT} {item.value}",), line=item.line)

    def _new_section(self, section: str, item: Item) -> None:
        self.close()
        self.understood(item)
        self.section = self.side = section
        self.total = None
        before = self.items[self.at - 1] if self.at else None
        if before is None or before.kind != "port" or before.line != item.line:
            self.new_ports(())

    def on_total(self, item: Item) -> None:
        """Before a quantity it announces a total; behind one it says that the rating is shared."""
        self.understood(item)
        before = self.neighbour(-1)
        announced = self._announced_quantity()
        if announced is not None and announced.line == item.line:
            self._announce_total(item)
        elif self.entry is not None and self.entry.line == item.line:
            self.entry.shared = True
            self.entry.cover(item)
        elif before is not None and before.kind == "watt" and self.claims[-1:]:
            if self.claims[-1]["kind"] in ("listing", "total"):
                self.claims[-1] |= {"kind": "total", "end": item.end}
        elif announced is not None:
            self._announce_total(item)

    def _announced_quantity(self) -> Item | None:
        following = self.neighbour(+1, _BETWEEN_LABEL_AND_NUMBER)
        return following if following is not None and following.kind in QUANTITIES else None

    def _announce_total(self, item: Item) -> None:
        self.close()
        # “Total:” is a label of its own, “total 24W” within a port's line is that port's.
        if item.line != self.port_line or self._colon_follows():
            self.new_ports(())
        self.total, self.side = item, "output"

    def on_port(self, item: Item) -> None:
        self.understood(item)
        names = tuple(item.value.split("\n"))
        if self.in_brackets() and self.entry is not None:
            self.entry.ports, self.entry.joined = names, item.joined
            self.entry.cover(item)
        elif self._labels_something():
            self.close()
            if self.section == "input" and self.input_given():
                self.section = "output"
            self.new_ports(names, item.joined, item.line)
            self.port_stated = self._colon_follows()
            self.side = self.section or "output"

    def _labels_something(self) -> bool:
        """A port in a product's name labels no number: “USB-C charger”."""
        following = self.neighbour(+1, f"{_BETWEEN_LABEL_AND_NUMBER} total times protocol input")
        return self._colon_follows() or (following is not None and following.kind in QUANTITIES)

    def _colon_follows(self) -> bool:
        following = self.items[self.at + 1 : self.at + 3]
        behind = [item for item in following if item.kind not in ("noise", "output", "times")]
        return bool(behind) and behind[0].kind == "sign" and behind[0].value == ":"

    def on_times(self, item: Item) -> None:
        self.understood(item)
        same_line = {i.kind for i in self.items[self.at : self.at + 40] if i.line == item.line}
        if not same_line & {"each", "shared", "total"}:
            ports = f"{item.value} ports"
            self.ask(item, f"{ports}: does the rating hold for each or for all together?")

    def on_each(self, item: Item) -> None:
        self._set_shared(item, False)

    def on_shared(self, item: Item) -> None:
        self._set_shared(item, True)

    def _set_shared(self, item: Item, shared: bool) -> None:
        self.understood(item)
        if self.entry is not None:
            self.entry.shared = shared
            self.entry.cover(item)

    def on_protocol(self, item: Item) -> None:
        self.understood(item)
        name, _, version = item.value.partition("|")
        fields = {"kind": "protocol", "protocol": name, "protocol_version": version}
        self.claim(fields | {"port": self.joined.join(self.ports)}, item.start, item.end)
        if self.in_brackets() and self.entry is not None:
            self.entry.protocol = (name, version)
            self.entry.cover(item)
            return
        following = self.neighbour(+1, "sign max nature up_to")
        if following is None or following.kind not in (*QUANTITIES, "protocol"):
            return
        self.close()
        before = self.neighbour(-1, "sign")
        chained = self.pending_protocol and before is not None and before.kind == "protocol"
        self.protocol = (f"{self.protocol[0]}/{name}", "") if chained else (name, version)
        self.pending_protocol = self.pending_protocol if chained else item

    def on_mark(self, item: Item) -> None:
        self._name("mark", item.value, item)

    def on_level(self, item: Item) -> None:
        self._name("mark", f"efficiency_level:{_ROMAN.get(item.value, item.value)}", item)

    def on_question(self, item: Item) -> None:
        self.ask(item, "the class II symbol in words, or a limited supply of “Class 2”?")

    def on_feature(self, item: Item) -> None:
        before = self.neighbour(-1)
        if before is None or before.value.lower() not in _DENIALS:
            self.understood(item)
            mark = f"{item.value}_protection"
            self.claim({"kind": "feature", "mark": mark}, item.start, item.end)

    def on_perhaps_feature(self, item: Item) -> None:
        """“Over-voltage” or “SCP” is a feature where its line speaks of protection."""
        around = self.items[max(self.at - 40, 0) : self.at + 40]
        same_line = [i for i in around if i.line == item.line]
        if any(i.kind in ("feature", "protection") for i in same_line):
            self.on_feature(item)
            self.understood(*(i for i in same_line if i.kind == "protection"))

    def on_model(self, item: Item) -> None:
        self.close()
        self._name("model", item.value, item)

    def on_maker(self, item: Item) -> None:
        self.close()
        self._name("maker", item.value, item)

    def _name(self, kind: str, value: str, item: Item) -> None:
        self.understood(item)
        self.claim({"kind": kind, kind: value}, item.start, item.end)

    def on_known_word(self, item: Item) -> None:
        self.understood(item)


_HANDLERS = {
    "ampere": Assembler.on_ampere, "dashes": Assembler.on_dashes, "each": Assembler.on_each,
    "feature": Assembler.on_feature, "perhaps_feature": Assembler.on_perhaps_feature,
    "hertz": Assembler.on_hertz, "input": Assembler.on_input, "level": Assembler.on_level,
    "maker": Assembler.on_maker, "mark": Assembler.on_mark, "model": Assembler.on_model,
    "nature": Assembler.on_nature, "output": Assembler.on_output, "port": Assembler.on_port,
    "protocol": Assembler.on_protocol, "question": Assembler.on_question,
    "shared": Assembler.on_shared, "sign": Assembler.on_sign, "times": Assembler.on_times,
    "total": Assembler.on_total, "volt": Assembler.on_volt,
    "voltampere": Assembler.on_voltampere, "watt": Assembler.on_watt,
    **dict.fromkeys(
        ("noise", "max", "listing", "up_to", "to", "joint", "outlet"), Assembler.on_known_word
    ),
}  # fmt: skip
