package sectorglass.recovery;

import java.io.BufferedWriter;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.List;

import sectorglass.image.Progress;
import sectorglass.image.ReadState;
import sectorglass.image.SectorRange;
import sectorglass.image.SectorStates;

/**
 * Writes a merged view as a new image with a read map and a log of where each range came from. Never writes over a file. Sectors that no
 * copy read become holes in the new image and are named in the read map.
 */
public final class MergeExport {
    private static final int CHUNK = 1 << 20;

    private MergeExport() {
    }

    /**
     * The files written.
     *
     * @param image the merged image
     * @param readMap which of its sectors are data
     * @param log where each range came from
     */
    public record Written(Path image, Path readMap, Path log) { }

    /**
     * Writes.
     *
     * @param names of the copies in order, for the log
     * @param remarks lines for the head of the log: the judgement on identities, what a person confirmed
     * @throws IOException if a file exists already, or cannot be written; what was written so far is removed
     */
    public static Written write(MergedImage merged, MergePlan plan, Path file, List<String> names, List<String> remarks,
            Progress progress) throws IOException {
        Path map = file.resolveSibling(file.getFileName() + ".read-map.csv");
        Path log = file.resolveSibling(file.getFileName() + ".log.csv");
        for (Path wanted : List.of(file, map, log)) {
            if (Files.exists(wanted)) {
                throw new FileAlreadyExistsException(wanted.toString());
            }
        }
        boolean done = false;
        try {
            image(merged, file, progress);
            readMap(merged, map);
            log(plan, log, names, remarks);
            done = true;
        } finally {
            if (!done) {
                for (Path left : List.of(file, map, log)) {
                    Files.deleteIfExists(left);
                }
            }
        }
        return new Written(file, map, log);
    }

    private static void image(MergedImage merged, Path file, Progress progress) throws IOException {
        byte[] buffer = new byte[CHUNK];
        try (FileChannel out = FileChannel.open(file, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE)) {
            for (long at = 0; at < merged.bytes(); at += CHUNK) {
                progress.checkCancelled();
                progress.at("merging", at, merged.bytes());
                int length = (int) Math.min(CHUNK, merged.bytes() - at);
                SectorStates states = merged.read(at, buffer, 0, length);
                if (states.allRead()) {
                    write(out, buffer, 0, length, at);
                } else {
                    bySector(out, buffer, length, at, states);
                }
            }
            if (out.size() < merged.bytes()) {
                write(out, new byte[1], 0, 1, merged.bytes() - 1);
            }
            out.force(true);
        }
    }

    private static void bySector(FileChannel out, byte[] buffer, int length, long at, SectorStates states) throws IOException {
        int size = states.sectorSize();
        for (int from = 0; from < length; from += size) {
            int count = Math.min(size, length - from);
            if (states.isRead(at + from, count)) {
                write(out, buffer, from, count, at + from);
            }
        }
    }

    private static void write(FileChannel out, byte[] bytes, int offset, int length, long at) throws IOException {
        ByteBuffer buffer = ByteBuffer.wrap(bytes, offset, length);
        long place = at;
        while (buffer.hasRemaining()) {
            place += out.write(buffer, place);
        }
    }

    private static void readMap(MergedImage merged, Path map) throws IOException {
        try (BufferedWriter out = Files.newBufferedWriter(map, StandardCharsets.UTF_8, StandardOpenOption.CREATE_NEW)) {
            out.write("first_lba,sectors,state\n");
            for (ReadState state : ReadState.values()) {
                for (SectorRange run : merged.inState(state, merged.all())) {
                    out.write(run.first() + "," + run.count() + "," + state.word() + "\n");
                }
            }
        }
    }

    private static void log(MergePlan plan, Path log, List<String> names, List<String> remarks) throws IOException {
        try (BufferedWriter out = Files.newBufferedWriter(log, StandardCharsets.UTF_8, StandardOpenOption.CREATE_NEW)) {
            for (int i = 0; i < names.size(); i++) {
                out.write("# copy " + (i + 1) + ": " + oneLine(names.get(i)) + "\n");
            }
            for (String remark : remarks) {
                out.write("# " + oneLine(remark) + "\n");
            }
            out.write("first_lba,sectors,copy,why\n");
            for (MergePlan.Choice choice : plan.choices()) {
                out.write(choice.range().first() + "," + choice.range().count() + "," + (choice.copy() < 0 ? "" : choice.copy() + 1) + ",\""
                        + choice.why().word() + "\"\n");
            }
        }
    }

    private static String oneLine(String text) {
        return sectorglass.image.SafeText.of(text);
    }
}
