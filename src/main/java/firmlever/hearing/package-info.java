/**
 * Hearing: what a customer's words say, as data. Each language is one file of word classes and
 * patterns beside the vocabulary; the code knows grammar and no words. Pure: no input or output but
 * the language files, each read once when it is first needed.
 *
 * <p><b>Hearing.</b> {@code hearing/Hearing} turns a complaint into findings, history and the
 * clauses it did not understand. It knows grammar and no words: these are data, {@code
 * rules/vocabulary/hearing/{en,de,fr}.json}, with word classes ({@code leak} is every form of it,
 * {@code spong*} a beginning, {@code let_go} several words heard as one) and patterns over classes
 * (the signs stand at {@code Pattern}). {@code Words} cuts into clauses, {@code Selection} keeps of
 * patterns that want the same words the one that asks for most, {@code Stance} says whether it is
 * claimed, denied, guessed or open; what others say and the speaker does not believe is open at
 * most ({@code REPORTED}, {@code DISBELIEVED}). {@code Leaks} lets a leak that is claimed stand
 * where it is denied as well, {@code Heat} takes cooling down for no firming up. Who did a work is
 * said only where somebody is named. {@code Likeness} suggests and never ticks: {@code ask} puts
 * words nobody understood to the person with what they are most like among the wordings of {@code
 * sayings-{en,de,fr}.json}. Measured by a separate program on {@code complaints-6}: of 102 clauses
 * so offered two in three had a right one among three guesses (one in seven with the labels of the
 * complaints shuffled), and 22 of 65 missed findings stood there (3 shuffled). The files are held
 * to their shape by tests, not at run time. {@code src/test/benchmarks hearing
 * cases/hearing/*.jsonl --misses} shows what is heard amiss, {@code cases/hearing/README.md} who
 * wrote them and which were read by nobody: mending by the words of a few authors made F1 0.92 on
 * these and 0.61 on others; two authors nobody has read stand at 0.75 ({@code complaints-10}).
 *
 * <p><b>What is learned.</b> People say a thing in more ways than anybody lists. {@code Ear} holds
 * weights (logistic regression, each meaning against all else) for the {@code Signs} of a run of
 * one to three clauses: words, their beginnings and ends, neighbours, word classes; {@code
 * Learning} (tests) learns them from the marked complaints of {@code cases/hearing}. {@code
 * Practice} lets it doubt what a pattern heard (then unsure; a leak is never doubted) and add what
 * no pattern met. It denies nothing by itself, since a denial clears a brake, and what a pattern
 * met as a denial, a guess or a wish stays one. What stays unsure is a hint ({@code
 * CaseFile.hinted}): evidence of little weight, and no finding. Authors nobody had read are heard
 * at F1 0.75 with it and 0.71 without ({@code complaints-10}; 0.04 with their labels shuffled); a
 * file is 1.7 to 2 MB: 83,000 to 140,000 signs seen, 600,000 to 700,000 weights kept to a byte.
 * Fewer weights (L1, or the thousand strongest of each meaning) hear less. A hearing takes about
 * 0.6 ms, 0.35 before.
 *
 * <p><b>The complaint.</b> {@code hearing/Heeding} adds what was heard to a case below what the
 * file says itself, marked {@code only-told}. {@code Collector.weighReport} weighs a rider's word
 * by how often riders say it without its being there ({@code told-falsely}), and every look by what
 * it overlooks ({@code overlooked}; four authors pooled, from memory). Silence is not evidence: on
 * the 88 published cases no weight of it made the log score better; nor did base rates learned from
 * them (cross-validated by source: 42 first before and after, the log score worse), so these stay
 * elicited. {@code check --report} prints how often the cause is right by findings, by words, and
 * by both. The import of a table listens, and the review does where no finding is on record.
 */
@NullMarked
package firmlever.hearing;

import org.jspecify.annotations.NullMarked;
