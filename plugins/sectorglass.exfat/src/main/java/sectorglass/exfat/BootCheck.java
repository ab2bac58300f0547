package sectorglass.exfat;

import java.util.function.Supplier;

import sectorglass.disk.VolumeSite;
import sectorglass.image.SectorRanges;
import sectorglass.image.UnreadException;
import sectorglass.verify.Checks;
import sectorglass.verify.Mark;
import sectorglass.verify.Outcome;
import sectorglass.verify.Severity;

/**
 * The rules of the boot sector's own fields (Microsoft exFAT specification, section 3.1). They are judged on the main sector:
 * what its backup holds decides nothing about it.
 */
final class BootCheck {

    private final VolumeSite site;
    private final BootSector boot;
    private final Checks out;
    private Mark lead;
    private Mark fits;
    private Mark count;
    /** Where even the name is gone, everything else follows from that. */
    private final boolean named;
    private boolean rangesHold = true;

    BootCheck(VolumeSite site, BootSector boot, Checks out) {
        this.site = site;
        this.boot = boot;
        this.named = boot.window().isRead(0, BootSector.SIZE) && boot.named();
        this.out = out.in(boot.at(0, BootSector.SIZE));
    }

    /** The first broken field of those that make the region unusable, or null. */
    Mark lead() {
        return lead;
    }

    /** The broken verdict about the number of clusters or of sectors, or null. */
    Mark size() {
        return fits != null && fits.failed() ? fits : count != null && count.failed() ? count : null;
    }

    void run() {
        locating("exfat.name-and-zero-area", BootSector.NAME, 8, () -> {
            if (!boot.named()) {
                return Outcome.failed(Text.bytes(boot.window(), BootSector.NAME, 8), "45 58 46 41 54 20 20 20");
            }
            int odd = Text.nonZero(boot.window(), BootSector.ZERO, 53);
            return odd < 0 ? Outcome.passed() : Outcome.failed(Text.bytes(boot.window(), odd, 1), "00").at(boot.at(odd, 1));
        });
        locating("exfat.boot-signature", BootSector.SIGNATURE, 2, () -> Outcome.test(boot.signed(),
                Text.bytes(boot.window(), BootSector.SIGNATURE, 2), "55 AA"));
        locating("exfat.revision-supported", BootSector.REVISION, 2, () -> Outcome.test(boot.revision() >> 8 == 1,
                (boot.revision() >> 8) + "." + (boot.revision() & 0xFF), "1.00 to 1.99"));
        if (boot.window().isRead(0, BootSector.SIZE)) {
            sizes();
            ranges();
        } else {
            SectorRanges missing = boot.window().missing(0, BootSector.SIZE);
            locating("exfat.field-ranges", BootSector.VOLUME_LENGTH, 41, () -> Outcome.unread(missing));
            field("exfat.volume-fits-partition", BootSector.VOLUME_LENGTH, 8, () -> Outcome.unread(missing));
            field("exfat.cluster-count-exact", BootSector.CLUSTER_COUNT, 4, () -> Outcome.unread(missing));
        }
        field("exfat.reserved-zero", BootSector.RESERVED, 7, () -> {
            int odd = Text.nonZero(boot.window(), BootSector.RESERVED, 7);
            return odd < 0 ? Outcome.passed() : Outcome.failed(Text.bytes(boot.window(), odd, 1), "00").at(boot.at(odd, 1))
                    .with("path", "the boot sector");
        });
        flags();
    }

    private void flags() {
        field("exfat.closed-cleanly", BootSector.FLAGS, 2, () -> Outcome.test((boot.flags() & 2) == 0, Text.hex(boot.flags(), 4),
                "bit 1 clear"));
        field("exfat.no-media-failure", BootSector.FLAGS, 2, () -> Outcome.test((boot.flags() & 4) == 0, Text.hex(boot.flags(), 4),
                "bit 2 clear"));
        field("exfat.active-fat-legal", BootSector.FLAGS, 2, () -> Outcome.test((boot.flags() & 1) == 0 || boot.fats() == 2,
                "FAT " + ((boot.flags() & 1) + 1) + " of " + boot.fats() + " active", "FAT 1 active"));
    }

    private void sizes() {
        if (!boot.legalSector()) {
            return;
        }
        int size = 1 << boot.sectorShift();
        long room = site.bytes() / size;
        fits = field("exfat.volume-fits-partition", BootSector.VOLUME_LENGTH, 8, () -> Outcome.test(
                Long.compareUnsigned(boot.volumeLength(), room) <= 0, Long.toUnsignedString(boot.volumeLength()) + " sectors",
                "at most " + room + " sectors"));
        if (boot.clusterShift() > 25 - boot.sectorShift() || Long.compareUnsigned(boot.volumeLength(), boot.heapOffset()) <= 0) {
            return;
        }
        long possible = Math.min(Long.divideUnsigned(boot.volumeLength() - boot.heapOffset(), 1L << boot.clusterShift()),
                BootSector.MOST_CLUSTERS);
        boolean lengthOdd = boot.clusterCount() > possible
                && boot.heapOffset() + (boot.clusterCount() << boot.clusterShift()) <= room
                && boot.fatLength() * size / 4 >= boot.clusterCount() + 2;
        count = field("exfat.cluster-count-exact", BootSector.CLUSTER_COUNT, 4, () -> {
            Outcome outcome = Outcome.test(boot.clusterCount() == possible, boot.clusterCount() + " clusters", possible + " clusters");
            if (boot.clusterCount() < possible) {
                outcome.severity(Severity.COSMETIC);
            }
            return (lengthOdd ? outcome.at(boot.at(BootSector.VOLUME_LENGTH, 8)) : outcome)
                    .because(fits.failed() ? fits : null);
        });
    }

