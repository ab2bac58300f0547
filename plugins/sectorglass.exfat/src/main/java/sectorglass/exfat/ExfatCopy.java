package sectorglass.exfat;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Deque;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

import sectorglass.disk.copy.CopyTarget;
import sectorglass.disk.copy.Disguise;
import sectorglass.disk.copy.StructureCopy;
import sectorglass.image.Progress;
import sectorglass.image.Window;

/**
 * The structures of an exFAT volume without names: boot regions, FAT, allocation bitmap, up-case table, and the folders that are in use. Checksums of
 * sets, hashes of names and checksums of boot regions are right or wrong as they were.
 */
final class ExfatCopy implements StructureCopy {
    private static final int CHUNK = 1 << 16;
    private static final int REGION = 12;
    private static final int SUMMED = 11;

    private final ExfatVolume volume;
    private final Geometry geometry;
    private final long start;

    ExfatCopy(ExfatVolume volume) {
        this.volume = volume;
        geometry = volume.found().geometry();
        start = volume.site().firstByte();
    }

    private interface Use {
        void folder(Directory directory);
    }

    /** Folders in use, from the root on; one in which hardly a set is whole may be content, and is left out. */
    private void folders(Progress progress, Use use) {
        Fat fat = new Fat(volume.site(), geometry);
        Deque<long[]> waiting = new ArrayDeque<>();
        Set<Long> seen = new HashSet<>();
        waiting.add(new long[] {geometry.rootCluster(), 0, Directory.MOST_BYTES});
        while (!waiting.isEmpty()) {
            progress.checkCancelled();
            long[] next = waiting.remove();
            if (!fat.exists(next[0]) || !seen.add(next[0])) {
                continue;
            }
            Chain chain = next[1] > 0 ? Chain.contiguous(geometry, next[0], next[1]) : Chain.follow(fat, next[0], geometry.clustersOf(next[2]));
            Directory directory = Directory.of(volume.site(), geometry, chain, next[2]);
            EntrySet set = new EntrySet();
            int whole = 0;
            int sets = 0;
            Deque<long[]> inner = new ArrayDeque<>();
            for (int slot = 0; slot < directory.slots(); slot++) {
                if (directory.isRead(slot) && directory.u8(slot, 0) == 0 && slot == 0) {
                    break;
                }
                if (directory.isRead(slot) && directory.u8(slot, 0) == 0x85) {
                    sets++;
                    if (TreeScan.take(directory, slot, set) && set.directory().isRead(slot, set.count())) {
                        whole += set.checksum(false) == set.storedChecksum() ? 1 : 0;
                        if (set.folder()) {
                            inner.add(new long[] {set.firstCluster(), set.noFatChain() ? geometry.clustersOf(set.dataLength()) : 0, set.dataLength()});
                        }
                    }
                }
            }
            if (next[0] == geometry.rootCluster() || 2 * whole >= sets) {
                use.folder(directory);
                waiting.addAll(inner);
            }
        }
    }

    @Override
    public void learn(Disguise disguise, Progress progress) {
        folders(progress, directory -> {
            EntrySet set = new EntrySet();
            for (int slot = 0; slot < directory.slots(); slot++) {
                if (directory.isRead(slot) && directory.u8(slot, 0) == 0x85 && TreeScan.take(directory, slot, set)) {
                    disguise.learn(set.name());
                }
            }
        });
    }

    @Override
    public void copy(CopyTarget to, Disguise disguise, Progress progress) {
        region(to, 0, disguise);
        region(to, REGION, disguise);
        Window head = volume.site().window(geometry.fatByte(), 8);
        if (head.isRead(0, 8) && (head.u32le(0) == 0xFFFFFFF8L || head.u32le(4) == 0xFFFFFFFFL)) {
            plain(to, geometry.fatByte(), geometry.entriesPresent() * 4);
        }
        Root root = volume.root();
        Fat fat = new Fat(volume.site(), geometry);
        for (int slot : root == null || root.directory() == null ? List.<Integer>of() : tables(root)) {
            long bytes = root.directory().u64(slot, 24);
            Chain chain = Chain.follow(fat, root.directory().u32(slot, 20), geometry.clustersOf(Math.max(0, bytes)));
            long left = believed(root, slot, chain, bytes) ? bytes : 0;
            for (int run = 0; run < chain.runs() && left > 0; run++) {
                long length = Math.min(left, chain.count(run) * geometry.clusterBytes());
                plain(to, geometry.clusterByte(chain.first(run)), length);
                left -= length;
            }
        }
        SetDisguise sets = new SetDisguise(disguise, capitals(root));
        folders(progress, directory -> folder(to, directory, sets, directory.slots() > 0
                && directory.address(0, 0) == start + geometry.clusterByte(geometry.rootCluster())));
    }

