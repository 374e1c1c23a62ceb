/**
 * The review as one page for people: {@code ReviewPage} sets its parts in order, {@code PageWriter}
 * writes what all of them are made of, and {@code CaseLinks} keeps the cases that numbers lead to.
 * Each part says its own subject, with its charts ({@code ReviewCharts}) and tables, in words that
 * text and JSON share.
 */
@NullMarked
package firmlever.comeback.report.page;

import org.jspecify.annotations.NullMarked;
