/**
 * Says that no key was read, where the scripts that ask for one tell only the console.
 *
 *   <passkey-notice>
 *     <p class="hint">Keys need a script …</p>          hidden once this script runs
 *     <p role="alert" hidden>No key was read …</p>
 *   </passkey-notice>
 */
export class PasskeyNoticeElement extends HTMLElement {
  #show = (event) => {
    event.preventDefault();
    this.querySelector("[role=alert]").hidden = false;
  };

  connectedCallback() {
    document.addEventListener("allauth.error", this.#show);
  }

  disconnectedCallback() {
    document.removeEventListener("allauth.error", this.#show);
  }

  static define(tag = "passkey-notice") {
    customElements.define(tag, this);
  }
}
