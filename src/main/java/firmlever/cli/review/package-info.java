/**
 * The commands of the reviewer: a shop's tables taken in ({@code import}), and its comebacks
 * reviewed here or, by {@code Elsewhere}, on other machines.
 */
package firmlever.cli.review;
