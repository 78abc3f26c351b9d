"""Reliability as a picture: what the engine says against what is true, bin by bin."""
SIZE, MARGIN = 360, 44
WIDTH = 40


def bars(bins):
    """Lines of text: for each bin the share met, and a | where it should be."""
    for k, (count, mean, true) in enumerate(bins):
        if count:
            row = ["#" if (place + 0.5) / WIDTH <= true else "." for place in range(WIDTH)]
            row[min(int(mean * WIDTH), WIDTH - 1)] = "|"
            yield f"{k / 10:4.1f} {count:7} {mean:7.3f} {true:7.3f}  {''.join(row)}"


def svg(named):
    """Curves of several populations, {name: bins}; the diagonal is what an honest p gives."""
    curves = "\n".join(_curve(k, name, bins) for k, (name, bins) in enumerate(named.items()))
    ticks = "\n".join(
        f'<text x="{_x(t)}" y="{_y(0) + 18}" text-anchor="middle">{t:.1f}</text>'
        f'<text x="{_x(0) - 8}" y="{_y(t) + 4}" text-anchor="end">{t:.1f}</text>'
        for t in (0.0, 0.2, 0.4, 0.6, 0.8, 1.0))
    edge = SIZE + 2 * MARGIN
    return f"""<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {edge + 130} {edge}"
 font-family="sans-serif" font-size="12">
<rect x="{MARGIN}" y="{MARGIN}" width="{SIZE}" height="{SIZE}" fill="none" stroke="#888"/>
<line x1="{_x(0)}" y1="{_y(0)}" x2="{_x(1)}" y2="{_y(1)}" stroke="#888" stroke-dasharray="4 4"/>
{ticks}
<text x="{edge / 2}" y="{edge - 6}" text-anchor="middle">plausibility, mean of the bin</text>
<text x="{MARGIN}" y="{MARGIN - 12}">share of the claims that are met</text>
{curves}
</svg>
"""


def _curve(k, name, bins):
    colour = ("#1b6ca8", "#c2571a", "#3c7d3c", "#7b4a9e", "#666666")[k % 5]
    points = [(_x(mean), _y(true), count) for count, mean, true in bins if count]
    path = " ".join(f"{x:.1f},{y:.1f}" for x, y, _ in points)
    dots = "".join(f'<circle cx="{x:.1f}" cy="{y:.1f}" r="{_radius(count):.1f}" fill="{colour}">'
                   f"<title>{count} claims</title></circle>" for x, y, count in points)
    label = f'<text x="{_x(1) + 10}" y="{_y(1) + 16 * k + 4}" fill="{colour}">{name}</text>'
    return f'<polyline points="{path}" fill="none" stroke="{colour}"/>{dots}{label}'


def _radius(count):
    return min(2 + count**0.5 / 25, 7)


def _x(value):
    return MARGIN + SIZE * value


def _y(value):
    return MARGIN + SIZE * (1 - value)
