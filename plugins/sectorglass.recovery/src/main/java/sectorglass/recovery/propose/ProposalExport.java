package sectorglass.recovery.propose;

import java.io.BufferedWriter;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.TreeSet;

import sectorglass.disk.Repair;
import sectorglass.image.Overlay;
import sectorglass.image.Progress;
import sectorglass.image.ReadState;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorRange;
import sectorglass.image.SectorStates;

/**
 * Writes proposals into a folder: a JSON file each, the corrected sectors as files with their LBA in the name, and for the best one a
 * corrected copy of the image with its read map. Never writes over a file; never opens the image for writing.
 */
public final class ProposalExport {
    private static final int CHUNK = 1 << 20;
    private static final String COPY = "corrected.img";

    private final Path folder;
    private final SectorImage image;

    /**
     * What was written.
     *
     * @param proposals JSON files, best first
     * @param sectors files of sectors
     * @param copy the corrected image, or null
     */
    public record Written(List<Path> proposals, List<Path> sectors, Path copy) { }

    /** @param folder made where it is missing */
    public ProposalExport(Path folder, SectorImage image) throws IOException {
        this.folder = Files.createDirectories(folder);
        this.image = image;
    }

    /**
     * Writes.
     *
     * @param copy whether the best proposal gets a corrected copy; only a good one gets one
     * @throws FileAlreadyExistsException if a file of an earlier export stands there
     */
    public Written write(List<Proposal> ranked, boolean copy, Progress progress) throws IOException {
        List<Path> files = new ArrayList<>();
        List<Path> sectors = new ArrayList<>();
        Path corrected = copy && !ranked.isEmpty() && ranked.get(0).good() ? folder.resolve(COPY) : null;
        for (int i = 0; i < ranked.size(); i++) {
            Proposal proposal = ranked.get(i);
            String name = String.format(Locale.ROOT, "%02d-%s", i + 1, proposal.id());
            Path file = folder.resolve(name + ".proposal.json");
            ProposalFile.write(file, proposal, image, i + 1);
            files.add(file);
            sectors(proposal, folder.resolve(name), sectors);
        }
        if (corrected != null) {
            copy(ranked.get(0).over(image), corrected, progress);
        }
        return new Written(List.copyOf(files), List.copyOf(sectors), corrected);
    }

    /** Each run of neighbouring sectors that the proposal touches, whole. */
    private void sectors(Proposal proposal, Path into, List<Path> written) throws IOException {
        Files.createDirectory(into);
        Overlay over = proposal.over(image);
        int size = image.sectorSize();
        TreeSet<Long> touched = new TreeSet<>();
        for (Repair.Change change : proposal.changes()) {
            SectorRange run = change.range().sectors(size);
            for (long lba = run.first(); lba < run.end(); lba++) {
                touched.add(lba);
            }
        }
        Long first = null;
        long next = -1;
        List<SectorRange> runs = new ArrayList<>();
        for (long lba : touched) {
            if (first != null && lba != next) {
                runs.add(new SectorRange(first, next - first));
                first = null;
            }
            first = first == null ? lba : first;
            next = lba + 1;
        }
        if (first != null) {
            runs.add(new SectorRange(first, next - first));
        }
        try (BufferedWriter list = Files.newBufferedWriter(into.resolve("sectors.csv"), StandardCharsets.UTF_8, StandardOpenOption.CREATE_NEW)) {
            list.write("first_lba,sectors,file\n");
            for (SectorRange run : runs) {
                Path file = into.resolve("lba-" + run.first() + ".bin");
                byte[] bytes = over.window(run.first() * size, Math.toIntExact(run.count() * size)).raw(0, Math.toIntExact(run.count() * size));
                Files.write(file, bytes, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE);
                list.write(run.first() + "," + run.count() + "," + file.getFileName() + "\n");
                written.add(file);
            }
        }
    }

    /** A corrected copy: zeros become holes, sectors that were not read stay holes and are told in the read map beside it. */
    private static void copy(Overlay over, Path file, Progress progress) throws IOException {
        boolean done = false;
        try (FileChannel out = FileChannel.open(file, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE)) {
            boolean whole = content(over, out, progress);
            out.force(true);
            if (!whole) {
                readMap(over, file.resolveSibling(file.getFileName() + ".read-map.csv"));
            }
            done = true;
        } finally {
            if (!done) {
                Files.deleteIfExists(file);
            }
        }
    }

    private static boolean content(Overlay over, FileChannel out, Progress progress) throws IOException {
        byte[] buffer = new byte[CHUNK];
        boolean whole = true;
        for (long at = 0; at < over.bytes(); at += CHUNK) {
            progress.checkCancelled();
            progress.at("copy", at, over.bytes());
            int length = (int) Math.min(CHUNK, over.bytes() - at);
            SectorStates states = over.read(at, buffer, 0, length);
            whole &= states.allRead();
            for (int from = 0; from < length; from += 1 << 12) {
                int count = Math.min(1 << 12, length - from);
                if (!zero(buffer, from, count)) {
                    write(out, buffer, from, count, at + from);
                }
            }
        }
        if (out.size() < over.bytes()) {
            write(out, new byte[1], 0, 1, over.bytes() - 1);
        }
        return whole;
    }

    private static boolean zero(byte[] bytes, int from, int count) {
        for (int i = from; i < from + count; i++) {
            if (bytes[i] != 0) {
                return false;
            }
        }
        return true;
    }

    private static void write(FileChannel out, byte[] bytes, int offset, int length, long at) throws IOException {
        ByteBuffer buffer = ByteBuffer.wrap(bytes, offset, length);
        long place = at;
        while (buffer.hasRemaining()) {
            place += out.write(buffer, place);
        }
    }

    private static void readMap(SectorImage over, Path map) throws IOException {
        try (BufferedWriter out = Files.newBufferedWriter(map, StandardCharsets.UTF_8, StandardOpenOption.CREATE_NEW)) {
            out.write("first_lba,sectors,state\n");
            for (ReadState state : ReadState.values()) {
                for (SectorRange run : over.inState(state, over.all())) {
                    out.write(run.first() + "," + run.count() + "," + state.word() + "\n");
                }
            }
        }
    }
}
