package sectorglass.recovery;

import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;

/** SHA-256 in a thread of its own while the next piece is read and written. Short content is hashed at once. */
final class HashAhead implements AutoCloseable {
    private static final int SMALL = 1 << 18;

    private final MessageDigest digest;
    private final byte[][] buffers;
    private final ExecutorService hasher;
    private Future<?> running;
    private int turn;

    HashAhead(int size) {
        try {
            digest = MessageDigest.getInstance("SHA-256");
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java platform has SHA-256", e);
        }
        boolean alone = size <= SMALL;
        buffers = new byte[alone ? 1 : 2][size];
        hasher = alone ? null : Executors.newSingleThreadExecutor(task -> {
            Thread thread = new Thread(task, "hashing");
            thread.setDaemon(true);
            return thread;
        });
    }

    /** A buffer that nobody is hashing. */
    byte[] buffer() {
        turn = (turn + 1) % buffers.length;
        return buffers[turn];
    }

    /** Hashes a buffer; it may be read, but not changed, until the buffer after the next is asked for. */
    void update(byte[] buffer, int length) {
        if (hasher == null) {
            digest.update(buffer, 0, length);
        } else {
            await();
            running = hasher.submit(() -> digest.update(buffer, 0, length));
        }
    }

    private void await() {
        try {
            if (running != null) {
                running.get();
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
        await();
        return HexFormat.of().formatHex(digest.digest());
    }

    @Override
    public void close() {
        if (hasher != null) {
            hasher.shutdownNow();
        }
    }
}
