package sectorglass.decode.internal.run;

import sectorglass.decode.FieldNode.State;
import sectorglass.decode.internal.text.Texts;

/**
 * What is wrong with a field. The sentence is made when asked for.
 *
 * @param cause the kind
 * @param arguments texts for the sentence
 */
public record Trouble(Cause cause, Object... arguments) {

    /** Kinds of trouble. */
    public enum Cause {
        /** Bytes were asked for beyond the end: asked, there. */
        END(State.CLIPPED),
        /** No terminator up to the end. */
        NO_TERMINATOR(State.CLIPPED),
        /** A position before or after the window. */
        OUTSIDE(State.CLIPPED),
        /** Elements end before the count is reached. */
        FEWER(State.CLIPPED),
        /** Bytes were not read. */
        UNREAD(State.UNREAD),
        /** Another field is not read: its name. */
        NEEDS_UNREAD(State.UNREAD),
        /** Another field is cut off: its name. */
        NEEDS_CUT(State.CLIPPED),
        /** Another field has no usable value: its name. */
        NEEDS_DAMAGED(State.VIOLATED),
        /** Another field does not exist here: its name. */
        NEEDS_ABSENT(State.VIOLATED),
        /** {@code valid} or {@code contents}: expected. */
        NOT_EQUAL(State.VIOLATED),
        /** {@code valid/min}. */
        LESS(State.VIOLATED),
        /** {@code valid/max}. */
        GREATER(State.VIOLATED),
        /** {@code valid/any-of}. */
        NOT_ANY_OF(State.VIOLATED),
        /** {@code valid/in-enum}. */
        NOT_IN_ENUM(State.VIOLATED),
        /** {@code valid/expr}. */
        NOT_EXPR(State.VIOLATED),
        /** Text is no number. */
        CONVERSION(State.VIOLATED),
        /** Division by zero. */
        DIVISION(State.VIOLATED),
        /** No such element. */
        INDEX(State.VIOLATED),
        /** A value of the wrong type. */
        TYPE(State.VIOLATED),
        /** An encoding this Java does not know. */
        ENCODING(State.VIOLATED),
        /** Byte order not decided. */
        ENDIAN(State.VIOLATED),
        /** An instance that needs itself. */
        CYCLE(State.VIOLATED),
        /** A process step that failed. */
        PROCESS(State.VIOLATED),
        /** A negative size. */
        NEGATIVE(State.VIOLATED),
        /** A parameter that the caller did not give. */
        NO_PARAM(State.VIOLATED),
        /** Limit on nodes. */
        NODES(State.CLIPPED),
        /** Limit on depth. */
        DEPTH(State.CLIPPED),
        /** Limit on bytes made by processing and by expressions. */
        BYTES(State.CLIPPED),
        /** Elements without bytes that never end. */
        STUCK(State.CLIPPED),
        /** The person stopped the work. */
        STOPPED(State.CLIPPED);

        private final State state;

        Cause(State state) {
            this.state = state;
        }
    }

    /** State of a field that has it. */
    public State state() {
        return cause.state;
    }

    /** Whether the value is there and only breaks a rule of the spec. */
    public boolean violation() {
        return switch (cause) {
            case NOT_EQUAL, LESS, GREATER, NOT_ANY_OF, NOT_IN_ENUM, NOT_EXPR -> true;
            default -> false;
        };
    }

    /** What it means for a field that needs the field of this name. */
    public Trouble forDependent(String name) {
        return switch (cause) {
            case NEEDS_UNREAD, NEEDS_CUT, NEEDS_DAMAGED, NEEDS_ABSENT, NODES, DEPTH, BYTES, STOPPED, CYCLE -> this;
            default -> new Trouble(switch (state()) {
                case UNREAD -> Cause.NEEDS_UNREAD;
                case CLIPPED -> Cause.NEEDS_CUT;
                default -> Cause.NEEDS_DAMAGED;
            }, name);
        };
    }

    /** The sentence. */
    public String sentence() {
        return Texts.of("trouble." + cause.name().toLowerCase(java.util.Locale.ROOT), arguments);
    }
}
