package sectorglass.practice.lesson;

import java.util.List;

/**
 * What a step asks for. Places and values are expressions (docs/lessons-format.md), so that the right answer is what stands on the disk and
 * survives a change of the disk.
 */
public sealed interface Task {

    /** The word for it in the file. */
    String word();

    /** Nothing: read on. Answered by {@link Answer.Read}. */
    record ReadOn() implements Task {
        @Override
        public String word() {
            return "read";
        }
    }

    /**
     * Put the caret on a byte. Answered by {@link Answer.OnByte}; any byte of the target is right.
     *
     * @param target a place
     */
    record ClickByte(String target) implements Task {
        @Override
        public String word() {
            return "click";
        }
    }

    /**
     * Select exactly these bytes. Answered by {@link Answer.Selected}.
     *
     * @param target a place
     */
    record SelectBytes(String target) implements Task {
        @Override
        public String word() {
            return "select";
        }
    }

    /**
     * Type a number. Answered by {@link Answer.Typed}; {@code 0x800}, {@code 800h}, {@code 2048} and {@code 2 048} are the same.
     *
     * @param answer a number expression
     * @param unit what is counted: {@code lba}, {@code bytes}, {@code sectors}, {@code clusters}, {@code number}, or {@code hex}: digits
     *     count as hex without a mark, too
     */
    record TypeNumber(String answer, String unit) implements Task {
        @Override
        public String word() {
            return "number";
        }
    }

    /**
     * Type a text. Answered by {@link Answer.Typed}; case and blanks do not count.
     *
     * @param answer a text expression
     */
    record TypeText(String answer) implements Task {
        @Override
        public String word() {
            return "text";
        }
    }

    /**
     * Choose a finding. Answered by {@link Answer.Chosen}.
     *
     * @param check id of the rule whose finding is right
     * @param at a place the finding must touch, or null where every finding of the rule is right
     */
    record ChooseFinding(String check, String at) implements Task {
        @Override
        public String word() {
            return "finding";
        }
    }

    /**
     * Correct fields in the overlay. Answered by {@link Answer.Changed}; judged by what the checks say with the changes over the image.
     *
     * @param fields the fields to be changed; one most of the time
     * @param checks ids of the rules that must hold then
     */
    record CorrectField(List<Wanted> fields, List<String> checks) implements Task {

        /**
         * A field to be changed.
         *
         * @param target a place
         * @param answer the value it must have then, a number or text expression
         */
        public record Wanted(String target, String answer) { }

        /** Makes lists fixed. */
        public CorrectField {
            fields = List.copyOf(fields);
            checks = List.copyOf(checks);
        }

        /** The first field to be changed. */
        public String target() {
            return fields.get(0).target();
        }

        @Override
        public String word() {
            return "correct";
        }
    }
}
