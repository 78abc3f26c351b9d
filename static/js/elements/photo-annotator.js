/**
 * Draws on a picture: what is placed, moved and undone there stands in the forms beside it.
 *
 *   <photo-annotator data-mm-per-px="0.021">            or data-homography="nine numbers, px → mm"
 *     <div class="photo-picture">
 *       <div class="photo-stage">
 *         <img src="…1280.webp" srcset="…" sizes="…" width="4000" height="3000" alt="…">
 *         <svg class="photo-marks" viewBox="0 0 4000 3000" font-size="80" aria-hidden="true">
 *           <g id="mark-a1" data-key="a1" data-shape="path" data-points="12.5,40 80,41">
 *             <path class="halo" d="…"/><path class="line" d="…"/></g>
 *           <text x="80" y="41" data-of="a1">C1</text>
 *         </svg>
 *       </div>
 *       <p class="photo-said" role="status"></p>
 *     </div>
 *     <div class="photo-forms">
 *       <form data-shapes="point line path polygon box" data-name="Mark what is shown">
 *         <select name="shape">…</select> <input name="key" type="hidden"> <input name="points"> …</form>
 *       <form data-shapes="polygon" data-corners="4" data-name="Scale: a card">…</form>
 *       <a data-key="a1" href="…">C1</a>
 *     </div>
 *   </photo-annotator>
 *
 * Places are pixels of the whole picture: `width` and `height` state its size, whatever file is shown.
 * Without a form it is a viewer. The form that was used last, which no passing Tab does, gets the points.
 * Tells `points-changed` {form, shape, points} and `mark-chosen` {key}; both bubble.
 */
import { Camera } from "../annotator/camera.js";
import {
  CLOSER, fullScreenControls, madeChooser, madeControls, madeHelp, zoomControls,
} from "../annotator/controls.js";
import { MarksLayer } from "../annotator/marks-layer.js";
import { Pen } from "../annotator/pen.js";
import { watchPointers } from "../annotator/pointers.js";
import { sheetsIn } from "../annotator/sheet.js";
import { Surface } from "../annotator/surface.js";
import { direction, nudged, onPicture } from "../lib/nudge.js";
import { planeOf } from "../lib/plane-lengths.js";
import { printedPlace, rounded } from "../lib/point-text.js";
import { say } from "../lib/say.js";

const REACH = 8;        // screen pixels that a click may miss a mark by
const STRIDE = 60;      // screen pixels that an arrow key moves the picture in a viewer
const PAUSE = 250;      // ms: while a key repeats nobody can listen to every pixel

export class PhotoAnnotatorElement extends HTMLElement {
  #stop = null;
  #observer = null;
  #stage = null;
  #said = null;
  #marks = null;
  #surface = null;
  #camera = null;
  #pen = null;
  #made = [];
  #buttons = {};
  #chooser = null;
  #size = [1, 1];
  #sheets = [];
  #cross = [0, 0];
  #ahead = null;            // where the mouse is, on the picture
  #later = 0;

  static define(tag = "photo-annotator") {
    customElements.define(tag, this);
  }

  connectedCallback() {
    this.#stop = new AbortController();
    this.#find();
    this.#make();
    this.#listen();
    this.#choose(Math.max(0, this.#sheets.findIndex((sheet) => sheet.isUnfolded)));
    this.#showTarget();
  }

