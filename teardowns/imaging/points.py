"""Points on a picture, as people type them: “12.5,40 80,41” in pixels, and what a shape needs."""
import math
import re

Points = tuple[tuple[float, float], ...]

SHAPES = ("point", "line", "path", "polygon", "box")
COUNTS = {"point": (1, 1), "line": (2, 2), "path": (2, 500), "polygon": (3, 500), "box": (2, 2)}
CLICKS = (3, 30)
NEEDS = {"point": "A point needs one point", "line": "A line needs two points",
         "path": "A path needs at least two points and at most 500",
         "polygon": "A polygon needs at least three points and at most 500",
         "box": "A box needs two opposite corners"}
NUMBER = re.compile(r"-?\d{1,6}(\.\d{1,6})?", re.ASCII)


def parsed_points(text: str) -> Points:
    """“12.5,40 80,41”: x and y in pixels with a comma, points with a space between."""
    return tuple(_parsed_point(word) for word in re.sub(r"\s*,\s*", ",", text).split())


def printed_points(points: Points) -> str:
    return " ".join(f"{printed_number(x)},{printed_number(y)}" for x, y in points)


def printed_number(value: float) -> str:
    """One decimal at most, and no more than is needed."""
    return f"{value:.1f}".removesuffix(".0")


def checked(shape: str, points: Points, width: int | None = None,
            height: int | None = None) -> Points:
    """The points as they are, if they make this shape and lie in the picture, where it is known."""
    if shape not in SHAPES:
        raise ValueError(f"A mark is one of {', '.join(SHAPES)}.")
    least, most = COUNTS[shape]
    if not least <= len(points) <= most:
        raise ValueError(f"{NEEDS[shape]}; {len(points)} given.")
    for at, point in enumerate(points, start=1):
        _check_inside(at, point, width, height)
    _check_different(shape, points)
    return points


def checked_clicks(points: Points, width: int | None = None, height: int | None = None) -> Points:
    """The clicks on one and the same point as they are, if they are enough and in the picture."""
    least, most = CLICKS
    if not least <= len(points) <= most:
        raise ValueError(f"Click the same point at least {least} times and at most {most}; "
                         f"{len(points)} given.")
    for at, point in enumerate(points, start=1):
        _check_inside(at, point, width, height)
    return points


def _parsed_point(word):
    numbers = word.split(",")
    if len(numbers) != 2 or not all(NUMBER.fullmatch(number) for number in numbers):
        raise ValueError(f"“{word[:40]}” is no point. Write x and y in pixels with a comma between "
                         "them and a space between points, such as 12.5,40 80,41.")
    return float(numbers[0]), float(numbers[1])


def _check_inside(at, point, width, height):
    sides = ((point[0], width, "x", "wide"), (point[1], height, "y", "high"))
    for value, most, name, side in sides:
        if not math.isfinite(value):
            raise ValueError(f"Point {at} has no {name}.")
        if value < 0.0 or (most is not None and value > most):
            size = "" if most is None else f", which is {most} pixels {side}"
            raise ValueError(f"Point {at} lies outside the picture{size}: its {name} is "
                             f"{printed_number(value)}.")


def _check_different(shape, points):
    if shape == "box" and any(a == b for a, b in zip(*points, strict=True)):
        raise ValueError("The two corners of the box must differ in x and in y.")
    ring = (*points, points[0]) if shape == "polygon" else points
    for at, (a, b) in enumerate(zip(ring, ring[1:], strict=False), start=1):
        if a == b:
            raise ValueError(f"Points {at} and {at % len(points) + 1} are the same: leave one out.")
