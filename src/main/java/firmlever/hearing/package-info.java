/**
 * Hearing: what a customer's words say, as data. Each language is one file of word classes and
 * patterns beside the vocabulary; the code knows grammar and no words. Pure: no input or output but
 * the language files, each read once when it is first needed.
 */
package firmlever.hearing;
