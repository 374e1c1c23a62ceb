/**
 * Tables of a shop, read as records: {@code Table} reads CSV, xlsx and ndjson into headings and
 * rows, {@code ColumnGuess} guesses a {@code CsvMapping}, by what the cells say where the headings
 * tell too little.
 */
@NullMarked
package firmlever.records.tables;

import org.jspecify.annotations.NullMarked;
