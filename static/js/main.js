/** Defines the elements; pages work without them. */
import { BenchReadingElement } from "./elements/bench-reading.js";
import { BenchSheetElement } from "./elements/bench-sheet.js";

BenchSheetElement.define();
BenchReadingElement.define();
