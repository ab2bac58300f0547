package sectorglass.practice.lesson.read;

import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Locale;
import java.util.Set;

import sectorglass.image.ReadState;
import sectorglass.make.DiskDescription;
import sectorglass.make.MapKind;
import sectorglass.make.PartitionDescription;
import sectorglass.make.Slot;
import sectorglass.make.VolumeDescription;
import sectorglass.make.VolumeKind;
import sectorglass.practice.lesson.LessonPack;
import sectorglass.practice.lesson.LessonProblem;
import sectorglass.practice.lesson.disk.DiskPlan;
import sectorglass.practice.lesson.place.Expressions;

/** Reads a {@code .disk} file. */
public final class DiskReader {
    /** 256 MiB of sectors of 512 bytes: lesson disks are made again and again. */
    private static final long MOST_SECTORS = 524_288;

    private final String file;
    private final List<LessonProblem> problems;

    /** @param problems mistakes are added to it */
    public DiskReader(String file, List<LessonProblem> problems) {
        this.file = file;
        this.problems = problems;
    }

    /** The plan, or null where it has a mistake. */
    public DiskPlan read(LessonPack pack) {
        int before = problems.size();
        List<Block> blocks = new KeyFile(file, problems).read(pack, Set.of("partition", "damage", "unread"));
        if (blocks.isEmpty()) {
            return null;
        }
        Block head = blocks.get(0);
        String name = head.id("disk");
        long sectors = head.number("sectors", 65_536, 64, MOST_SECTORS);
        long sectorSize = head.number("sector-size", 512);
        long seed = head.number("seed", 1);
        long signature = head.number("signature", 0);
        KeyLine mapLine = head.line("map", true);
        MapKind map = mapLine == null ? MapKind.NONE : constant(MapKind.class, mapLine, head);
        head.end();
        List<PartitionDescription> partitions = new ArrayList<>();
        List<VolumeDescription> volumes = new ArrayList<>();
        List<DiskPlan.Damage> damages = new ArrayList<>();
        List<DiskPlan.Unread> unread = new ArrayList<>();
        for (Block block : blocks.subList(1, blocks.size())) {
            switch (block.beginner()) {
                case "partition" -> partition(block, map == MapKind.NONE, partitions, volumes);
                case "damage" -> damages.add(damage(block));
                default -> unread.add(unread(block));
            }
            block.end();
        }
        if (problems.size() > before) {
            return null;
        }
        try {
            DiskDescription description = new DiskDescription(sectors, (int) sectorSize, seed, map, (int) signature, null, partitions,
                    volumes.isEmpty() ? null : volumes.get(0));
            return new DiskPlan(name, description, damages, unread);
        } catch (IllegalArgumentException e) {
            head.problem(head.first(), "The disk cannot be made: " + e.getMessage() + ".");
            return null;
        }
    }

    private static <E extends Enum<E>> E constant(Class<E> type, KeyLine line, Block block) {
        for (E one : type.getEnumConstants()) {
            if (one.name().toLowerCase(Locale.ROOT).replace('_', '-').equals(line.value())) {
                return one;
            }
        }
        block.problem(line.line(), "\"" + line.value() + "\" is not known. Known: " + String.join(", ", java.util.stream.Stream
                .of(type.getEnumConstants()).map(one -> one.name().toLowerCase(Locale.ROOT).replace('_', '-')).toList()) + ".");
        return null;
    }

    private static void partition(Block block, boolean whole, List<PartitionDescription> partitions, List<VolumeDescription> volumes) {
        KeyLine kind = block.line("partition", true);
        boolean formatted = !kind.value().equals("empty");
        VolumeKind volumeKind = formatted ? constant(VolumeKind.class, kind, block) : null;
        VolumeDescription volume = null;
        if (formatted) {
            String label = block.value("label", false);
            long serial = block.number("serial", 0x1A2B3C4D);
            long cluster = block.number("cluster", 4096);
            FileTreeReader files = new FileTreeReader(block);
            block.lines("file").forEach(files::add);
            try {
                volume = new VolumeDescription(volumeKind, label == null ? "" : label, serial, (int) cluster, files.root());
            } catch (IllegalArgumentException e) {
                block.problem(kind.line(), "The volume cannot be made: " + e.getMessage() + ".");
            }
        }
        if (whole) {
            volumes.add(volume);
            return;
        }
        KeyLine slot = block.line("slot", false);
        Slot where = slot == null ? Slot.PRIMARY : constant(Slot.class, slot, block);
        String name = block.value("name", false);
        String active = block.value("active", false);
        try {
            partitions.add(new PartitionDescription(block.number("first", 0), block.number("sectors", 0), where, (int) block.number("type", 0x07),
                    "yes".equals(active), false, PartitionDescription.BASIC_DATA, null, name == null ? "" : name, 0, volume));
        } catch (IllegalArgumentException e) {
            block.problem(kind.line(), "The partition cannot be made: " + e.getMessage() + ".");
        }
    }

    private static DiskPlan.Damage damage(Block block) {
        String place = block.checked("damage", true, Expressions::place);
        KeyLine hex = block.line("bytes", false);
        String number = block.checked("number", false, Expressions::number);
        long fill = block.number("fill", -1);
        byte[] bytes = null;
        if (hex != null) {
            try {
                bytes = HexFormat.of().parseHex(hex.value().replace(" ", ""));
            } catch (IllegalArgumentException e) {
                block.problem(hex.line(), "\"" + hex.value() + "\" are no bytes in hex, two digits each.");
            }
        }
        if ((hex == null ? 0 : 1) + (number == null ? 0 : 1) + (fill < 0 ? 0 : 1) != 1 || fill > 255) {
            block.problem(block.first(), "A damage has exactly one of \"bytes:\", \"number:\" and \"fill:\" (0 to 255).");
        }
        return new DiskPlan.Damage(place, bytes, number, (int) fill);
    }

    private static DiskPlan.Unread unread(Block block) {
        String place = block.checked("unread", true, Expressions::place);
        KeyLine state = block.line("state", false);
        ReadState read = state == null ? ReadState.UNREAD : constant(ReadState.class, state, block);
        if (read == ReadState.READ) {
            block.problem(state.line(), "All other sectors are read anyway. States: failed, skipped, unread.");
        }
        return new DiskPlan.Unread(place, read == null ? ReadState.UNREAD : read);
    }
}
