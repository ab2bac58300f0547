package sectorglass.workbench.parts;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import java.util.stream.Stream;

import sectorglass.disk.Disk;
import sectorglass.disk.Partition;
import sectorglass.disk.PartitionMap;
import sectorglass.disk.Phrases;
import sectorglass.disk.ReadCount;
import sectorglass.disk.Structure;
import sectorglass.disk.Volume;
import sectorglass.image.ByteRange;
import sectorglass.image.ReadState;
import sectorglass.image.SafeText;
import sectorglass.verify.Finding;
import sectorglass.workbench.look.Numbers;
import sectorglass.workbench.look.Sign;
import sectorglass.workbench.look.Texts;
import sectorglass.workbench.model.OpenDisk;

/**
 * A line of the disk tree.
 *
 * @param key what tells it from others, for keeping lines open
 * @param name what it is
 * @param more what is worth knowing beside the name, quieter
 * @param tip the whole story, or null
 * @param address image byte one goes to, or -1
 * @param worst sign of the gravest finding on its bytes, or null
 * @param children lines below
 */
record DiskNode(String key, String name, String more, String tip, long address, Sign worst, List<DiskNode> children) {

    static DiskNode of(OpenDisk open) {
        Disk disk = open.disk();
        List<DiskNode> children = new ArrayList<>();
        if (!open.remarks().isEmpty()) {
            children.add(notes(open.remarks()));
        }
        for (int i = 0; i < disk.maps().size(); i++) {
            children.add(map(open, disk.maps().get(i).map(), i));
        }
        for (Partition partition : disk.partitions()) {
            children.add(partition(open, partition));
        }
        if (disk.volume() != null) {
            children.add(volume(open, disk.volume(), "volume", Texts.of("disk.volume")));
        }
        String more = Numbers.size(open.image().bytes()) + ", " + Texts.of("disk.sectors", Numbers.grouped(open.image().sectors()),
                open.image().sectorSize());
        return new DiskNode("disk", SafeText.of(open.image().name()), more, tip(open.remarks()), 0, null, children);
    }

    /** What was noticed on opening, a line each: dump form, parts, read states. */
    private static DiskNode notes(List<String> remarks) {
        List<DiskNode> lines = new ArrayList<>();
        for (String remark : remarks) {
            lines.add(new DiskNode("note" + lines.size(), SafeText.of(remark), "", SafeText.of(remark), -1, null, List.of()));
        }
        return new DiskNode("notes", Texts.of("disk.notes"), Numbers.grouped(lines.size()), tip(remarks), -1, null, List.copyOf(lines));
    }

    private static String tip(List<String> remarks) {
        return remarks.isEmpty() ? null : String.join("\n", remarks);
    }

    private static String phrase(String english) {
        return Phrases.in(Locale.getDefault()).of(english);
    }

    private static DiskNode map(OpenDisk open, PartitionMap map, int index) {
        List<String> words = new ArrayList<>();
        words.add("LBA " + Numbers.grouped(map.lba()));
        if (map.copy() != null) {
            words.add(Texts.of("disk.copy." + map.copy().word()));
        }
        if (map.leftover()) {
            words.add(Texts.of("disk.leftover"));
        }
        words.add(Texts.of("disk.entries", map.entries().size()));
        Sign worst = null;
        for (ByteRange where : map.where()) {
            worst = worse(worst, worst(open, where));
        }
        return new DiskNode("map" + index, Texts.of("disk.map", map.kind().toUpperCase(java.util.Locale.ROOT)), String.join(", ", words),
                SafeText.of(phrase(map.remark())), map.lba() * open.image().sectorSize(), worst, structures(open, map.structures(), "map" + index));
    }

