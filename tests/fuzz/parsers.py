"""The readers: what each is asked, what it may refuse with, and what must hold of its answer."""
from __future__ import annotations

import json
import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from io import BytesIO
from math import isfinite
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any
from urllib.parse import urlencode

import numpy as np
from django.http import Http404

from teardowns.api.paging import cursor_of, place_of
from teardowns.engine.physics.power_objects import PowerObjectError, decode, encode, read_word
from teardowns.engine.quantities import QUANTITIES
from teardowns.exchange.document import read_document, write_document
from teardowns.exchange.problems import DocumentError
from teardowns.filters import list_query
from teardowns.forms.chosen_units import read_choice, written
from teardowns.imaging.refusals import Refused
from teardowns.imaging.walk import walk
from teardowns.imaging.web_annotation import read as read_annotation
from teardowns.logs.capabilities import AS_WRITTEN, UnreadableCapture, read_capabilities
from teardowns.logs.channel_files import finish, open_channels
from teardowns.logs.detect import HEAD, detect_layout
from teardowns.logs.reading import read_slice
from teardowns.logs.refusals import RefusedLog
from teardowns.reading.evidence_refs import evidence_refs
from teardowns.reading.markings.core import read_core
from teardowns.reading.markings.decode import KINDS, MarkingError, decode_marking
from teardowns.reading.plates import PlateError, read_plate
from teardowns.reading.plug import plug_kind
from teardowns.reading.quantity import QuantityError, print_quantity, read_quantity
from teardowns.searching.question import MOST_WORDS, read_question
from teardowns.searching.tokens import Texts, tokens_of
from teardowns.writing import clean, plain_excerpt, render
from tests.fuzz import seeds
from tests.writing.allowed import check_allowed

UNITS = sorted({quantity.unit for quantity in QUANTITIES.values() if quantity.unit})
ENDS_OF_LINES = re.compile(r"[\n\r\v\f\x1c-\x1e\x85\u2028\u2029]")


@dataclass(frozen=True)
class Parser:
    name: str
    seeds: Callable[[], Sequence[Any]]          # texts, or bytes, to begin from
    ask: Callable[[Any], None]                  # fails where the answer is not as promised
    refusals: tuple[type[Exception], ...] = ()
    longest: int = 5000                         # characters or bytes that are asked


def ask_plate(text):
    reading = read_plate(text)
    for piece in (*reading.claims, *reading.unread):
        assert text[piece.start:piece.end] == piece.text
    numbers = [claim.voltage for claim in reading.claims] + [c.power for c in reading.claims]
    assert all(number is None or isfinite(number) for number in numbers)
    assert read_plate(text) == reading


def ask_markings(text):
    for kind in KINDS:
        try:
            found = decode_marking(kind, text)
        except MarkingError:
            continue
        assert found.text == text and (found.value is None or isfinite(found.value))
    read_core(text)


def ask_quantity(text):
    for unit in UNITS:
        try:
            reading = read_quantity(text, unit, default_unit=unit)
        except QuantityError:
            continue
        assert isfinite(reading.value) and print_quantity(
            reading.value, unit, uncertainty=reading.uncertainty)


def ask_capabilities(text):
    found = read_capabilities(text)
    for words in (found.words, *found.readings.values()):
        if words:
            # Words of which both orders begin with 5 V are asked about again.
            assert read_capabilities("\n".join(words), AS_WRITTEN).words == words


def ask_word(text):
    word = read_word(text)
    for first in (True, False):
        assert encode(decode(word, first)) == word


def ask_document(text):
    document = read_document(text)
    once = write_document(document)
    assert write_document(read_document(once)) == once


def ask_annotation(text):
    try:
        body = json.loads(text)
    except (ValueError, RecursionError):
        return
    read_annotation(body)


def ask_question(text):
    question = read_question(text)
    assert len(question.words) <= MOST_WORDS
    assert read_question(text) == question
    tokens_of(Texts(title=text, makers=(text,), models=(text,), markings=(text,)))


def ask_address(text):
    text = text.encode(errors="replace").decode()       # as whatever decodes an address leaves it
    for query in (text, urlencode({"q": text, "sort": text, "after": text, "year": text})):
        asked = list_query(query)
        again = list_query(asked.query(asked.after).removeprefix("?"))
        assert (again.text, again.choices, again.sort, again.after) == (
            asked.text, asked.choices, asked.sort, asked.after)


def ask_cursor(text):
    place = place_of(text, int, str)
    assert place is None or place_of(cursor_of(*place), int, str) == place


def ask_choice(text):
    choice = read_choice([text])
    assert read_choice([written(choice.units)]).units == choice.units


def ask_markdown(text):
    for links in (True, False):
        html = render(text, links=links)
        check_allowed(html)
        assert clean(html) == html
    excerpt = plain_excerpt(text)
    assert len(excerpt) <= 160 + len(" …") and not ENDS_OF_LINES.search(excerpt)


def ask_short_names(text):
    evidence_refs(text)
    plug_kind(text)


def ask_log(data):
    layout = detect_layout(data[:HEAD], name="log.csv").layout
    with TemporaryDirectory() as folder:
        progress = None
        while not (progress and progress.finished):
            progress = read_slice(BytesIO(data), len(data), layout, progress, Path(folder), 256)
        finish(Path(folder), layout)
        channels = open_channels(Path(folder), layout)
        assert np.isfinite(channels.time).all()
        assert not any(np.isinf(channel.values).any() for channel in channels.channels)


def ask_picture(data):
    found = walk(BytesIO(data), len(data))
    assert found == walk(BytesIO(data), len(data))


PARSERS = {parser.name: parser for parser in (
    Parser("plate", seeds.plates, ask_plate, (PlateError,)),
    Parser("marking", seeds.markings, ask_markings),
    Parser("quantity", seeds.quantities, ask_quantity),
    Parser("capabilities", seeds.capabilities, ask_capabilities, (UnreadableCapture,)),
    Parser("power object", seeds.power_objects, ask_word, (PowerObjectError,)),
    Parser("document", seeds.documents, ask_document, (DocumentError,), 40_000),
    Parser("annotation", seeds.annotations, ask_annotation, (ValueError,)),
    Parser("question", seeds.questions, ask_question),
    Parser("address", seeds.addresses, ask_address),
    Parser("cursor", seeds.cursors, ask_cursor, (Http404,)),
    Parser("choice", seeds.choices, ask_choice),
    Parser("markdown", seeds.comments, ask_markdown),
    Parser("names", seeds.questions, ask_short_names),
    Parser("log", seeds.logs, ask_log, (RefusedLog,), 60_000),
    Parser("picture", seeds.pictures, ask_picture, (Refused,), 20_000),
)}


def check(name: str, value: Any) -> None:
    """Ask one reader one thing: it answers as promised, or refuses in its own words."""
    parser = PARSERS[name]
    try:
        parser.ask(value)
    except parser.refusals as refusal:
        assert str(refusal), "it refuses without a word"
