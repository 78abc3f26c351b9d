/**
 * Moves and enlarges photos of one scale together: what one shows, all show.
 *
 *   <compare-photos>
 *     <div class="scaled-frame"><svg class="scaled" viewBox="0 0 80 60"><image data-large="…"/></svg></div>
 *     <svg class="ruler" viewBox="0 0 80 8"><path class="ruler-bar"/></svg>
 *     <span class="ruler-text">20 mm</span> …
 *   </compare-photos>
 *
 * A unit of the drawings is a millimetre. Without a script each is shown whole, at the same scale.
 */
import { WHOLE, keyed, pinched, pushed, rulerLength, viewBox, zoomed } from "../lib/linked-view.js";
import { say, sayNumber } from "../lib/say.js";

const CLOSE = 1.4;              // zoom from which on the large pictures are fetched
const HELP = say("Drag to move all, Ctrl and the wheel or two fingers to enlarge. With the keyboard: go to a picture with Tab, arrows move, + and - enlarge, 0 shows the whole.");

export class ComparePhotosElement extends HTMLElement {
  #view = WHOLE;
  #size = null;
  #held = new Map();            // pointer → its place, in shares of the box it came down in
  #stop = null;
  #said = null;

  static define(tag = "compare-photos") {
    customElements.define(tag, this);
  }

  connectedCallback() {
    const first = this.querySelector(".scaled");
    if (!first || this.#stop) return;
    const { width, height } = first.viewBox.baseVal;
    this.#size = { width, height };
    this.#stop = new AbortController();
    for (const frame of this.querySelectorAll(".scaled-frame")) this.#listen(frame);
    this.#addControls();
    this.dataset.ready = "";
  }

  disconnectedCallback() {
    this.#stop?.abort();
    this.#stop = null;
    this.querySelector(".photos-controls")?.remove();
  }

  #listen(frame) {
    const { signal } = this.#stop;
    const drawing = frame.querySelector(".scaled");
    frame.tabIndex = 0;
    frame.setAttribute("role", "group");
    frame.setAttribute("aria-label", say("Picture that moves with the others: arrows, +, -, 0"));
    frame.addEventListener("keydown", (event) => this.#key(event), { signal });
    frame.addEventListener("wheel", (event) => this.#wheel(event, drawing),
      { signal, passive: false });
    drawing.addEventListener("pointerdown", (event) => this.#down(event, drawing), { signal });
    drawing.addEventListener("pointermove", (event) => this.#move(event, drawing), { signal });
    for (const name of ["pointerup", "pointercancel"]) {
      drawing.addEventListener(name, (event) => this.#up(event), { signal });
    }
  }

  #addControls() {
    const box = document.createElement("div");
    box.className = "photos-controls";
    const acts = [
      [say("Closer"), () => zoomed(this.#view, this.#size, 1.5)],
      [say("Further"), () => zoomed(this.#view, this.#size, 1 / 1.5)], [say("Whole"), () => WHOLE]];
    for (const [name, next] of acts) {
      const button = document.createElement("button");
      button.type = "button";
      button.className = "second";
      button.textContent = name;
      button.addEventListener("click", () => this.#show(next()), { signal: this.#stop.signal });
      box.append(button);
    }
    this.#said = document.createElement("p");
    this.#said.setAttribute("role", "status");
    const help = document.createElement("p");
    help.className = "quiet";
    help.textContent = HELP;
    box.append(this.#said, help);
    this.prepend(box);
  }

  #key(event) {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const next = keyed(this.#view, this.#size, event.key);
    if (!next) return;
    event.preventDefault();
    this.#show(next);
  }

  /** The wheel alone scrolls the page. */
  #wheel(event, drawing) {
    if (!event.ctrlKey) return;
    event.preventDefault();
    this.#show(zoomed(this.#view, this.#size, Math.exp(-event.deltaY / 300),
      share(event, drawing)));
  }

  #down(event, drawing) {
    drawing.setPointerCapture(event.pointerId);
    this.#held.set(event.pointerId, share(event, drawing));
    this.dataset.held = "";
  }

  #move(event, drawing) {
    const from = this.#held.get(event.pointerId);
    if (!from) return;
    const to = share(event, drawing);
    const before = [...this.#held.values()];
    this.#held.set(event.pointerId, to);
    if (before.length === 2) {
      this.#show(pinched(this.#view, this.#size, before, [...this.#held.values()]));
    } else if (before.length === 1) {
      this.#show(pushed(this.#view, this.#size, [to[0] - from[0], to[1] - from[1]]));
    }
  }

  #up(event) {
    this.#held.delete(event.pointerId);
    if (!this.#held.size) delete this.dataset.held;
  }

  #show(view) {
    this.#view = view;
    const box = viewBox(view, this.#size).map((value) => Number(value.toFixed(3))).join(" ");
    for (const drawing of this.querySelectorAll(".scaled")) drawing.setAttribute("viewBox", box);
    this.toggleAttribute("data-zoomed", view.zoom > 1);
    if (view.zoom > CLOSE) this.#enlarge();
    this.#measure();
    this.dispatchEvent(new CustomEvent("photos-moved", { bubbles: true, detail: view }));
  }

  #enlarge() {
    for (const image of this.querySelectorAll("image[data-large]")) {
      image.setAttribute("href", image.dataset.large);
      image.removeAttribute("data-large");
    }
  }

  #measure() {
    const length = rulerLength(this.#view, this.#size);
    const shown = this.#size.width / this.#view.zoom;
    for (const ruler of this.querySelectorAll(".ruler")) {
      ruler.setAttribute("viewBox", `0 0 ${Number(shown.toFixed(3))} 8`);
      ruler.querySelector(".ruler-bar").setAttribute("d", `M0 0V8M0 4H${length}M${length} 0V8`);
    }
    for (const text of this.querySelectorAll(".ruler-text")) text.textContent = `${sayNumber(length)}\u202fmm`;
    this.#said.textContent = say("{zoom} times, ruler {length} mm",
      { zoom: sayNumber(this.#view.zoom.toFixed(1)), length: sayNumber(length) });
  }
}

/** Where a pointer is, in shares of the drawing's box. */
function share(event, drawing) {
  const { left, top, width, height } = drawing.getBoundingClientRect();
  return [(event.clientX - left) / width, (event.clientY - top) / height];
}
