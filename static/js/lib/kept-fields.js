/** What a form holds, and how it is put back: pure, without a store and without a page's ids. */

const NOT_KEPT = new Set(["csrfmiddlewaretoken", "submission"]);
const isCarried = (name) => /-(key|version|TOTAL)$/.test(name);

/**
 * Every named value of the form, carried ones included, so that rows can be told apart.
 * @param {Iterable<[string, string]>} entries such as `new FormData(form)`
 * @returns {Record<string, string>}
 */
export function fieldsOf(entries) {
  return Object.fromEntries(
    [...entries].filter(([name, value]) => !NOT_KEPT.has(name) && typeof value === "string"),
  );
}

/**
 * Names whose value a person changed between two states of a form.
 * @param {Record<string, string>} before
 * @param {Record<string, string>} after
 */
export function changedNames(before, after) {
  const names = new Set([...Object.keys(before), ...Object.keys(after)]);
  return [...names].filter((name) => !isCarried(name) && before[name] !== after[name]);
}

/**
 * Whether something that was kept is not what the page shows; what the page has beside it is new.
 * @param {Record<string, string>} kept
 * @param {Record<string, string>} now
 */
export function differs(kept, now) {
  return changedNames(kept, now).some((name) => name in kept);
}

/**
 * Rows are numbered by the page; a kept row goes where its key stands now, or keeps its number.
 * @param {Record<string, string>} kept
 * @param {Record<string, string>} now
 * @returns {Record<string, string>} the kept values under the names of the present page
 */
export function renumbered(kept, now) {
  const places = new Map();
  for (const [name, key] of Object.entries(now)) {
    if (name.endsWith("-key")) places.set(key, name.slice(0, -"key".length));
  }
  const moved = {};
  for (const [name, value] of Object.entries(kept)) {
    const [, row, field] = /^(.+-\d+-)(\w+)$/.exec(name) ?? [];
    const place = row && places.get(kept[`${row}key`]);
    moved[place ? place + field : name] = value;
  }
  return moved;
}
