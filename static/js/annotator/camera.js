/** Shows a part of the picture: moves the image and the drawings over it together. */
import { extent } from "../lib/shapes.js";
import * as views from "../lib/view-box.js";

export class Camera {
  #stage;
  #image;
  #layer;
  #size;
  #moved;
  #view = views.WHOLE;
  #fetched = 0;         // width that the browser was asked to fetch

  /**
   * @param {HTMLElement} stage that holds an `img` and, over it, SVGs in pixels of the picture
   * @param {[number, number]} size of the picture
   * @param {() => void} moved called after each change of view
   */
  constructor(stage, size, moved) {
    this.#stage = stage;
    this.#image = stage.querySelector("img");
    this.#layer = stage.querySelector("svg");      // inside the stage's border
    this.#size = size;
    this.#moved = moved;
  }

  get #box() {
    return this.#layer.getBoundingClientRect();
  }

  /** Pixels of the picture a pixel of the screen. */
  get pixel() {
    return 1 / (views.fit(this.#size, this.#box).scale * this.#view.zoom);
  }

  get isShown() {
    return this.#box.width > 0;
  }

  get middle() {
    const { left, top, width, height } = this.#box;
    return this.at([left + width / 2, top + height / 2]);
  }

  /** The place on the picture that is at a place on the screen. */
  at(client) {
    return views.toPicture(this.#view, this.#size, this.#box, client);
  }

  /** Shows the same again, after the stage has changed its size; without room there is no scale. */
  refresh() {
    if (this.isShown) this.#look(this.#view);
  }

  whole() {
    this.#look(views.WHOLE);
  }

  zoom(factor, about = this.middle) {
    this.#look(views.zoomed(this.#view, this.#size, this.#box, factor, about));
  }

  drag(from, to) {
    this.#look(views.dragged(this.#view, this.#size, this.at(from), this.at(to)));
  }

  pinch(before, after) {
    this.#look(views.pinched(this.#view, this.#size, this.#box, before, after));
  }

  reveal(point) {
    const view = views.showing(this.#view, this.#size, point);
    const stays = view.x === this.#view.x && view.y === this.#view.y;
    if (stays && this.isShown) this.#moved();       // a key that repeats must not restyle the stage
    else this.#look(view);
  }

  close(points) {
    this.#look(views.around(this.#size, this.#box, extent(points)));
  }

  #look(view) {
    if (!this.isShown) return;
    this.#view = view;
    const { zoom, x, y } = views.transform(view, this.#size, this.#box);
    this.#image.style.transform = `translate(${x}px, ${y}px) scale(${zoom})`;
    this.#stage.style.setProperty("--u", this.pixel);
    this.#stage.toggleAttribute("data-zoomed", zoom > 1);
    const shown = views.viewBox(view, this.#size).join(" ");
    for (const layer of this.#stage.querySelectorAll(":scope > svg")) layer.setAttribute("viewBox", shown);
    if (zoom > 1) this.#sharpen(this.#size[0] / this.pixel);
    this.#moved();
  }

  // `sizes` tells the browser how wide the picture is drawn, and so which file of `srcset` to take.
  #sharpen(width) {
    const step = 2 ** Math.ceil(Math.log2(width));
    if (step <= this.#fetched) return;
    this.#fetched = step;
    this.#image.sizes = `${step}px`;
  }
}
