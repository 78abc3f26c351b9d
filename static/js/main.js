/** Defines the elements; pages work without them. Large ones come only where a page has them. */
import { BenchReadingElement } from "./elements/bench-reading.js";
import { BenchSheetElement } from "./elements/bench-sheet.js";
import { SignOutElement } from "./elements/sign-out.js";
import { keepOnlyFor } from "./lib/kept-here.js";

// A page of a fault does not know who is signed in, and forgets nothing.
const { person } = document.body.dataset;
if (person !== undefined) keepOnlyFor(localStorage, person);
SignOutElement.define();
BenchSheetElement.define();
BenchReadingElement.define();
if (document.querySelector("photo-annotator")) {
  import("./elements/photo-annotator.js").then((module) => module.PhotoAnnotatorElement.define());
}
if (document.querySelector("photo-upload")) {
  import("./elements/photo-upload.js").then((module) => module.PhotoUploadElement.define());
}
if (document.querySelector("log-chart")) {
  import("./elements/log-chart.js").then((module) => module.LogChartElement.define());
}
if (document.querySelector("read-on")) {
  import("./elements/read-on.js").then((module) => module.ReadOnElement.define());
}
if (document.querySelector("passkey-notice")) {
  import("./elements/passkey-notice.js").then((module) => module.PasskeyNoticeElement.define());
}
if (document.querySelector("review-sheet")) {
  import("./elements/review-sheet.js").then((module) => module.ReviewSheetElement.define());
}
if (document.querySelector("search-box")) {
  import("./elements/search-box.js").then((module) => module.SearchBoxElement.define());
}
if (document.querySelector("printout-progress")) {
  import("./elements/printout-progress.js").then((module) => module.PrintoutProgressElement.define());
}
if (document.querySelector("compare-photos")) {
  import("./elements/compare-photos.js").then((module) => module.ComparePhotosElement.define());
}
if (document.querySelector("compare-tray")) {
  import("./elements/compare-tray.js").then((module) => module.CompareTrayElement.define());
}
if (document.querySelector("copy-text")) {
  import("./elements/copy-text.js").then((module) => module.CopyTextElement.define());
}
