package sectorglass.recovery;

import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;

/** SHA-256 in a thread of its own while the next pieces are read and written. Short content is hashed at once. */
final class HashAhead implements AutoCloseable {
    private static final int SMALL = 1 << 18;
    /** Pieces that may wait to be hashed: as reading and hashing take turns in being the slower one, more than one. */
    private static final int AHEAD = 8;

    private final MessageDigest digest;
    private final byte[][] buffers;
    private final ExecutorService hasher;
    /** What each buffer is waiting for. */
    private final Future<?>[] running;
    private int turn;

    HashAhead(int size) {
        try {
            digest = MessageDigest.getInstance("SHA-256");
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java platform has SHA-256", e);
        }
        boolean alone = size <= SMALL;
        buffers = new byte[alone ? 1 : AHEAD][size];
        running = new Future<?>[buffers.length];
        hasher = alone ? null : Executors.newSingleThreadExecutor(task -> {
            Thread thread = new Thread(task, "hashing");
            thread.setDaemon(true);
            return thread;
        });
    }

    /** A buffer that nobody is hashing. */
    byte[] buffer() {
        turn = (turn + 1) % buffers.length;
        await(running[turn]);
        running[turn] = null;
        return buffers[turn];
    }

    /** Hashes the buffer given last; it may be read, but not changed, until {@link #buffer} gives it again. */
    void update(int length) {
        byte[] buffer = buffers[turn];
        if (hasher == null) {
            digest.update(buffer, 0, length);
        } else {
            running[turn] = hasher.submit(() -> digest.update(buffer, 0, length));
        }
    }

    private static void await(Future<?> task) {
        try {
            if (task != null) {
                task.get();
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new sectorglass.image.Progress.Stopped();
        } catch (ExecutionException e) {
            throw new IllegalStateException(e.getCause());
        }
    }

    /** The hash of everything, lower case hex. */
    String hex() {
        for (Future<?> task : running) {
            await(task);
        }
        return HexFormat.of().formatHex(digest.digest());
    }

    @Override
    public void close() {
        if (hasher != null) {
            hasher.shutdownNow();
        }
    }
}
