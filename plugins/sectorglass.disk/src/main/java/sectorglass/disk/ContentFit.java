package sectorglass.disk;

import sectorglass.image.ByteRange;
import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;
import sectorglass.image.ReadState;
import sectorglass.verify.Checks;
import sectorglass.verify.Outcome;
import sectorglass.verify.Severity;

/**
 * Whether maps fit the content: volumes stand where their entries point, and none is larger than its partition. A slice that
 * holds a map of its own counts as filled. An entry whose first
 * sectors were not read, or that needs no file system, is no evidence either way. Common practice, no source.
 */
final class ContentFit {
    /** Bytes at the start of a partition that must have been read before "no volume here" means anything. */
    private static final int HEAD = 4096;

    private final Disk disk;

    /**
     * Evidence for one map.
     *
     * @param found entries where a volume was recognised and its size agrees
     * @param empty entries whose head was read and shows no known volume
     * @param larger entries whose volume says it is larger than the partition
     * @param open entries that unread sectors leave open
     */
    record Evidence(int found, int empty, int larger, int open) {

        Boolean fits() {
            if (larger > 0) {
                return Boolean.FALSE;
            }
            if (found > 0) {
                return Boolean.TRUE;
            }
            return empty > 0 && open == 0 ? Boolean.FALSE : null;
        }
    }

    ContentFit(Disk disk) {
        this.disk = disk;
    }

    /** Evidence for the map of that index; a backup or leftover is compared with what stands in its own entries. */
    Evidence of(int map) {
        int found = 0;
        int empty = 0;
        int larger = 0;
        int open = 0;
        PartitionMap whole = disk.maps().get(map).map();
        for (MapEntry entry : whole.entries()) {
            if (entry.use() != MapEntry.Use.PARTITION && entry.use() != MapEntry.Use.REPEAT) {
                continue;
            }
            Volume volume = volumeAt(entry.range());
            if (volume == null) {
                if (holdsMap(whole, entry.range())) {
                    found++;
                    continue;
                }
                if (needsNone(entry)) {
                    continue;
                }
                if (unreadHead(entry.range()).isEmpty()) {
                    empty++;
                } else {
                    open++;
                }
            } else if (tooLarge(entry.range(), volume)) {
                larger++;
            } else {
                found++;
            }
        }
        return new Evidence(found, empty, larger, open);
    }

    void check(Checks out) {
        for (int i = 0; i < disk.maps().size(); i++) {
            PartitionMap map = disk.maps().get(i).map();
            if (!map.leftover() && map.copy() == PartitionMap.Copy.PRIMARY && !map.where().isEmpty()) {
                content(map, of(i), out);
            }
        }
        for (Partition partition : disk.partitions()) {
            if (partition.placed()) {
                shorter(partition, out);
            }
            Volume volume = partition.volume();
            if (volume != null && volume.info().bytes() != null && partition.placed()) {
                long room = Math.multiplyExact(partition.range().count(), disk.image().sectorSize());
                out.volume(partition.number()).check("disk.volume-size", partition.entry().where(),
                        () -> Outcome.test(volume.info().bytes() <= room, volume.info().bytes() + " bytes", "at most " + room + " bytes")
                                .with("partition", partition.number()).with("kind", volume.info().kind()));
            }
        }
    }

    /** How much of a partition lies beyond the end of the image. */
    private void shorter(Partition partition, Checks out) {
        SectorRange range = partition.range();
        long first = Math.max(range.first(), disk.image().sectors());
        long sectors = Math.max(0, range.end() - first);
        int size = disk.image().sectorSize();
        out.check("disk.image-shorter", partition.entry().where(), () -> Outcome.test(sectors == 0, bytes(range.count(), size) + " bytes",
                bytes(range.count() - sectors, size) + " bytes").with("partition", partition.number()).with("first", first)
                .with("sectors", sectors).with("missing", bytes(sectors, size)));
    }

    private static String bytes(long sectors, int size) {
        return java.math.BigInteger.valueOf(sectors).multiply(java.math.BigInteger.valueOf(size)).toString();
    }

    private void content(PartitionMap map, Evidence evidence, Checks out) {
        if (evidence.found() + evidence.empty() + evidence.larger() + evidence.open() == 0) {
            return;
        }
        out.check("disk.map-content", map.where().get(0), () -> {
            if (evidence.found() > 0 || evidence.larger() > 0) {
                return Outcome.passed();
            }
            SectorRanges missing = missing(map);
            if (!missing.isEmpty()) {
                return Outcome.unread(missing);
            }
            return Outcome.failed("no known volume at " + evidence.empty() + " places", "a volume where an entry points")
                    .severity(Severity.COSMETIC).with("entries", evidence.empty()).with("kind", map.kind().toUpperCase(java.util.Locale.ROOT));
        });
    }

    private SectorRanges missing(PartitionMap map) {
        SectorRanges all = SectorRanges.EMPTY;
        for (ByteRange own : map.where()) {
            // where the map was not read whole, it may name more
            SectorRange run = own.sectors(disk.image().sectorSize());
            all = all.union(SectorRanges.of(run).minus(disk.image().inState(ReadState.READ, run)));
        }
        for (MapEntry entry : map.entries()) {
            if (entry.use() == MapEntry.Use.PARTITION) {
                all = all.union(unreadHead(entry.range()));
            }
        }
        return all;
    }

    private SectorRanges unreadHead(SectorRange range) {
        SectorRange head = new SectorRange(range.first(), Math.min(range.count(), HEAD / disk.image().sectorSize()));
        return SectorRanges.of(head).minus(disk.image().inState(ReadState.READ, head));
    }

    /** Whether a map of another kind stands at the head of the range: a slice with its own label is content, too. */
    private boolean holdsMap(PartitionMap own, SectorRange range) {
        SectorRange head = new SectorRange(range.first(), Math.min(range.count(), HEAD / 512));
        return disk.maps().stream().map(Disk.FoundMap::map)
                .anyMatch(m -> m != own && !m.leftover() && !m.kind().equals(own.kind()) && m.lba() > own.lba() && head.contains(m.lba()));
    }

    private Volume volumeAt(SectorRange range) {
        return disk.partitions().stream().filter(p -> p.volume() != null && p.range().equals(range)).map(Partition::volume)
                .findFirst().orElse(null);
    }

    private boolean tooLarge(SectorRange range, Volume volume) {
        Long bytes = volume.info().bytes();
        return bytes != null && bytes > Math.multiplyExact(range.count(), disk.image().sectorSize());
    }

    /** Entries that are used without any volume header: reserved, boot code, swap may be blank. */
    private static boolean needsNone(MapEntry entry) {
        return entry.roles().stream().anyMatch(r -> r.role() == Role.Kind.RESERVED || r.role() == Role.Kind.ENCRYPTED
                || r.role() == Role.Kind.SET_MEMBER);
    }
}
