/** Where a long form was saved from, so that saving it and staying loses no place. */
import { attempt } from "../lib/kept-here.js";

const KEPT = "bench-place";        // names of a field and of a form, never what was typed

const read = () => attempt(() => JSON.parse(sessionStorage.getItem(KEPT)));

export const savedPlace = {
  /**
   * The Enter key presses a button that nobody sees: then it is the field that has the focus.
   * @param {string} submission this page's form
   * @param {HTMLElement} button
   */
  note(submission, button) {
    const field = document.activeElement;
    const isField = button.tabIndex < 0 && button.form.contains(field) && field.id;
    const place = { submission, id: isField ? field.id : "" };
    attempt(() => sessionStorage.setItem(KEPT, JSON.stringify(place)));
  },

  submission: () => read()?.submission,

  /**
   * Focus as it was, with what the page says of the saving beside it; to the button if that was it.
   * @param {HTMLFormElement} form
   * @param {?Element} message
   */
  goBack(form, message) {
    const { id } = read();
    const place = (id && document.getElementById(id))
      || form.querySelector(".acts [name=save]");
    if (!place || !form.contains(place)) return;
    if (message) (place.closest(".entry") ?? place.closest(".acts"))?.before(message);
    whenLoaded(() => {
      place.focus({ preventScroll: true });
      place.scrollIntoView({ block: "center" });
    });
  },

  forget: () => attempt(() => sessionStorage.removeItem(KEPT)),
};

/** The browser itself goes to the address's fragment first. */
function whenLoaded(act) {
  if (document.readyState === "complete") act();
  else window.addEventListener("load", () => setTimeout(act), { once: true });
}
