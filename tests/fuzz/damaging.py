"""Things that are nearly right: a seed with pieces cut out, put in, said again or replaced."""
from hypothesis import strategies as st

PIECES = ["\x00", "\ud800", "\u202e", "\ufeff", "\n", "\r\n", "\u2028", "\t", " ", '"', "'", "\\",
          "<", "&", "%00", "%ff", "=", "+", "-", "−", ",", ".", ";", "±", "µ", "Ω", "⎓", "~", "(",
          ")", "[", "{", "}", "0", "9", "9" * 20, "1e999", "-0", "NaN", "inf", "½", "٣", "Ａ", "V",
          "A", "W", "Hz", "kΩ", "null", "true", "İ", "ß", "e\u0301", "🔌", "ffffffff"]
BYTES = [b"\x00", b"\xff", b"\xff\xff\xff\xff", b"\x7f\xff\xff\xff", b"\x80\x00\x00\x00", b"\n",
         b"\r", b",", b";", b"\t", b'"', b"\xef\xbb\xbf", b"\xff\xfe", b"IEND", b"Exif\x00\x00",
         b"1e999", b"="]
MOST_CHANGES, MOST_CUT, MOST_REPEATS = 6, 12, 60


@st.composite
def damaged(draw, seeds, longest):
    """One of the seeds, of text or of bytes, after some changes."""
    value = draw(st.sampled_from(seeds))
    pieces = st.one_of(st.sampled_from(BYTES), st.binary(max_size=8)) if isinstance(value, bytes) \
        else st.one_of(st.sampled_from(PIECES), st.text(max_size=8))
    for _ in range(draw(st.integers(0, MOST_CHANGES))):
        start = draw(st.integers(0, len(value)))
        end = min(len(value), start + draw(st.integers(0, MOST_CUT)))
        piece = draw(st.one_of(pieces, st.just(value[start:end])))
        value = value[:start] + piece * draw(st.integers(0, MOST_REPEATS)) + value[end:]
    return value[:longest]
