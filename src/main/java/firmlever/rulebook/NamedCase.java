package firmlever.rulebook;

import firmlever.casefile.CaseFile;

/**
 * A case that may hold rules in place.
 *
 * @param name its file as a person would name it
 * @param target where a link to it leads
 */
public record NamedCase(String name, String target, CaseFile file) {}
