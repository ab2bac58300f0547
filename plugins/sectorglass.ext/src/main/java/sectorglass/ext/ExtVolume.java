package sectorglass.ext;

import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;

import sectorglass.disk.Level;
import sectorglass.disk.SelfCheck;
import sectorglass.disk.Structure;
import sectorglass.disk.Volume;
import sectorglass.disk.VolumeInfo;
import sectorglass.disk.VolumeSite;
import sectorglass.disk.Witness;
import sectorglass.disk.copy.StructureCopy;
import sectorglass.disk.way.FileWay;
import sectorglass.image.Progress;
import sectorglass.image.SectorRange;
import sectorglass.image.UnreadException;
import sectorglass.image.Window;
import sectorglass.verify.Checks;

/** An ext volume. */
final class ExtVolume implements Volume {
    private final VolumeSite site;
    private final VolumeInfo info;

    private final Layout layout;
    private Groups groups;
    private ExtFiles files;
    private ExtAllocation allocation;
    private final long superblock;

    private ExtVolume(VolumeSite site, VolumeInfo info, Layout layout, long superblock) {
        this.superblock = superblock;
        this.site = site;
        this.info = info;
        this.layout = layout;
    }

    /** The layout by the superblock that is believed, or null where its geometry does not hold. */
    private static Layout layout(VolumeSite site, long at) {
        try {
            Window w = site.window(at, Superblock.LENGTH);
            Superblock sb = Superblock.read(w);
            if (sb.problem() != null) {
                return null;
            }
            int seed = sb.hasIncompat(Features.CSUM_SEED) ? (int) w.u32le(0x270) : Crc.raw(Crc.START, sb.uuid());
            return new Layout(site, sb, seed);
        } catch (UnreadException e) {
            return null;
        }
    }

    /** The layout, or null where no usable superblock is known. */
    Layout layout() {
        return layout;
    }

    /** The descriptor table, read at the first call; only where there is a layout. */
    synchronized Groups groups() {
        if (groups == null) {
            groups = new Groups(layout);
        }
        return groups;
    }

    /** @param at byte of the superblock to believe, from the start of the site */
    static ExtVolume open(VolumeSite site, String kind, long at) {
        return new ExtVolume(site, info(site, kind, at), layout(site, at), at);
    }

    private static VolumeInfo info(VolumeSite site, String kind, long at) {
        List<String> remarks = new ArrayList<>();
        if (at != 1024) {
            remarks.add("read from the backup superblock at byte " + at);
        }
        try {
            Window w = site.window(at, Superblock.LENGTH);
            Superblock sb = Superblock.read(w);
            long block = sb.logBlock() <= 6 ? sb.blockSize() : 0;
            long bytes = Math.multiplyHigh(sb.blocks(), block) == 0 && sb.blocks() * block > 0 ? sb.blocks() * block : -1;
            long free = w.u32le(0xC) | (sb.hasIncompat(Features.BIT64) ? w.u32le(0x158) << 32 : 0);
            if (sb.hasIncompat(Features.RECOVER)) {
                remarks.add("journal needs replay");
            }
            if ((w.u16le(0x3A) & 1) == 0) {
                remarks.add("not closed cleanly");
            }
            if ((w.u16le(0x3A) & 2) != 0) {
                remarks.add("errors were recorded while it was in use");
            }
            if ((sb.incompat() & ~Features.KNOWN_INCOMPAT) != 0) {
                remarks.add("uses features that are not known here: " + Long.toHexString(sb.incompat() & ~Features.KNOWN_INCOMPAT));
            }
            long latest = Math.max(Math.max(w.u32le(0x2C), w.u32le(0x30)), Math.max(w.u32le(0x40), w.u32le(0x108)));
            long sector = site.image().sectorSize();
            return new VolumeInfo(kind, new SectorRange(site.range().first(), bytes < 0 ? site.range().count()
                    : bytes / sector + (bytes % sector == 0 ? 0 : 1)), label(w), null, null, uuid(sb.uuid()),
                    block == 0 ? null : block, bytes < 0 ? null : bytes,
                    bytes < 0 || at != 1024 || free > sb.blocks() ? null : (Long) (bytes - free * block),
                    latest == 0 ? null : Instant.ofEpochSecond(latest), List.copyOf(remarks));
        } catch (UnreadException e) {
            return new VolumeInfo(kind, site.range(), null, null, null, null, null, null, null, null, List.copyOf(remarks));
        }
    }

