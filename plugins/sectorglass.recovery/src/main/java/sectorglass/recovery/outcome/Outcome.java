package sectorglass.recovery.outcome;

import java.util.Arrays;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

import sectorglass.disk.Content;
import sectorglass.disk.FileEntry;
import sectorglass.disk.FileState;
import sectorglass.disk.FileTree;
import sectorglass.disk.Files;
import sectorglass.image.Progress;

/**
 * What was recovered of every file of a volume, by its main stream. About ten bytes per entry, so that a million files are no matter. Deleted
 * files and the file system's own structures have a state, but are left out of all sums.
 */
public final class Outcome {
    private static final byte EMPTY_INSIDE = 16;
    private static final byte FOLDER = 32;
    private static final byte STRUCTURE = 64;

    private final VolumeFiles volume;
    private final FileTree tree;
    private final byte[] states;
    private final long[] readBytes;
    private final Map<Integer, Totals> folders = new HashMap<>();
    private final Map<FileKind, Totals> kinds = new EnumMap<>(FileKind.class);
    private final Totals totals = new Totals();
    private final Totals deleted = new Totals();
    private final Totals structures = new Totals();

    private Outcome(VolumeFiles volume, FileTree tree) {
        this.volume = volume;
        this.tree = tree;
        this.states = new byte[tree.size()];
        this.readBytes = new long[tree.size()];
    }

    /**
     * Finds the state of every file.
     *
     * @param inside whether to read the beginning of every complete file, and more where it holds one repeated byte, for {@link #emptyInside}
     */
    public static Outcome of(VolumeFiles volume, boolean inside, Progress progress) {
        FileTree tree = volume.files().tree(progress);
        Outcome outcome = new Outcome(volume, tree);
        Arrays.fill(outcome.states, (byte) FileState.UNKNOWN.ordinal());
        Set<Long> counted = new HashSet<>();
        long[] done = {0};
        tree.walk(tree.root(), (entry, depth) -> {
            progress.checkCancelled();
            if ((++done[0] & 0xFFF) == 0) {
                progress.at("files of volume " + volume.number(), done[0], tree.size());
            }
            if (tree.folder(entry)) {
                outcome.states[entry] = FOLDER;
            } else {
                outcome.file(entry, inside, counted, progress);
            }
            return true;
        });
        return outcome;
    }

    private void file(int entry, boolean inside, Set<Long> counted, Progress progress) {
        Content content = volume.files().content(entry, "");
        FileEntry full = tree.entry(entry);
        FileState state = full.special() != null ? full.special() : content != null ? content.state() : FileState.UNKNOWN;
        boolean empty = inside && state == FileState.COMPLETE && RepeatedByte.of(content, progress).isPresent();
        long read = content == null || content.bytes() < 0 ? 0 : content.readBytes();
        boolean structure = files().structure(entry);
        states[entry] = (byte) (state.ordinal() | (empty ? EMPTY_INSIDE : 0) | (structure ? STRUCTURE : 0));
        readBytes[entry] = read;
        boolean again = full.links() > 1 && full.number() >= 0 && !counted.add(full.number());
        long length = again ? 0 : Math.max(0, full.bytes());
        read = again ? 0 : read;
        if (tree.deleted(entry) || structure) {
            (structure ? structures : deleted).add(state, length, read, empty);
            return;
        }
        totals.add(state, length, read, empty);
        kinds.computeIfAbsent(FileKind.of(full.name()), k -> new Totals()).add(state, length, read, empty);
        for (int at = tree.parent(entry), steps = 0; at >= 0 && steps < 4096; at = tree.parent(at), steps++) {
            folders.computeIfAbsent(at, f -> new Totals()).add(state, length, read, empty);
        }
    }

    /** The volume. */
    public VolumeFiles volume() {
        return volume;
    }

    /** Its files. */
    public Files files() {
        return volume.files();
    }

    /** Its tree. */
    public FileTree tree() {
        return tree;
    }

    /** Whether an entry is a file of a person: neither a folder, nor deleted, nor a structure of the file system. Only those are counted. */
    public boolean counted(int entry) {
        return (states[entry] & (FOLDER | STRUCTURE)) == 0 && !tree.deleted(entry);
    }

    /** The state of a file; of a folder, {@link FileState#COMPLETE}: what it holds tells {@link #folder}. */
    public FileState state(int entry) {
        return tree.folder(entry) ? FileState.COMPLETE : FileState.values()[states[entry] & 15];
    }

    /** Whether a file was read in full and holds one repeated byte. */
    public boolean emptyInside(int entry) {
        return (states[entry] & EMPTY_INSIDE) != 0;
    }

    /** Bytes of a file that were read. */
    public long readBytes(int entry) {
        return readBytes[entry];
    }

    /** The places of a file that were not read. */
    public List<DamagePlace> damage(int entry) {
        Content content = files().content(entry, "");
        return content == null || content.bytes() < 0 ? List.of() : DamagePlace.of(content.bytes(), content.missing());
    }

    /** The files below a folder, at any depth. */
    public Totals folder(int entry) {
        return folders.getOrDefault(entry, new Totals());
    }

    /** The files of each kind that occurs. */
    public Map<FileKind, Totals> kinds() {
        return kinds;
    }

    /** All files that {@link #counted} means. */
    public Totals totals() {
        return totals;
    }

    /** The deleted ones. */
    public Totals deleted() {
        return deleted;
    }

    /** Structures of the file system that have names. */
    public Totals structures() {
        return structures;
    }

    /** Sectors of metadata that were not read: files may be missing from all counts. */
    public long unreadMetadata() {
        return tree.unreadMetadata().count();
    }
}
