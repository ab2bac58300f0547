package sectorglass.image.store;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.ClosedChannelException;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.BasicFileAttributes;
import java.util.Arrays;
import java.util.concurrent.atomic.AtomicReference;
import java.util.function.Consumer;

import sectorglass.image.ReadState;

/**
 * One file, read at positions. A channel is closed by the platform when a thread that reads through it is interrupted, for all
 * threads; it is then opened again, provided that the path still leads to the same file.
 */
public final class StoredFile implements StoredBytes {
    /** Bytes per read call: bounds the direct buffer that the platform keeps per thread. */
    private static final int SLICE = 1 << 20;
    /** Bytes of one attempt after a larger read failed. */
    private static final int SMALL = 4096;
    /** Small attempts that may fail in one call before the rest counts as failed without another attempt. */
    private static final int PATIENCE = 64;
    private static final int REOPENINGS = 100;

    private final Path path;
    private final FileHandles handles;
    private final Consumer<String> trouble;
    private final AtomicReference<Object> identity = new AtomicReference<>();
    private volatile long length;
    private volatile boolean closed;
    private FileChannel channel;
    private int users;

    /**
     * Opens the file once to see that it can be read.
     *
     * @param trouble hears of a failure later on, as the reason in the platform's words; may be called often
     */
    public StoredFile(Path path, FileHandles handles, Consumer<String> trouble) throws IOException {
        this.path = path;
        this.handles = handles;
        this.trouble = trouble;
        this.length = size();
    }

    /** The file. */
    public Path path() {
        return path;
    }

    @Override
    public long length() {
        return length;
    }

    /** Asks for the length anew; never becomes shorter. */
    public void grow() {
        try {
            length = Math.max(length, size());
        } catch (IOException e) {
            trouble.accept(words(e));
        }
    }

    private long size() throws IOException {
        FileChannel open = acquire();
        try {
            return open.size();
        } finally {
            release();
        }
    }

    /** What one call has gone through. */
    private static final class Call {
        private int patience = PATIENCE;
        /** Whether the thread was interrupted: put off until the bytes are there. */
        private boolean interrupted = Thread.interrupted();
    }

    @Override
    public void read(long at, byte[] into, int offset, int count, Faults faults) {
        Call call = new Call();
        for (int done = 0; done < count; done += SLICE) {
            slice(at + done, into, offset + done, Math.min(SLICE, count - done), done, call, faults);
        }
        if (call.interrupted) {
            Thread.currentThread().interrupt();
        }
    }

    private void slice(long at, byte[] into, int offset, int count, int from, Call call, Faults faults) {
        try {
            if (call.patience > 0) {
                int got = attempt(at, into, offset, count, call);
                if (got < count) {
                    trouble.accept("the file ends at byte " + (at + got));
                    lost(into, offset + got, count - got, from + got, faults);
                }
                return;
            }
        } catch (IOException e) {
            trouble.accept(words(e));
            call.patience--;
            if (count > SMALL) {
                for (int done = 0; done < count; ) {
                    int part = (int) Math.min(SMALL - (at + done) % SMALL, count - done);
                    slice(at + done, into, offset + done, part, from + done, call, faults);
                    done += part;
                }
                return;
            }
        }
        lost(into, offset, count, from, faults);
    }

    private static void lost(byte[] into, int offset, int count, int from, Faults faults) {
        Arrays.fill(into, offset, offset + count, (byte) 0);
        faults.missing(from, count, ReadState.FAILED);
    }

    private int attempt(long at, byte[] into, int offset, int count, Call call) throws IOException {
        ByteBuffer buffer = ByteBuffer.wrap(into, offset, count);
        for (int reopened = 0;; reopened++) {
            FileChannel open = acquire();
            try {
                while (buffer.hasRemaining() && open.read(buffer, at + buffer.position() - offset) >= 0) {
                    // until full or at the end
                }
                return buffer.position() - offset;
            } catch (ClosedChannelException e) {
                call.interrupted |= Thread.interrupted();
                if (reopened == REOPENINGS) {
                    throw e;
                }
            } finally {
                release();
            }
        }
    }

    private FileChannel acquire() throws IOException {
        handles.used(this);
        synchronized (this) {
            if (closed) {
                throw new IOException("the image was closed");
            }
            if (channel == null || !channel.isOpen()) {
                Object key = Files.readAttributes(path, BasicFileAttributes.class).fileKey();
                if (!identity.compareAndSet(null, key) && key != null && !key.equals(identity.get())) {
                    throw new IOException("another file has taken the place of the one that was opened");
                }
                channel = FileChannel.open(path, StandardOpenOption.READ);
            }
            users++;
            return channel;
        }
    }

    private synchronized void release() {
        users--;
    }

    /** Closes the channel where nobody reads through it; whether it is closed now. */
    synchronized boolean closeIfIdle() {
        if (users > 0) {
            return false;
        }
        shut();
        return true;
    }

    private void shut() {
        try {
            if (channel != null) {
                channel.close();
            }
        } catch (IOException e) {
            trouble.accept(words(e));
        }
        channel = null;
    }

    @Override
    public void close() {
        synchronized (this) {
            closed = true;
            shut();
        }
        handles.closed(this);
    }

    private static String words(IOException e) {
        return e.getMessage() == null ? e.getClass().getSimpleName() : e.getMessage();
    }
}
