import assert from "node:assert/strict";
import { test } from "node:test";

import {
  differenceText, quantityText, secondsOf, secondsText, timeText,
} from "../../static/js/lib/quantity-text.js";

const THIN = "\u202f";

test("a reading has the digits of its instrument and no more", () => {
  assert.equal(quantityText(5.0213, "V", 0.001), `5.021${THIN}V`);
  assert.equal(quantityText(5.0, "V", 0.001), `5.000${THIN}V`);
  assert.equal(quantityText(0.25, "A", 0.01), `250${THIN}mA`);
  assert.equal(quantityText(230.4, "V", 0.1), `230.4${THIN}V`);
});

test("without a known last digit there are four digits", () => {
  assert.equal(quantityText(12345, "W"), `12.35${THIN}kW`);      // half away from zero
  assert.equal(quantityText(83.3333, "Hz"), `83.33${THIN}Hz`);
});

test("rounding up changes the prefix", () => {
  assert.equal(quantityText(0.99999, "A"), `1.000${THIN}A`);
});

test("a temperature has no prefix and a real minus", () => {
  assert.equal(quantityText(-12.5, "°C", 0.1), `−12.5${THIN}°C`);
  assert.equal(quantityText(0.04, "°C", 0.01), `0.04${THIN}°C`);
});

test("a blank is not zero", () => {
  assert.equal(quantityText(null, "V"), "no reading");
  assert.equal(quantityText(0, "V"), `0${THIN}V`);
});

test("a difference carries its sign", () => {
  assert.equal(differenceText(0.002, "V", 0.001), `+2${THIN}mV`);
  assert.equal(differenceText(-0.002, "V", 0.001), `−2${THIN}mV`);
  assert.equal(differenceText(null, "V"), "no reading");
});

test("a time is told as finely as the view shows it", () => {
  assert.equal(timeText(12.345678, [0, 60]), `12.35${THIN}s`);        // 60 s / 1000: 0.06 s
  assert.equal(timeText(900, [0, 1800]), `15.00${THIN}min`);          // 30 min / 1000: 0.03 min
  assert.equal(timeText(0.0001234, [0, 0.001]), `123${THIN}µs`);              // 1 µs
});

test("a field gets seconds without idle digits", () => {
  assert.equal(secondsText(12.300000001, [0, 60]), "12.3");
  assert.equal(secondsText(0.00012345, [0, 0.001]), "0.000123");      // 1 µs
});

test("a field says seconds with a point or a comma", () => {
  assert.equal(secondsOf("12,5"), 12.5);
  assert.equal(secondsOf("12.5"), 12.5);
  assert.ok(Number.isNaN(secondsOf("1,2,3")));
});
