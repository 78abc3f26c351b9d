import assert from "node:assert/strict";
import { test } from "node:test";

import { isStillHere, keepOnlyFor, keptOf, nameOf } from "../../static/js/lib/kept-here.js";

function store(kept = {}) {
  const texts = new Map(Object.entries(kept));
  return {
    get length() { return texts.size; },
    key: (at) => [...texts.keys()][at] ?? null,
    getItem: (name) => texts.get(name) ?? null,
    setItem: (name, text) => texts.set(name, text),
    removeItem: (name) => texts.delete(name),
    names: () => [...texts.keys()].sort(),
  };
}

const KEPT = { "bench-sheet:7:12/ports": "{}", "review:7:3": "[]", "review-keys-off": "yes" };

test("a person's page leaves what is theirs", () => {
  const here = store(KEPT);
  keepOnlyFor(here, "7");
  assert.deepEqual(here.names(), [...Object.keys(KEPT), "signed-in"].sort());
});

test("once nobody or somebody else is signed in, all of it is gone but what names nobody", () => {
  for (const [person, left] of [["", ["review-keys-off"]], ["8", ["review-keys-off", "signed-in"]],
    ["77", ["review-keys-off", "signed-in"]]]) {
    const here = store({ ...KEPT, "bench-sheet:12/ports": "{}", "review:3": "[]" });
    keepOnlyFor(here, person);
    assert.deepEqual(here.names(), left);
  }
});

test("a tab of somebody who signed out in another one knows it", () => {
  const here = store();
  keepOnlyFor(here, "7");
  assert.equal(isStillHere(here, "7"), true);
  keepOnlyFor(here, "");
  assert.equal(isStillHere(here, "7"), false);
});

test("what is kept for a person is found by its kind", () => {
  const here = store(KEPT);
  assert.deepEqual(keptOf(here, "bench-sheet", "7"), [nameOf("bench-sheet", "7", "12/ports")]);
  assert.deepEqual(keptOf(here, "review", "70"), []);
});

test("a browser that refuses storage keeps nothing and breaks nothing", () => {
  const refuses = { get length() { throw new Error("no"); }, getItem() { throw new Error("no"); } };
  keepOnlyFor(refuses, "7");
  assert.deepEqual([isStillHere(refuses, "7"), keptOf(refuses, "review", "7")], [false, []]);
});
