import assert from "node:assert/strict";
import { test } from "node:test";

import { keptDecisions } from "../../static/js/lib/kept-decisions.js";

function store(refuses = false) {
  const texts = new Map();
  const guard = () => { if (refuses) throw new Error("full"); };
  return {
    texts,
    getItem: (name) => { guard(); return texts.get(name) ?? null; },
    setItem: (name, text) => { guard(); texts.set(name, text); },
    removeItem: (name) => { guard(); texts.delete(name); },
  };
}

const decision = (ref, said) => ({ ref, fields: { [`${ref}-decision`]: said }, at: "2026-11-26" });

test("what is kept comes back in the order in which it was made", () => {
  const kept = keptDecisions(store(), "12");
  kept.keep(decision("a", "confirmed"));
  kept.keep(decision("b", "disputed"));
  assert.deepEqual(kept.all().map((each) => each.ref), ["a", "b"]);
});

test("a later decision on a row takes the place of the one before", () => {
  const kept = keptDecisions(store(), "12");
  for (const said of ["confirmed", "disputed"]) kept.keep(decision("a", said));
  assert.deepEqual(kept.all(), [decision("a", "disputed")]);
});

test("reviews do not see each other's decisions", () => {
  const texts = store();
  keptDecisions(texts, "12").keep(decision("a", "confirmed"));
  assert.deepEqual(keptDecisions(texts, "13").all(), []);
});

test("what was sent is forgotten, and nothing is left behind", () => {
  const texts = store();
  const kept = keptDecisions(texts, "12");
  kept.keep(decision("a", "confirmed"));
  kept.forget("a");
  assert.equal(texts.texts.size, 0);
});

test("a store that refuses keeps nothing and says so", () => {
  const kept = keptDecisions(store(true), "12");
  assert.equal(kept.keep(decision("a", "confirmed")), false);
  assert.deepEqual(kept.all(), []);
});

test("a text that is none of ours is no decision", () => {
  const texts = store();
  texts.setItem("review:12", "{not json");
  assert.deepEqual(keptDecisions(texts, "12").all(), []);
});
