"""Bytes of a log → text: which encoding it is in, and what is no text at all."""
from __future__ import annotations

import codecs
import re
import unicodedata

from teardowns.logs.refusals import RefusedLog

HEAD = 256 << 10          # bytes of a log that are looked at before its layout is proposed
MARK = "\ufeff"
_MARKS = ((codecs.BOM_UTF8, "utf-8"), (codecs.BOM_UTF16_LE, "utf-16-le"),
          (codecs.BOM_UTF16_BE, "utf-16-be"))
# Encodings of one byte, and two of several, that instruments and spreadsheets still write.
LEGACY = {"cp1252": "Western European (Windows)", "cp850": "Western European (DOS)",
          "mac-roman": "Western European (Macintosh)", "cp1251": "Cyrillic (Windows)",
          "gb18030": "Chinese", "shift_jis": "Japanese"}
CODECS = frozenset(LEGACY) | {"utf-8", "utf-16-le", "utf-16-be"}
# What a heading in a Western language may hold beyond ASCII. Æ and ø are missing on purpose: the
# byte that is µ or ° in a DOS code page reads as one of them.
_WESTERN = frozenset("°µ²³±·×ºªΩΔδ²½«»–—’‘“”…€£§äöüßÄÖÜéèêëÉÈÊàâáÀÂÁíìîïÍóòôÓÔúùûÚñÑçÇ´")
_CONTROL = re.compile(r"[\x00-\x08\x0b\x0e-\x1f\x7f]")
_LINE_END = re.compile(r"\r\n|\r|\n")


def lines_of(text: str) -> list[str]:
    """Lines as a log counts them: CR LF, LF and CR end one, nothing else does."""
    lines = _LINE_END.split(text)
    return lines[:-1] if lines[-1] == "" else lines


def find_encoding(head: bytes) -> tuple[str, ...]:
    """The encodings that this may be, the likeliest first; one alone needs no question."""
    if not head:
        raise RefusedLog("empty", "The file is empty. Choose the file that holds the readings.")
    if head.startswith((codecs.BOM_UTF32_LE, codecs.BOM_UTF32_BE)):
        raise RefusedLog("encoding", "The text is in UTF-32. Save it as UTF-8 and add it again.")
    for mark, encoding in _MARKS:
        if head.startswith(mark):
            return (encoding,)
    wide = _wide_without_mark(head)
    if wide:
        return (wide,)
    _refuse_zero_bytes(head)
    if _decoded(head, "utf-8") is not None:
        return ("utf-8",)
    return _legacy(head)


def text_of(head: bytes, encoding: str) -> str:
    """The text without its mark; a character that the end of the head cuts is left out."""
    text = _decoded(head, encoding)
    if text is None:
        raise RefusedLog("encoding", f"The file is not whole text in {encoding}. Export it as "
                                     "text in UTF-8.", line=_bad_line(head, encoding))
    text = text.removeprefix(MARK)
    _refuse_what_is_no_text(text)
    return text


def _decoded(head: bytes, encoding: str) -> str | None:
    whole = len(head) < HEAD
    try:
        return codecs.getincrementaldecoder(encoding)("strict").decode(head, whole)
    except UnicodeDecodeError:
        return None


def _bad_line(head: bytes, encoding: str) -> int:
    try:
        codecs.getincrementaldecoder(encoding)("strict").decode(head, len(head) < HEAD)
    except UnicodeDecodeError as error:
        return _line_at(head[:error.start].decode(encoding, "replace"))
    return 1


def _line_at(text_before: str) -> int:
    return len(_LINE_END.findall(text_before)) + 1


def _wide_without_mark(head: bytes) -> str:
    """UTF-16 of mostly Latin text has a zero in nearly every other byte."""
    pairs = len(head) // 2
    if pairs < 2:
        return ""
    first, second = head[:2 * pairs:2].count(0), head[1:2 * pairs:2].count(0)
    for zeros, others, encoding in ((second, first, "utf-16-le"), (first, second, "utf-16-be")):
        if zeros >= 0.7 * pairs and others <= 0.02 * pairs:
            text = _decoded(head, encoding)
            return encoding if text is not None and not _CONTROL.search(text) else ""
    return ""


def _refuse_zero_bytes(head: bytes) -> None:
    if b"\0" not in head:
        return
    body = head.rstrip(b"\0")
    if b"\0" not in body and body and not _CONTROL.search(body.decode("latin-1")):
        raise RefusedLog(
            "zero_bytes", "From here on the file is filled with zero bytes: the recording was cut "
            "off before it was written. Export it again, or save the part before as text.",
            line=_line_at(body.decode("latin-1")))
    place = head.index(b"\0")
    if body.count(b"\0") > max(8, len(body) // 200) or _CONTROL.search(
            body.replace(b"\0", b"").decode("latin-1")):
        raise _binary()
    raise RefusedLog("zero_bytes", "A zero byte stands among the text. Export the log again as "
                                   "text.", line=_line_at(head[:place].decode("latin-1")))


def _binary() -> RefusedLog:
    return RefusedLog("binary", "This is not text: a workbook, an archive, a picture or an "
                      "instrument's own file. Export the readings as text (CSV) and add that file.")


def _refuse_what_is_no_text(text: str) -> None:
    controls = [found.start() for found in _CONTROL.finditer(text)]
    if text.startswith(("PK\x03\x04", "%PDF-")) or len(controls) > max(4, len(text) // 500):
        raise _binary()
    if controls:
        raise RefusedLog("control_character", "A control character stands in this line. Export "
                         "the log again as plain text.", line=_line_at(text[:controls[0]]))
    inside = text.find(MARK)
    if inside >= 0:
        raise RefusedLog(
            "mark_inside", "A byte order mark stands inside the file: it looks like two files "
            "pasted together. Add them as two recordings.", line=_line_at(text[:inside]))


def _legacy(head: bytes) -> tuple[str, ...]:
    texts = {name: _decoded(head, name) for name in LEGACY}
    readable = {name: text for name, text in texts.items()
                if text is not None and not _has_odd_controls(text)}
    if not readable:
        raise _binary()
    if _is_western(readable.get("cp1252")):
        return ("cp1252",)
    return tuple(sorted(readable, key=lambda name: (not _is_western(readable[name]),
                                                    _signs(readable[name]))))


def _signs(text: str) -> float:
    """Share of what is beyond ASCII that is no letter: a wrong code page shows many."""
    beyond = [c for c in text if not c.isascii()]
    return sum(not c.isalpha() for c in beyond) / len(beyond)


def _has_odd_controls(text: str) -> bool:
    controls = sum(unicodedata.category(c) in {"Cc", "Cn", "Co"} and c not in "\t\r\n\f"
                   for c in text)
    return controls > 0


def _is_western(text: str | None) -> bool:
    return text is not None and all(c in _WESTERN for c in text if ord(c) > 0x9f or c == "\x85")
