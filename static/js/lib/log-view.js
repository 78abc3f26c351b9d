/**
 * Which span of a log is in view. A view is [start, end] in seconds; so is the whole log.
 *
 * @typedef {[number, number]} Span
 */

const FEWEST = 4;       // samples in the closest view

export const length = ([start, end]) => end - start;
export const middle = ([start, end]) => (start + end) / 2;

/** The view zoomed about a time that keeps its place; `factor` 2 shows half as much. */
export function zoomed(view, whole, factor, about = middle(view), least = 0) {
  const span = Math.min(Math.max(length(view) / factor, least), length(whole));
  const share = (about - view[0]) / length(view);
  return within([about - share * span, about + (1 - share) * span], whole);
}

/** The view moved by so many seconds, as far as the log reaches. */
export const moved = ([start, end], whole, by) => within([start + by, end + by], whole);

/** The view moved into the log; its length stays, unless it is longer. */
export function within([start, end], whole) {
  const span = Math.min(end - start, length(whole));
  const from = Math.min(Math.max(start, whole[0]), whole[1] - span);
  return [from, from + span];
}

/** The view moved as little as brings the time into it, a tenth of the view from its edge. */
export function revealing(view, whole, time) {
  const room = length(view) / 10;
  if (time >= view[0] && time <= view[1]) return view;
  const by = time < view[0] ? time - view[0] - room : time - view[1] + room;
  return moved(view, whole, by);
}

/** A view around a span, half its length of room on either side; an instant gets a hundredth. */
export function around([start, end], whole, least) {
  const room = Math.max((end - start) / 2, end > start ? 0 : length(whole) / 100, least / 2);
  return within([start - room, end + room], whole);
}

/** After two fingers went from one pair of shares of the width to another. */
export function pinched(view, whole, before, after, least) {
  const at = (share) => view[0] + share * length(view);
  const factor = spread(before) > 0.01 ? spread(after) / spread(before) : 1;
  const closer = zoomed(view, whole, Math.max(factor, 0.01), at(middle(before)), least);
  return moved(closer, whole, (middle(before) - middle(after)) * length(closer));
}

const spread = ([one, other]) => Math.abs(one - other);

/** The shortest view that still shows some samples: of the densest that is known of the log. */
export function leastLength(times) {
  let step = Infinity;
  for (let i = 1; i < times.length; i += 1) step = Math.min(step, times[i] - times[i - 1]);
  return Number.isFinite(step) ? FEWEST * step : 0;
}

/** What is asked of the server: the view and half as much on either side. */
export function asked([start, end], whole) {
  const room = (end - start) / 2;
  return [Math.max(start - room, whole[0]), Math.min(end + room, whole[1])];
}

/** Whether the loaded rows show the view as finely as it can be shown. */
export function suffices(loaded, view) {
  if (!loaded) return false;
  const [from, to] = loaded.span;
  const slack = length(view) * 1e-9;
  if (view[0] < from - slack || view[1] > to + slack) return false;
  return loaded.all || (to - from) <= 2.5 * length(view);
}
