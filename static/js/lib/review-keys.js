/** Single keys of a review, and where they lead: pure. */

export const KEYS = {
  j: "next", ArrowDown: "next", k: "previous", ArrowUp: "previous", n: "undecided",
  c: "confirm", d: "dispute", m: "measure", o: "open",
};

/**
 * What a key asks for, or "". Single letters count only while an item itself has the focus, never
 * in a field, and never while they are switched off (WCAG 2.2, 2.1.4).
 * @param {{key: string, ctrlKey?: boolean, metaKey?: boolean, altKey?: boolean}} event
 * @param {{onItem: boolean, isOff: boolean}} where
 */
export function asked(event, { onItem, isOff }) {
  if (!onItem || event.ctrlKey || event.metaKey || event.altKey) return "";
  const key = event.key.length === 1 ? event.key.toLowerCase() : event.key;
  if (isOff && key.length === 1) return "";
  return KEYS[key] ?? "";
}

/**
 * The place of the item to go to, or -1 where there is none.
 * @param {"next" | "previous" | "undecided"} where
 * @param {boolean[]} open which items are still to be decided, in their order
 * @param {number} at the place of the item that has the focus, -1 before the first
 */
export function placeOf(where, open, at) {
  if (where === "next") return at + 1 < open.length ? at + 1 : -1;
  if (where === "previous") return at > 0 ? at - 1 : -1;
  const after = open.indexOf(true, at + 1);
  return after >= 0 ? after : open.indexOf(true);
}
