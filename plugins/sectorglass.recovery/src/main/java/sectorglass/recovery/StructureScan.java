package sectorglass.recovery;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.function.Consumer;

import sectorglass.disk.Sighting;
import sectorglass.image.ByteRange;
import sectorglass.image.Progress;
import sectorglass.image.ReadState;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;
import sectorglass.image.SectorStates;

/**
 * One pass over an image: two threads read and look at chunks, this one collects what they met in order of address. Memory does not
 * depend on the image. Bytes are compared only; what stands at a hit is decoded by the finder that wants the signature.
 */
final class StructureScan {
    private static final int CHUNK = 1 << 20;
    private static final int THREADS = 2;
    private static final int AHEAD = 6;
    /** How often the state is given away to be saved. */
    private static final long SAVE_EVERY = 30_000_000_000L;

    /** What one chunk held. */
    private record Met(long end, long[] rows, int rowCount, List<Sighting> single, SectorRanges unread) { }

    private final SectorImage image;
    private final SignatureTable table;
    private final BlockingQueue<byte[]> buffers = new ArrayBlockingQueue<>(AHEAD);

    StructureScan(SectorImage image, SignatureTable table) {
        this.image = image;
        this.table = table;
    }

    /**
     * Scans from where the state is to the end.
     *
     * @param save is given the state now and then, and before this ends because the person stopped it
     * @throws Progress.Stopped if the person stopped it
     */
    ScanState run(ScanState from, Consumer<ScanState> save, Progress progress) {
        ScanCollector collector = new ScanCollector(from, table.wanted().size());
        for (int i = buffers.size(); i < AHEAD; i++) {
            buffers.add(new byte[CHUNK + SignatureTable.OVER]);
        }
        ExecutorService threads = Executors.newFixedThreadPool(THREADS, task -> {
            Thread thread = new Thread(task, "structure scan");
            thread.setDaemon(true);
            return thread;
        });
        long position = from.position();
        try {
            ArrayDeque<Future<Met>> coming = new ArrayDeque<>();
            long next = position;
            long saved = System.nanoTime();
            while (position < image.bytes()) {
                while (coming.size() < AHEAD && next < image.bytes()) {
                    long start = next;
                    coming.add(threads.submit(() -> chunk(start)));
                    next += CHUNK;
                }
                Met met = coming.remove().get();
                collect(met, collector);
                position = met.end;
                progress.at("search", position, image.bytes());
                boolean stop = progress.cancelled();
                if (stop || System.nanoTime() - saved > SAVE_EVERY) {
                    save.accept(collector.state(position));
                    saved = System.nanoTime();
                }
                if (stop) {
                    throw new Progress.Stopped();
                }
            }
            return collector.state(position);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            save.accept(collector.state(position));
            throw new Progress.Stopped();
        } catch (ExecutionException e) {
            throw new IllegalStateException(e.getCause());
        } finally {
            threads.shutdownNow();
        }
    }

    private static void collect(Met met, ScanCollector into) {
        for (int i = 0; i < met.rowCount; i += 2) {
            into.row((int) met.rows[i], met.rows[i + 1]);
        }
        met.single.forEach(into::single);
        if (!met.unread.isEmpty()) {
            into.unread(met.unread);
        }
    }

    private Met chunk(long start) throws InterruptedException {
        int own = (int) Math.min(CHUNK, image.bytes() - start);
        SectorRange sectors = new ByteRange(start, own).sectors(image.sectorSize());
        if (image.inState(ReadState.READ, sectors).isEmpty()) {
            return new Met(start + own, new long[0], 0, List.of(), SectorRanges.of(sectors));
        }
        byte[] buffer = buffers.take();
        try {
            int length = (int) Math.min(CHUNK + SignatureTable.OVER, image.bytes() - start);
            SectorStates states = image.read(start, buffer, 0, length);
            Hits hits = new Hits(start);
            table.scan(buffer, own, length, hits);
            return new Met(start + own, hits.rows, hits.count, hits.single, states.allRead() ? SectorRanges.EMPTY : states.missing(start, own));
        } finally {
            buffers.add(buffer);
        }
    }

    private final class Hits implements SignatureTable.Hits {
        private final long start;
        private final List<Sighting> single = new ArrayList<>();
        private long[] rows = new long[64];
        private int count;

        Hits(long start) {
            this.start = start;
        }

        @Override
        public void hit(SignatureTable.Wanted wanted, int block) {
            long at = start + block - wanted.back();
            if (at < 0) {
                return;
            }
            if (wanted.rows()) {
                if (count == rows.length) {
                    rows = Arrays.copyOf(rows, count * 2);
                }
                rows[count++] = wanted.number();
                rows[count++] = at;
            } else {
                wanted.finder().look(image, at, wanted.signature()).ifPresent(single::add);
            }
        }
    }
}
