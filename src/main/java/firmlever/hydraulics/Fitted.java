package firmlever.hydraulics;

/**
 * A brake that fits the readings.
 *
 * @param brake sizes and stiffness as drawn
 * @param condition its state; added give may be below zero where the brake is stiffer than its kind
 */
public record Fitted(Brake brake, Condition condition) {}
