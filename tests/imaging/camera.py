"""A pinhole camera over a flat board, by rotation matrices: nothing of the code under test."""
import numpy as np

SIZE = (4000, 3000)


def rotation(axis, angle):
    """(3, 3) Rodrigues' formula; axis: unit vector."""
    x, y, z = axis
    cross = np.array([[0, -z, y], [z, 0, -x], [-y, x, 0]])
    return np.eye(3) + np.sin(angle) * cross + (1 - np.cos(angle)) * cross @ cross


def seen(points, *, tilt=0.0, azimuth=0.0, roll=0.0, distance=0.15, focal=3000.0, look_at=(0, 0),
         height=0.0, lens=0.0, size=SIZE):
    """(m, 2) px of (m, 2) metres on the board, or `height` metres above it.

    The camera looks at `look_at` from `distance`; `lens` shifts a corner outwards by that share.
    """
    turn = rotation((np.cos(azimuth), np.sin(azimuth), 0.0), tilt) @ rotation((0, 0, 1.0), roll)
    flat = np.asarray(points, float) - np.asarray(look_at, float)
    space = np.column_stack([flat, np.full(len(flat), -height)]) @ turn.T + [0, 0, distance]
    offset = focal * space[:, :2] / space[:, 2:]
    corner = np.hypot(*size) / 2
    return offset * (1 + lens * (offset ** 2).sum(axis=1, keepdims=True) / corner ** 2) + np.array(
        size) / 2
