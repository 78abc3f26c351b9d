import { say } from "../lib/say.js";

/**
 * Presses the button of a long reading again and again, until the log is read.
 *
 *   <read-on data-next="/bench/7/recordings/load-sweep-1/">
 *     <form method="post" action="…"><input type="hidden" name="act" value="read-on">
 *       <span class="read-percent">40</span> <progress max="100" value="40"></progress>
 *       <p class="read-said" role="status"></p><button>Read on</button></form>
 *   </read-on>
 *
 * Without a script a person presses it. When the connection breaks the button comes back.
 */
const TRIES = 3;
const PAUSE = 1500;     // ms after an answer that was none

export class ReadOnElement extends HTMLElement {
  #stop = null;

  static define(tag = "read-on") {
    customElements.define(tag, this);
  }

  connectedCallback() {
    this.#stop = new AbortController();
    this.#readAll(this.#stop.signal);
  }

  disconnectedCallback() {
    this.#stop?.abort();
  }

  async #readAll(signal) {
    const button = this.querySelector("button");
    button.hidden = true;
    for (let failures = 0; failures < TRIES && !signal.aborted;) {
      try {
        const { percent, done } = await this.#slice(signal);
        if (done) return location.assign(this.dataset.next);
        this.#show(percent);
        failures = 0;
      } catch {
        failures += 1;
        await new Promise((resolve) => setTimeout(resolve, PAUSE));
      }
    }
    button.hidden = false;
    this.querySelector(".read-said").textContent =
      say("The connection broke off. What has been read is kept: press the button to go on.");
  }

  async #slice(signal) {
    const form = this.querySelector("form");
    const answer = await fetch(form.action, {
      method: "POST", body: new FormData(form), headers: { Accept: "application/json" }, signal,
    });
    if (!answer.ok) throw new Error(`answer ${answer.status}`);
    return answer.json();
  }

  #show(percent) {
    this.querySelector("progress").value = percent;
    this.querySelector(".read-percent").textContent = percent;
  }
}
