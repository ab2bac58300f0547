package sectorglass.cli;

import java.util.concurrent.FutureTask;

/**
 * Does what will be needed soon in a thread beside: a short command spends most of its time loading classes, and there is more than one
 * processor to load them.
 */
final class Ahead {

    private Ahead() {
    }

    /** Starts work whose result nobody waits for; a failure shows when the work is really needed. */
    static void run(Runnable work) {
        start(new FutureTask<>(work, null));
    }

    /** Starts work; {@link FutureTask#get} waits for it. */
    static <T> FutureTask<T> start(FutureTask<T> task) {
        Thread thread = new Thread(task, "ahead");
        thread.setDaemon(true);
        thread.start();
        return task;
    }
}
