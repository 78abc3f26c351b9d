/**
 * One view for several pictures that are drawn in millimetres: what one shows, all show.
 *
 * @typedef {{x: number, y: number, zoom: number}} View x, y: left and top in mm; zoom 1: the whole
 * @typedef {{width: number, height: number}} Size of the window at zoom 1, mm
 */
const MOST = 20;
const ROUND = [100, 50, 20, 10, 5, 2, 1, 0.5];      // mm, of a ruler

export const WHOLE = { x: 0, y: 0, zoom: 1 };

/** The four numbers of a viewBox. */
export const viewBox = ({ x, y, zoom }, { width, height }) => [
  x, y, width / zoom, height / zoom];

/** The view closer by a factor; the place, as shares of the picture's box, stays where it is. */
export function zoomed(view, size, factor, [across, down] = [0.5, 0.5]) {
  const zoom = Math.min(Math.max(view.zoom * factor, 1), MOST);
  const x = view.x + across * size.width * (1 / view.zoom - 1 / zoom);
  const y = view.y + down * size.height * (1 / view.zoom - 1 / zoom);
  return within({ x, y, zoom }, size);
}

/** The view after its pictures were pushed by shares of their box, to the right and down. */
export function pushed(view, size, [across, down]) {
  const { x, y, zoom } = view;
  return within({
    x: x - across * size.width / zoom, y: y - down * size.height / zoom, zoom,
  }, size);
}

/** The view after two fingers went from one pair of places to another, in shares of the box. */
export function pinched(view, size, before, after) {
  const spread = ([[ax, ay], [bx, by]]) => Math.hypot(
    (bx - ax) * size.width, (by - ay) * size.height);
  const middle = ([[ax, ay], [bx, by]]) => [(ax + bx) / 2, (ay + by) / 2];
  const factor = spread(before) ? spread(after) / spread(before) : 1;
  const [fromX, fromY] = middle(before);
  const [toX, toY] = middle(after);
  return pushed(zoomed(view, size, factor, [fromX, fromY]), size, [toX - fromX, toY - fromY]);
}

/** mm: the longest round length that takes at most half of what is shown. */
export function rulerLength(view, size) {
  const shown = size.width / view.zoom;
  return ROUND.find((length) => length <= shown / 2) ?? ROUND.at(-1);
}

/** The view that a key asks for, or null where the key means nothing here. */
export function keyed(view, size, key) {
  const step = 0.1;
  const moves = {
    ArrowLeft: [step, 0], ArrowRight: [-step, 0], ArrowUp: [0, step], ArrowDown: [0, -step] };
  if (key in moves) return pushed(view, size, moves[key]);
  if (key === "+" || key === "=") return zoomed(view, size, 1.5);
  if (key === "-") return zoomed(view, size, 1 / 1.5);
  return key === "0" || key === "Home" ? WHOLE : null;
}

function within({ x, y, zoom }, { width, height }) {
  const kept = (value, most) => Math.min(Math.max(value, 0), Math.max(most, 0));
  return { x: kept(x, width - width / zoom), y: kept(y, height - height / zoom), zoom };
}
