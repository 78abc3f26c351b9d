/** The drawing library is a script of its own: fetched once, and only where a chart is. */

let coming = null;

/** @returns {Promise<Function>} its constructor */
export function loadedLibrary(address) {
  coming ??= new Promise((resolve, reject) => {
    const script = document.createElement("script");
    script.src = address;
    script.onload = () => resolve(window.uPlot);
    script.onerror = () => reject(new Error("The chart's script did not come."));
    document.head.append(script);
  });
  return coming;
}
