package sectorglass.image;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.stream.Stream;

import sectorglass.image.store.StoredBytes;

/**
 * An image opened by {@link Images}: the files under it, what was found out about them, and the states of its sectors. Its content
 * changes only in {@link #refresh}; readers meanwhile see the old or the new state of things, never a mixture in one call.
 */
public final class OpenImage implements SectorImage {
    private static final byte UNREAD = (byte) ReadState.UNREAD.ordinal();

    private final Path path;
    private final Troubles troubles;
    private final SectorSizeChoice size;
    private final DumpForm.Clue form;
    private final List<DumpForm.Clue> formClues;
    private final List<String> remarks;
    /** Says that a read map lies beside the image, or null. */
    private final String mapBeside;
    private final Refresh refresh;
    private volatile Now now;

    /**
     * What may change while the image is open.
     *
     * @param files the files as long as they were when last looked at
     * @param stored the image bytes
     * @param sources where states come from
     * @param states all of them put together, or null where every byte is read
     */
    record Now(ImageFiles files, StoredBytes stored, ReadStateSources sources, ReadMap states) {

        static Now of(ImageFiles files, DumpForm form, ReadStateSources known, int sectorSize) {
            StoredBytes stored = form.plain() ? files.sequence() : new FormedBytes(files.sequence(), form);
            SectorRanges lacking = lacking(files.parts(), form, sectorSize);
            ReadStateSources sources = known.without(ReadStateSources.Kind.FILES);
            if (!lacking.isEmpty()) {
                sources = sources.with(ReadStateSources.Kind.FILES, "", ReadMap.of(lacking, ReadState.UNREAD));
            }
            return new Now(files, stored, sources, sources.combined(stored.length() / sectorSize));
        }

        SectorRanges inState(ReadState state, SectorRange within, int sectorSize) {
            long sectors = stored.length() / sectorSize;
            SectorRange inside = within.first() >= sectors ? new SectorRange(sectors, 0)
                    : new SectorRange(within.first(), Math.min(within.end(), sectors) - within.first());
            SectorRanges found = states != null ? states.inState(state, inside)
                    : state == ReadState.READ ? SectorRanges.of(inside) : SectorRanges.EMPTY;
            if (state == ReadState.UNREAD && within.end() > sectors) {
                long first = Math.max(within.first(), sectors);
                found = found.union(SectorRanges.of(first, within.end() - first));
            }
            return found;
        }

        /** The sectors that need a byte which the files lack. */
        private static SectorRanges lacking(List<ImagePart> parts, DumpForm form, int sectorSize) {
            SectorRanges.Builder builder = new SectorRanges.Builder();
            add(builder, new ByteRange(0, form.firstImageByte()), sectorSize);
            for (ImagePart part : parts) {
                if (part.missing()) {
                    add(builder, form.image(new ByteRange(part.start(), part.bytes())), sectorSize);
                }
            }
            return builder.build();
        }

        private static void add(SectorRanges.Builder builder, ByteRange bytes, int sectorSize) {
            SectorRange run = bytes.sectors(sectorSize);
            builder.add(run.first(), run.count());
        }
    }

    /** Looks at the files anew. */
    @FunctionalInterface
    interface Refresh {
        Now look(OpenImage image, Now before);
    }

    OpenImage(Path path, Now now, Troubles troubles, SectorSizeChoice size, DumpForm.Clue form, List<DumpForm.Clue> formClues,
            List<String> remarks, String mapBeside, Refresh refresh) {
        this.path = path;
        this.mapBeside = mapBeside;
        this.now = now;
        this.troubles = troubles;
        this.size = size;
        this.form = form;
        this.formClues = List.copyOf(formClues);
        this.remarks = List.copyOf(remarks);
        this.refresh = refresh;
    }

