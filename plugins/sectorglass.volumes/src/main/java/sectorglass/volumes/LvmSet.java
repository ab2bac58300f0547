package sectorglass.volumes;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

import sectorglass.disk.SetVolume;
import sectorglass.image.AssembledImage.Piece;
import sectorglass.image.AssembledImage.Source;
import sectorglass.image.AssembledImage;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorRange;

/** An LVM2 volume group of which some or all physical volumes are in hand. Sources: LVM2 text format layout header; lvm(8), lvmraid(7). */
final class LvmSet {
    private static final int DEEPEST = 6;
    private static final long MOST_BYTES = 1L << 60;
    private static final int MOST_AREAS = 200_000;
    private static final Map<String, StripeLayout.Parity> PARITY = Map.of("raid4", StripeLayout.Parity.LAST, "raid5", StripeLayout.Parity.LEFT_SYMMETRIC,
            "raid5_ls", StripeLayout.Parity.LEFT_SYMMETRIC, "raid5_la", StripeLayout.Parity.LEFT_ASYMMETRIC,
            "raid5_rs", StripeLayout.Parity.RIGHT_SYMMETRIC, "raid5_ra", StripeLayout.Parity.RIGHT_ASYMMETRIC);

    private final LvmGroup group;
    private final Map<String, LvmMember> disks = new HashMap<>();
    private final SectorImage main;
    private final int sectorSize;
    /** Segments and areas looked at. */
    private int used;
    private final List<String> remarks = new ArrayList<>();

    LvmSet(List<LvmMember> members) {
        LvmMember newest = members.stream().max(Comparator.comparingLong(m -> m.group().seqno())).orElseThrow();
        this.group = newest.group();
        this.main = members.get(0).site().image();
        this.sectorSize = main.sectorSize();
        Map<String, LvmMember> byId = new HashMap<>();
        members.forEach(m -> byId.putIfAbsent(String.valueOf(m.id()), m));
        List<String> missing = new ArrayList<>();
        group.disks().forEach((name, disk) -> {
            if (byId.containsKey(disk.id())) {
                disks.put(name, byId.get(disk.id()));
            } else if (missing.size() < 16) {
                missing.add(name + " (" + disk.id() + ")");
            }
        });
        if (!missing.isEmpty()) {
            remarks.add("The volume group " + group.name() + " has " + group.disks().size() + " physical volumes; missing: "
                    + String.join(", ", missing) + ".");
        }
        if (newest.older()) {
            remarks.add("The current metadata text of the volume group " + group.name() + " is lost; an older one is used (change number "
                    + group.seqno() + "), so that volumes may have been changed, added or removed since.");
        }
    }

    /** A group none of whose disks is in hand. */
    LvmSet(LvmGroup group, SectorImage main) {
        this.group = group;
        this.main = main;
        this.sectorSize = main.sectorSize();
    }

    List<String> remarks() {
        return List.copyOf(remarks);
    }

    List<SetVolume> volumes() {
        List<SetVolume> all = new ArrayList<>();
        for (LvmGroup.Logical logical : group.volumes().values()) {
            if (!logical.visible()) {
                continue;
            }
            SectorImage image = image(logical, 0);
            if (image == null) {
                String type = logical.segments().isEmpty() ? "no segments" : logical.segments().get(0).type();
                remarks.add("The logical volume " + group.name() + "/" + logical.name() + " (" + type + ") is not put together here.");
            } else if (image.bytes() >= sectorSize) {
                all.add(placed(logical, image));
            }
        }
        return all;
    }

    /** A volume that stands in one run on the surveyed disk keeps the addresses of the disk. */
    private SetVolume placed(LvmGroup.Logical logical, SectorImage image) {
        String type = "logical volume, " + logical.segments().get(0).type();
        String name = group.name() + "/" + logical.name();
        long start = -1;
        long next = -1;
        boolean run = true;
        for (long at = 0; run && at < image.bytes();) {
            Piece piece = ((AssembledImage) image).piece(at);
            Source source = piece.sources().size() == 1 ? piece.sources().get(0) : null;
            long there = source == null ? -1 : source.firstByte() + at - piece.start();
            run = source != null && source.image() == main && (next < 0 || next == there) && there % sectorSize == 0;
            start = start < 0 ? there : start;
            next = there + piece.end() - at;
            at = piece.end();
        }
        SectorRange range = run ? new SectorRange(start / sectorSize, image.bytes() / sectorSize) : image.all();
        return new SetVolume(name, type, logical.id(), run ? main : image, range, run);
    }

