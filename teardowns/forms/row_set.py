"""The rows of one item as forms: stored ones, typed ones, and blank ones to fill."""
from core.whole_number import whole_number
from teardowns.forms.evidence_form import new_key

MOST_ROWS = 120


def total_name(prefix):
    """The field that says how many rows of a table the page holds."""
    return f"{prefix}-TOTAL"


def typed_total(typed, prefix):
    return min(whole_number(typed.get(total_name(prefix), ""), 4) or 0, MOST_ROWS)


def with_row(typed, prefix, values=None):
    """What was typed, with one more row of a table: blank, or holding the values given."""
    index = typed_total(typed, prefix)
    if index >= MOST_ROWS:
        return typed
    row = {"key": new_key(prefix), "version": "0"} | (values or {})
    return typed | {total_name(prefix): str(index + 1)} | {
        f"{prefix}-{index}-{name}": str(value) for name, value in row.items()
    }


class RowSet:
    """`typed` is what the page sent, or None; `check` validates it, else it is only redrawn."""

    def __init__(self, item, stored, typed=None, *, check=False, references=None):
        self.item, self.typed, self.check = item, typed, check
        self.references = references or {}
        self.stored = {row.key: row for row in stored if item.owns(row)}
        self.sent = self._typed_forms() if self._is_typed else []
        self.forms = self.sent + self._unseen() if self._is_typed else self._stored_forms()

    @property
    def _is_typed(self):
        return self.typed is not None and total_name(self.item.prefix) in self.typed

    def _typed_forms(self):
        return [self._typed_form(i) for i in range(typed_total(self.typed, self.item.prefix))]

    def _typed_form(self, index):
        prefix = f"{self.item.prefix}-{index}"
        key = self.typed.get(f"{prefix}-key", "")
        source = {"data": self.typed} if self.check else {"typed": self.typed}
        return self._form(index, row=self.stored.get(key), key=key, **source)

    def _unseen(self):
        """Rows that came since the page was drawn, as from a log: a kept mistake hides none."""
        seen = {form.own_key for form in self.sent}
        new = [row for key, row in self.stored.items() if key not in seen]
        return [self._form(i, row=row) for i, row in enumerate(new, start=len(self.sent))]

    def _stored_forms(self):
        forms = [self._form(i, row=row) for i, row in enumerate(self.stored.values())]
        while len(forms) < self.item.at_least:
            forms.append(self._blank(len(forms)))
        return forms

    def _blank(self, index):
        is_first_entry = not self.item.is_table and not self.stored and index == 0
        key = self.item.prefix if is_first_entry else new_key(self.item.prefix)
        return self._form(index, key=key)

    def _form(self, index, **options):
        return self.item.form_class(
            prefix=f"{self.item.prefix}-{index}", item=self.item,
            references=self.references | {"index": index}, **options,
        )

    @property
    def total(self):
        return len(self.forms)

    @property
    def can_grow(self):
        return bool(self.item.add_label) and self.total < MOST_ROWS

    def is_valid(self):
        valid = [form.is_valid() for form in self.sent]          # each of them, always
        kept = [form for form in self.sent if not form.is_blank and not form.is_removed]
        if hasattr(self.item.form_class, "check_rows"):
            self.item.form_class.check_rows(kept)
        return all(valid) and not any(form.errors for form in kept)

    def changes(self):
        return [change for form in self.sent if (change := form.change())]

    def titles(self):
        """Each form with its name on the page."""
        several = self.item.is_table or self.total > 1
        return [(f"{self.item.title} {i}" if several else self.item.title, form)
                for i, form in enumerate(self.forms, start=1)]
