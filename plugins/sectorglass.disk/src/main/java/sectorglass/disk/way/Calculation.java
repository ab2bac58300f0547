package sectorglass.disk.way;

/**
 * A piece of arithmetic.
 *
 * @param words what is computed, in words
 * @param numbers the same in whole decimal numbers, with {@code +}, {@code −}, {@code ×}, {@code ÷} (whole), {@code mod},
 *     {@code ^} (power) and parentheses
 * @param result what it comes to
 */
public record Calculation(String words, String numbers, long result) { }
