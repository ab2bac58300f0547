package sectorglass.workbench.pages;

import java.util.ArrayDeque;
import java.util.Arrays;
import java.util.Deque;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.concurrent.Executor;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.ThreadPoolExecutor;
import java.util.concurrent.TimeUnit;

import sectorglass.image.SectorImage;
import sectorglass.image.SectorStates;

/**
 * The bytes of an image, page by page. Asking returns at once with what has come; missing pages are read on a thread of their own,
 * those asked for last first, then one on either side, and {@code ready} is called on the window's thread when some have come. The
 * pages of a slow medium hold up neither the window nor the decoding of what is known.
 */
public final class Pages {
    /** Bytes per page: a multiple of every sector size. */
    static final int PAGE = 16 << 10;
    /** Pages kept: 8 MiB. */
    private static final int KEPT = 512;

    private final SectorImage image;
    private final Executor reader;
    private final Executor window;
    private final Runnable ready;
    private final Deque<Long> wanted = new ArrayDeque<>();
    private final Map<Long, Page> pages = new LinkedHashMap<>(64, 0.75f, true) {
        private static final long serialVersionUID = 1L;

        @Override
        protected boolean removeEldestEntry(Map.Entry<Long, Page> eldest) {
            return size() > KEPT;
        }
    };
    private boolean working;
    private boolean closed;
    private boolean telling;
    /** The pages asked for last; others are read ahead, and nobody is told. */
    private long seenFirst;
    private long seenLast;

    /**
     * The pages of an image.
     *
     * @param reader runs what reads; a task may take as long as the medium does
     * @param window runs a task on the window's thread, later
     * @param ready called there when pages have come
     */
    public Pages(SectorImage image, Executor reader, Executor window, Runnable ready) {
        this.image = image;
        this.reader = reader;
        this.window = window;
        this.ready = ready;
    }

    /** One thread for reading, which ends when nothing is left to do. */
    public static Executor reader() {
        ThreadPoolExecutor one = new ThreadPoolExecutor(1, 1, 5, TimeUnit.SECONDS, new LinkedBlockingQueue<>(), task -> {
            Thread thread = new Thread(task, "sectorglass pages");
            thread.setDaemon(true);
            return thread;
        });
        one.allowCoreThreadTimeOut(true);
        return one;
    }

    /** The image. */
    public SectorImage image() {
        return image;
    }

    /**
     * What is known of a stretch of the image; what is not is asked for.
     *
     * @param start image byte
     * @param length bytes; clipped to the image
     */
    public Known in(long start, int length) {
        int count = (int) Math.max(0, Math.min(length, image.bytes() - start));
        if (count == 0) {
            return Known.NOTHING;
        }
        byte[] bytes = new byte[count];
        byte[] codes = new byte[count];
        boolean complete = true;
        boolean clean = true;
        synchronized (pages) {
            Deque<Long> missing = new ArrayDeque<>();
            long last = (start + count - 1) / PAGE;
            for (long page = start / PAGE; page <= last; page++) {
                int from = (int) Math.max(0, page * PAGE - start);
                int to = (int) Math.min(count, (page + 1) * PAGE - start);
                Page known = pages.get(page);
                if (known == null || known.bytes().length < start + to - page * PAGE) {
                    pages.remove(page); // an image may grow
                    missing.add(page);
                    complete = false;
                    clean = false;
                    Arrays.fill(codes, from, to, Known.COMING);
                } else {
                    System.arraycopy(known.bytes(), (int) (start + from - page * PAGE), bytes, from, to - from);
                    clean &= known.states().allRead() || states(known.states(), start, from, to, codes);
                }
            }
            ask(missing, start / PAGE, last);
        }
        return new Known(start, bytes, codes, complete, clean);
    }

    /** The same, but gives pages that are missing a moment to come: it is not worth telling that they are being read. */
    public Known soon(long start, int length, int millis) {
        Known known = in(start, length);
        long end = System.nanoTime() + millis * 1_000_000L;
        synchronized (pages) {
            while (!known.complete() && working) {
                long left = (end - System.nanoTime()) / 1_000_000;
                if (left <= 0) {
                    break;
                }
                try {
                    pages.wait(left);
                } catch (InterruptedException e) {
                    Thread.currentThread().interrupt();
                    break;
                }
                known = in(start, length);
            }
        }
        return known;
    }

    private static boolean states(SectorStates states, long start, int from, int to, byte[] codes) {
        boolean clean = true;
        int size = states.sectorSize();
        for (int i = from; i < to;) {
            long lba = (start + i) / size;
            int end = (int) Math.min(to, (lba + 1) * size - start);
            byte code = (byte) states.at(lba).ordinal();
            clean &= code == 0;
            Arrays.fill(codes, i, end, code);
            i = end;
        }
        return clean;
    }

    private void ask(Deque<Long> missing, long first, long last) {
        boolean lacking = !missing.isEmpty();
        seenFirst = first;
        seenLast = last;
        // the neighbours, so that a scrolling window finds them there
        if (last + 1 <= (image.bytes() - 1) / PAGE && !pages.containsKey(last + 1)) {
            missing.add(last + 1);
        }
        if (first > 0 && !pages.containsKey(first - 1)) {
            missing.add(first - 1);
        }
        if (missing.isEmpty() || closed) {
            return;
        }
        if (lacking || wanted.isEmpty()) {
            wanted.clear();
            wanted.addAll(missing);
        }
        if (!working) {
            working = true;
            reader.execute(this::work);
        }
    }

    /** Ends the reading; nothing comes any more. */
    public void close() {
        synchronized (pages) {
            closed = true;
            wanted.clear();
            pages.notifyAll();
        }
    }

    private void work() {
        while (true) {
            long page;
            synchronized (pages) {
                if (closed || wanted.isEmpty()) {
                    working = false;
                    pages.notifyAll();
                    return;
                }
                page = wanted.pollFirst();
                if (pages.containsKey(page)) {
                    continue;
                }
            }
            long at = page * PAGE;
            byte[] bytes = new byte[(int) Math.min(PAGE, image.bytes() - at)];
            Page come = new Page(bytes, image.read(at, bytes, 0, bytes.length));
            synchronized (pages) {
                pages.put(page, come);
                pages.notifyAll();
                if (!closed && !telling && page >= seenFirst && page <= seenLast) {
                    telling = true;
                    window.execute(this::tell);
                }
            }
        }
    }

    private void tell() {
        synchronized (pages) {
            telling = false;
            if (closed) {
                return;
            }
        }
        ready.run();
    }
}
