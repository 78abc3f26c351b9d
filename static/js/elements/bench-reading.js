/**
 * Renews the reading beside a printed text while it is typed.
 *
 *   <bench-reading src="/bench/12/plate-reading/"><textarea></textarea><div class="reading">…</div></bench-reading>
 *
 * Without it the reading is renewed whenever the section is sent.
 */
const PAUSE = 500;      // ms after the last key

export class BenchReadingElement extends HTMLElement {
  #timer = 0;
  #asked = null;
  #stop = null;

  static define(tag = "bench-reading") {
    customElements.define(tag, this);
  }

  connectedCallback() {
    this.#stop = new AbortController();
    this.addEventListener("input", () => this.#soon(), { signal: this.#stop.signal });
    document.addEventListener("sheet-restored", () => this.#soon(), { signal: this.#stop.signal });
  }

  disconnectedCallback() {
    clearTimeout(this.#timer);
    this.#asked?.abort();
    this.#stop?.abort();
  }

  #soon() {
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => this.#renew(), PAUSE);
  }

  async #renew() {
    this.#asked?.abort();
    this.#asked = new AbortController();
    const body = new FormData();
    body.set("text", this.querySelector("textarea").value);
    body.set("csrfmiddlewaretoken", this.closest("form").elements.csrfmiddlewaretoken.value);
    try {
      const answer = await fetch(this.getAttribute("src"), {
        method: "POST", body, signal: this.#asked.signal,
      });
      if (answer.ok) this.#show(await answer.text());
    } catch (error) {
      // Aborted by a newer text, or no network: the old reading stays, saving reads it again.
      if (error.name !== "AbortError" && !(error instanceof TypeError)) throw error;
    }
  }

  #show(html) {
    const page = new DOMParser().parseFromString(html, "text/html");
    this.querySelector(".reading").replaceChildren(...page.body.childNodes);
    this.dispatchEvent(new CustomEvent("reading-renewed", { bubbles: true }));
  }
}
