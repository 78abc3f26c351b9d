"""Forms whose choices and hints are in the reader's language.

A widget prints its own choices, where no template of ours comes near. Choices that are records
(a part, a unit) keep the names that they have.
"""
from django.forms.models import ModelChoiceIteratorValue
from django.forms.renderers import DjangoTemplates

from .as_written import AsWritten
from .said import said

SHOWN = ("placeholder", "title", "aria-label", "aria-description")


class SaidForms(DjangoTemplates):
    def render(self, template_name, context, request=None):
        if "widget" in context:
            _say(context["widget"])
        return super().render(template_name, context, request)


def _said_group(name, options, index):
    for option in options:
        _say(option)
    return name and said(str(name)), options, index


def _say(widget):
    attributes = widget.get("attrs", {})
    for name in SHOWN:
        if name in attributes:
            attributes[name] = said(str(attributes[name]))
    if "label" in widget and not isinstance(widget["label"], AsWritten) and not isinstance(
            widget.get("value"), ModelChoiceIteratorValue):
        widget["label"] = said(str(widget["label"]))
    if "optgroups" in widget:
        widget["optgroups"] = [_said_group(*group) for group in widget["optgroups"]]
    for inside in widget.get("subwidgets", ()):
        _say(inside)
