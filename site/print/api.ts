// What the page knows of the typeface that goes along in PDFs.

/** The script that is loaded when the first PDF is asked for. */
export interface PrintPart {
  /** As the core reads it. */
  faces: unknown;
}
