/** Reading of batches: records of many files, one brake after the other, and what is rejected. */
package firmlever.records;