    /** Whether clusters hold a bitmap or capital letters and not content: the bitmap knows its own first cluster, the table maps "a" to "A". */
    private boolean believed(Root root, int slot, Chain chain, long bytes) {
        if (chain.runs() == 0 || bytes < 1) {
            return false;
        }
        Window w = volume.site().window(geometry.clusterByte(chain.first(0)), (int) Math.min(geometry.clusterBytes(), bytes));
        if (root.upcases().contains(slot)) {
            return w.length() < 256 ? w.length() > 8 && w.isRead(0, 4) && w.u16le(0) == 0xFFFF
                    : w.isRead(0, 256) && (w.u16le(0) == 0xFFFF || w.u16le(2 * 'a') == 'A' && w.u16le(2) == 1);
        }
        int own = (int) Math.min(Integer.MAX_VALUE, chain.first(0) - 2);
        return own / 8 >= w.length() || w.isRead(own / 8, 1) && (w.u8(own / 8) >> own % 8 & 1) != 0;
    }

    private static List<Integer> tables(Root root) {
        List<Integer> all = new ArrayList<>(root.bitmaps());
        all.addAll(root.upcases());
        return all;
    }

    /** The volume's own capital letters, as its checks use them, or the fixed part. */
    private Upcase capitals(Root root) {
        if (root == null || root.directory() == null || root.upcases().isEmpty()) {
            return Upcase.fixedPart();
        }
        int slot = root.upcases().get(0);
        long bytes = root.directory().u64(slot, 24);
        Chain chain = Chain.follow(new Fat(volume.site(), geometry), root.directory().u32(slot, 20), geometry.clustersOf(Math.max(0, Math.min(bytes, 1 << 18))));
        if (bytes <= 0 || bytes > 1 << 17 || chain.clusters() * geometry.clusterBytes() < bytes) {
            return Upcase.fixedPart();
        }
        Stretch stretch = Stretch.of(volume.site(), geometry, chain, bytes);
        byte[] table = new byte[(int) bytes];
        return stretch.read(0, table, table.length) == null ? Upcase.of(table) : Upcase.fixedPart();
    }

    /** Bytes of the volume as they stand, slack of their last sector zero. */
    private void plain(CopyTarget to, long at, long bytes) {
        int size = to.source().sectorSize();
        for (long done = 0; done < bytes; done += CHUNK) {
            int length = (int) Math.min(CHUNK, bytes - done);
            Window w = to.source().window(start + at + done, (length + size - 1) / size * size);
            if (w.start() % size == 0) {
                byte[] copy = w.raw(0, w.length());
                Arrays.fill(copy, length, copy.length, (byte) 0);
                to.put(w, copy);
            }
        }
    }

    private void region(CopyTarget to, int sector, Disguise disguise) {
        int size = geometry.sectorBytes();
        if (size % to.source().sectorSize() != 0) {
            return;
        }
        Window w = to.source().window(start + (long) sector * size, REGION * size);
        byte[] bytes = w.raw(0, w.length());
        int before = sum(bytes, SUMMED * size);
        for (int i = 0; disguise.numbers() && i < 4; i++) {
            bytes[BootSector.SERIAL + i] ^= (byte) (disguise.random(BootSector.SERIAL) >>> 8 * i);
        }
        int after = sum(bytes, SUMMED * size);
        ByteBuffer b = ByteBuffer.wrap(bytes).order(ByteOrder.LITTLE_ENDIAN);
        for (int at = SUMMED * size; w.isRead(0, SUMMED * size) && at < REGION * size; at += 4) {
            b.putInt(at, b.getInt(at) ^ before ^ after);
        }
        to.put(w, bytes);
    }

    /** The checksum of a boot region (section 3.4): VolumeFlags and PercentInUse are left out. */
    private static int sum(byte[] bytes, int length) {
        int sum = 0;
        for (int i = 0; i < length; i++) {
            if (i != 106 && i != 107 && i != 112) {
                sum = Integer.rotateRight(sum, 1) + (bytes[i] & 0xFF);
            }
        }
        return sum;
    }

    private static void folder(CopyTarget to, Directory directory, SetDisguise sets, boolean root) {
        byte[] bytes = sets.disguised(directory, root);
        int size = to.source().sectorSize();
        for (int at = 0; at + size <= directory.slots() * Directory.SLOT; at += size) {
            Window w = to.source().window(directory.address(at / Directory.SLOT, 0), size);
            if (w.start() % size == 0) {
                to.put(w, Arrays.copyOfRange(bytes, at, at + size));
            }
        }
    }
}
