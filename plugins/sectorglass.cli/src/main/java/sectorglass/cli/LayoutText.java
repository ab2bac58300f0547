package sectorglass.cli;

import java.io.PrintStream;
import java.util.List;
import java.util.Locale;

import sectorglass.disk.Disk;
import sectorglass.disk.FirstLook;
import sectorglass.disk.MapEntry;
import sectorglass.disk.MapVerdict;
import sectorglass.disk.Partition;
import sectorglass.disk.PartitionMap;
import sectorglass.disk.ReadCount;
import sectorglass.disk.Role;
import sectorglass.disk.Volume;
import sectorglass.disk.VolumeInfo;
import sectorglass.image.OpenImage;
import sectorglass.image.ReadState;
import sectorglass.image.SafeText;

/** The layout of a disk as text. */
final class LayoutText {
    private final PrintStream out;

    LayoutText(PrintStream out) {
        this.out = out;
    }

    void print(OpenImage image, Disk disk, List<MapVerdict> verdicts, FirstLook look) {
        image(image, look);
        if (!disk.maps().isEmpty()) {
            maps(disk, verdicts);
        }
        if (!disk.partitions().isEmpty()) {
            partitions(disk);
        }
        if (disk.volume() != null) {
            out.println();
            out.println("Volume (the image is one volume without a partition map)");
            volume(disk.volume(), "  ");
        }
    }

    private void image(OpenImage image, FirstLook look) {
        out.println("Image " + SafeText.of(image.name()));
        out.println("  " + Numbers.grouped(image.bytes()) + " bytes, " + Numbers.size(image.bytes()) + "; "
                + Numbers.grouped(image.sectors()) + " sectors of " + image.sectorSize() + " bytes");
        out.println("  sector size: " + image.sectorSizeReason());
        if (look.nominal() != null) {
            out.println("  nominal capacity: " + Numbers.grouped(look.nominal().gigabytes()) + " GB = "
                    + Numbers.grouped(look.nominal().sectors()) + " sectors, "
                    + (look.nominal().complete() ? "complete" : "not complete in this image"));
        }
        out.println();
        out.println("Read state");
        Table states = new Table("lrl");
        for (ReadState state : ReadState.values()) {
            long count = image.inState(state, image.all()).count();
            states.row(state.word(), Numbers.grouped(count), count == 0 ? "sectors"
                    : "sectors, " + Numbers.size(Math.multiplyExact(count, image.sectorSize())));
        }
        states.print(out, "  ");
        out.println();
        look(look);
    }

    private void look(FirstLook look) {
        FirstLook.Samples s = look.samples();
        int places = s.read() + s.unread();
        out.println("First look (" + places + (places == 1 ? " place" : " places") + " sampled)");
        out.println("  zero " + s.zero() + " · repeated " + s.repeated() + " · text " + s.text() + " · structure " + s.structure()
                + " · high entropy " + s.highEntropy() + " · other " + s.other() + " · unread " + s.unread());
        Table identities = new Table("lll");
        look.identities().forEach(i -> identities.row(i.kind(), SafeText.of(i.value()), i.where()));
        identities.print(out, "  ");
        if (look.latestDate() != null) {
            out.println("  latest date found: " + look.latestDate());
        }
        look.remarks().forEach(remark -> out.println("  ! " + remark));
    }

    private void maps(Disk disk, List<MapVerdict> verdicts) {
        out.println();
        out.println("Partition maps");
        Table table = new Table("lrllll").row("kind", "LBA", "id", "copy", "consistent", "fits the content");
        for (int i = 0; i < verdicts.size(); i++) {
            PartitionMap map = disk.maps().get(i).map();
            table.row(map.kind(), Numbers.grouped(map.lba()), map.id(), map.copy().word() + (map.leftover() ? ", leftover" : ""),
                    answer(verdicts.get(i).consistent()), answer(verdicts.get(i).fitsContent()));
        }
        table.print(out, "  ");
    }

