from teardowns.drawing.colours import PAPER
from teardowns.drawing.sheet import NOTE, Sheet


def lightness(image, box):
    return image.crop(box).convert("L").getextrema()


def test_every_sheet_says_in_its_corner_that_it_is_a_drawing():
    low, high = lightness(Sheet("Title").finished(), (1300, 1150, 1560, 1190))
    assert "not a photograph" in NOTE and low < 120 < high


def test_a_filled_box_covers_its_pixels_and_no_others():
    sheet = Sheet("")
    sheet.box((100, 200, 110, 220), "#000000")
    image = sheet.finished()
    assert image.getpixel((100, 200)) == (0, 0, 0) == image.getpixel((109, 219))
    paper = tuple(int(PAPER[i:i + 2], 16) for i in (1, 3, 5))
    assert image.getpixel((98, 210)) == paper == image.getpixel((112, 210))


def test_a_dashed_line_leaves_gaps():
    sheet = Sheet("")
    sheet.line([(100, 300), (200, 300)], "#000000", 4, (10, 10))
    row = [sheet.finished().getpixel((x, 300))[0] < 100 for x in (105, 115, 125, 135)]
    assert row == [True, False, True, False]


def test_the_ends_of_a_ruler_lie_as_far_apart_as_its_millimetres():
    (x0, y0), (x1, y1) = Sheet("").ruler((100, 500), 12.5, 30)
    assert (x1 - x0, y1 - y0) == (375.0, 0.0)


def test_a_ruler_has_a_stroke_at_every_millimetre():
    sheet = Sheet("")
    sheet.ruler((100, 500), 20.0, 10)
    image = sheet.finished().convert("L")
    dark = [image.getpixel((x, 508)) < 120 for x in range(95, 306)]
    assert sum(b and not a for a, b in zip(dark, dark[1:], strict=False)) == 11


def test_upright_text_is_taller_than_wide():
    sheet = Sheet("")
    sheet.upright_text((800, 600), "transformer", 30, "#000000")
    box = sheet.finished().crop((600, 400, 1000, 800)).convert("L").point(
        lambda value: 255 * (value < 128)).getbbox()
    assert box[3] - box[1] > 4 * (box[2] - box[0])
