import assert from "node:assert/strict";
import { test } from "node:test";

import { parsedPoints, printedPlace, printedPoints, rounded } from "../../static/js/lib/point-text.js";

test("points are x,y with a space between", () => {
  assert.deepEqual(parsedPoints("12.5,40 80,41"), [[12.5, 40], [80, 41]]);
});

test("blanks around commas and ends do not matter", () => {
  assert.deepEqual(parsedPoints("  12.5 , 40\n80 ,41 "), [[12.5, 40], [80, 41]]);
});

test("an empty field holds no points", () => {
  assert.deepEqual(parsedPoints(" "), []);
});

for (const text of ["12.5", "1,2,3", "a,b", "1e3,2", ",5", "1 2", "NaN,1", "1234567,1"]) {
  test(`“${text}” is refused with the remedy`, () => {
    assert.throws(() => parsedPoints(text), { name: "RangeError", message: /is no point\. Write x and y/ });
  });
}

test("points are printed to a tenth of a pixel, without needless zeros", () => {
  assert.equal(printedPoints([[312, 45.04], [80.25, 41.96]]), "312,45 80.3,42");
});

test("what is printed is read again", () => {
  const points = [[0, 0.1], [3999.9, 3000]];
  assert.deepEqual(parsedPoints(printedPoints(points)), points);
});

test("a rounded number is never minus zero", () => {
  assert.ok(Object.is(rounded(-0.04), 0));
});

test("a place for eyes and ears has a space after its comma", () => {
  assert.equal(printedPlace([12.46, 40]), "12.5, 40");
});
