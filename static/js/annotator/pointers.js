/** Turns the pointers on an element into taps, drags and pinches; places are on the screen. */

/** @typedef {[number, number]} Point */

const SLOP = 6;         // pixels that a tap may stray

/**
 * @param {Element} surface
 * @param {{
 *   tap: (at: Point, press: PointerEvent) => void,
 *   drag: (from: Point, press: PointerEvent) => {move: Function, end: Function, cancel: Function} | null,
 *   pinch: (before: [Point, Point], after: [Point, Point]) => void,
 *   holds: (target: Element) => boolean,
 *   hover: (at: Point | null, over: Element) => void,
 * }} on what to do; a drag that nobody takes does nothing
 * @param {AbortSignal} signal
 */
export function watchPointers(surface, on, signal) {
  const down = new Map();       // pointer id → place
  let press = null;

  const listen = (type, act, options = {}) => surface.addEventListener(type, act, { signal, ...options });

  listen("pointerdown", (event) => {
    if (event.button > 1) return;
    if (event.button === 1) event.preventDefault();     // the middle button pans, it does not scroll
    down.set(event.pointerId, place(event));
    surface.setPointerCapture(event.pointerId);
    press?.drag?.cancel();
    press = down.size === 1 ? { event, from: place(event), drag: null, strayed: false } : null;
  });

  listen("pointermove", (event) => {
    if (!down.has(event.pointerId)) {
      return on.hover(event.pointerType === "touch" ? null : place(event), event.target);
    }
    const before = [...down.values()];
    down.set(event.pointerId, place(event));
    if (down.size === 2) on.pinch(before, [...down.values()]);
    else if (press) strayed(place(event));
  });

  function strayed(at) {
    if (!press.strayed) {
      if (Math.hypot(at[0] - press.from[0], at[1] - press.from[1]) <= SLOP) return;
      press.strayed = true;
      press.drag = on.drag(press.from, press.event);
    }
    press.drag?.move(at);
  }

  listen("pointerup", (event) => {
    if (!down.delete(event.pointerId) || !press) return;
    const { drag, strayed, from, event: first } = press;
    press = null;
    if (drag) drag.end(place(event));
    else if (!strayed && first.button === 0) on.tap(from, first);
  });

  listen("pointercancel", (event) => {
    down.delete(event.pointerId);
    press?.drag?.cancel();
    press = null;
  });

  listen("pointerleave", () => on.hover(null, surface));
  // With two fingers the picture zooms, and what is held moves, not the page: only a touch event can
  // say so in time.
  listen("touchstart", (event) => {
    if (event.touches.length > 1 || on.holds(event.target)) event.preventDefault();
  }, { passive: false });
}

const place = ({ clientX, clientY }) => [clientX, clientY];
