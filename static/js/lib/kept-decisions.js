/** Decisions that could not be sent yet, kept on this device: pure, over a store of texts. */

const PREFIX = "review:";

/**
 * @typedef {{ref: string, fields: Record<string, string>, at: string}} Kept one decision
 */

/**
 * @param {Storage} store such as localStorage; one that refuses keeps nothing
 * @param {string} review which review they belong to
 */
export function keptDecisions(store, review) {
  const name = PREFIX + review;
  const all = () => attempt(() => JSON.parse(store.getItem(name)) ?? [], []);
  const write = (list) => attempt(() => {
    if (list.length) store.setItem(name, JSON.stringify(list));
    else store.removeItem(name);
    return true;
  }, false);
  return {
    all,
    /** The newest decision on a row takes the place of the one before; false: nothing is kept. */
    keep: (decision) => write([...all().filter((each) => each.ref !== decision.ref), decision]),
    /** @param {string} ref */
    forget: (ref) => write(all().filter((each) => each.ref !== ref)),
  };
}

function attempt(action, otherwise) {
  try {
    return action();
  } catch {
    return otherwise;
  }
}
