package sectorglass.practice.lesson.place;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalInt;
import java.util.OptionalLong;

import sectorglass.decode.DecodeOptions;
import sectorglass.decode.Decoder;
import sectorglass.decode.FieldNode;
import sectorglass.decode.FormatCatalogue;
import sectorglass.decode.SpecException;
import sectorglass.disk.Content;
import sectorglass.disk.Disk;
import sectorglass.disk.Extent;
import sectorglass.disk.Files;
import sectorglass.disk.Structure;
import sectorglass.disk.Volume;
import sectorglass.image.ByteRange;
import sectorglass.image.Progress;
import sectorglass.image.UnreadException;
import sectorglass.image.Window;
import sectorglass.practice.lesson.LessonException;

/** A surveyed disk in which expressions find their places. Keeps what it decoded; not safe for several threads. */
public final class Ground {
    private final Disk disk;
    private final FormatCatalogue catalogue;
    private final Map<Key, FieldNode> decoded = new HashMap<>();
    private final Map<Long, List<Structure>> structures = new HashMap<>();

    private record Key(ByteRange range, String format) { }

    /** The places of a disk. */
    public Ground(Disk disk, FormatCatalogue catalogue) {
        this.disk = disk;
        this.catalogue = catalogue;
    }

    /** The disk. */
    public Disk disk() {
        return disk;
    }

    /** Bytes per sector. */
    public int sectorSize() {
        return disk.image().sectorSize();
    }

    /** Fields of a structure. */
    public FieldNode fields(Structure structure) {
        return decoded.computeIfAbsent(new Key(structure.range(), structure.format()), key -> decode(structure));
    }

    private FieldNode decode(Structure structure) {
        try {
            return Decoder.decode(catalogue.load(structure.format()), structure.reader().read(disk.image()),
                    DecodeOptions.DEFAULT.withParams(structure.params()));
        } catch (SpecException e) {
            throw new LessonException("the format " + structure.format() + " cannot be used: " + e.getMessage(), e);
        }
    }

    /** The innermost structure at an image byte, or null. */
    public Structure structureAt(long imageByte) {
        return disk.structureAt(imageByte).orElse(null);
    }

    Spot sectors(long lba, long count) {
        if (lba < 0 || count < 1 || lba > disk.image().sectors() - count) {
            throw new LessonException("the disk has no LBA " + lba + (count > 1 ? " to " + (lba + count - 1) : ""));
        }
        return Spot.bytes(lba * sectorSize(), count * sectorSize());
    }

    Spot inside(long start, long length) {
        if (start < 0 || length < 1 || start > disk.image().bytes() - length) {
            throw new LessonException("bytes " + start + " and " + length + " from there lie outside the disk");
        }
        return Spot.bytes(start, length);
    }

    Volume volume(long number) {
        return disk.volume((int) Math.min(Integer.MAX_VALUE, number))
                .orElseThrow(() -> new LessonException("partition " + number + " holds no volume that is known"));
    }

    /** First LBA and number of sectors of a partition, or of the volume that is the whole disk. */
    long[] partition(long number) {
        if (disk.volume() != null && number == 1) {
            return new long[] {0, disk.image().sectors()};
        }
        return disk.partitions().stream().filter(p -> p.number() == number).map(p -> new long[] {p.range().first(), p.range().count()})
                .findFirst().orElseThrow(() -> new LessonException("the disk has no partition " + number));
    }

    Spot pointer(long volume, String kind, long number) {
        Volume of = volume(volume);
        OptionalLong at = of.address(kind, number);
        if (at.isEmpty()) {
            throw new LessonException("partition " + volume + " has no " + kind + " " + number);
        }
        if (kind.equals("cluster")) {
            return inside(at.getAsLong(), of.info().clusterBytes());
        }
        Structure structure = structureAt(at.getAsLong());
        return structure == null ? inside(at.getAsLong(), sectorSize()) : Spot.of(structure);
    }

    private int file(Files files, long volume, String path) {
        OptionalInt entry = files.tree(Progress.NONE).find(path);
        if (entry.isEmpty()) {
            throw new LessonException("partition " + volume + " has no file \"" + path + "\"");
        }
        return entry.getAsInt();
    }

    private Files files(long volume) {
        return volume(volume).capability(Files.class).orElseThrow(() -> new LessonException("files of partition " + volume + " are not known"));
    }

    Spot record(long volume, String path) {
        Files files = files(volume);
        return pointer(volume, "record", files.tree(Progress.NONE).number(file(files, volume, path)));
    }

    Spot content(long volume, String path) {
        Files files = files(volume);
        Content content = files.content(file(files, volume, path), "");
        for (Extent extent : content == null ? List.<Extent>of() : content.extents()) {
            if (extent.placed()) {
                return inside(extent.imageByte(), extent.stored());
            }
        }
        throw new LessonException("\"" + path + "\" has no content that stands anywhere");
    }

    /** The structure of a format: the n-th by address, of the whole disk or of one volume. */
    Spot structure(String format, int number, long volume) {
        List<Structure> fitting = structures.computeIfAbsent(volume, this::structures).stream().filter(s -> s.format().equals(format)).toList();
        if (fitting.size() < number) {
            throw new LessonException("there " + (fitting.size() == 1 ? "is 1 structure" : "are " + fitting.size() + " structures") + " of the format "
                    + format + (volume > 0 ? " in partition " + volume : "") + ", not " + number);
        }
        return Spot.of(fitting.get(number - 1));
    }

    /** The structures of one volume, or of the whole disk, by address. */
    private List<Structure> structures(long volume) {
        List<Structure> all = new ArrayList<>();
        if (volume > 0) {
            all.addAll(volume(volume).structures());
        } else {
            disk.maps().forEach(found -> all.addAll(found.map().structures()));
            disk.partitions().stream().filter(p -> p.volume() != null && p.placed()).forEach(p -> all.addAll(p.volume().structures()));
            if (disk.volume() != null) {
                all.addAll(disk.volume().structures());
            }
        }
        all.sort(Comparator.comparingLong(s -> s.range().start()));
        return all;
    }

    /** A field by its path. */
    Spot field(Spot base, String path) {
        Structure structure = base.structure() != null ? base.structure() : structureAt(base.range().start());
        if (structure == null) {
            throw new LessonException("no structure is known at byte " + base.range().start() + ", so it has no field " + path);
        }
        FieldNode node = fields(structure);
        for (String part : path.replace("[", ".[").split("\\.")) {
            String id = part.startsWith("[") ? part.substring(1, part.length() - 1) : part;
            node = node.children().stream().filter(child -> child.id().equals(id)).findFirst()
                    .orElseThrow(() -> new LessonException("the format " + structure.format() + " has no field " + path + " here"));
        }
        FieldNode holder = node;
        while (holder.length() == 0 && holder.parent() != null) {
            holder = holder.parent();
        }
        return new Spot(new ByteRange(holder.firstByte(), Math.max(1, holder.length())), structure, node);
    }

    /** Read bytes of a place. */
    Window read(ByteRange range, int most) {
        int length = (int) Math.min(range.length(), most);
        Window window = disk.image().window(range.start(), length);
        try {
            window.require(0, length);
        } catch (UnreadException e) {
            throw new LessonException("the bytes from " + range.start() + " on were not read", e);
        }
        return window;
    }
}
