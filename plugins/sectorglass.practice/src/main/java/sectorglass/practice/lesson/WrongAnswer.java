package sectorglass.practice.lesson;

/**
 * A typical wrong answer and its explanation.
 *
 * @param pattern what the answer would be: a place for a click or a range, a number expression, a quoted text, a check id
 * @param why what the person probably thought, and what is so
 */
public record WrongAnswer(String pattern, Words why) { }
