package sectorglass.practice.lesson.read;

/**
 * A line {@code key: value} with what is indented below it.
 *
 * @param key without the language
 * @param language two letters, or null
 * @param value without blanks around it
 * @param line from 1
 */
record KeyLine(String key, String language, String value, int line) { }