    private static DiskNode partition(OpenDisk open, Partition partition) {
        int size = open.image().sectorSize();
        Volume volume = partition.volume();
        String key = "partition" + partition.number();
        String kind = volume != null ? volume.info().kind() : partition.entry().typeName() != null ? phrase(partition.entry().typeName())
                : partition.entry().type();
        String label = volume != null && volume.info().label() != null && !volume.info().label().isBlank() ? volume.info().label()
                : partition.entry().name();
        String name = partition.number() + "  " + SafeText.of(kind) + (label == null || label.isBlank() ? "" : "  \u201C" + SafeText.of(label) + "\u201D");
        String roles = partition.roles().stream().map(role -> Texts.of("role." + role.role().word().replace(' ', '-')))
                .collect(Collectors.joining(", "));
        long bytes = Math.min(partition.range().count(), Long.MAX_VALUE / size) * size;
        ReadCount count = open.counts().get(open.disk().partitions().indexOf(partition));
        String more = Numbers.size(bytes) + (count == null || count.whole() ? "" : ", " + lacking(count)) + (roles.isEmpty() ? "" : ", " + roles);
        List<DiskNode> children = volume == null ? List.of() : structures(open, volume.structures(), key);
        Sign worst = null;
        for (Finding finding : open.listed()) {
            if (finding.volume() != null && finding.volume() == partition.number()) {
                worst = worse(worst, Sign.of(finding));
            }
        }
        String reasons = partition.roles().stream().flatMap(role -> role.reasons().stream()).map(DiskNode::phrase).collect(Collectors.joining("\n"));
        long first = partition.range().first();
        long address = first < open.image().sectors() ? first * size : -1;
        String told = count == null ? "" : Texts.of("disk.read", Numbers.grouped(count.read()), Numbers.grouped(partition.range().count()))
                + (count.whole() ? "" : ", " + lacking(count)) + (reasons.isEmpty() ? "" : "\n");
        return new DiskNode(key, name, more, told + SafeText.of(reasons.replace("\n", "; ")), address, worst, children);
    }

    /** Sectors that were not read, by state. */
    private static String lacking(ReadCount count) {
        return Stream.of(ReadState.FAILED, ReadState.SKIPPED, ReadState.UNREAD).filter(state -> count.of(state) > 0)
                .map(state -> Texts.of("disk.lacking." + state.word(), Numbers.grouped(count.of(state)))).collect(Collectors.joining(", "));
    }

    private static DiskNode volume(OpenDisk open, Volume volume, String key, String prefix) {
        String label = volume.info().label();
        String name = prefix + "  " + volume.info().kind() + (label == null || label.isBlank() ? "" : "  \u201C" + SafeText.of(label) + "\u201D");
        String more = volume.info().bytes() == null ? "" : Numbers.size(volume.info().bytes());
        return new DiskNode(key, name, more, tip(volume.info().remarks().stream().map(DiskNode::phrase).toList()), volume.site().firstByte(), null,
                structures(open, volume.structures(), key));
    }

    private static List<DiskNode> structures(OpenDisk open, List<Structure> structures, String parent) {
        List<DiskNode> nodes = new ArrayList<>();
        int number = 0;
        for (Structure structure : structures) {
            long start = structure.range().start();
            nodes.add(new DiskNode(parent + "." + number++, SafeText.of(structure.name()), Numbers.place(start, open.image().sectorSize()),
                    null, start < open.image().bytes() ? start : -1, worst(open, structure.range()), List.of()));
        }
        return nodes;
    }

    private static Sign worst(OpenDisk open, ByteRange range) {
        Sign worst = null;
        for (Finding finding : open.findings(range)) {
            worst = worse(worst, Sign.of(finding));
        }
        return worst;
    }

    private static Sign worse(Sign one, Sign other) {
        return one == null || other != null && other.ordinal() < one.ordinal() ? other : one;
    }

    @Override
    public boolean equals(Object other) {
        return other instanceof DiskNode node && node.key.equals(key);
    }

    @Override
    public int hashCode() {
        return key.hashCode();
    }
}
