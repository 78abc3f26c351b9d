"""Covering private regions: flat boxes painted over the pixels themselves."""
from math import ceil, floor

from PIL import Image

COVER = (96, 96, 96)
Box = tuple[float, float, float, float]      # x, y, width, height; px, as shown


def painted(image: Image.Image, covered: list[Box]) -> Image.Image:
    """The boxes painted into an RGB image as shown, outwards to whole pixels; changes the image."""
    for x, y, width, height in covered:
        left, top = max(floor(x), 0), max(floor(y), 0)
        right, bottom = min(ceil(x + width), image.width), min(ceil(y + height), image.height)
        if left < right and top < bottom:
            image.paste(COVER, (left, top, right, bottom))
    return image
