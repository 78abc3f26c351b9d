import codecs

import pytest

from teardowns.logs.refusals import RefusedLog
from teardowns.logs.text_encoding import HEAD, find_encoding, lines_of, text_of

TEXT = "Zeit [µs];Gerät [°C]\n0;25\n1;26\n"


@pytest.mark.parametrize(("head", "encoding"), [
    (TEXT.encode(), "utf-8"), (codecs.BOM_UTF8 + TEXT.encode(), "utf-8"),
    (codecs.BOM_UTF16_LE + TEXT.encode("utf-16-le"), "utf-16-le"),
    (codecs.BOM_UTF16_BE + TEXT.encode("utf-16-be"), "utf-16-be"),
    (TEXT.encode("utf-16-le"), "utf-16-le"), (TEXT.encode("utf-16-be"), "utf-16-be"),
    (TEXT.encode("cp1252"), "cp1252"), (b"t;V\n0;5\n", "utf-8"),
])
def test_the_encoding_is_found_and_its_mark_skipped(head, encoding):
    assert find_encoding(head) == (encoding,)
    assert text_of(head, encoding) in (TEXT, "t;V\n0;5\n")


@pytest.mark.parametrize(("text", "codec"), [
    ("Temp [°C];Größe\n", "cp850"), ("电压(V);电流(A)\n", "gb18030"),
    ("Напряжение;Ток\n", "cp1251"),
    ("電圧(V);電流(A)\n", "shift_jis")])
def test_other_code_pages_are_offered_and_never_taken_for_granted(text, codec):
    found = find_encoding(text.encode(codec))
    assert codec in found and len(found) > 1


def test_a_character_that_the_end_of_the_head_cuts_is_left_out():
    head = ("a" * (HEAD - 1) + "µ").encode()[:HEAD]
    assert find_encoding(head) == ("utf-8",)
    assert text_of(head, "utf-8") == "a" * (HEAD - 1)


def test_only_line_feeds_and_carriage_returns_end_a_line():
    odd = "d\u2028e\x85f\x0cg"
    assert lines_of(f"a\r\nb\rc\n\n{odd}\n") == ["a", "b", "c", "", odd]


@pytest.mark.parametrize(("head", "code", "line"), [
    (b"", "empty", None), (bytes(64), "zero_bytes", 1),
    (b"t;V\n1;2\n" + bytes(100), "zero_bytes", 3),
    (b"t;V\n1;\x002\n3;4\n", "zero_bytes", 2), (bytes(range(256)) * 40, "binary", None),
    (b"%PDF-1.7\n%\xe2\xe3\xcf\xd3\n", "binary", None),
    (b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR", "binary", None),
    (codecs.BOM_UTF32_BE + "a".encode("utf-32-be"), "encoding", None),
    ("t;V\n1;2\n\ufefft;V\n".encode(), "mark_inside", 3),
    (b"t;V\n\x1b1;2\n", "control_character", 2),
])
def test_what_is_no_text_is_refused_with_a_remedy(head, code, line):
    with pytest.raises(RefusedLog) as refused:
        for encoding in find_encoding(head):
            text_of(head, encoding)
    assert (refused.value.code, refused.value.line) == (code, line)


def test_bytes_that_an_answered_encoding_does_not_know_are_named_by_line():
    with pytest.raises(RefusedLog) as refused:
        text_of("t;V\n1;µ\n".encode("cp1252"), "utf-8")
    assert refused.value.line == 2