    /**
     * The same image with other sources of read states: accepted fillers and holes, another map. Both share their files: closing one
     * closes both.
     */
    public OpenImage withStates(ReadStateSources sources) {
        Now was = now;
        return new OpenImage(path, Now.of(was.files, form.form(), sources, sectorSize()), troubles, size, form, formClues, remarks, mapBeside, refresh);
    }

    /**
     * An image with a text log among its sources.
     *
     * @param remarks what was noticed in the log, in words
     */
    public record Logged(OpenImage image, List<String> remarks) { }

    /**
     * The same image with a text log among its sources, which {@link #refresh} reads again when it has changed. Both share their files.
     *
     * @param locale language of remarks and of the sentences about what goes wrong
     * @throws ImageException where the file, or a line of it, cannot be read
     */
    public Logged withLog(Path file, TextLog reading, Locale locale, Progress progress) throws ImageException {
        FileStamp stamp = FileStamp.of(file); // before it is read: what is written meanwhile is met at the next look
        TextLog.Loaded loaded = reading.load(file, sectorSize(), locale, progress);
        Now was = now;
        ReadStateSources sources = was.sources.with(ReadStateSources.Kind.TEXT_LOG, file.toString(), loaded.map());
        return new Logged(new OpenImage(path, Now.of(was.files, form.form(), sources, sectorSize()), troubles, size, form, formClues, remarks, mapBeside,
                new FollowedLog(refresh, file, reading, locale, troubles, stamp)), loaded.remarks());
    }

    /** The path that was asked for. */
    public Path path() {
        return path;
    }

    /** The files in order; a missing one is told as such. */
    public List<ImagePart> parts() {
        return now.files.parts();
    }

    /**
     * Sentences about the image that a person should read before believing it. Where nothing tells what was read although a read map lies
     * beside the image, that is one of them.
     */
    public List<String> remarks() {
        if (mapBeside == null || now.sources.sources().stream().anyMatch(source -> source.kind() != ReadStateSources.Kind.FILES)) {
            return remarks;
        }
        return Stream.concat(Stream.of(mapBeside), remarks.stream()).toList();
    }

    /** Sentences about failures of the files since they were opened, the first ones; empty where all went well. */
    public List<String> troubles() {
        return troubles.sentences();
    }

    /** Sector size, reasons and what speaks against. */
    public SectorSizeChoice sectorSizeChoice() {
        return size;
    }

    /** Why the sector size was taken, in words. */
    public String sectorSizeReason() {
        return size.reason();
    }

    /** How the disk lies in the files, and the reason; the reason is empty where the form is plain and nothing speaks for it or against it. */
    public DumpForm.Clue dumpForm() {
        return form;
    }

    /** All forms that something speaks for, the best first: offered where they were not taken. */
    public List<DumpForm.Clue> dumpFormClues() {
        return formClues;
    }

    /** Where the read states come from. */
    public ReadStateSources states() {
        return now.sources;
    }

    /** The read states of all sectors, or null where every byte counts as read. */
    public ReadMap readMap() {
        return now.states;
    }

    /** Where an image byte lies in the files; nothing where it is not there. */
    public Optional<FilePlace> fileByte(long imageByte) {
        OptionalLong stored = form.form().stored(imageByte);
        Now here = now;
        return stored.isEmpty() || imageByte >= here.stored.length() ? Optional.empty() : here.files.place(stored.getAsLong());
    }

    /** Sparse holes of the files, as image sectors that lie wholly in them; nothing where the platform does not tell. */
    public Optional<SectorRanges> holes() {
        return HoleSectors.of(now.files.parts(), form.form(), sectorSize(), sectors());
    }

    @Override
    public String name() {
        return path.getFileName() == null ? path.toString() : path.getFileName().toString();
    }

    @Override
    public int sectorSize() {
        return size.sectorSize();
    }

    @Override
    public long bytes() {
        return now.stored.length();
    }

