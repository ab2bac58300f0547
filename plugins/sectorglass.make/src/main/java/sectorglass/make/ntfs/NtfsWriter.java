package sectorglass.make.ntfs;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;

import sectorglass.make.Folder;
import sectorglass.make.Medium;
import sectorglass.make.write.AllocationBits;
import sectorglass.make.write.ClusterRun;
import sectorglass.make.write.ClusterSpace;
import sectorglass.make.write.FileStream;
import sectorglass.make.write.UpCase;
import sectorglass.make.write.VolumeTarget;

/**
 * Writes an NTFS 3.1 volume: system files first, then folder by folder in breadth. Structure facts: Linux kernel
 * fs/ntfs3/ntfs.h, the public Linux-NTFS documentation, and volumes that mkntfs (ntfs-3g 2022.10.3) made.
 */
public final class NtfsWriter {
    private final VolumeTarget target;
    private final Medium medium;
    private final NtfsGeometry geometry;
    private final ClusterSpace space;
    private final FileStream stream;

    /** For one volume. */
    public NtfsWriter(VolumeTarget target) {
        this.target = target;
        medium = target.medium();
        geometry = new NtfsGeometry(target);
        space = new ClusterSpace(0, geometry.clusters());
        stream = new FileStream(medium, 0, 0, geometry.clusterBytes(), target.seed());
    }

    /** Writes everything. */
    public void write() throws IOException {
        Folder root = target.volume().root();
        long recordCount = Math.max(RecordSpace.count(root, geometry.clusterBytes()), geometry.mirrored());
        long recordBitmapBytes = (recordCount + 63) / 64 * 8;
        SystemFile boot = SystemFile.of(7, "$Boot", takeBytes(NtfsGeometry.BOOT_BYTES), NtfsGeometry.BOOT_BYTES);
        long mirrorBytes = (long) geometry.mirrored() * geometry.recordBytes();
        ClusterRun mirrorRun = space.reserve(geometry.clusters() / 2, geometry.clustersOf(mirrorBytes));
        SystemFile mirror = SystemFile.of(1, "$MFTMirr", mirrorRun, mirrorBytes);
        SystemFile journal = SystemFile.of(2, "$LogFile",
                space.reserve(mirrorRun.end(), geometry.clustersOf(geometry.journalBytes())), geometry.journalBytes());
        ClusterRun recordBitmap = takeBytes(recordBitmapBytes);
        long tableBytes = recordCount * geometry.recordBytes();
        SystemFile table = SystemFile.of(0, "$MFT", takeBytes(tableBytes), tableBytes);
        SystemFile definitions = SystemFile.of(4, "$AttrDef", takeBytes(AttributeDefinitions.BYTES), AttributeDefinitions.BYTES);
        long bitmapBytes = (geometry.clusters() + 63) / 64 * 8;
        SystemFile bitmap = SystemFile.of(6, "$Bitmap", takeBytes(bitmapBytes), bitmapBytes);
        byte[] descriptor = SecurityStore.entry();
        ClusterRun descriptors = takeBytes(SecurityStore.COPY + descriptor.length);
        byte[] upCase = UpCase.NTFS.plain();
        SystemFile upper = SystemFile.of(10, "$UpCase", takeBytes(upCase.length), upCase.length);

        RecordSpace records = new RecordSpace(medium, stream.byteOf(table.runs().get(0).first()), geometry.recordBytes());
        SystemRecords system = new SystemRecords(geometry, records, root.times(), target.volume().label());
        List<IndexEntry> rootEntries = new ArrayList<>();
        for (SystemFile file : List.of(table, mirror, journal, SystemFile.empty(3, "$Volume"), definitions, bitmap, boot,
                SystemFile.empty(8, "$BadClus"), SystemFile.empty(9, "$Secure"), upper, SystemFile.empty(11, "$Extend"))) {
            rootEntries.add(system.entry(file));
        }
        TreeWriter tree = new TreeWriter(target, geometry, space, stream, records);
        tree.write(root, rootEntries);
        tree.deletedRuns().forEach(space::release);

        system.table(table, recordBitmap, recordBitmapBytes);
        for (SystemFile file : List.of(mirror, journal, definitions, bitmap, boot, upper)) {
            system.plain(file);
        }
        system.volume();
        system.badClusters();
        system.secure(descriptors, SecurityStore.COPY + descriptor.length);
        system.extend();
        system.reserved();
        stream.write(AttributeDefinitions.table(), definitions.runs());
        stream.write(upCase, upper.runs());
        stream.write(descriptor, List.of(descriptors));
        medium.write(stream.byteOf(descriptors.first()) + SecurityStore.COPY, descriptor);
        journal(journal);
        recordBits(recordBitmap, recordCount, tree.deletedRecords());
        clusterBits(bitmap, bitmapBytes);
        copyMirror(table, mirror);
        NtfsBoot.write(target, geometry, table.runs().get(0).first(), mirrorRun.first());
        note("records", table);
        note("mirror", mirror);
        note("bitmap", bitmap);
        note("journal", journal);
        target.note("record bitmap", stream.byteOf(recordBitmap.first()));
    }

    private ClusterRun takeBytes(long bytes) {
        return space.take(geometry.clustersOf(bytes));
    }

    private void note(String name, SystemFile file) {
        target.note(name, stream.byteOf(file.runs().get(0).first()));
    }

    /** A journal that was never used holds FF throughout. */
    private void journal(SystemFile journal) throws IOException {
        byte[] chunk = new byte[4096];
        java.util.Arrays.fill(chunk, (byte) 0xFF);
        long at = stream.byteOf(journal.runs().get(0).first());
        for (long done = 0; done < journal.bytes(); done += chunk.length) {
            medium.write(at + done, chunk, 0, (int) Math.min(chunk.length, journal.bytes() - done));
        }
    }

    private void recordBits(ClusterRun place, long count, List<Long> deleted) throws IOException {
        ClusterSpace used = new ClusterSpace(0, count);
        used.reserve(0, 16);
        long user = count - NtfsGeometry.FIRST_USER_RECORD;
        long named = RecordSpace.count(target.volume().root(), geometry.clusterBytes()) - NtfsGeometry.FIRST_USER_RECORD;
        if (Math.min(user, named) > 0) {
            used.reserve(NtfsGeometry.FIRST_USER_RECORD, named);
        }
        deleted.forEach(record -> used.release(new ClusterRun(record, 1)));
        AllocationBits.write(medium, stream.byteOf(place.first()), 0, used.runs());
    }

    private void clusterBits(SystemFile bitmap, long bytes) throws IOException {
        List<ClusterRun> runs = new ArrayList<>(space.runs());
        if (bytes * 8 > geometry.clusters()) {
            runs.add(new ClusterRun(geometry.clusters(), bytes * 8 - geometry.clusters()));
        }
        AllocationBits.write(medium, stream.byteOf(bitmap.runs().get(0).first()), 0, runs);
    }

    private void copyMirror(SystemFile table, SystemFile mirror) throws IOException {
        byte[] bytes = medium.read(stream.byteOf(table.runs().get(0).first()), (int) mirror.bytes());
        medium.write(stream.byteOf(mirror.runs().get(0).first()), bytes);
    }
}
