package sectorglass.practice.fault;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.Predicate;

import sectorglass.make.DataFile;
import sectorglass.make.Folder;
import sectorglass.make.MadeDisk;
import sectorglass.make.MadeVolume;
import sectorglass.make.Medium;
import sectorglass.make.Node;
import sectorglass.make.SplitMix64;

/** Where a fault is planted: the disk, the volume, the numbers it is drawn by; keeps what was changed. Addresses are bytes of the disk. */
public final class Site {
    private final Medium medium;
    private final MadeDisk made;
    private final int index;
    private final SplitMix64 random;
    private final List<Spot> spots = new ArrayList<>();
    private final List<Spot> quiet = new ArrayList<>();
    private Spot seen;

    /**
     * @param index of the volume in the disk's list; -1 for a map
     */
    public Site(Medium medium, MadeDisk made, int index, SplitMix64 random) {
        this.medium = medium;
        this.made = made;
        this.index = index;
        this.random = random;
    }

    /** What the person has to find, the main place first. */
    public List<Spot> spots() {
        return List.copyOf(spots);
    }

    /** The place where the check points, if that is another one than the changed bytes; or null. Its bytes are meaningless. */
    public Spot seen() {
        return seen;
    }

    /** Puts back whatever was changed, the last change first. */
    public void undo() throws IOException {
        for (int i = quiet.size() - 1; i >= 0; i--) {
            medium.write(quiet.get(i).firstByte(), quiet.get(i).right());
        }
        quiet.clear();
        spots.clear();
        seen = null;
    }

    MadeDisk made() {
        return made;
    }

    MadeVolume volume() {
        return made.volumes().get(index);
    }

    int sectorSize() {
        return made.description().sectorSize();
    }

    int clusterBytes() {
        return volume().clusterBytes();
    }

    /** Byte of a structure of the volume. */
    long place(String name) {
        return volume().place(name);
    }

    int below(int bound) {
        return random.below(bound);
    }

    /** A value from 1 to 255. */
    int someByte() {
        return 1 + random.below(255);
    }

    <T> T pick(List<T> from, String what) {
        if (from.isEmpty()) {
            throw new FaultKind.NoPlaceException(what);
        }
        return from.get(random.below(from.size()));
    }

    byte[] read(long at, int length) throws IOException {
        return medium.read(at, length);
    }

    /** A little-endian number of up to eight bytes. */
    long number(long at, int width) throws IOException {
        byte[] bytes = read(at, width);
        long value = 0;
        for (int i = width - 1; i >= 0; i--) {
            value = value << 8 | bytes[i] & 0xFF;
        }
        return value;
    }

    static byte[] bytes(long value, int width) {
        byte[] bytes = new byte[width];
        for (int i = 0; i < width; i++) {
            bytes[i] = (byte) (value >>> 8 * i);
        }
        return bytes;
    }

    /** Changes bytes that the person has to find. */
    Site put(long at, byte... bytes) throws IOException {
        byte[] right = read(at, bytes.length);
        if (Arrays.equals(right, bytes)) {
            throw new FaultKind.NoPlaceException("nothing would change at byte " + at);
        }
        spots.add(new Spot(at, right));
        return quietly(at, bytes);
    }

    /** Changes a number that the person has to find. */
    Site put(long at, int width, long value) throws IOException {
        return put(at, bytes(value, width));
    }

    /** Flips bits of a byte that the person has to find. */
    Site flip(long at, int mask) throws IOException {
        return put(at, (byte) (read(at, 1)[0] ^ mask));
    }

    /** Changes bytes of which nobody asks: sums that have to hold again, what would be a second fault. */
    Site quietly(long at, byte... bytes) throws IOException {
        quiet.add(new Spot(at, read(at, bytes.length)));
        medium.write(at, bytes);
        return this;
    }

    /** Changes a number of which nobody asks. */
    Site quietly(long at, int width, long value) throws IOException {
        return quietly(at, bytes(value, width));
    }

    /** Says where the check points. */
    Site seenAt(long at, int length) {
        seen = new Spot(at, new byte[length]);
        return this;
    }

    /** A file or folder of the volume and where it lies. */
    record Entry(String path, Node node, MadeVolume.Place place) {

        boolean folder() {
            return node instanceof Folder;
        }

        boolean deleted() {
            return node instanceof DataFile file && file.deleted();
        }

        long bytes() {
            return node instanceof DataFile file ? file.bytes() : 0;
        }

        String name() {
            return node.name();
        }

        String parent() {
            int slash = path.lastIndexOf('/');
            return slash < 0 ? "" : path.substring(0, slash);
        }
    }

    /** Files and folders of the volume that are not deleted, by path. */
    List<Entry> entries(Predicate<Entry> wanted) {
        Map<String, Entry> all = new TreeMap<>();
        collect(made.description().partitions().get(index).volume().root(), "", all);
        return all.values().stream().filter(e -> !e.deleted() && wanted.test(e)).toList();
    }

    private void collect(Folder folder, String path, Map<String, Entry> into) {
        for (Node child : folder.children()) {
            String own = path.isEmpty() ? child.name() : path + "/" + child.name();
            into.put(own, new Entry(own, child, volume().file(own)));
            if (child instanceof Folder inner) {
                collect(inner, own, into);
            }
        }
    }

    /** A file with at least so many clusters. */
    Entry file(int clusters) {
        return pick(entries(e -> !e.folder() && clusters(e) >= clusters), "a file of " + clusters + " clusters");
    }

    long clusters(Entry entry) {
        return entry.place().runs().stream().mapToLong(MadeVolume.Run::bytes).sum() / clusterBytes();
    }
}
