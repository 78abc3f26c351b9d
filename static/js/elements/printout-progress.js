/**
 * Follows a document that is being made, and loads the page again once that has ended.
 *
 *   <printout-progress data-address="/units/7/report/"><ol><li>…</li></ol></printout-progress>
 *
 * Without a script the link inside does the same by hand.
 */
import { say } from "../lib/say.js";

const EVERY = 1500;     // ms
const GOES_ON = new Set(["waiting", "making"]);

export class PrintoutProgressElement extends HTMLElement {
  #timer = 0;

  static define(tag = "printout-progress") {
    customElements.define(tag, this);
  }

  connectedCallback() {
    this.#timer = setInterval(() => this.#ask(), EVERY);
  }

  disconnectedCallback() {
    clearInterval(this.#timer);
  }

  async #ask() {
    const headers = { Accept: "application/json" };
    const answer = await fetch(this.dataset.address, { headers }).catch(() => null);
    if (!answer?.ok || !this.isConnected) return;
    const { state, step } = await answer.json();
    if (GOES_ON.has(state)) return this.#show(step);
    clearInterval(this.#timer);
    location.reload();
  }

  #show(step) {
    for (const [place, item] of this.querySelectorAll("li").entries()) {
      item.querySelector("b, span")?.remove();
      if (place === step) item.setAttribute("aria-current", "step");
      else item.removeAttribute("aria-current");
      if (place <= step) item.append(this.#word(place < step));
    }
  }

  /** As the page itself puts it. */
  #word(isDone) {
    const word = document.createElement(isDone ? "span" : "b");
    if (isDone) word.className = "quiet";
    word.textContent = `: ${isDone ? say("done") : say("now")}`;
    return word;
  }
}
