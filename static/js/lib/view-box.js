/**
 * Which part of a picture is in view, and how places on the screen and on the picture correspond.
 *
 * A view keeps the picture's proportions; at zoom 1 the whole picture is fitted into its box.
 * What the box has beside it shows the picture's neighbourhood as soon as one zooms in.
 *
 * @typedef {[number, number]} Point
 * @typedef {{x: number, y: number, zoom: number}} View x, y: left and top in pixels of the picture
 * @typedef {{left: number, top: number, width: number, height: number}} Box on the screen
 */

export const WHOLE = { x: 0, y: 0, zoom: 1 };
const MOST = 8;         // screen pixels a pixel of the picture

/** Where the picture stands in its box at zoom 1: screen pixels a pixel, and the edges beside it. */
export function fit([width, height], box) {
  const scale = Math.min(box.width / width, box.height / height);
  return { scale, left: (box.width - width * scale) / 2, top: (box.height - height * scale) / 2 };
}

/** @returns {Point} in pixels of the picture */
export function toPicture(view, size, box, [clientX, clientY]) {
  const { scale, left, top } = fit(size, box);
  const pixel = scale * view.zoom;
  return [view.x + (clientX - box.left - left) / pixel, view.y + (clientY - box.top - top) / pixel];
}

/** Numbers of an SVG viewBox. */
export const viewBox = ({ x, y, zoom }, [width, height]) => [x, y, width / zoom, height / zoom];

/** How a picture that fits its box is scaled, then moved, to show the view. */
export function transform(view, size, box) {
  const { scale, left, top } = fit(size, box);
  return {
    zoom: view.zoom,
    x: left * (1 - view.zoom) - view.x * scale * view.zoom,
    y: top * (1 - view.zoom) - view.y * scale * view.zoom,
  };
}

/** The view zoomed by a factor about a place on the picture, which stays where it is. */
export function zoomed(view, size, box, factor, [x, y]) {
  const most = Math.max(1, MOST / fit(size, box).scale);
  const zoom = Math.min(Math.max(view.zoom * factor, 1), most);
  const kept = view.zoom / zoom;
  return within({ x: x - (x - view.x) * kept, y: y - (y - view.y) * kept, zoom }, size);
}

/** The view after the picture was dragged from one place to another; both on the picture. */
export function dragged(view, size, [fromX, fromY], [toX, toY]) {
  return within({ ...view, x: view.x + fromX - toX, y: view.y + fromY - toY }, size);
}

/** The view after two fingers went from one pair of places on the screen to another. */
export function pinched(view, size, box, before, after) {
  const at = toPicture(view, size, box, middle(before));
  const factor = spread(before) ? spread(after) / spread(before) : 1;
  const closer = zoomed(view, size, box, factor, at);
  return dragged(closer, size, toPicture(closer, size, box, middle(before)),
    toPicture(closer, size, box, middle(after)));
}

const middle = ([[ax, ay], [bx, by]]) => [(ax + bx) / 2, (ay + by) / 2];
const spread = ([[ax, ay], [bx, by]]) => Math.hypot(bx - ax, by - ay);

/** The view moved as little as brings the place into it, a tenth of the view from its edge. */
export function showing(view, size, [x, y]) {
  const [, , width, height] = viewBox(view, size);
  return within({
    x: nearest(view.x, x - 0.9 * width, x - 0.1 * width),
    y: nearest(view.y, y - 0.9 * height, y - 0.1 * height),
    zoom: view.zoom,
  }, size);
}

/** The view that shows an extent in the middle half of the picture. */
export function around(size, box, [left, top, width, height]) {
  const factor = 0.5 * Math.min(size[0] / Math.max(width, 1), size[1] / Math.max(height, 1), 8);
  const view = zoomed(WHOLE, size, box, factor, [0, 0]);
  const [, , wide, high] = viewBox(view, size);
  return within({ ...view, x: left + (width - wide) / 2, y: top + (height - high) / 2 }, size);
}

const nearest = (value, least, most) => Math.min(Math.max(value, least), most);

function within({ x, y, zoom }, size) {
  const [, , width, height] = viewBox({ x, y, zoom }, size);
  return { x: nearest(x, 0, size[0] - width), y: nearest(y, 0, size[1] - height), zoom };
}
