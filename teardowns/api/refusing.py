"""Forms of the pages, checked for a program: what is wrong with a field is said at its place."""
from collections.abc import Callable

from django.forms import BaseForm

from teardowns.services.proposals import Refused


def steps_to(name: str) -> str:
    """Name of a field of the form → steps of a pointer below the body; "" of the whole."""
    return "" if name == "__all__" else name


def refuse_faulty(form: BaseForm, place: Callable[[str], str] = steps_to) -> None:
    """Raises Refused, with the first error of each field, unless the form is valid."""
    if not form.is_valid():
        raise Refused({place(name): listed[0] for name, listed in form.errors.items()})
