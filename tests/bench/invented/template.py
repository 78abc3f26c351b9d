"""A text with words that each copy replaces by its own."""
from __future__ import annotations

import re
from collections.abc import Mapping


class Template:
    def __init__(self, text: str, names: Mapping[str, str]):
        """names : word of the text → name of what takes its place"""
        parts = re.split("(" + "|".join(map(re.escape, sorted(names, key=len, reverse=True))) + ")",
                         text) if names else [text]
        self.plain = parts[0::2]
        self.names = [names[word] for word in parts[1::2]]

    def filled(self, values: Mapping[str, str]) -> str:
        out = [self.plain[0]]
        for name, text in zip(self.names, self.plain[1:], strict=True):
            out += (values[name], text)
        return "".join(out)
