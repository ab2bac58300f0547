package sectorglass.cli;

import java.io.PrintStream;

import sectorglass.image.Progress;

/** Shows progress on a terminal, at most four times a second; an interrupt of the thread stops the work. */
final class ConsoleProgress implements Progress {
    private static final long PAUSE = 250_000_000L;

    private final PrintStream err;
    private long shown = System.nanoTime();

    ConsoleProgress(PrintStream err) {
        this.err = err;
    }

    @Override
    public boolean cancelled() {
        return Thread.currentThread().isInterrupted();
    }

    @Override
    public void at(String what, long done, long total) {
        long now = System.nanoTime();
        if (now - shown >= PAUSE) {
            shown = now;
            err.print("\r" + what + (total > 0 ? ": " + 100 * done / total + " %" : "") + "        \r");
            err.flush();
        }
    }
}
