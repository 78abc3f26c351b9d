"""What people write, as HTML that nobody else's browser needs to fear.

A small part of Markdown (https://spec.commonmark.org/0.31.2/) and nothing of HTML.
"""
from .clean import clean
from .render import plain_excerpt, render

__all__ = ["clean", "plain_excerpt", "render"]
