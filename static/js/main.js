/** Defines the elements; pages work without them. Those of pictures come where there are any. */
import { BenchReadingElement } from "./elements/bench-reading.js";
import { BenchSheetElement } from "./elements/bench-sheet.js";

BenchSheetElement.define();
BenchReadingElement.define();
if (document.querySelector("photo-annotator")) {
  import("./elements/photo-annotator.js").then((module) => module.PhotoAnnotatorElement.define());
}
if (document.querySelector("photo-upload")) {
  import("./elements/photo-upload.js").then((module) => module.PhotoUploadElement.define());
}
