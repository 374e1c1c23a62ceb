/**
 * Every name that rules, cases and outputs may use, and what it means.
 *
 * <p><b>Looks and leaks.</b> Symptoms with the same {@code look} ({@code
 * rules/vocabulary/looks.json}) are all seen in that one look. Places that can leak have a {@code
 * height}: {@code leak-tracing} asks for the highest wet spot; those above it are dry then, those
 * below stay open. What runs down from above is in the file of each cause ({@code weep-along-hose},
 * {@code wet-at-caliper}); nothing is taken apart before ({@code rules/actions/order.drl}).
 *
 * <p><b>Coarse and fine.</b> A symptom of {@code symptoms.json} may be a {@code kind-of} a coarser
 * one ("weep at the lever port" of "wet at the lever" of "wet place found"), and may have an {@code
 * opposite} ("firm at the end" of "no hard stop"), which case files may use, and others how their
 * absence is {@code denied} in plain words. Two rules of {@code rules/readings/inference.drl} carry
 * what follows; {@code Collector} lets the finer finding weigh for the coarser, never both, and
 * what shows a kind shows the coarser symptom too ({@code CountedOnceTest}).
 */
@NullMarked
package firmlever.vocabulary;

import org.jspecify.annotations.NullMarked;
