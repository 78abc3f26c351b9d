"""A fingerprint of how a picture looks, which survives scaling and recompression."""
from PIL import Image

BITS = 8


def perceptual_hash(image: Image.Image) -> int:
    """Signed 64 bit difference hash: which of 8 × 9 grey fields are darker than the next one."""
    grey = image.convert("L").resize((BITS + 1, BITS), Image.Resampling.BOX).tobytes()
    bits = 0
    for row in range(BITS):
        for column in range(BITS):
            at = row * (BITS + 1) + column
            bits = bits << 1 | (grey[at] < grey[at + 1])
    return bits - (1 << 64) if bits >> 63 else bits


def distance(one: int, other: int) -> int:
    """How many of the 64 bits differ; 0 to about 10 look alike."""
    return ((one ^ other) & (1 << 64) - 1).bit_count()
