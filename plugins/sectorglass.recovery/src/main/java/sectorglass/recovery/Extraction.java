package sectorglass.recovery;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.BasicFileAttributeView;
import java.nio.file.attribute.FileTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.function.Consumer;

import sectorglass.disk.Content;
import sectorglass.disk.FileEntry;
import sectorglass.disk.FileStamp;
import sectorglass.disk.FileState;
import sectorglass.disk.FileTree;
import sectorglass.disk.Files;
import sectorglass.image.ByteRange;
import sectorglass.image.Progress;
import sectorglass.recovery.opening.FileTests;
import sectorglass.recovery.opening.TestResult;

/**
 * Copies files out of a volume. What was not read is filled with a chosen byte and listed; names are made safe; a file that exists is
 * never written over; times are kept.
 */
public final class Extraction {
    /** Small enough to stay in a processor's cache from reading to writing. */
    private static final int CHUNK = 1 << 19;
    /** Ends the name of a file that is being written; what bears it after a fault is worth nothing. */
    private static final String UNFINISHED = ".unfinished";

    private final Files files;
    private final FileTree tree;
    private final SafePlace places;
    private final Options options;
    private final Progress progress;
    /** Entries that were extracted already: chosen folders and files may overlap. */
    private final java.util.BitSet done = new java.util.BitSet();

    /**
     * How to extract.
     *
     * @param fill byte that stands for what was not read
     * @param deleted whether deleted files below a chosen folder come, too
     * @param streams whether named streams come, too, as files of their own
     * @param zone taken for times that have none of their own
     * @param tests which test whether each file opens, or null
     * @param before an earlier run into the same folder that is continued, or null: files that it finished are not written again
     */
    public record Options(byte fill, boolean deleted, boolean streams, ZoneId zone, FileTests tests, Earlier before) {

        /** Without tests, into a new folder. */
        public Options(byte fill, boolean deleted, boolean streams, ZoneId zone) {
            this(fill, deleted, streams, zone, null, null);
        }
    }

    /** What an earlier run finished. */
    public interface Earlier {
        /**
         * Whether a file was finished.
         *
         * @param file relative to the folder extracted into, with {@code /}
         */
        boolean finished(String path, String stream, String file);
    }

    /**
     * A file that was written, a line of the manifest.
     *
     * @param path in the volume
     * @param stream empty for the main one
     * @param file where it was written, or null where nothing was
     * @param bytes its length
     * @param sha256 of what was written, lower case hex
     * @param missing ranges that were filled
     * @param state what was recovered
     * @param modified as the volume says, or null
     * @param remark in words, or null
     * @param test whether it opens, or null where that was not tested
     */
    public record Written(String path, String stream, Path file, long bytes, String sha256, List<ByteRange> missing, FileState state,
            FileStamp modified, String remark, TestResult test) {

        /** Without a test. */
        public Written(String path, String stream, Path file, long bytes, String sha256, List<ByteRange> missing, FileState state,
                FileStamp modified, String remark) {
            this(path, stream, file, bytes, sha256, missing, state, modified, remark, null);
        }

        /** Whether the whole content came out as it was. */
        public boolean complete() {
            return state == FileState.COMPLETE;
        }
    }

    /** @param to an existing folder */
    public Extraction(Files files, Path to, Options options, Progress progress) throws IOException {
        this.files = files;
        this.tree = files.tree(progress);
        this.places = new SafePlace(to);
        this.options = options;
        this.progress = progress;
    }

    /**
     * Extracts an entry, and all below it if it is a folder; structures of the file system only where they are the entry itself.
     *
     * @param written receives each file
     * @throws IOException if the target cannot be written; files finished before are whole and were given to {@code written}
     */
    public void extract(int entry, Consumer<Written> written) throws IOException {
        List<Integer> wanted = new ArrayList<>();
        tree.walk(entry, (at, depth) -> {
            if (at == entry || (options.deleted() || !tree.deleted(at)) && !files.structure(at)) {
                wanted.add(at);
                return true;
            }
            return false;
        });
        for (int at : wanted) {
            progress.checkCancelled();
            if (!done.get(at)) {
                one(at, written);
                done.set(at);
            }
        }
    }

    private void one(int at, Consumer<Written> written) throws IOException {
        List<String> parts = parts(at);
        if (tree.folder(at)) {
            if (!parts.isEmpty()) {
                java.nio.file.Files.createDirectories(places.folder(parts));
            }
            return;
        }
        FileEntry entry = tree.entry(at);
        if (entry.streams().isEmpty() && !finished(entry.path(), "", "")) {
            written.accept(new Written(entry.path(), "", null, Math.max(0, entry.bytes()), null, List.of(),
                    entry.special() != null ? entry.special() : FileState.LOST, entry.times().modified(), "no content is known"));
        }
        for (FileEntry.Stream stream : entry.streams()) {
            if (stream.name().isEmpty() || options.streams()) {
                Content content = files.content(at, stream.name());
                Written done = content == null ? null : stream(entry, parts, stream.name(), content);
                if (done != null) {
                    written.accept(done);
                }
            }
        }
    }

