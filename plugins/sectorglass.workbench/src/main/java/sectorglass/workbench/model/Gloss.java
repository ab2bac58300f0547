package sectorglass.workbench.model;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;
import java.util.concurrent.Executor;

import sectorglass.image.ByteRange;

/**
 * The fields of an image, page by page. Asking returns at once with what is known; missing pages are worked out on the worker,
 * those asked for last first, and {@code ready} is called on the window's thread when some have come.
 */
public final class Gloss {
    /** Bytes per page. */
    static final int PAGE = 4096;
    private static final int KEPT = 1024;

    private final Spans spans;
    private final long end;
    private final Executor worker;
    private final Executor window;
    private final Runnable ready;
    private final TreeSet<Long> wanted = new TreeSet<>();
    private boolean working;
    private volatile boolean closed;
    private final Map<Long, List<Span>> pages = new LinkedHashMap<>(64, 0.75f, true) {
        private static final long serialVersionUID = 1L;

        @Override
        protected boolean removeEldestEntry(Map.Entry<Long, List<Span>> eldest) {
            return size() > KEPT;
        }
    };

    Gloss(OpenDisk open, Decodings decodings, Executor worker, Executor window, Runnable ready) {
        this.spans = new Spans(open, decodings);
        this.end = open.image().bytes();
        this.worker = worker;
        this.window = window;
        this.ready = ready;
    }

    /** The fields known to hold a byte of the range, by address; pages that are not known yet are asked for. */
    public List<Span> in(ByteRange range) {
        List<Span> found = new ArrayList<>();
        List<Long> missing = new ArrayList<>();
        Span last = null;
        synchronized (pages) {
            for (long page = range.start() / PAGE; page * PAGE < Math.min(end, range.end()); page++) {
                List<Span> known = pages.get(page);
                if (known == null) {
                    missing.add(page);
                    continue;
                }
                for (Span span : known) {
                    // a field over several pages is in each of them
                    if (span.start() < range.end() && span.end() > range.start() && (last == null || span.start() >= page * PAGE
                            || found.stream().noneMatch(other -> other.node() == span.node()))) {
                        found.add(span);
                        last = span;
                    }
                }
            }
            if (!missing.isEmpty()) {
                wanted.clear();
                wanted.addAll(missing);
                if (!working) {
                    working = true;
                    worker.execute(this::work);
                }
            }
        }
        return found;
    }

    void close() {
        closed = true;
    }

    private void work() {
        while (true) {
            long page;
            synchronized (pages) {
                if (closed || wanted.isEmpty()) {
                    working = false;
                    break;
                }
                page = wanted.pollFirst();
            }
            List<Span> found = spans.in(new ByteRange(page * PAGE, Math.min(PAGE, end - page * PAGE)));
            synchronized (pages) {
                pages.put(page, found);
            }
        }
        if (!closed) {
            window.execute(ready);
        }
    }
}