    private static String label(Window w) {
        byte[] bytes = w.bytes(0x78, 16);
        int end = 0;
        while (end < 16 && bytes[end] != 0) {
            end++;
        }
        return end == 0 ? null : new String(bytes, 0, end, StandardCharsets.UTF_8);
    }

    static String uuid(byte[] bytes) {
        StringBuilder text = new StringBuilder();
        boolean any = false;
        for (int i = 0; i < 16; i++) {
            any |= bytes[i] != 0;
            text.append(i == 4 || i == 6 || i == 8 || i == 10 ? "-" : "").append(String.format("%02x", bytes[i]));
        }
        return any ? text.toString() : null;
    }

    @Override
    public VolumeInfo info() {
        return info;
    }

    @Override
    public VolumeSite site() {
        return site;
    }

    @Override
    public List<Structure> structures() {
        return ExtStructures.list(this);
    }

    @Override
    public Optional<Structure> structureAt(long imageByte) {
        return ExtStructures.at(this, imageByte);
    }

    @Override
    public OptionalLong address(String kind, long target) {
        if (layout != null && kind.equals("cluster") && target >= 0 && target < layout.sb.blocks()) {
            return OptionalLong.of(layout.block(target).start());
        }
        if (layout != null && kind.equals("record")) {
            long at = groups().inode(target);
            return at < 0 ? OptionalLong.empty() : OptionalLong.of(site.firstByte() + at);
        }
        return kind.equals("cluster") ? OptionalLong.empty() : Volume.super.address(kind, target);
    }

    @Override
    public synchronized <T> Optional<T> capability(Class<T> kind) {
        if (layout != null && files == null && (layout.sb.incompat() & ~Features.KNOWN_INCOMPAT) == 0) {
            files = new ExtFiles(layout, groups());
            allocation = new ExtAllocation(layout, groups(), files);
        }
        if (files != null && kind == FileWay.class) {
            return Optional.of(kind.cast(new ExtWay(layout, groups(), superblock)));
        }
        if (files != null && kind == StructureCopy.class) {
            return Optional.of(kind.cast(new ExtCopy(layout, groups())));
        }
        if (files != null && kind == SelfCheck.class) {
            return Optional.of(kind.cast(new ExtSelfCheck(layout, groups())));
        }
        if (files != null && kind.isInstance(files)) {
            return Optional.of(kind.cast(files));
        }
        return allocation != null && kind.isInstance(allocation) ? Optional.of(kind.cast(allocation)) : Optional.empty();
    }

    @Override
    public List<Witness> witnesses() {
        List<Witness> all = new ArrayList<>();
        for (long group : layout == null ? List.<Long>of() : layout.backupGroups(16)) {
            long at = layout.first(group) * layout.blockSize;
            if (site.has(at, Superblock.LENGTH)) {
                Window w = site.window(at, Superblock.LENGTH);
                long home = layout.first(w.u16le(0x5A)) * layout.blockSize;
                if (w.u16le(0x38) == Superblock.MAGIC && w.u16le(0x5A) != 0) {
                    all.add(new Witness(site.firstByte() + at, site.firstByte() + home, "backup superblock"));
                }
            }
        }
        return all;
    }

    @Override
    public void check(Level level, Checks out) {
        check(level, out, Progress.NONE);
    }

    @Override
    public void check(Level level, Checks out, Progress progress) {
        SuperblockChecks superblock = new SuperblockChecks(site, out);
        superblock.primary(layout);
        if (layout == null) {
            return;
        }
        superblock.backups(layout);
        GroupChecks groupChecks = new GroupChecks(layout, groups(), out, superblock.fault);
        groupChecks.check();
        JournalChecks.check(layout, groups(), out, superblock.fault);
        if (level == Level.FULL && (layout.sb.incompat() & ~Features.KNOWN_INCOMPAT) == 0) {
            new FullCheck(layout, groups(), groupChecks, out, superblock.fault).run(progress);
        }
    }
}