    private List<String> parts(int at) {
        List<String> parts = new ArrayList<>();
        for (int e = at; e >= 0 && e != tree.root() && parts.size() < 4096; e = tree.parent(e)) {
            parts.add(tree.name(e));
        }
        Collections.reverse(parts);
        return parts;
    }

    private Written stream(FileEntry entry, List<String> parts, String stream, Content content) throws IOException {
        List<String> named = new ArrayList<>(parts);
        if (!stream.isEmpty()) {
            named.set(named.size() - 1, named.get(named.size() - 1) + " stream " + stream);
        }
        FileState state = entry.special() != null ? entry.special() : content.state();
        if (content.bytes() < 0 || state == FileState.ELSEWHERE) {
            return finished(entry.path(), stream, "") ? null : new Written(entry.path(), stream, null, Math.max(0, content.bytes()), null, List.of(), state, entry.times().modified(),
                    "nothing was written: the content is not known from this volume");
        }
        Path file = places.place(named);
        if (finished(entry.path(), stream, Manifest.relative(places.root(), file))) {
            return null;
        }
        java.nio.file.Files.createDirectories(file.getParent());
        boolean there = java.nio.file.Files.exists(file, java.nio.file.LinkOption.NOFOLLOW_LINKS);
        if (there && options.before() == null) {
            throw new FileAlreadyExistsException(file.toString());
        }
        Path unfinished = file.resolveSibling(file.getFileName() + UNFINISHED);
        if (options.before() != null) {
            java.nio.file.Files.deleteIfExists(unfinished);
        }
        try {
            List<ByteRange> missing = new ArrayList<>();
            String hash = copy(content, unfinished, missing);
            if (there && !hash.equals(FileHash.sha256(file, progress))) {
                throw new FileAlreadyExistsException(file.toString());
            }
            times(entry, unfinished);
            java.nio.file.Files.move(unfinished, file, StandardCopyOption.REPLACE_EXISTING, StandardCopyOption.ATOMIC_MOVE);
            // what does not decompress is found only by reading it
            FileState found = state == FileState.COMPLETE && !missing.isEmpty() ? FileState.DAMAGED : state;
            TestResult test = options.tests() == null || !stream.isEmpty() ? null : options.tests().test(entry.name(), content, found, progress);
            return new Written(entry.path(), stream, file, content.bytes(), hash, List.copyOf(missing), found, entry.times().modified(),
                    content.doubts().isEmpty() ? null : String.join("; ", content.doubts()), test);
        } finally {
            java.nio.file.Files.deleteIfExists(unfinished);
        }
    }

    private boolean finished(String path, String stream, String file) {
        return options.before() != null && options.before().finished(path, stream, file);
    }

    private String copy(Content content, Path file, List<ByteRange> missing) throws IOException {
        int size = (int) Math.min(CHUNK, Math.max(1, content.bytes()));
        try (FileChannel out = FileChannel.open(file, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE);
                HashAhead hash = new HashAhead(size)) {
            for (long at = 0; at < content.bytes();) {
                progress.checkCancelled();
                byte[] buffer = hash.buffer();
                int length = (int) Math.min(size, content.bytes() - at);
                for (ByteRange gap : content.read(at, buffer, 0, length)) {
                    Arrays.fill(buffer, (int) (gap.start() - at), (int) (gap.end() - at), options.fill());
                    join(missing, gap);
                }
                hash.update(length);
                ByteBuffer bytes = ByteBuffer.wrap(buffer, 0, length);
                while (bytes.hasRemaining()) {
                    out.write(bytes);
                }
                at += length;
            }
            return hash.hex();
        }
    }

    private static void join(List<ByteRange> all, ByteRange next) {
        int last = all.size() - 1;
        if (last >= 0 && all.get(last).end() == next.start()) {
            all.set(last, new ByteRange(all.get(last).start(), next.end() - all.get(last).start()));
        } else {
            all.add(next);
        }
    }

    private void times(FileEntry entry, Path file) {
        try {
            java.nio.file.Files.getFileAttributeView(file, BasicFileAttributeView.class).setTimes(time(entry.times().modified()),
                    time(entry.times().accessed()), time(entry.times().created()));
        } catch (IOException | ArithmeticException | java.time.DateTimeException e) {
            // a time the target cannot hold; the manifest has it
        }
    }

    private FileTime time(FileStamp stamp) {
        return stamp == null ? null : FileTime.from(stamp.instant(options.zone()));
    }
}
