/**
 * The physics of one hydraulic disc brake, as pure functions: what a lever throw says about trapped
 * gas, how much fluid an exchange takes, how far the fluid is from boiling.
 *
 * <p>Nothing here reads, writes, keeps state or knows a unit library: every name carries its unit
 * (Mm, Ml, Mpa, N, C). Pressures are gauge unless a name says absolute. Every number that comes
 * from outside stands once in {@link firmlever.hydraulics.Figures}, with its source. Every result
 * guides a mechanic and never replaces the maker's instructions.
 */
@NullMarked
package firmlever.hydraulics;

import org.jspecify.annotations.NullMarked;
