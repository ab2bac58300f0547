package sectorglass.ntfs;

import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;

/**
 * What a volume says of itself in its first records: label and version ($Volume), clusters in use ($Bitmap), names and dates of the
 * root folder. Each is null where its bytes were not read.
 */
final class VolumeFacts {
    private static final int VOLUME = 3;
    static final int ROOT = 5;
    /** A larger bitmap is not counted for the overview: it stands for more than 128 GiB at the usual cluster size. */
    private static final int MOST_BITMAP = 4 << 20;
    private static final int MOST_ROOT_BLOCKS = 64;
    private static final int MOST_ROOT_NAMES = 500;
    /** Dates before this are the formatter's or a dead clock's. */
    private static final Instant EARLIEST = Instant.parse("1980-01-01T00:00:00Z");

    final String label;
    final String version;
    final Boolean dirty;
    final Long usedBytes;
    /** Why {@link #usedBytes} is not known, as a sentence's part; null where it is, or nothing can be said. */
    final String usedRemark;
    final Instant latest;
    /** An entry of the root folder. */
    record RootName(String name, boolean folder) { }

    final List<RootName> rootNames;

    private Instant newest;

    VolumeFacts(FileTable table, ClusterMap clusters) {
        FileRecord volume = FileRecord.of(table, VOLUME);
        label = volume == null ? null : text(volume);
        byte[] about = volume == null ? null : whole(volume, AttributeType.VOLUME_INFORMATION);
        version = about == null || about.length < 12 ? null : (about[8] & 0xFF) + "." + (about[9] & 0xFF);
        dirty = about == null || about.length < 12 ? null : (about[10] & 1) != 0;
        long cluster = table.geometry().clusterBytes();
        if (clusters.stream() == null) {
            usedBytes = null;
            usedRemark = null;
        } else if ((table.geometry().clusters() + 7) / 8 > MOST_BITMAP) {
            usedBytes = null;
            usedRemark = "space in use not counted here: its map ($Bitmap) takes " + (table.geometry().clusters() / 8 >> 20)
                    + " MiB, too much for a first look; the list of files counts it";
        } else {
            ClusterMap.Count count = clusters.count();
            usedBytes = count.unknown() == 0 ? count.used() * cluster : null;
            usedRemark = count.unknown() == 0 ? null : "space in use: " + count.used() * cluster + " bytes at least; for "
                    + count.unknown() * cluster + " bytes the map ($Bitmap) was not read";
        }
        rootNames = root(table);
        systemDates(table);
        latest = newest;
    }

    private static byte[] whole(FileRecord file, int type) {
        return file.stream(type, "").filter(FileStream::valueWhole).map(s -> s.value).orElse(null);
    }

    private static String text(FileRecord volume) {
        byte[] name = whole(volume, AttributeType.VOLUME_NAME);
        if (name == null) {
            return volume.incomplete ? null : "";
        }
        return new String(name, 0, name.length & ~1, java.nio.charset.StandardCharsets.UTF_16LE);
    }

    private List<RootName> root(FileTable table) {
        List<RootName> names = new ArrayList<>();
        FileRecord folder = FileRecord.of(table, ROOT);
        if (folder != null) {
            new DirectoryIndex(table, folder).entries((block, at, key, length) -> {
                NameValue name = NameValue.at(block, key, length);
                if (name == null) {
                    return;
                }
                date(name.modified());
                boolean system = (block.u64(at) & RecordView.NUMBER_MASK) < 16;
                if (!system && name.namespace() != NameValue.DOS && names.size() < MOST_ROOT_NAMES) {
                    names.add(new RootName(name.name(), (name.attributes() & 0x10000000) != 0));
                }
            }, MOST_ROOT_BLOCKS);
        }
        return List.copyOf(names);
    }

    private void systemDates(FileTable table) {
        RecordView view = new RecordView();
        for (int i = 0; i < 16; i++) {
            if (!table.load(i, view) || !view.usable()) {
                continue;
            }
            view.rewind();
            while (view.nextAttribute()) {
                int at = view.resident() ? view.valueOffset() : -1;
                if (view.type() == AttributeType.STANDARD_INFORMATION && at >= 0 && view.valueLength() >= 0x30 && view.has(at, 0x20)) {
                    date(view.u64(at + 8));
                }
            }
        }
    }

    private void date(long ticks) {
        Instant when = NameValue.instant(ticks);
        if (when != null && when.isAfter(EARLIEST) && when.isBefore(Instant.now().plus(366, ChronoUnit.DAYS))
                && (newest == null || when.isAfter(newest))) {
            newest = when;
        }
    }
}
