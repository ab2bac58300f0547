package sectorglass.practice.lesson;

/**
 * What is said to an answer.
 *
 * @param right whether it is right
 * @param explanation in words, with marks as in {@link Words} but without expressions; empty where a right answer needs no word
 * @param pattern which wrong thought explains it: {@code own} for the step's own explanations, else the name of a general pattern such as
 *     {@code swapped}; null where the answer is right or nothing explains it
 */
public record Judgement(boolean right, String explanation, String pattern) { }
