"""How the text of a log becomes numbers, and what each of its columns is."""
from __future__ import annotations

from dataclasses import replace

from django import forms

from core.words.as_written import AsWritten
from teardowns.engine.quantities import GROUPS
from teardowns.forms.number_fields import WholeField, shown_text
from teardowns.forms.quantity_field import QuantityField, typed_text
from teardowns.logs.layout import Layout, LogColumn
from teardowns.logs.roles import NOT_USED, ROLES, TIME, UNITS

PLACES = [("", "no place of the unit"), *(
    (quantity.code, quantity.label) for quantity in GROUPS["thermal"]
    if quantity.unit == "°C" and quantity.code.endswith("_temperature")
    and quantity.code != "ambient_temperature")]
ENCODINGS = [("utf-8", "UTF-8"), ("utf-16-le", "UTF-16, little end first"),
             ("utf-16-be", "UTF-16, big end first"), ("cp1252", "Windows, western Europe")]
SEPARATORS = [(",", "comma"), (";", "semicolon"), ("\t", "tabulator"), ("|", "upright bar"),
              (" ", "blanks")]
DECIMALS = [(".", "point: 5.12"), (",", "comma: 5,12")]
THOUSANDS = [("", "none"), (",", "comma"), (".", "point"), (" ", "a blank"),
             ("'", "apostrophe")]
TIME_STYLES = [("numbers", "numbers in a unit"), ("clock", "time of day, or date and time"),
               ("interval", "no column: one row after the other")]
DATE_ORDERS = [("", "no dates"), ("ymd", "year, month, day"), ("dmy", "day, month, year"),
               ("mdy", "month, day, year")]
COLUMN_WORDS = {"role": "What is {}", "unit": "Unit of {}", "place": "Place of {}"}
UNNAMED = {"role": "What is Column {}", "unit": "Unit of Column {}", "place": "Place of Column {}"}
UNIT_CHOICES = [("", "as usual"), *((spelling, spelling) for unit, spellings in UNITS.items()
                                    if unit for spelling in spellings)]


class LayoutForm(forms.Form):
    """How the text becomes numbers, and what each column is. `columns` come from the proposal."""

    encoding = forms.ChoiceField(label="Characters", choices=ENCODINGS)
    separator = forms.ChoiceField(label="Between columns", choices=SEPARATORS)
    decimal = forms.ChoiceField(label="Decimal mark", choices=DECIMALS)
    thousands = forms.ChoiceField(label="Between thousands", choices=THOUSANDS, required=False)
    first_line = WholeField(
        label="Numbers begin in line", min_value=1, max_value=100_000, error_messages={
            "invalid": "Write the number of the first line that holds readings.",
            "min_value": "The first line of a file is line 1."})
    time_style = forms.ChoiceField(label="Time is written as", choices=TIME_STYLES)
    date_order = forms.ChoiceField(label="Dates run", choices=DATE_ORDERS, required=False)
    interval = QuantityField("s", label="Time between two rows",
                             help_text="Where no column gives the time, such as 0.5 s or 20 ns.")
    version = forms.IntegerField(widget=forms.HiddenInput, min_value=1)

    def __init__(self, data=None, *, layout: Layout, **rest):
        self.layout = layout
        initial = {name: getattr(layout, name) for name in (
            "encoding", "separator", "decimal", "thousands", "first_line", "time_style",
            "date_order")}
        initial["interval"] = shown_text(typed_text(layout.interval, "s"))
        super().__init__(data, initial=initial | rest.pop("initial", {}),
                         use_required_attribute=False, **rest)
        for column in layout.columns:
            self._add_column(column)

    def _add_column(self, column):
        for what, choices, value in (
                ("role", [(role.code, role.label) for role in ROLES.values()], column.role),
                ("unit", UNIT_CHOICES, column.unit), ("place", PLACES, column.place)):
            self.fields[f"{what}-{column.index}"] = forms.ChoiceField(
                choices=choices, required=what == "role", initial=value,
                label=COLUMN_WORDS[what].format(column.label) if column.label
                else UNNAMED[what].format(column.index + 1))

    def column_fields(self):
        """The fields of each column, in the order of the file."""
        return [{what: self[f"{what}-{column.index}"] for what in COLUMN_WORDS}
                | {"label": AsWritten(column.label) or f"Column {column.index + 1}",
                   "index": column.index}
                for column in self.layout.columns]

    def text_fields(self):
        return [self[name] for name in ("encoding", "separator", "decimal", "thousands",
                                        "first_line", "time_style", "date_order", "interval")]

    def clean(self):
        cleaned = super().clean()
        if self.errors:
            return cleaned
        self._check_marks(cleaned)
        self._check_time(cleaned)
        self._check_columns(cleaned)
        return cleaned

    def _check_marks(self, cleaned):
        if cleaned["thousands"] and cleaned["thousands"] == cleaned["decimal"]:
            self.add_error("thousands", "The same mark cannot stand between thousands and before "
                                        "decimals: choose another here or there.")
        if cleaned["separator"] == cleaned["decimal"]:
            self.add_error("separator", "Columns cannot be told apart by the decimal mark: choose "
                                        "another mark for one of them.")

    def _check_time(self, cleaned):
        has_column = any(cleaned[f"role-{column.index}"] == TIME for column in self.layout.columns)
        if cleaned["time_style"] == "interval":
            if not cleaned["interval"]:
                self.add_error("interval", "Say how long it is from one row to the next, such as "
                                           "0.5 s, or choose a column that gives the time.")
            if has_column:
                self.add_error("time_style", "A column gives the time as well: set that column to "
                                             "“not used”, or choose how its time is written.")
        elif not has_column:
            self.add_error("time_style", "No column gives the time: set one to “time”, or choose "
                                         "“no column” and say how long a row lasts.")

    def _check_columns(self, cleaned):
        seen = {}
        for column in self.layout.columns:
            name = f"role-{column.index}"
            role = ROLES[cleaned[name]]
            if not role.several and role.code in seen:
                self.add_error(name, f"Two columns are “{role.label}”: set one of them to “not "
                                     "used”.")
            seen[role.code] = True
            unit = cleaned[f"unit-{column.index}"]
            if role.code != NOT_USED and unit and unit not in UNITS[role.unit]:
                self.add_error(f"unit-{column.index}", f"A {role.label} is not written in {unit}: "
                               f"choose a unit of {role.unit}, or correct what the column is.")
        if set(seen) <= {NOT_USED, TIME}:
            self.add_error(None, "No column is used: say of at least one what it is.")

    def laid_out(self) -> Layout:
        """The layout as confirmed; call it after is_valid()."""
        said = self.cleaned_data
        columns = tuple(self._column(column) for column in self.layout.columns)
        interval = said["interval"] if said["time_style"] == "interval" else None
        return replace(self.layout, columns=columns, interval=interval, **{
            name: said[name] for name in ("encoding", "separator", "decimal", "thousands",
                                          "first_line", "time_style", "date_order")})

    def _column(self, column: LogColumn) -> LogColumn:
        role, unit, place = (self.cleaned_data[f"{what}-{column.index}"] for what in COLUMN_WORDS)
        is_used = role != NOT_USED
        return replace(column, role=role, unit=unit if is_used else "",
                       place=place if role == "temperature" else "")
