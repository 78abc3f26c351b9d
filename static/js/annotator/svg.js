/** SVG elements, made by script: no markup, no inline style. */
const SVG = "http://www.w3.org/2000/svg";

/** @returns {SVGElement} */
export function svg(name, attributes = {}, ...children) {
  const made = document.createElementNS(SVG, name);
  set(made, attributes);
  made.append(...children);
  return made;
}

export function set(element, attributes) {
  for (const [name, value] of Object.entries(attributes)) element.setAttribute(name, value);
}