  disconnectedCallback() {
    clearTimeout(this.#later);
    this.#stop?.abort();
    this.#observer?.disconnect();
    for (const part of this.#made) part.remove();
    this.removeAttribute("data-ready");
  }

  #find() {
    this.#stage = this.querySelector(".photo-stage");
    this.#said = this.querySelector(".photo-said");
    const image = this.#stage.querySelector("img");
    const size = this.#size = ["width", "height"].map((side) => Number(image.getAttribute(side)));
    this.#cross = size.map((side) => side / 2);
    this.#marks = new MarksLayer(this.#stage.querySelector(".photo-marks"));
    this.#camera = new Camera(this.#stage, size, () => this.#draw());
    this.#pen = new Pen({
      camera: this.#camera, size, plane: planeOf(this.dataset),
      say: (text, later) => this.#say(text, later), changed: () => this.#changed(),
    });
    this.#sheets = sheetsIn(this);
  }

  // What needs a script

  #make() {
    const drawing = this.#sheets.length > 0;
    const help = madeHelp(drawing);
    const label = drawing ? say("Drawing on the picture") : say("The picture");
    this.#surface = new Surface(label, help.querySelector("ul").id);
    const { bar, buttons } = madeControls(this.#controls(drawing), this.#stop.signal);
    this.#buttons = buttons;
    this.#made = [this.#surface.element, bar, help];
    this.#stage.append(this.#surface.element);
    this.#stage.after(bar);
    this.#said.after(help);
    if (this.#sheets.length > 1) this.#makeChooser();
    this.setAttribute("data-ready", "");
  }

  #makeChooser() {
    const names = this.#sheets.map((sheet) => sheet.name);
    const { label, select } = madeChooser(names, (index) => this.#choose(index), this.#stop.signal);
    this.#chooser = select;
    this.#stage.before(label);
    this.#made.push(label);
  }

  #controls(drawing) {
    const edit = [
      { name: "move", label: say("Move"), title: say("Move the picture instead of drawing"), toggles: false,
        act: () => this.#toggleMoving() },
      { name: "undo", label: say("Undo"), act: () => this.#pen.step("undo") },
      { name: "redo", label: say("Redo"), act: () => this.#pen.step("redo") },
      { name: "remove", label: say("Remove"), title: say("Remove the chosen or the last point"),
        act: () => this.#pen.remove() },
    ];
    const marks = { name: "marks", label: say("Marks shown"), toggles: true, act: () => this.#toggleMarks() };
    const show = [marks, ...fullScreenControls(this.#stage.parentElement)];
    return [zoomControls(this.#camera), ...(drawing ? [edit] : []), show];
  }

  #listen() {
    const { signal } = this.#stop;
    const surface = this.#surface.element;
    watchPointers(surface, {
      tap: (at, press) => this.#tapped(at, press),
      drag: (from, press) => this.#dragOf(from, press),
      pinch: (before, after) => this.#camera.pinch(before, after),
      holds: (target) => !this.#isMoving && this.#surface.indexOf(target) >= 0,
      hover: (at, over) => this.#hovered(at, over),
    }, signal);
    surface.addEventListener("wheel", (event) => this.#wheeled(event), { passive: false, signal });
    surface.addEventListener("keydown", (event) => this.#keyed(event), { signal });
    surface.addEventListener("focusin", (event) => this.#focused(event), { signal });
    this.addEventListener("keydown", (event) => this.#keyedAnywhere(event), { signal });
    this.addEventListener("pointerdown", (event) => this.#used(event.target), { signal });
    this.addEventListener("focusin", (event) => this.#pointAt(event.target), { signal });
    this.addEventListener("toggle", (event) => this.#opened(event.target), { capture: true, signal });
    this.addEventListener("input", (event) => this.#typed(event.target), { signal });
    this.addEventListener("pointerover", (event) => this.#pointAt(event.target), { signal });
    window.addEventListener("hashchange", () => this.#showTarget(), { signal });
    this.#observer = new ResizeObserver(() => this.#camera.refresh());
    this.#observer.observe(this.#stage);
  }

  // The drawing

  #choose(index) {
    this.#pen.sheet = this.#sheets[index] ?? null;
    for (const sheet of this.#sheets) sheet.form.toggleAttribute("data-active", sheet.form === this.#pen.sheet?.form);
    if (this.#chooser) this.#chooser.selectedIndex = index;
    this.#pen.sheet?.unfold();
    this.#toggleMoving(!this.#pen.sheet);
    this.#camera.refresh();
  }

  #draw() {
    this.#surface.pixel = this.#marks.pixel = this.#camera.pixel;
    this.#surface.drawCrosshair(this.#cross);
    const { sheet } = this.#pen;
    if (!sheet) return;
    this.#surface.draw(sheet.shape, sheet.points, this.#pen.preview(this.#ahead));
    this.#buttons.undo.disabled = !sheet.canUndo;
    this.#buttons.redo.disabled = !sheet.canRedo;
    this.#buttons.remove.disabled = !sheet.points.length;
    this.#marks.editing(sheet.form.elements.key?.value);
  }

  #changed() {
    const { form, shape, points } = this.#pen.sheet;
    if (this.#pen.selected >= points.length) this.#pen.selected = -1;
    this.#draw();
    this.dispatchEvent(new CustomEvent("points-changed", { bubbles: true, detail: { form, shape, points } }));
  }

  // Pointers

  #tapped(client, press) {
    const at = this.#camera.at(client);
    const index = this.#pen.pointMeant(at, this.#surface.indexOf(press.target));
    const key = this.#markAt(client);
    this.#cross = onPicture(at, this.#size).map(rounded);
    if (key) this.#chooseMark(key);
    else if (index >= 0 && !this.#isMoving) this.#surface.focus(index);
    else if (!this.#isMoving) this.#pen.place(at);
  }

  #dragOf(from, press) {
    const draws = !this.#isMoving && press.button === 0;
    this.#ahead = null;
    if (draws && this.#surface.indexOf(press.target) >= 0) {
      const index = this.#pen.nearest(this.#camera.at(from));
      this.#surface.focus(index);       // a held touch does not bring the focus by itself
      return this.#pen.dragPoint(index, from);
    }
    // A finger that strays means to move the picture or the page.
    if (draws && this.#pen.drawsByDrag && press.pointerType !== "touch") return this.#pen.dragBox(from);
    return this.#dragPicture(from);
  }

  #dragPicture(from) {
    let last = from;
    const move = (to) => {
      this.#camera.drag(last, to);
      last = to;
    };
    return { move, end: move, cancel() {} };
  }

  #hovered(client, over) {
    const draws = client && !this.#isMoving && this.#surface.indexOf(over) < 0;
    const next = draws ? onPicture(this.#camera.at(client), this.#size) : null;
    if (!next && !this.#ahead) return;
    this.#ahead = next;
    this.#draw();
  }

  #wheeled(event) {
    if (!event.ctrlKey) return;       // the wheel alone scrolls the page
    event.preventDefault();
    const factor = 2 ** (-event.deltaY / (event.deltaMode ? 5 : 200));
    this.#camera.zoom(factor, this.#camera.at([event.clientX, event.clientY]));
  }

  // Keys

  #keyed(event) {
    if (event.altKey || event.ctrlKey || event.metaKey) return;
    const index = this.#surface.indexOf(event.target);
    const handled = this.#keyedView(event.key) || (this.#pen.sheet
      ? (index < 0 ? this.#keyedCross(event) : this.#keyedPoint(event, index))
      : this.#keyedViewer(event.key));
    if (!handled) return;
    this.#showCross(true);
    event.preventDefault();
  }

  #keyedView(key) {
    const { sheet, selected } = this.#pen;
    const about = sheet ? sheet.points[selected] ?? this.#cross : undefined;
    if (key === "+" || key === "=") this.#camera.zoom(CLOSER, about);
    else if (key === "-" || key === "−") this.#camera.zoom(1 / CLOSER, about);
    else if (key === "0") this.#camera.whole();
    else if (key === "Escape" && sheet?.points.length) this.#drop();
    else return false;
    return true;
  }

  #keyedCross({ key, shiftKey }) {
    const step = Math.max(1, this.#camera.pixel) * (shiftKey ? 10 : 1);
    const to = nudged(this.#cross, key, step, this.#size);
    if (to) this.#moveCross(to.map(rounded));
    else if (key === "Enter" || key === " ") this.#pen.place(this.#cross);
    else if (key === "Backspace" || key === "Delete") this.#pen.remove(-1);
    else return false;
    return true;
  }

  #moveCross(to) {
    this.#cross = to;
    this.#camera.reveal(to);
    this.#say(printedPlace(to), true);
  }

  #keyedViewer(key) {
    const way = direction(key);
    if (way) this.#camera.drag([0, 0], way.map((steps) => -steps * STRIDE));
    return Boolean(way);
  }

  #showCross(on) {
    this.#surface.element.toggleAttribute("data-keys", on && Boolean(this.#pen.sheet));
  }

  #keyedPoint({ key, shiftKey }, index) {
    if (this.#pen.nudge(index, key, shiftKey ? 10 : 1)) return true;
    if (key === "Delete" || key === "Backspace") {
      this.#pen.remove(index);
      this.#surface.focus(Math.min(index, this.#pen.sheet.points.length - 1));
    } else if (key === "Insert") {
      const added = this.#pen.insert(index);
      if (added >= 0) this.#surface.focus(added);
    } else return false;
    return true;
  }

  #drop() {
    this.#surface.focus();
    this.#pen.drop();
  }

  #keyedAnywhere(event) {
    if (!(event.ctrlKey || event.metaKey) || event.altKey || !this.#pen.sheet) return;
    const key = event.key.toLowerCase();
    if (event.target.matches("input, select, textarea") || (key !== "z" && key !== "y")) return;
    event.preventDefault();
    this.#pen.step(key === "y" || event.shiftKey ? "redo" : "undo");
  }

  #focused({ target }) {
    const { sheet } = this.#pen;
    this.#pen.selected = this.#surface.indexOf(target);
    const byKeys = target.matches(":focus-visible");
    this.#showCross(byKeys);
    if (byKeys && sheet) this.#camera.reveal(sheet.points[this.#pen.selected] ?? this.#cross);
    else this.#draw();
  }

  // Forms and marks

  #used(target) {
    this.#turnTo((sheet) => sheet.isMeantAt(target));
  }

  /** Whoever unfolds a form means to draw for it; one that is drawn for was unfolded by that. */
  #opened(details) {
    if (details.open && !details.contains(this.#pen.sheet?.form ?? null)) this.#turnTo(({ form }) => details.contains(form));
  }

  #turnTo(isMeant) {
    const index = this.#sheets.findIndex(isMeant);
    if (index >= 0 && this.#sheets[index] !== this.#pen.sheet) this.#choose(index);
  }

  #typed(target) {
    this.#used(target);
    const { sheet } = this.#pen;
    if (target === sheet?.field) sheet.typed();
    else if (target.form === sheet?.form && target.name === "shape") sheet.check();
    else return;
    this.#changed();
  }

  /** The mark that a click means: while one draws, its label and only before the first point. */
  #markAt(client) {
    if (this.#stage.hasAttribute("data-unmarked")) return undefined;
    if (this.#isMoving) return this.#marks.markAt(this.#camera.at(client), REACH * this.#camera.pixel);
    return this.#pen.sheet.points.length ? undefined : this.#marks.labelAt(client);
  }

  #chooseMark(key) {
    this.dispatchEvent(new CustomEvent("mark-chosen", { bubbles: true, detail: { key } }));
    this.#marks.highlight(key);
    this.querySelector(`a[data-key="${CSS.escape(key)}"]`)?.click();
  }

  /** A link in the list shows where its mark is. */
  #pointAt(target) {
    const key = target.closest("a[data-key]")?.dataset.key;
    if (key) this.#marks.highlight(key);
  }

  /** The address may name a form, or a mark, which is brought into view. */
  #showTarget() {
    const id = location.hash.slice(1);
    this.#turnTo(({ form }) => form.id && form.id === id);
    const key = this.#marks.keyOf(id);
    if (!key || !this.#camera.isShown) return;
    this.#marks.highlight(key);
    this.#camera.close(this.#marks.pointsOf(key));
  }

  // Buttons

  /** In a viewer, which has no such button, the picture always moves. */
  get #isMoving() {
    return this.#buttons.move?.ariaPressed !== "false";
  }

  #toggleMoving(on = !this.#isMoving) {
    if (this.#buttons.move) this.#buttons.move.ariaPressed = String(on);
    this.#stage.toggleAttribute("data-moving", this.#isMoving);
  }

  #toggleMarks() {
    const hidden = this.#stage.toggleAttribute("data-unmarked");
    this.#buttons.marks.ariaPressed = String(!hidden);
  }

  #say(text, later = false) {
    clearTimeout(this.#later);
    if (later) this.#later = setTimeout(() => this.#say(text), PAUSE);
    else this.#said.textContent = text;
  }
}
