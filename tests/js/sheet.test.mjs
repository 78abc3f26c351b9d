import assert from "node:assert/strict";
import { test } from "node:test";

import { Sheet } from "../../static/js/annotator/sheet.js";

/** What the sheet asks of a form and its field. */
function form({ value = "", shape, ...dataset }) {
  const points = { value, setCustomValidity(message) { this.message = message; } };
  return { dataset: { shapes: "point line path", ...dataset }, elements: { points, shape: shape && { value: shape } } };
}

test("what the form held is drawn and cannot be undone", () => {
  const sheet = new Sheet(form({ value: "1,2 3,4", shape: "line" }));
  assert.deepEqual(sheet.points, [[1, 2], [3, 4]]);
  assert.equal(sheet.canUndo, false);
});

test("the shape is the field's, or the last that the form takes", () => {
  assert.equal(new Sheet(form({ shape: "line" })).shape, "line");
  assert.equal(new Sheet(form({})).shape, "path");
  assert.equal(new Sheet(form({ shape: "box" })).shape, "path");
});

test("points that are put stand in the field, undo takes them out", () => {
  const sheet = new Sheet(form({ shape: "line" }));
  sheet.put([[1, 2]]);
  assert.equal(sheet.field.value, "1,2");
  sheet.undo();
  assert.equal(sheet.field.value, "");
});

test("typing changes the drawing and can be undone", () => {
  const sheet = new Sheet(form({ shape: "line", value: "1,2 3,4" }));
  sheet.field.value = "1,2 3,5";
  sheet.typed();
  assert.deepEqual(sheet.points[1], [3, 5]);
  sheet.undo();
  assert.equal(sheet.field.value, "1,2 3,4");
});

test("what cannot be read stays in the field, is explained and changes no drawing", () => {
  const sheet = new Sheet(form({ shape: "line", value: "1,2 3,4" }));
  sheet.field.value = "1,2 3;4";
  sheet.typed();
  assert.deepEqual(sheet.points, [[1, 2], [3, 4]]);
  assert.equal(sheet.field.value, "1,2 3;4");
  assert.match(sheet.field.message, /“3;4” is no point/);
});

test("a shape that lacks points says so before anything is sent, an empty one is the server's matter", () => {
  const sheet = new Sheet(form({ shape: "line", value: "1,2" }));
  assert.match(sheet.field.message, /Add 1 more/);
  sheet.put([]);
  assert.equal(sheet.field.message, "");
});
