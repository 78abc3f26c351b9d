/** Defines the elements; pages work without them. */
import { BenchReadingElement } from "./elements/bench-reading.js";
import { BenchSheetElement } from "./elements/bench-sheet.js";
import { PhotoAnnotatorElement } from "./elements/photo-annotator.js";
import { PhotoUploadElement } from "./elements/photo-upload.js";

BenchSheetElement.define();
BenchReadingElement.define();
PhotoAnnotatorElement.define();
PhotoUploadElement.define();
