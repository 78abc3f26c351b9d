import assert from "node:assert/strict";
import { afterEach, test } from "node:test";

import { WindowSource } from "../../static/js/chart/source.js";

const ANSWER = {
  from: 2, to: 4, first: 0, last: 9, all: true, time: [2, 3, 4], pauses: [1], channels: [],
};
const { fetch: ownFetch } = globalThis;

globalThis.location = { href: "http://site.test/units/1/" };
afterEach(() => (globalThis.fetch = ownFetch));

function answering(status = 200) {
  const asked = [];
  globalThis.fetch = (url, { signal }) => new Promise((resolve, reject) => {
    asked.push(String(url));
    signal.addEventListener("abort", () => reject(signal.reason));
    setTimeout(() => resolve({ ok: status < 400, status, json: async () => ANSWER }), 5);
  });
  return asked;
}

test("it asks for a span and as many points, beside what the address has", async () => {
  const asked = answering();
  const rows = await new WindowSource("/window/?channel=2").rows([2, 4], 600);
  assert.deepEqual(asked, ["http://site.test/window/?channel=2&from=2&to=4&points=600"]);
  assert.deepEqual([rows.span, rows.whole, rows.samples], [[2, 4], [0, 9], [2, 4]]);
});

test("without a span it asks for the whole log", async () => {
  const asked = answering();
  await new WindowSource("/window/").rows(null, 600);
  assert.deepEqual(asked, ["http://site.test/window/?points=600"]);
});

test("a later question makes an earlier one stale", async () => {
  answering();
  const source = new WindowSource("/window/");
  const [early, late] = await Promise.all([source.rows([0, 9], 10), source.rows([1, 2], 10)]);
  assert.equal(early, null);
  assert.ok(late);
});

test("a refusal is an error that says how the site answered", async () => {
  answering(503);
  await assert.rejects(new WindowSource("/window/").rows(null, 10), /status 503/);
});