    private void ranges() {
        int shift = boot.sectorShift();
        range(BootSector.SECTOR_SHIFT, 1, boot.legalSector(), shift, "9 to 12");
        boolean sector = boot.legalSector();
        boolean cluster = sector && boot.clusterShift() <= 25 - shift;
        if (sector) {
            range(BootSector.CLUSTER_SHIFT, 1, cluster, boot.clusterShift(), "0 to " + (25 - shift));
            range(BootSector.VOLUME_LENGTH, 8, Long.compareUnsigned(boot.volumeLength(), (1L << 20) >> shift) >= 0,
                    Long.toUnsignedString(boot.volumeLength()), "at least " + ((1 << 20) >> shift));
        }
        range(BootSector.FATS, 1, boot.fats() == 1 || boot.fats() == 2, boot.fats(), "1, or 2");
        range(BootSector.FAT_OFFSET, 4, boot.fatOffset() >= 24 && boot.fatOffset() < boot.heapOffset(), boot.fatOffset(),
                "24 to " + (boot.heapOffset() - boot.fatLength() * Math.max(1, boot.fats())));
        if (sector && boot.fats() > 0 && boot.fatOffset() < boot.heapOffset()) {
            long least = ((boot.clusterCount() + 2) * 4 + (1L << shift) - 1) >> shift;
            long most = (boot.heapOffset() - boot.fatOffset()) / boot.fats();
            range(BootSector.FAT_LENGTH, 4, boot.fatLength() >= least && boot.fatLength() <= most, boot.fatLength(), least + " to " + most);
        }
        range(BootSector.HEAP_OFFSET, 4, boot.heapOffset() >= 24 && Long.compareUnsigned(boot.heapOffset(), boot.volumeLength()) < 0,
                boot.heapOffset(), "the end of the FATs to the end of the volume");
        range(BootSector.CLUSTER_COUNT, 4, boot.clusterCount() > 0 && boot.clusterCount() <= BootSector.MOST_CLUSTERS,
                boot.clusterCount(), "1 to " + BootSector.MOST_CLUSTERS);
        range(BootSector.ROOT_CLUSTER, 4, boot.rootCluster() >= 2 && boot.rootCluster() <= boot.clusterCount() + 1, boot.rootCluster(),
                "2 to " + (boot.clusterCount() + 1));
        range(BootSector.PERCENT, 1, boot.percentInUse() <= 100 || boot.percentInUse() == 0xFF, boot.percentInUse(), "0 to 100, or 255");
        if (rangesHold) {
            out.report("exfat.field-ranges", boot.at(BootSector.VOLUME_LENGTH, 41), Outcome.passed());
        }
    }

    private void range(int at, int length, boolean holds, Object stored, String legal) {
        if (holds) {
            return;
        }
        rangesHold = false;
        Outcome outcome = Outcome.failed(stored, legal).with("field", name(at)).because(named ? size() : lead);
        // neither keeps clusters from being located; volumes of a little less than 1 MiB exist
        boolean cosmetic = at == BootSector.PERCENT || at == BootSector.VOLUME_LENGTH && boot.volumeLength() > boot.heapOffset();
        Mark mark = out.report("exfat.field-ranges", boot.at(at, length), cosmetic ? outcome.severity(Severity.COSMETIC) : outcome);
        if (lead == null && !cosmetic) {
            lead = mark;
        }
    }

    private static String name(int at) {
        return switch (at) {
            case BootSector.VOLUME_LENGTH -> "VolumeLength";
            case BootSector.FAT_OFFSET -> "FatOffset";
            case BootSector.FAT_LENGTH -> "FatLength";
            case BootSector.HEAP_OFFSET -> "ClusterHeapOffset";
            case BootSector.CLUSTER_COUNT -> "ClusterCount";
            case BootSector.ROOT_CLUSTER -> "FirstClusterOfRootDirectory";
            case BootSector.SECTOR_SHIFT -> "BytesPerSectorShift";
            case BootSector.CLUSTER_SHIFT -> "SectorsPerClusterShift";
            case BootSector.FATS -> "NumberOfFats";
            default -> "PercentInUse";
        };
    }

    private void locating(String rule, int at, int length, Supplier<Outcome> test) {
        Mark mark = field(rule, at, length, test);
        if (mark != null && !mark.passed() && lead == null) {
            lead = mark;
        }
    }

    private Mark field(String rule, int at, int length, Supplier<Outcome> test) {
        return out.check(rule, boot.at(at, length), () -> {
            try {
                Outcome outcome = test.get();
                return named || lead == null ? outcome : outcome.because(lead);
            } catch (UnreadException e) {
                return Outcome.unread(e.missing()).because(lead);
            }
        });
    }
}
