/**
 * Offers to copy the text inside it, and says so once that is done.
 *
 *   <copy-text data-of="In words"><pre>…</pre></copy-text>
 *
 * Without a script the text is there to be selected: one click selects it whole.
 */
import { say } from "../lib/say.js";

export class CopyTextElement extends HTMLElement {
  #said = null;

  static define(tag = "copy-text") {
    customElements.define(tag, this);
  }

  connectedCallback() {
    if (this.#said || !navigator.clipboard) return;     // none where the site is not trustworthy
    const button = document.createElement("button");
    button.type = "button";
    button.className = "second";
    button.textContent = say("Copy");
    const of = document.createElement("span");
    of.className = "off";
    of.textContent = `: ${this.dataset.of}`;
    button.append(of);
    button.addEventListener("click", () => this.#copy());
    this.#said = document.createElement("span");
    this.#said.className = "note";
    this.#said.setAttribute("role", "status");
    const acts = document.createElement("p");
    acts.className = "acts";
    acts.append(button, this.#said);
    this.append(acts);
  }

  async #copy() {
    const text = this.querySelector("pre");
    this.#said.textContent = "";                        // so that the same words are said again
    try {
      await navigator.clipboard.writeText(text.textContent);
      this.#said.textContent = say("Copied.");
    } catch {
      getSelection().selectAllChildren(text);
      this.#said.textContent = say("The browser did not allow it. The text is selected: copy it with the keyboard or a long press.");
    }
  }
}
