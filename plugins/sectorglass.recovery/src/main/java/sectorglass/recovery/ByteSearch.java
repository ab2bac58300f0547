package sectorglass.recovery;

import java.util.Arrays;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.function.LongPredicate;

import sectorglass.image.Progress;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorStates;

/**
 * Finds bytes in an image, forward or back. Only bytes that were read are found: a place that touches an unread sector is none, and the
 * result says how many sectors could not be looked at. Memory is constant. Two threads take the pieces of the image in turn, each
 * reads one and searches it while it is in the cache of its processor; places are given in order on the caller's thread.
 *
 * @param image where to look
 * @param from first image byte looked at
 * @param to image byte after the last one
 */
public record ByteSearch(SectorImage image, long from, long to) {
    /** Bytes read at once: they stay in the cache of a processor. */
    private static final int CHUNK = 512 << 10;
    /** Bytes of a piece, a multiple of the chunk: threads hand pieces over, and each handing over costs. */
    private static final int PIECE = 8 * CHUNK;
    private static final int THREADS = 2;
    /** Pieces in work at once. */
    private static final int AHEAD = 2 * THREADS;

    /**
     * How a search ended.
     *
     * @param hits places given to the caller
     * @param unreadSectors sectors in the range that were not read
     * @param ended whether the whole range was looked at; otherwise the caller stopped it
     */
    public record Result(long hits, long unreadSectors, boolean ended) { }

    /** The places found in a piece, ascending, and the sectors of it that were not read. */
    private static final class Places {
        private final long start;
        private int[] at = new int[16];
        private int count;
        private long unread;

        Places(long start) {
            this.start = start;
        }

        void add(int place) {
            if (count == at.length) {
                at = Arrays.copyOf(at, count * 2);
            }
            at[count++] = place;
        }
    }

    /** The whole image. */
    public static ByteSearch of(SectorImage image) {
        return new ByteSearch(image, 0, image.bytes());
    }

    /**
     * Gives every place in ascending order, overlapping ones too.
     *
     * @param hit receives the image byte of each place; false stops the search
     */
    public Result forward(Needle needle, LongPredicate hit, Progress progress) {
        return new Run(needle, hit, progress, false).run();
    }

    /** Gives every place in descending order; see {@link #forward}. */
    public Result backward(Needle needle, LongPredicate hit, Progress progress) {
        return new Run(needle, hit, progress, true).run();
    }

    private final class Run {
        private final NeedleScan scan;
        private final int length;
        private final LongPredicate hit;
        private final Progress progress;
        private final boolean back;
        private final long pieces = Math.max(0, (to - from + PIECE - 1) / PIECE);
        private final byte[][] buffers;
        private volatile boolean stopped;
        private long hits;
        private long unread;

        Run(Needle needle, LongPredicate hit, Progress progress, boolean back) {
            this.scan = new NeedleScan(needle);
            this.length = needle.length();
            this.hit = hit;
            this.progress = progress;
            this.back = back;
            this.buffers = new byte[(int) Math.min(AHEAD, pieces)][];
        }

        Result run() {
            ExecutorService workers = Executors.newFixedThreadPool(THREADS, task -> {
                Thread thread = new Thread(task, "search");
                thread.setDaemon(true);
                return thread;
            });
            try {
                return run(workers);
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
                throw new Progress.Stopped();
            } catch (ExecutionException e) {
                throw new IllegalStateException(e.getCause());
            } finally {
                stopped = true;
                workers.shutdown();
            }
        }

        private Result run(ExecutorService workers) throws InterruptedException, ExecutionException {
            Future<?>[] coming = new Future<?>[buffers.length];
            for (int i = 0; i < coming.length; i++) {
                coming[i] = start(workers, i);
            }
            for (long i = 0; i < pieces; i++) {
                progress.checkCancelled();
                progress.at("searching", i * PIECE, to - from);
                int slot = (int) (i % coming.length);
                Places places = (Places) coming[slot].get();
                if (i + coming.length < pieces) {
                    coming[slot] = start(workers, i + coming.length);
                }
                unread += places.unread;
                if (!give(places)) {
                    return new Result(hits, unread, false);
                }
            }
            return new Result(hits, unread, true);
        }

        /** A slot's buffer is free once its places were taken: they hold no bytes. */
        private Future<Places> start(ExecutorService workers, long turn) {
            int slot = (int) (turn % buffers.length);
            long start = from + (back ? pieces - 1 - turn : turn) * PIECE;
            return workers.submit(() -> {
                if (stopped) {
                    return null;
                }
                if (buffers[slot] == null) {
                    buffers[slot] = new byte[(int) Math.min(CHUNK + length - 1L, to - from)];
                }
                return places(start, buffers[slot]);
            });
        }

        private boolean give(Places places) {
            for (int i = 0; i < places.count; i++) {
                hits++;
                if (!hit.test(places.start + places.at[back ? places.count - 1 - i : i])) {
                    return false;
                }
            }
            return true;
        }

        private Places places(long start, byte[] bytes) {
            int end = (int) Math.min(PIECE, to - start);
            Places places = new Places(start);
            for (int at = 0; at < end && !stopped; at += CHUNK) {
                look(places, at, Math.min(CHUNK, end - at), bytes);
            }
            return places;
        }

        private void look(Places places, int first, int count, byte[] bytes) {
            long start = places.start + first;
            int wanted = (int) Math.min(count + length - 1L, to - start);
            SectorStates states = image.read(start, bytes, 0, wanted);
            boolean clean = states.allRead();
            for (int place = scan.next(bytes, 0, wanted); place >= 0 && place < count; place = scan.next(bytes, place + 1, wanted)) {
                if (clean || states.isRead(start + place, length)) {
                    places.add(first + place);
                }
            }
            places.unread += clean ? 0 : states.missing(start, count).count();
        }
    }
}
