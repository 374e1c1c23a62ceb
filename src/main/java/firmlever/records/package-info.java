/**
 * Reading of batches: records of many files, one brake after the other, and what is rejected.
 *
 * <p><b>Import.</b> {@code Table} reads CSV, xlsx and ndjson into headings and rows, {@code
 * ColumnGuess} guesses a {@code CsvMapping}, {@code JobText} turns words into names by the hearing,
 * the trade words and the glossary, {@code TableImport} writes mapping and records and tells what
 * was lost.
 */
package firmlever.records;
