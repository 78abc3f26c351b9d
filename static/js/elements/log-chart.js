/**
 * A log to zoom into, over the server's drawing of the whole of it, which stays for paper.
 *
 *   <log-chart data-library="/static/uplot/uplot.iife.min.js" data-window-url="…/window/"
 *              data-name="Load sweep of port 1">
 *     <figure class="log-figure"><svg class="log-drawing" …></figure>
 *     <ol class="log-results" type="A">
 *       <li data-letter="A" data-start="12.5" data-end="14.0"><p>…</p></li></ol>   or rows of a table
 *     <form>… <input name="start" inputmode="decimal"> <input name="end" inputmode="decimal"> …</form>
 *     <details class="log-table"><summary>The same as a table</summary>…</details>
 *   </log-chart>
 *
 * The address answers to ?from=&to=&points= with the rows that `presenting/log_chart.py` describes,
 * in seconds; without from and to with the whole log. Instead of it the element may hold
 * `<template class="log-data">` with such an answer. Of several forms the one that has or had the
 * focus follows the handles. Tells `span-changed` {form, start, end}, which bubbles.
 */
import { watchPointers } from "../annotator/pointers.js";
import { madeControls, madeHelp, madeShowButton } from "../chart/controls.js";
import { loadedLibrary } from "../chart/library.js";
import { Panels } from "../chart/panels.js";
import { Readout, sentence } from "../chart/readout.js";
import { TemplateSource, WindowSource } from "../chart/source.js";
import { SpanForms } from "../chart/span-forms.js";
import { Surface } from "../chart/surface.js";
import { Viewport } from "../chart/viewport.js";
import { Cursors } from "../lib/cursors.js";
import { asked, leastLength, suffices } from "../lib/log-view.js";
import { timeText } from "../lib/quantity-text.js";
import { stepped } from "../lib/samples.js";
import { say } from "../lib/say.js";

const CLOSER = 2;
const ASIDE = 0.5;      // of the view, that one press moves it
const REST = 120;       // ms without another change of the view, after which rows are asked for

export class LogChartElement extends HTMLElement {
  #stop = null;
  #source = null;
  #rows = null;
  #view = null;
  #panels = null;
  #surface = null;
  #readout = null;
  #forms = null;
  #cursors = new Cursors();
  #results = [];
  #chosen = null;         // the result that someone points at
  #stage = null;
  #made = [];
  #buttons = {};
  #observers = [];
  #later = 0;

  static define(tag = "log-chart") {
    customElements.define(tag, this);
  }

  async connectedCallback() {
    const stop = this.#stop = new AbortController();
    const template = this.querySelector("template.log-data");
    this.#source = template ? new TemplateSource(template) : new WindowSource(this.dataset.windowUrl);
    try {
      const [library, rows] = await Promise.all([
        loadedLibrary(this.dataset.library), this.#source.rows(null, 4000),
      ]);
      if (!stop.signal.aborted && rows?.time.length) this.#begin(library, rows);
    } catch {
      this.removeAttribute("data-ready");       // the server's drawing stays
    }
  }

