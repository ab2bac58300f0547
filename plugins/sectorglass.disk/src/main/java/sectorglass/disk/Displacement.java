package sectorglass.disk;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.TreeSet;

import sectorglass.image.ByteRange;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorRange;
import sectorglass.image.Window;
import sectorglass.verify.Checks;
import sectorglass.verify.Outcome;

/**
 * Compares structures that know their own place with where they lie. A constant shift from one LBA on is one finding; a repeat of the
 * first sectors at 2^28 or 2^32 is "addresses wrapped" (a reader that kept 28 or 32 bits of the LBA).
 */
final class Displacement {
    /** The address widths at which readers are known to wrap: ATA 28-bit commands, 32-bit counters. */
    private static final int[] WIDTHS = {28, 32};
    private static final int COMPARED = 16;

    private final Disk disk;
    private final Survey survey;

    Displacement(Disk disk, Survey survey) {
        this.disk = disk;
        this.survey = survey;
    }

    void check(Checks out) {
        List<Witness> witnesses = witnesses();
        if (!witnesses.isEmpty()) {
            shift(witnesses, out);
        }
        for (int width : WIDTHS) {
            wrapped(width, out);
        }
    }

    List<Witness> witnesses() {
        List<Witness> all = new ArrayList<>();
        for (Disk.FoundMap found : disk.maps()) {
            // a header that stands off its own place is called a leftover by its map, and is the best witness here
            all.addAll(found.provider().witnesses(found.map(), disk.image()));
        }
        for (Partition partition : disk.partitions()) {
            if (partition.volume() != null && partition.placed()) {
                all.addAll(partition.volume().witnesses());
            }
        }
        if (disk.volume() != null) {
            all.addAll(disk.volume().witnesses());
        }
        for (long shift : new TreeSet<>(all.stream().map(Witness::shift).filter(s -> s != 0).toList())) {
            all.addAll(shiftedVolumes(shift));
        }
        all.sort(Comparator.comparingLong(Witness::foundByte));
        return all;
    }

    /** Partitions without a volume, or with one that was only inferred, whose volume stands a known number of bytes late. */
    private List<Witness> shiftedVolumes(long shift) {
        int size = disk.image().sectorSize();
        List<Witness> found = new ArrayList<>();
        if (shift % size != 0) {
            return found;
        }
        for (Partition partition : disk.partitions()) {
            long first = partition.range().first() + shift / size;
            if (partition.map() < 0 || first < 0 || first >= disk.image().sectors()) {
                continue;
            }
            VolumeSite late = new VolumeSite(disk.image(), new SectorRange(first, partition.range().count()), partition.entry().type());
            VolumeSite home = new VolumeSite(disk.image(), partition.range(), partition.entry().type());
            if (partition.volume() != null && !survey.surer(late, home)) {
                continue;
            }
            survey.recognise(late).ifPresent(volume -> found.add(new Witness(first * size, partition.range().first() * size,
                    volume.info().kind() + " volume of partition " + partition.number())));
        }
        return found;
    }

    private void shift(List<Witness> witnesses, Checks out) {
        int size = disk.image().sectorSize();
        Witness last = witnesses.get(witnesses.size() - 1);
        int from = startOfShift(witnesses, last.shift());
        long straight = witnesses.subList(0, from).stream().filter(w -> w.shift() == 0).count();
        int late = witnesses.size() - from;
        boolean displaced = late >= 2 && straight == from;
        Witness first = witnesses.get(Math.min(from, witnesses.size() - 1));
        ByteRange where = new ByteRange(displaced ? first.foundByte() : witnesses.get(0).foundByte(), size);
        // somewhere behind the last structure that lies right the content begins to lie late: failings from there on follow from it
        long since = displaced && from > 0 ? witnesses.get(from - 1).foundByte() : where.start();
        out.in(new ByteRange(since, where.end() - since)).check("disk.displacement", where, () -> displaced
                ? Outcome.failed(first.structure() + " at LBA " + first.foundByte() / size, "LBA " + first.homeByte() / size)
                        .with("from", first.foundByte() / size).with("sectors", Math.abs(last.shift()) / size)
                        .with("direction", last.shift() > 0 ? "late" : "early").with("witnesses", late)
                        .with("after", from == 0 ? 0 : witnesses.get(from - 1).foundByte() / size)
                : Outcome.passed());
    }

    /** Index of the first witness of the last run that shares this shift; the number of witnesses where there is no shift. */
    private static int startOfShift(List<Witness> witnesses, long shift) {
        int from = witnesses.size();
        while (from > 0 && shift != 0 && witnesses.get(from - 1).shift() == shift) {
            from--;
        }
        return from;
    }

    private void wrapped(int width, Checks out) {
        SectorImage image = disk.image();
        long lba = 1L << width;
        if (lba + COMPARED > image.sectors()) {
            return;
        }
        int size = image.sectorSize();
        ByteRange where = new ByteRange(lba * size, (long) COMPARED * size);
        out.check("disk.addresses-wrapped", where, () -> {
            Window head = image.window(0, COMPARED * size);
            Window there = image.window(lba * size, COMPARED * size);
            for (int i = 0; i < COMPARED; i++) {
                boolean known = head.isRead(i * size, size) && there.isRead(i * size, size);
                if (known && !java.util.Arrays.equals(head.raw(i * size, size), there.raw(i * size, size))) {
                    return Outcome.passed();
                }
            }
            head.require(0, head.length());
            there.require(0, there.length());
            return head.filled(0, head.length(), head.u8(0)) ? null
                    : Outcome.failed("LBA " + lba + " repeats LBA 0", "other content").with("bits", width);
        });
    }
}
