import io

from PIL import Image

from teardowns.imaging.perceptual_hash import distance, perceptual_hash


def ramp(rising):
    image = Image.linear_gradient("L").rotate(90 if rising else -90)
    return image.resize((90, 80))


def test_a_picture_that_grows_brighter_to_the_right_sets_every_bit():
    # All 64 bits set is −1 in two's complement.
    assert {perceptual_hash(ramp(True)), perceptual_hash(ramp(False))} == {-1, 0}


def test_an_even_picture_is_zero():
    assert perceptual_hash(Image.new("RGB", (50, 40), (9, 9, 9))) == 0


def test_one_bright_field_sets_the_bit_of_its_left_neighbour():
    image = Image.new("L", (9, 8))
    image.putpixel((1, 0), 255)
    # Row 0, column 0 is the first of 64 bits, the sign: 2^63 − 2^64.
    assert perceptual_hash(image) == -2**63


def test_scaling_and_recompression_keep_it_and_another_picture_differs():
    image = Image.effect_mandelbrot((400, 300), (-2, -1.5, 1, 1.5), 60).convert("RGB")
    out = io.BytesIO()
    image.resize((200, 150)).save(out, "JPEG", quality=40)
    assert distance(perceptual_hash(image), perceptual_hash(Image.open(out))) <= 6
    other = Image.radial_gradient("L").resize((400, 300))
    assert distance(perceptual_hash(image), perceptual_hash(other)) > 10


def test_distance_counts_differing_bits():
    assert distance(-1, 0) == 64
    assert distance(0b1011, 0b0010) == 2
