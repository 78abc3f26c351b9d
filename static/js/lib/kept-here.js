/**
 * What this device keeps for the person who is signed in, and for nobody else: pure, over a store.
 *
 * Each page says who is signed in. Whatever was kept for somebody else is gone then, also where the
 * session ended by itself; a page that another tab still has open writes nothing any more.
 */

const SIGNED_IN = "signed-in";
const KINDS = ["bench-sheet", "review"];

/** @param {string} kind one of KINDS @param {string} person @param {string} what */
export const nameOf = (kind, person, what) => `${kind}:${person}:${what}`;

/**
 * Called by every page that knows who is signed in; "" is nobody.
 * @param {Storage} store one that refuses keeps nothing, and has nothing to forget
 * @param {string} person
 */
export function keepOnlyFor(store, person) {
  attempt(() => {
    for (const name of names(store)) {
      if (isKept(name) && name.split(":")[1] !== person) store.removeItem(name);
    }
    if (person) store.setItem(SIGNED_IN, person);
    else store.removeItem(SIGNED_IN);
  });
}

/** Whether this person is still the one who is signed in, as far as this device knows. */
export const isStillHere = (store, person) =>
  attempt(() => store.getItem(SIGNED_IN)) === person;

/**
 * Names of what is kept for a person and was not sent yet.
 * @param {Storage} store
 * @param {"bench-sheet" | "review"} kind
 * @param {string} person
 */
export const keptOf = (store, kind, person) =>
  attempt(() => names(store).filter((name) => name.startsWith(nameOf(kind, person, "")))) ?? [];

const isKept = (name) => KINDS.includes(name.split(":")[0]);
const names = (store) => Array.from({ length: store.length }, (_, at) => store.key(at));

/** A browser may refuse storage (private windows, full disk): a page then works as without it. */
export function attempt(action) {
  try {
    return action();
  } catch {
    return null;
  }
}
