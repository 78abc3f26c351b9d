/** Forms that hold a span: two fields in seconds, which work without the chart and follow it with it. */
import { secondsOf, secondsText } from "../lib/quantity-text.js";
import { say } from "../lib/say.js";

export class SpanForms {
  #forms;
  #active = 0;

  constructor(within) {
    this.#forms = [...within.querySelectorAll("form")].filter(
      ({ elements }) => elements.start && elements.end);
    this.choose(this.#forms.find((form) => form.querySelector(":target"))
      ?? this.#forms.find((form) => fold(form)?.open) ?? this.form);
  }

  /** The form that the handles belong to, or undefined. */
  get form() {
    return this.#forms[this.#active];
  }

  get isThere() {
    return this.#forms.length > 0;
  }

  /** Whether the form changed: a person went to another one. */
  choose(form) {
    const index = this.#forms.indexOf(form);
    const changes = index >= 0 && index !== this.#active;
    if (index >= 0) this.#active = index;
    for (const one of this.#forms) one.toggleAttribute("data-active", one === this.form);
    return changes;
  }

  /** What the span is of: the letter of the result beside which the form stands. */
  get name() {
    return this.form?.closest("[data-letter]")?.dataset.letter ?? say("the span");
  }

  has(node) {
    return node?.form === this.form && (node?.name === "start" || node?.name === "end");
  }

  /** @returns {[number, number] | null} null while a field is blank or no number */
  get span() {
    if (!this.form) return null;
    const texts = fields(this.form).map(({ value }) => value.trim());
    const span = texts.map(secondsOf);
    return texts.every(Boolean) && span.every(Number.isFinite) && span[0] <= span[1] ? span : null;
  }

  /** Writes both ends as finely as the view shows them; others hear of it as of typing. */
  set(span, view) {
    if (fold(this.form)) fold(this.form).open = true;
    fields(this.form).forEach((field, i) => {
      const text = secondsText(span[i], view);
      if (secondsOf(field.value) === secondsOf(text) && field.value) return;
      field.value = text;
      field.dispatchEvent(new Event("input", { bubbles: true }));
    });
  }
}

const fold = (form) => form?.elements.start.closest("details");
const fields = (form) => [form.elements.start, form.elements.end];
