package sectorglass.make;

import java.io.Closeable;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Objects;

/**
 * A file as a medium. Blocks that hold only zeros are not written, so they stay holes where the file system has such; at most
 * 16 MiB are kept in memory, whatever the size. Close it to have everything in the file.
 */
public final class SparseFile implements Medium, Closeable {
    private static final int PAGE = 1 << 16;
    private static final int BLOCK = 4096;
    private static final int PAGES = 256;

    private static final class Page {
        private final byte[] bytes = new byte[PAGE];
        private boolean stored;
        private boolean changed;
    }

    private final FileChannel channel;
    private final long bytes;
    private final LinkedHashMap<Long, Page> pages = new LinkedHashMap<>(PAGES * 2, 0.75f, true);
    private long lastIndex = -1;
    private Page last;

    private SparseFile(FileChannel channel, long bytes) {
        this.channel = channel;
        this.bytes = bytes;
    }

    /** Makes a file of that size, all zero; an older file of that name is replaced. */
    public static SparseFile create(Path path, long bytes) throws IOException {
        FileChannel channel = FileChannel.open(path, StandardOpenOption.CREATE, StandardOpenOption.TRUNCATE_EXISTING,
                StandardOpenOption.READ, StandardOpenOption.WRITE, StandardOpenOption.SPARSE);
        if (bytes > 0) {
            channel.write(ByteBuffer.wrap(new byte[1]), bytes - 1);
        }
        return new SparseFile(channel, bytes);
    }

    /** Opens a file that was made before, to plant damages in it. Never meant for an image of anybody's disk. */
    public static SparseFile open(Path path) throws IOException {
        FileChannel channel = FileChannel.open(path, StandardOpenOption.READ, StandardOpenOption.WRITE);
        return new SparseFile(channel, channel.size());
    }

    @Override
    public long bytes() {
        return bytes;
    }

    @Override
    public void read(long at, byte[] into, int offset, int length) throws IOException {
        Objects.checkFromIndexSize(at, length, bytes);
        Objects.checkFromIndexSize(offset, length, into.length);
        for (int done = 0; done < length;) {
            int inPage = (int) ((at + done) % PAGE);
            int count = Math.min(length - done, PAGE - inPage);
            System.arraycopy(page((at + done) / PAGE).bytes, inPage, into, offset + done, count);
            done += count;
        }
    }

    @Override
    public void write(long at, byte[] from, int offset, int length) throws IOException {
        Objects.checkFromIndexSize(at, length, bytes);
        Objects.checkFromIndexSize(offset, length, from.length);
        for (int done = 0; done < length;) {
            int inPage = (int) ((at + done) % PAGE);
            int count = Math.min(length - done, PAGE - inPage);
            Page page = page((at + done) / PAGE);
            System.arraycopy(from, offset + done, page.bytes, inPage, count);
            page.changed = true;
            done += count;
        }
    }

    @Override
    public void close() throws IOException {
        try (channel) {
            for (Map.Entry<Long, Page> entry : pages.entrySet()) {
                store(entry.getKey(), entry.getValue());
            }
            pages.clear();
        }
    }

    private Page page(long index) throws IOException {
        if (index == lastIndex) {
            return last;
        }
        Page page = pages.get(index);
        if (page == null) {
            if (pages.size() >= PAGES) {
                Map.Entry<Long, Page> eldest = pages.entrySet().iterator().next();
                store(eldest.getKey(), eldest.getValue());
                pages.remove(eldest.getKey());
            }
            page = load(index);
            pages.put(index, page);
        }
        lastIndex = index;
        last = page;
        return page;
    }

    private Page load(long index) throws IOException {
        Page page = new Page();
        ByteBuffer into = ByteBuffer.wrap(page.bytes);
        long at = index * PAGE;
        while (into.hasRemaining()) {
            int read = channel.read(into, at + into.position());
            if (read < 0) {
                break;
            }
        }
        page.stored = !zero(page.bytes, 0, PAGE);
        return page;
    }

    private void store(long index, Page page) throws IOException {
        if (!page.changed) {
            return;
        }
        int length = (int) Math.min(PAGE, bytes - index * PAGE);
        int from = 0;
        while (from < length) {
            int to = from;
            while (to < length && (page.stored || !zero(page.bytes, to, Math.min(BLOCK, length - to)))) {
                to = Math.min(length, to + BLOCK);
            }
            if (to > from) {
                ByteBuffer part = ByteBuffer.wrap(page.bytes, from, to - from);
                while (part.hasRemaining()) {
                    channel.write(part, index * PAGE + part.position());
                }
                from = to;
            } else {
                from += BLOCK;
            }
        }
        page.changed = false;
    }

    private static boolean zero(byte[] bytes, int from, int length) {
        for (int i = from; i < from + length; i++) {
            if (bytes[i] != 0) {
                return false;
            }
        }
        return true;
    }
}
