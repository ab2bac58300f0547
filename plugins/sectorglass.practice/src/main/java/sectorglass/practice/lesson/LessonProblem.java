package sectorglass.practice.lesson;

/**
 * A mistake in a file of lessons, disks or terms.
 *
 * @param file name of the file
 * @param line from 1
 * @param sentence what is wrong and what to do, in English
 */
public record LessonProblem(String file, int line, String sentence) {

    @Override
    public String toString() {
        return file + ", line " + line + ": " + sentence;
    }
}
