"""One way to print a value with its uncertainty."""
from math import nan

from django import template
from django.utils.html import format_html

from core.words.said import said
from teardowns.reading.quantity import print_interval, print_quantity

register = template.Library()


@register.simple_tag
def quantity(value, uncertainty, unit, trace=""):
    """`15.2 ± 0.3 µF`, rounded to its uncertainty; a link where `trace` is an address."""
    return _shown(print_quantity(value, unit, uncertainty=uncertainty), trace)


@register.simple_tag
def interval(low, high, unit, trace=""):
    """`13.1 to 16.7 W`; an end that is not known leaves the interval unknown."""
    ends = (nan if end is None else end for end in (low, high))
    return _shown(print_interval(*ends, unit), trace)


def _shown(text, trace):
    text = said(text)
    if trace:
        return format_html('<a class="num" href="{}">{}</a>', trace, text)
    return format_html('<span class="num">{}</span>', text)
