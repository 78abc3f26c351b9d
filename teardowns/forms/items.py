"""How a section is declared: entries, tables and unit fields, in groups with a heading."""
from dataclasses import dataclass

from teardowns.engine.quantities import QUANTITIES
from teardowns.forms.quantity_entry import FlagEntryForm, QuantityEntryForm
from teardowns.forms.rows.components import ComponentForm
from teardowns.models import Component, How, Measurement, Role


@dataclass(frozen=True)
class Entry:
    """One fixed quantity. `conditions` are fields of the measurement that it asks for as well."""

    code: str
    conditions: tuple[str, ...] = ()
    how: How = How.MEASURED
    repeat: bool = False           # several readings, say at two mains voltages
    hint: str = ""

    model = Measurement
    at_least = 1
    is_table = False

    @property
    def form_class(self):
        return FlagEntryForm if QUANTITIES[self.code].is_flag else QuantityEntryForm

    @property
    def prefix(self):
        return self.code.replace("_", "-")

    @property
    def title(self):
        return QUANTITIES[self.code].label

    @property
    def remark(self):
        return self.hint or QUANTITIES[self.code].meaning

    @property
    def add_label(self):
        return "Add another reading" if self.repeat else ""

    @property
    def names_ports(self):
        return "port" in self.conditions

    @property
    def presence(self):
        return {("measurement", self.code)}

    def owns(self, row):
        return row.quantity == self.code


@dataclass(frozen=True)
class Table:
    """Rows of one kind of evidence; `presence` says which stored rows fill it."""

    prefix: str
    title: str                     # of one row, numbered when there are several
    form_class: type
    presence: frozenset[tuple[str, str]]
    at_least: int = 1
    remark: str = ""
    add: str = ""

    is_table = True

    @property
    def model(self):
        return self.form_class.model

    @property
    def names_ports(self):
        return self.form_class.names_ports

    @property
    def add_label(self):
        return self.add or f"Add another {self.title.lower()}"

    def owns(self, row):
        if not isinstance(row, Measurement):
            return True
        return ("measurement", row.quantity) in self.presence and row.value is not None


@dataclass(frozen=True)
class Parts:
    """Components of one role, or of one of several; `fields` beside the marking."""

    roles: tuple[Role, ...]
    fields: tuple[str, ...]
    title: str
    at_least: int = 1
    remark: str = ""
    more: tuple[str, ...] = ()     # fields behind “More”

    form_class = ComponentForm
    model = Component
    is_table = True

    @property
    def prefix(self):
        return self.roles[0].value.replace("_", "-")

    @property
    def names_ports(self):
        return "port" in self.more

    @property
    def add_label(self):
        added = "Add another {lower}" if self.at_least else "Add {lower}"
        return added.format(lower=self.title.lower())

    @property
    def presence(self):
        return {("component", role.value) for role in self.roles}

    def owns(self, row):
        return row.role in self.roles


@dataclass(frozen=True)
class UnitFields:
    """Fields of the unit itself; a unit stands once in a section."""

    names: tuple[str, ...]

    names_ports = False


@dataclass(frozen=True)
class Group:
    title: str
    items: tuple
    hint: str = ""
    picture: str = ""              # template of drawings that show what is meant
    seldom: bool = False           # folded away until something stands in it


@dataclass(frozen=True)
class Section:
    slug: str
    title: str
    groups: tuple[Group, ...]
    cautions: tuple[str, ...] = ()
    discharge: bool = False        # asks whether the unit was discharged first

    @property
    def items(self):
        return tuple(item for group in self.groups for item in group.items)