    /**
     * Takes in what another process has written since: a longer last file, further parts, a changed read map or text log. Takes no lock.
     * Bytes that were there before are asked of the files each time anyway.
     */
    public synchronized Changes refresh() {
        Now before = now;
        Now after = refresh.look(this, before);
        now = after;
        return Changes.between(before, after, sectorSize());
    }

    /** {@inheritDoc} The bytes of a cut-off last sector are read as long as no byte beyond them is asked for. */
    @Override
    public SectorStates read(long firstByte, byte[] into, int offset, int length) {
        Objects.checkFromIndexSize(offset, length, into.length);
        Now here = now;
        int sectorSize = sectorSize();
        SectorRange run = new ByteRange(firstByte, length).sectors(sectorSize);
        byte[] states = new byte[(int) run.count()];
        boolean[] clean = {true};
        long bytes = here.stored.length();
        int there = (int) Math.max(0, Math.min(length, bytes - firstByte));
        if (there > 0) {
            here.stored.read(firstByte, into, offset, there, (from, count, state) -> {
                clean[0] = false;
                long last = (firstByte + from + count - 1) / sectorSize;
                Arrays.fill(states, (int) ((firstByte + from) / sectorSize - run.first()), (int) (last + 1 - run.first()),
                        (byte) state.ordinal());
            });
        }
        if (there < length) {
            clean[0] = false;
            int from = (int) (Math.min(bytes, firstByte + there) < firstByte ? 0 : (firstByte + there) / sectorSize - run.first());
            Arrays.fill(states, from, states.length, UNREAD);
            Arrays.fill(into, offset + there, offset + length, (byte) 0);
        }
        if (here.states != null) {
            clean[0] &= told(here.states, run, states, bytes / sectorSize);
        }
        if (!clean[0]) {
            wipe(run, states, firstByte, into, offset, length);
        }
        return SectorStates.ofOrdinals(sectorSize, run.first(), states);
    }

    /** Sets the states that sources tell of sectors in the image, of a cut-off one if they mention it; whether all of them are read. */
    private static boolean told(ReadMap map, SectorRange run, byte[] states, long sectors) {
        byte[] told = new byte[states.length];
        if (map.fill(run.first(), told)) {
            return true;
        }
        boolean clean = true;
        for (int i = 0; i < told.length; i++) {
            long lba = run.first() + i;
            if (told[i] != 0 && (lba < sectors || lba == sectors && map.mentions(lba))) {
                states[i] = told[i];
                clean = false;
            }
        }
        return clean;
    }

    /** Sets the bytes of sectors that were not read to zero, so that nobody takes filler for data. */
    private void wipe(SectorRange run, byte[] states, long firstByte, byte[] into, int offset, int length) {
        for (int i = 0; i < states.length; i++) {
            if (states[i] != 0) {
                long from = Math.max(0, (run.first() + i) * sectorSize() - firstByte);
                long to = Math.min(length, (run.first() + i + 1) * sectorSize() - firstByte);
                Arrays.fill(into, (int) (offset + from), (int) (offset + to), (byte) 0);
            }
        }
    }

    @Override
    public ReadState state(long lba) {
        Now here = now;
        if (lba >= here.stored.length() / sectorSize()) {
            return ReadState.UNREAD;
        }
        return here.states == null ? ReadState.READ : here.states.state(lba);
    }

    @Override
    public SectorRanges inState(ReadState state, SectorRange within) {
        return now.inState(state, within, sectorSize());
    }

    @Override
    public void close() {
        now.files.close();
    }

    /** Number of files held open at the moment. */
    int openFiles() {
        return now.files.openNow();
    }

    /** The first failures of files, once each. */
    static final class Troubles {
        private static final int KEPT = 20;
        private final List<String> sentences = new ArrayList<>();

        synchronized void add(String sentence) {
            if (sentences.size() < KEPT && !sentences.contains(sentence)) {
                sentences.add(sentence);
            }
        }

        synchronized List<String> sentences() {
            return List.copyOf(sentences);
        }
    }
}
