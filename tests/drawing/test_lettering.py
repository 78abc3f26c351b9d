import json

from PIL import Image, ImageDraw

from teardowns.drawing.lettering import fitting_size, spelled, width_of, wrapped, write

from .units import NAMES, demo


def ink(text):
    image = Image.new("L", (400, 100), 0)
    write(ImageDraw.Draw(image), (20, 70), text, 60, 255)
    return image


def test_every_letter_of_the_demo_can_be_drawn():
    words = "".join(json.dumps(demo(name[:2]), ensure_ascii=False) for name in NAMES)
    assert "\uffff" not in spelled(words.replace("\n", ""))


def test_signs_of_rating_plates_leave_ink_of_their_own():
    pictures = {ink(sign).tobytes() for sign in "⎓⧈⌂⏚Ωµ×–−≤≥⊖⊕●○Ø→"}
    assert len(pictures) == 17 and ink(" ").tobytes() not in pictures


def test_the_double_square_is_one_square_inside_another():
    square = ink("⧈")
    left, top, right, bottom = square.getbbox()
    middle = (top + bottom) // 2
    row = [square.getpixel((x, middle)) > 127 for x in range(left, right)]
    assert sum(a != b for a, b in zip(row, row[1:], strict=False)) == 6     # four strokes crossed


def test_a_character_that_nobody_can_draw_keeps_its_place():
    assert width_of("a\u4e2db", 40) > width_of("ab", 40)


def test_an_accent_is_dropped_rather_than_the_letter():
    assert spelled("é") == "e"


def test_a_line_is_as_wide_as_its_parts():
    assert abs(width_of("5V⎓3A", 50) - sum(width_of(part, 50) for part in ("5V", "⎓", "3A"))) < 1e-9


def test_a_size_that_fits_is_no_wider_than_the_room():
    size = fitting_size("100-240V~ 50/60Hz", 200, 64, 8)
    assert width_of("100-240V~ 50/60Hz", size) <= 200 < width_of("100-240V~ 50/60Hz", size + 2)


def test_lines_are_broken_at_spaces_and_keep_every_word():
    text = "Steel plate, no electrical connection and no heat path."
    lines = wrapped(text, 22, 200)
    assert " ".join(lines) == text and all(width_of(line, 22) <= 200 for line in lines)


def test_a_no_break_space_keeps_a_number_with_its_unit():
    assert wrapped("offers 20\u00a0V", 22, 60) == ["offers", "20\u00a0V"]