    private static String answer(Boolean answer) {
        return answer == null ? "not checked" : answer ? "yes" : "no";
    }

    private void partitions(Disk disk) {
        out.println();
        out.println("Partitions");
        int sectorSize = disk.image().sectorSize();
        boolean whole = ReadCount.of(disk.image(), disk.image().all()).whole();
        for (Partition partition : disk.partitions()) {
            MapEntry entry = partition.entry();
            long last = entry.range().count() == 0 ? entry.range().first() : entry.range().last();
            out.println("  " + partition.number() + "  " + (partition.placed() ? "LBA " + Numbers.grouped(entry.range().first()) + " – " + Numbers.grouped(last)
                    : "put together from several places") + ", " + size(entry.range().count(), sectorSize) + (entry.active() ? ", active" : ""));
            out.println("     " + (partition.map() < 0 ? SafeText.of(String.valueOf(entry.typeName()))
                    : "type " + entry.type() + (entry.typeName() == null ? "" : " (" + entry.typeName() + ")"))
                    + (entry.name() == null || entry.name().isEmpty() ? "" : ", name \"" + SafeText.of(entry.name()) + "\"")
                    + (partition.map() < 0 ? "" : ", " + disk.maps().get(partition.map()).map().kind() + " entry " + entry.slot()));
            counts("     read state: ", ReadCount.of(disk.image(), partition), whole);
            if (partition.volume() == null) {
                out.println("     volume: none recognised");
            } else {
                volume(partition.volume(), "     ");
            }
            for (Role role : partition.roles()) {
                out.println("     role: " + role.role().word() + " – " + SafeText.of(String.join("; ", role.reasons())));
            }
        }
    }

    private static String size(long sectors, int sectorSize) {
        return sectors > Long.MAX_VALUE / sectorSize ? Numbers.grouped(sectors) + " sectors" : Numbers.size(sectors * sectorSize);
    }

    /** A line about what was read, left out where everything was read and nobody would look for it. */
    private void counts(String before, ReadCount count, boolean quiet) {
        if (count == null || quiet && count.whole()) {
            return;
        }
        StringBuilder line = new StringBuilder(before);
        if (count.whole()) {
            line.append("all ").append(Numbers.grouped(count.read())).append(" sectors read");
        } else {
            line.append(Numbers.grouped(count.read())).append(" sectors read");
            for (ReadState state : List.of(ReadState.FAILED, ReadState.SKIPPED, ReadState.UNREAD)) {
                if (count.of(state) > 0) {
                    line.append(", ").append(Numbers.grouped(count.of(state))).append(' ').append(state.word());
                }
            }
        }
        out.println(line);
    }

    private void volume(Volume volume, String indent) {
        VolumeInfo info = volume.info();
        StringBuilder line = new StringBuilder(indent).append("volume: ").append(info.kind().toUpperCase(Locale.ROOT));
        if (info.label() != null) {
            line.append(" \"").append(SafeText.of(info.label())).append('"');
        }
        if (info.bootLabel() != null && !info.bootLabel().equals(info.label())) {
            line.append(", boot sector's label \"").append(SafeText.of(info.bootLabel())).append('"');
        }
        append(line, ", serial ", info.serial());
        append(line, ", UUID ", info.uuid());
        append(line, ", cluster ", info.clusterBytes() == null ? null : Numbers.grouped(info.clusterBytes()) + " bytes");
        append(line, ", size ", info.bytes() == null ? null : Numbers.size(info.bytes()));
        append(line, ", used ", info.usedBytes() == null ? null : Numbers.size(info.usedBytes()));
        out.println(line);
        counts(indent + "its own sectors: ", ReadCount.of(volume), true);
        info.remarks().forEach(remark -> out.println(indent + "! " + SafeText.of(remark)));
    }

    private static void append(StringBuilder line, String before, String value) {
        if (value != null) {
            line.append(before).append(value);
        }
    }
}