  disconnectedCallback() {
    clearTimeout(this.#later);
    this.#stop?.abort();
    this.#source?.stop();
    this.#readout?.stop();
    this.#panels?.remove();
    for (const observer of this.#observers) observer.disconnect();
    for (const part of this.#made) part.remove();
    this.#made = [];
    this.removeAttribute("data-ready");
  }

  #begin(library, rows) {
    this.#view = new Viewport(rows.whole, (says) => this.#looked(says));
    this.#forms = new SpanForms(this);
    this.#findResults();
    this.#make(library);
    this.setAttribute("data-ready", "");
    this.#take(rows);
    this.#listen();
  }

  #findResults() {
    this.#results = [...this.querySelectorAll("[data-letter][data-start][data-end]")].map((element) => ({
      element, letter: element.dataset.letter,
      start: Number(element.dataset.start), end: Number(element.dataset.end),
    }));
  }

  // What needs a script

  #make(library) {
    const help = madeHelp(this.#forms.isThere);
    const live = document.createElement("div");
    live.className = "log-live";
    this.#stage = document.createElement("div");
    this.#stage.className = "log-stage";
    this.#panels = new Panels(library);
    this.#surface = new Surface(this.dataset.name ?? say("Chart of the log"), help.querySelector("ul").id);
    this.#readout = new Readout();
    const { bar, buttons } = madeControls(this.#controls(), this.#stop.signal);
    this.#buttons = buttons;
    this.#stage.append(this.#panels.element, this.#surface.element);
    live.append(this.#stage, bar, this.#readout.said, this.#readout.heard, this.#readout.element, help);
    this.querySelector(".log-figure").after(live);
    this.#made = [live, ...this.#results.map((result) => this.#showButton(result))];
  }

  #controls() {
    const zoom = [
      { name: "out", label: "−", title: say("Zoom out"), act: () => this.#zoom(1 / CLOSER) },
      { name: "in", label: "+", title: say("Zoom in"), act: () => this.#zoom(CLOSER) },
      { name: "whole", label: say("Whole"), title: say("Whole: show all of the log"), act: () => this.#view.all() },
    ];
    const along = [
      { name: "earlier", label: "←", title: say("Earlier"), act: () => this.#view.along(-ASIDE) },
      { name: "later", label: "→", title: say("Later"), act: () => this.#view.along(ASIDE) },
    ];
    const clear = [{ name: "clear", label: say("Clear cursors"), act: () => this.#clear() }];
    const take = [{ name: "take", label: say("Span from the view"),
      act: () => this.#setSpan(this.#view.span) }];
    return [zoom, along, clear, ...(this.#forms.isThere ? [take] : [])];
  }

  #showButton(result) {
    const button = madeShowButton(result.letter, () => this.#showResult(result), this.#stop.signal);
    const { element } = result;
    const place = element.querySelector(".log-place, p, td:last-child") ?? element;
    place.append(" ", button);
    return button;
  }

  #listen() {
    const { signal } = this.#stop;
    const surface = this.#surface.element;
    watchPointers(surface, {
      tap: (at, press) => this.#tapped(at, press),
      drag: (from, press) => this.#dragOf(from, press),
      pinch: (before, after) => this.#pinched(before, after),
      holds: (target) => this.#surface.handleOf(target) >= 0,
      hover: (at) => this.#hovered(at),
    }, signal);
    surface.addEventListener("wheel", (event) => this.#wheeled(event), { passive: false, signal });
    surface.addEventListener("keydown", (event) => this.#keyed(event), { signal });
    this.addEventListener("focusin", ({ target }) => this.#entered(target), { signal });
    this.addEventListener("pointerover", ({ target }) => this.#pointAt(target), { signal });
    this.addEventListener("toggle", ({ target }) => this.#unfolded(target), { signal, capture: true });
    this.addEventListener("input", ({ target }) => this.#forms.has(target) && this.#draw(), { signal });
    matchMedia("(prefers-color-scheme: dark)").addEventListener(
      "change", () => this.#panels.recolour(), { signal });
    const sizes = new ResizeObserver(() => this.#resized());
    sizes.observe(this.#stage);
    this.#observers = [sizes];
  }

  #resized() {
    this.#panels.resize();
    this.#draw();
  }

  // The view

  #looked(says) {
    const { span } = this.#view;
    this.#panels.view = span;
    this.#draw();
    if (says) this.#readout.say(inView(span));
    clearTimeout(this.#later);
    if (!suffices(this.#rows, span)) this.#later = setTimeout(() => this.#ask(), REST);
  }

  async #ask() {
    const span = asked(this.#view.span, this.#view.whole);
    try {
      const rows = await this.#source.rows(span, 2 * this.#panels.points);
      if (rows) this.#take(rows);
    } catch (error) {
      this.#readout.tell(say("No finer numbers came. {why} Move the chart to ask again.", { why: error.message }));
    }
  }

  #take(rows) {
    this.#rows = rows;
    this.#view.least = rows.all ? leastLength(rows.samples) : 0;
    this.#panels.show(rows, this.#view.span);
    this.#panels.resize();
    this.#draw();
  }

  #draw() {
    const view = this.#view.span;
    this.#surface.view = view;
    const room = this.#surface.drawResults(this.#results, this.#chosen);
    this.#stage.style.setProperty("--room", `${room}px`);       // what letters take above the panels
    const times = this.#cursors.times;
    this.#surface.drawCursors(times);
    this.#readout.show(this.#rows, times, view);
    const span = this.#forms.span;
    const texts = span?.map((time) => timeText(time, view));
    const { name } = this.#forms;
    this.#surface.drawSpan(span, { name, room, texts, whole: this.#view.whole });
    this.#buttons.whole.disabled = this.#view.isWhole;
    this.#buttons.clear.disabled = !times.length;
  }

  /** About the cursor, if it is in view. */
  #zoom(factor) {
    const { current } = this.#cursors;
    this.#view.zoom(factor, this.#view.holds(current) ? current : this.#view.middle);
  }

  #showResult(result) {
    this.#chosen = result;
    this.#view.show([result.start, result.end]);
    this.#readout.tell(say("{letter} is in view.", { letter: result.letter }));
  }

  /** A result is emphasised while its row is pointed at or has the focus. */
  #pointAt(target) {
    const element = target.closest("[data-letter]");
    const chosen = this.#results.find((result) => result.element === element) ?? null;
    if (chosen === this.#chosen || (!chosen && this.#surface.element.contains(target))) return;
    this.#chosen = chosen;
    this.#draw();
  }

  // Pointers

  /** The sample nearest to a place: the cursors stand on readings, never between them. */
  #sampleAt(at) {
    return stepped(this.#rows.samples, this.#surface.timeAt(at), 0);
  }

  #tapped(at, press) {
    const handle = this.#surface.handleOf(press.target);
    if (handle >= 0) return this.#surface.focus(handle);
    this.#surface.focus();
    this.#placeCursor(this.#sampleAt(at));
  }

  #hovered(at) {
    if (at) this.#cursors.follow(this.#sampleAt(at));
    else this.#cursors.leave();
    this.#draw();
  }

  #dragOf(from, press) {
    const handle = press.button === 0 ? this.#surface.handleOf(press.target) : -1;
    if (handle >= 0) return this.#dragHandle(handle);
    const moves = press.pointerType === "touch" || press.shiftKey || press.button === 1;
    return moves ? this.#dragAlong(from) : this.#dragSpan(from);
  }

  #dragHandle(handle) {
    const before = this.#forms.span;
    this.#surface.focus(handle);
    const move = (to) => this.#moveEnd(handle, this.#surface.timeAt(to));
    return { move, end: move, cancel: () => this.#setSpan(before) };
  }

  #dragAlong(from) {
    const start = this.#view.span;
    const pixel = this.#surface.pixel;
    const move = (to) => this.#view.by((from[0] - to[0]) * pixel, start);
    return { move, end: move, cancel: () => this.#view.to(start, false) };
  }

  #dragSpan(from) {
    const span = (to) => [from, to].map((at) => this.#surface.timeAt(at)).sort((a, b) => a - b);
    const drop = () => this.#surface.drawSelection(null);
    const end = (to) => {
      drop();
      this.#view.zoomTo(span(to));
    };
    return { move: (to) => this.#surface.drawSelection(span(to)), end, cancel: drop };
  }

  #pinched(before, after) {
    const shares = (places) => places.map((at) => this.#surface.shareAt(at));
    this.#view.pinch(shares(before), shares(after));
  }

  #wheeled(event) {
    const isAside = Math.abs(event.deltaX) > Math.abs(event.deltaY);
    if (!event.ctrlKey && !isAside) return;         // the wheel alone scrolls the page
    event.preventDefault();
    const lines = event.deltaMode ? 30 : 1;
    if (isAside) return this.#view.by(event.deltaX * lines * this.#surface.pixel);
    return this.#view.zoom(2 ** ((-event.deltaY * lines) / 200), this.#surface.timeAt([event.clientX]));
  }

  // Keys

  #keyed(event) {
    if (event.altKey || event.ctrlKey || event.metaKey) return;
    const handle = this.#surface.handleOf(event.target);
    const handled = this.#keyedView(event.key)
      || (handle >= 0 ? this.#keyedHandle(event, handle) : this.#keyedCursor(event));
    if (handled) event.preventDefault();
  }

  #keyedView(key) {
    if (key === "+" || key === "=") this.#zoom(CLOSER);
    else if (key === "-" || key === "−") this.#zoom(1 / CLOSER);
    else if (key === "0") this.#view.all();
    else if (key === "PageUp") this.#view.along(-ASIDE);
    else if (key === "PageDown") this.#view.along(ASIDE);
    else return false;
    return true;
  }

  #keyedCursor({ key, shiftKey }) {
    const step = shiftKey ? 10 : 1;
    if (key === "ArrowLeft") this.#moveCursor(this.#stepped(-step));
    else if (key === "ArrowRight") this.#moveCursor(this.#stepped(step));
    else if (key === "Home") this.#moveCursor(this.#rows.samples.find((time) => this.#view.holds(time)));
    else if (key === "End") this.#moveCursor(this.#rows.samples.findLast((time) => this.#view.holds(time)));
    else if (key === "Enter" || key === " ") this.#placeCursor(this.#stepped(0));
    else if (key === "Escape" && this.#cursors.times.length) this.#clear();
    else return false;
    return true;
  }

  /** The first step puts the cursor into the middle of the view. */
  #stepped(by) {
    const { current } = this.#cursors;
    return current === undefined ? stepped(this.#rows.samples, this.#view.middle, 0)
      : stepped(this.#rows.samples, current, by);
  }

  #moveCursor(time) {
    if (time === undefined) return;         // no sample is in view
    this.#cursors.move(time);
    this.#view.reveal(time);
    this.#tellCursors();
  }

  #placeCursor(time) {
    this.#cursors.place(time);
    this.#tellCursors();
  }

  #clear() {
    this.#cursors.clear();
    this.#draw();
    this.#readout.say(say("Cursors cleared."));
  }

  #tellCursors() {
    this.#draw();
    this.#readout.read(sentence(this.#rows, this.#cursors.times, this.#view.span));
  }

  // The span of a form

  #keyedHandle({ key, shiftKey }, handle) {
    const by = this.#surface.pixel * (shiftKey ? 10 : 1);
    const time = this.#forms.span[handle];
    if (key === "ArrowLeft" || key === "ArrowDown") this.#moveEnd(handle, time - by);
    else if (key === "ArrowRight" || key === "ArrowUp") this.#moveEnd(handle, time + by);
    else if (key === "Home") this.#moveEnd(handle, this.#view.span[0]);
    else if (key === "End") this.#moveEnd(handle, this.#view.span[1]);
    else return false;
    return true;
  }

  /** One end to a time: within the log, and never beyond the other end. */
  #moveEnd(handle, time) {
    const span = [...this.#forms.span];
    const { whole } = this.#view;
    const [low, high] = handle === 0 ? [whole[0], span[1]] : [span[0], whole[1]];
    span[handle] = Math.min(Math.max(time, low), high);
    this.#setSpan(span);
  }

  #setSpan(span) {
    const { form } = this.#forms;
    this.#forms.set(span, this.#view.span);
    this.#draw();
    const [start, end] = this.#forms.span;
    this.dispatchEvent(new CustomEvent("span-changed", { bubbles: true, detail: { form, start, end } }));
  }

  /** The handles go to the span that someone unfolds. */
  #unfolded(details) {
    const field = details.open && details.querySelector("[name=start]");
    if (field && this.#forms.choose(field.form)) this.#draw();
  }

  #entered(target) {
    if (this.#forms.choose(target.form)) this.#draw();
    this.#pointAt(target);
  }
}

function inView(span) {
  const [from, to] = span.map((time) => timeText(time, span));
  return say("In view: {from} to {to}.", { from, to });
}
