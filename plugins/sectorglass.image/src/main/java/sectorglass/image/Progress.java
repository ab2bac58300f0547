package sectorglass.image;

/** Watches a long piece of work and can stop it. Called from the thread that works, often. */
public interface Progress {

    /** Never cancels, shows nothing. */
    Progress NONE = new Progress() {
        @Override
        public boolean cancelled() {
            return false;
        }

        @Override
        public void at(String what, long done, long total) {
            // nobody watches
        }
    };

    /** Whether the work should stop as soon as it can. */
    boolean cancelled();

    /**
     * Tells how far the work is.
     *
     * @param what what is being done, in words
     * @param done units done
     * @param total units in all, or 0 where not known
     */
    void at(String what, long done, long total);

    /** @throws Stopped if the work should stop */
    default void checkCancelled() {
        if (cancelled()) {
            throw new Stopped();
        }
    }

    /** The person stopped the work. */
    final class Stopped extends RuntimeException {
        private static final long serialVersionUID = 1L;

        /** Stopped by the person. */
        public Stopped() {
            super("stopped", null, false, false);
        }
    }
}
