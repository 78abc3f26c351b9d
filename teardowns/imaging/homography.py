"""Plane to plane through a pinhole: a rectangle seen aslant, and the view straight from above.

Coordinates are continuous: origin at the outer corner of the top-left pixel, x right, y down;
pixel (i, j) has its centre at (i + 0.5, j + 0.5).
"""
import numpy as np
from PIL import Image


def from_corners(corners, size) -> np.ndarray:
    r"""The homography that takes the four corners of a rectangle, as seen, to the rectangle.

    .. math:: \begin{pmatrix} g \\ h \end{pmatrix} = \frac{1}{d_1 \times d_2}
              \begin{pmatrix} s \times d_2 \\ d_1 \times s \end{pmatrix}, \quad
              d_1 = p_1 - p_2,\ d_2 = p_3 - p_2,\ s = p_0 - p_1 + p_2 - p_3

    Parameters
    ----------
    corners : (..., 4, 2) float
        As seen, in turn; they go to (0, 0), (width, 0), (width, height) and (0, height). [px]
    size : (..., 2) float
        Width and height of the rectangle, in any unit. [m]

    Returns
    -------
    (..., 3, 3) float
        Matrix for homogeneous columns (x, y, 1).

    Errors
    ------
    Formula: exact for a pinhole. ValueError where three corners lie on one line.

    References
    ----------
    .. [1] P. Heckbert, Fundamentals of texture mapping and image warping, UCB/CSD 89/516, 1989,
       section 2.2.3: the square to a quadrilateral, inverted here.
    """
    p = np.asarray(corners, float)
    first, second, middle = p[..., 1, :] - p[..., 2, :], p[..., 3, :] - p[..., 2, :], _skew(p)
    whole = _cross(first, second)
    if np.any(whole == 0.0):
        raise ValueError("Three of the four corners lie on one line.")
    g, h = _cross(middle, second) / whole, _cross(first, middle) / whole
    seen = np.empty((*p.shape[:-2], 3, 3))
    seen[..., :2, 0] = p[..., 1, :] * (1 + g)[..., None] - p[..., 0, :]
    seen[..., :2, 1] = p[..., 3, :] * (1 + h)[..., None] - p[..., 0, :]
    seen[..., :2, 2] = p[..., 0, :]
    seen[..., 2, 0], seen[..., 2, 1], seen[..., 2, 2] = g, h, 1.0
    scale = np.concatenate([np.asarray(size, float), np.ones((*np.shape(size)[:-1], 1))], axis=-1)
    return scale[..., :, None] * np.linalg.inv(seen)


def apply(matrix, points) -> np.ndarray:
    """Where points go; beyond the horizon of the plane they come back as NaN.

    matrix : (..., 3, 3) float, picture to plane as `from_corners` returns it, or its inverse
    points : (..., m, 2) float
    """
    points = np.asarray(points, float)
    moved = points @ np.swapaxes(matrix[..., :2], -1, -2) + matrix[..., None, :, 2]
    depth = np.where(moved[..., 2:] > 0.0, moved[..., 2:], np.nan)
    return moved[..., :2] / depth


def rectified(image: Image.Image, matrix, size: tuple[int, int]) -> Image.Image:
    """The picture as seen straight from above.

    matrix : (3, 3) float, pixels of the picture to pixels of the result
    size : width and height of the result; what the picture does not show comes out black
    """
    # Pillow asks where each pixel comes from, at its centre (x + 0.5), as our coordinates have it.
    back = np.linalg.inv(matrix)
    coefficients = (back / back[2, 2]).ravel()[:8]
    return image.transform(size, Image.Transform.PERSPECTIVE, coefficients.tolist(),
                           Image.Resampling.BICUBIC)


def _cross(a, b):
    return a[..., 0] * b[..., 1] - a[..., 1] * b[..., 0]


def _skew(p):
    return p[..., 0, :] - p[..., 1, :] + p[..., 2, :] - p[..., 3, :]