    /** The bytes of a logical volume; null where one of its segments is of a kind that is not known here. */
    private AssembledImage image(LvmGroup.Logical logical, int depth) {
        if (depth > DEEPEST || logical == null || logical.segments().isEmpty() || group.extentBytes() <= 0) {
            return null;
        }
        used += logical.segments().size();
        if (used > MOST_AREAS) {
            return null; // volumes in volumes, many times over
        }
        List<Piece> pieces = new ArrayList<>();
        long at = 0;
        List<LvmGroup.Segment> segments = new ArrayList<>(logical.segments());
        segments.sort(Comparator.comparingLong(LvmGroup.Segment::start));
        for (LvmGroup.Segment segment : segments) {
            long bytes = bytes(segment.extents());
            if (bytes <= 0 || segment.start() != at / group.extentBytes() || at > MOST_BYTES - bytes) {
                return null;
            }
            List<Source> sources = sources(segment, bytes, depth);
            if (sources == null) {
                return null;
            }
            pieces.add(new Piece(at, bytes, sources));
            at += bytes;
        }
        return AssembledImage.of(group.name() + "/" + logical.name(), sectorSize, pieces);
    }

    private List<Source> sources(LvmGroup.Segment segment, long bytes, int depth) {
        List<LvmGroup.Area> areas = segment.areas();
        switch (segment.type()) {
            case "striped", "linear" -> {
                if (areas.size() == 1) {
                    return area(areas.get(0), depth);
                }
                long each = areas.isEmpty() ? 0 : bytes / areas.size();
                return striped(areas, each, segment.stripeBytes(), StripeLayout.Parity.NONE, depth);
            }
            case "raid1", "mirror" -> {
                List<Source> all = new ArrayList<>();
                for (LvmGroup.Area area : areas) {
                    List<Source> copy = area(area, depth);
                    if (copy != null) {
                        all.addAll(copy);
                    }
                }
                return all;
            }
            case "error", "zero" -> {
                return List.of();
            }
            default -> {
                StripeLayout.Parity parity = PARITY.get(segment.type());
                return parity == null || areas.size() < 2 ? null
                        : striped(areas, bytes / (areas.size() - 1), segment.stripeBytes(), parity, depth);
            }
        }
    }

    private List<Source> striped(List<LvmGroup.Area> areas, long each, long chunk, StripeLayout.Parity parity, int depth) {
        if (areas.isEmpty() || chunk < 512 || chunk % sectorSize != 0 || each <= 0 || each % chunk != 0) {
            return null;
        }
        List<SectorImage> disks = new ArrayList<>();
        for (LvmGroup.Area area : areas) {
            List<Source> source = area(area, depth);
            if (source == null) {
                return null;
            }
            disks.add(source.isEmpty() ? null : AssembledImage.of(area.name(), sectorSize, List.of(new Piece(0, each, source))));
        }
        return List.of(new Source(StripeLayout.of("stripes", sectorSize, disks, each, chunk, parity), 0));
    }

    /** The place of an area; empty where its disk is not in hand, null where it cannot be. */
    private List<Source> area(LvmGroup.Area area, int depth) {
        if (++used > MOST_AREAS) {
            return null;
        }
        LvmGroup.Disk disk = group.disks().get(area.name());
        long offset = bytes(area.extent());
        if (offset < 0) {
            return null;
        }
        if (disk == null) {
            AssembledImage inner = image(group.volumes().get(area.name()), depth + 1);
            return inner == null ? null : List.of(new Source(inner, offset));
        }
        LvmMember member = disks.get(area.name());
        if (member == null) {
            return List.of();
        }
        return disk.start() > MOST_BYTES ? null : List.of(new Source(member.site().image(), member.site().firstByte() + disk.start() + offset));
    }

    private long bytes(long extents) {
        return extents < 0 || Math.multiplyHigh(extents, group.extentBytes()) != 0 || extents * group.extentBytes() < 0
                || extents * group.extentBytes() > MOST_BYTES ? -1 : extents * group.extentBytes();
    }
}
