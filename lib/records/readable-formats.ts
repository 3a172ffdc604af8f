/** What a refused file is told. */
export const readableFormats =
  'what can be read is XLSX, CSV and text with any delimiter, Parquet, Arrow and JSON lines, each also inside gzip or zip';
