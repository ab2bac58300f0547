package sectorglass.recovery;

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
 * result says how many sectors could not be looked at. Memory is constant.
 *
 * @param image where to look
 * @param from first image byte looked at
 * @param to image byte after the last one
 */
public record ByteSearch(SectorImage image, long from, long to) {
    private static final int CHUNK = 2 << 20;

    /**
     * How a search ended.
     *
     * @param hits places given to the caller
     * @param unreadSectors sectors in the range that were not read
     * @param ended whether the whole range was looked at; otherwise the caller stopped it
     */
    public record Result(long hits, long unreadSectors, boolean ended) { }

    /** A piece of the image in memory. */
    private record Piece(byte[] bytes, long start, int length, SectorStates states) { }

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
        return new Run(needle, hit, progress).forward();
    }

    /** Gives every place in descending order; see {@link #forward}. */
    public Result backward(Needle needle, LongPredicate hit, Progress progress) {
        return new Run(needle, hit, progress).backward();
    }

    private final class Run {
        private final NeedleScan scan;
        private final int length;
        private final LongPredicate hit;
        private final Progress progress;
        private long hits;
        private long unread;

        Run(Needle needle, LongPredicate hit, Progress progress) {
            this.scan = new NeedleScan(needle);
            this.length = needle.length();
            this.hit = hit;
            this.progress = progress;
        }

        /** Reads the next piece while this one is searched. */
        Result forward() {
            byte[][] buffers = new byte[2][CHUNK + length];
            ExecutorService reader = Executors.newSingleThreadExecutor(task -> {
                Thread thread = new Thread(task, "search reader");
                thread.setDaemon(true);
                return thread;
            });
            try {
                Future<Piece> coming = reader.submit(() -> piece(from, buffers[0]));
                boolean going = true;
                int turn = 0;
                for (long at = from; at < to && going; at += CHUNK) {
                    progress.checkCancelled();
                    progress.at("searching", at - from, to - from);
                    Piece piece = coming.get();
                    long next = at + CHUNK;
                    byte[] other = buffers[++turn % 2];
                    if (next < to) {
                        coming = reader.submit(() -> piece(next, other));
                    }
                    going = scan(piece);
                }
                return new Result(hits, unread, going);
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
                throw new Progress.Stopped();
            } catch (ExecutionException e) {
                throw new IllegalStateException(e.getCause());
            } finally {
                reader.shutdownNow();
            }
        }

        private boolean scan(Piece piece) {
            countUnread(piece);
            boolean clean = piece.states.allRead();
            for (int at = scan.next(piece.bytes, 0, piece.length); at >= 0; at = scan.next(piece.bytes, at + 1, piece.length)) {
                if (at >= CHUNK) {
                    return true;
                }
                if (clean || piece.states.isRead(piece.start + at, length)) {
                    hits++;
                    if (!hit.test(piece.start + at)) {
                        return false;
                    }
                }
            }
            return true;
        }

        Result backward() {
            byte[] buffer = new byte[CHUNK + length];
            long pieces = (to - from + CHUNK - 1) / CHUNK;
            for (long i = pieces - 1; i >= 0; i--) {
                progress.checkCancelled();
                progress.at("searching", pieces - 1 - i, pieces);
                Piece piece = piece(from + i * CHUNK, buffer);
                countUnread(piece);
                if (!scanBack(piece)) {
                    return new Result(hits, unread, false);
                }
            }
            return new Result(hits, unread, true);
        }

        private boolean scanBack(Piece piece) {
            long[] found = new long[16];
            int count = 0;
            for (int at = scan.next(piece.bytes, 0, piece.length); at >= 0 && at < CHUNK; at = scan.next(piece.bytes, at + 1, piece.length)) {
                if (piece.states.isRead(piece.start + at, length)) {
                    if (count == found.length) {
                        found = java.util.Arrays.copyOf(found, count * 2);
                    }
                    found[count++] = piece.start + at;
                }
            }
            while (count > 0) {
                hits++;
                if (!hit.test(found[--count])) {
                    return false;
                }
            }
            return true;
        }

        private Piece piece(long start, byte[] into) {
            int wanted = (int) Math.min(CHUNK + length - 1, to - start);
            return new Piece(into, start, wanted, image.read(start, into, 0, wanted));
        }

        private void countUnread(Piece piece) {
            if (!piece.states.allRead()) {
                long own = Math.min(CHUNK, to - piece.start);
                unread += piece.states.missing(piece.start, own).count();
            }
        }
    }
}
