/** Which span of the log is in view, and who is told when it changes. */
import { around, length, middle, moved, pinched, revealing, zoomed } from "../lib/log-view.js";

export class Viewport {
  whole;
  span;
  least = 0;              // s: the shortest view
  #changed;

  /** @param {(says: boolean) => void} changed `says`: whether it is worth a sentence */
  constructor(whole, changed) {
    this.whole = whole[1] > whole[0] ? whole : [whole[0], whole[0] + 1];
    this.span = [...this.whole];
    this.#changed = changed;
  }

  get isWhole() {
    return length(this.span) >= length(this.whole) * (1 - 1e-9);
  }

  get middle() {
    return middle(this.span);
  }

  holds(time) {
    return time >= this.span[0] && time <= this.span[1];
  }

  to(span, says = true) {
    this.span = span;
    this.#changed(says);
  }

  all() {
    this.to(this.whole);
  }

  zoom(factor, about = this.middle) {
    this.to(zoomed(this.span, this.whole, factor, about, this.least));
  }

  /** The span grows to the whole width, unless it is shorter than the shortest view. */
  zoomTo([start, end]) {
    const outside = length(this.span) - (end - start);
    const about = outside > 0 ? start + (end - start) * ((start - this.span[0]) / outside) : start;
    if (end > start) this.zoom(length(this.span) / (end - start), about);
  }

  pinch(before, after) {
    this.to(pinched(this.span, this.whole, before, after, this.least), false);
  }

  /** Along by a share of what is in view. */
  along(share) {
    this.to(moved(this.span, this.whole, share * length(this.span)));
  }

  /** By so many seconds, from where it is or was. */
  by(seconds, from = this.span) {
    this.to(moved(from, this.whole, seconds), false);
  }

  reveal(time) {
    if (!this.holds(time)) this.to(revealing(this.span, this.whole, time), false);
  }

  show(span) {
    this.to(around(span, this.whole, this.least), false);
  }
}
