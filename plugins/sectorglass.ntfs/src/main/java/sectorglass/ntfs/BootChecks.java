package sectorglass.ntfs;

import java.util.Arrays;

import sectorglass.disk.VolumeSite;
import sectorglass.image.ByteRange;
import sectorglass.image.SectorRanges;
import sectorglass.image.Window;
import sectorglass.verify.Checks;
import sectorglass.verify.Mark;
import sectorglass.verify.Outcome;

/** The rules of the boot sector and its copy. Sources: Linux kernel fs/ntfs3/super.c; NTFS-3G bootsect.c. */
final class BootChecks {
    private static final int[][] ZERO = BootSector.ZERO;

    private final VolumeSite site;
    private final BootFound found;
    private final Geometry geometry;
    private final Window boot;

    BootChecks(VolumeSite site, BootFound found) {
        this.site = site;
        this.found = found;
        this.geometry = found.geometry();
        this.boot = site.window(0, BootSector.LENGTH);
    }

    private ByteRange at(int offset, int length) {
        return new ByteRange(site.firstByte() + offset, length);
    }

    /** Reports all; gives the verdict about the number of sectors, null where no boot sector states one. */
    Mark run(Checks all) {
        Checks out = all.in(at(0, BootSector.LENGTH));
        Mark oem = out.check("ntfs.boot.oem-id", at(BootSector.OEM_ID, 8), () -> Outcome.test(boot.matches(BootSector.OEM_ID, BootSector.OEM),
                Show.hex(boot.bytes(BootSector.OEM_ID, 8)), Show.hex(BootSector.OEM.getBytes(java.nio.charset.StandardCharsets.US_ASCII))));
        if (!oem.failed()) {
            fields(out);
        }
        if (found.fromRecords()) {
            return null; // neither sector says anything
        }
        Mark total = total(out);
        backup(all, oem);
        return total;
    }

    private void fields(Checks out) {
        out.check("ntfs.boot.sector-size", at(BootSector.SECTOR_BYTES, 2), () -> {
            int size = boot.u16le(BootSector.SECTOR_BYTES);
            return Outcome.test(BootSector.sectorBytesLegal(size), size, "512, 1024, 2048 or 4096");
        });
        out.check("ntfs.boot.cluster-byte", at(BootSector.CLUSTER_SECTORS, 1), () -> {
            int value = boot.u8(BootSector.CLUSTER_SECTORS);
            return Outcome.test(BootSector.clusterBytes(boot.u16le(BootSector.SECTOR_BYTES), value) != 0, value,
                    "1 to 128 as a power of two, or 240 to 253; at most 2 MiB");
        });
        out.check("ntfs.boot.zero-fields", at(0x0E, 0x16), () -> {
            for (int[] field : ZERO) {
                if (!boot.filled(field[0], field[1], 0)) {
                    return Outcome.failed(Show.hex(boot.bytes(field[0], field[1])), "0").at(at(field[0], field[1]))
                            .with("offset", field[0]);
                }
            }
            return Outcome.passed();
        });
        size(out, "ntfs.boot.record-byte", BootSector.RECORD_SIZE, 4096);
        size(out, "ntfs.boot.index-byte", BootSector.INDEX_SIZE, 65536);
        if (!found.backup() || !boot.isRead(0, BootSector.LENGTH)) {
            cluster(out, "ntfs.boot.mft-lcn", BootSector.MFT_LCN, false);
            cluster(out, "ntfs.boot.mirror-lcn", BootSector.MIRROR_LCN, true);
        }
        out.check("ntfs.boot.end-marker", at(BootSector.END_MARKER, 2), () -> Outcome.test(
                boot.matches(BootSector.END_MARKER, 0x55, 0xAA), Show.hex(boot.bytes(BootSector.END_MARKER, 2)), "55 AA"));
        out.check("ntfs.boot.hidden-sectors", at(BootSector.HIDDEN_SECTORS, 4), () -> {
            long hidden = boot.u32le(BootSector.HIDDEN_SECTORS);
            long first = site.firstByte() / geometry.sectorBytes();
            return Outcome.test(hidden == first, hidden, first);
        });
    }

    private void size(Checks out, String rule, int offset, int most) {
        out.check(rule, at(offset, 1), () -> {
            int value = boot.u8(offset);
            return Outcome.test(BootSector.blockBytes(value, geometry.clusterBytes(), most) != 0, (byte) value,
                    "a power of two of clusters, or -9 to -31 for 2^n bytes; 512 to " + most + " bytes");
        });
    }

    private void cluster(Checks out, String rule, int offset, boolean mirror) {
        out.check(rule, at(offset, 8), () -> {
            long lcn = boot.u64le(offset);
            boolean legal = BootSector.lcnLegal(lcn, geometry) && (!mirror || lcn != boot.u64le(BootSector.MFT_LCN));
            return Outcome.test(legal, Long.toUnsignedString(lcn), "1 to " + (geometry.clusters() - 1)
                    + (mirror ? ", not that of $MFT" : ""));
        });
    }

    /** The number of sectors against partition and image; from the copy where the first sector is no boot sector. */
    private Mark total(Checks out) {
        boolean unread = !boot.isRead(0, BootSector.LENGTH);
        ByteRange where = new ByteRange((unread ? boot.start() : found.byteFound()) + BootSector.SECTORS, 8);
        Window from = unread ? boot : site.image().window(found.byteFound(), BootSector.LENGTH);
        return out.check("ntfs.boot.total-sectors", where, () -> {
            long sectors = from.u64le(BootSector.SECTORS);
            long inSite = site.bytes() / geometry.sectorBytes() - 1;
            long inImage = (site.image().bytes() - site.firstByte()) / geometry.sectorBytes() - 1;
            long most = Math.min(inSite, inImage);
            return Outcome.test(sectors > 0 && sectors <= most, Long.toUnsignedString(sectors), "1 to " + most)
                    .with("partition", inSite + 1).with("image", inImage + 1);
        });
    }

    private void backup(Checks out, Mark oem) {
        long place = geometry.backupByte();
        int length = Math.min(geometry.sectorBytes(), 4096);
        if (place + length > site.image().bytes() || place < 0) {
            return; // total-sectors says so
        }
        out.in(new ByteRange(place, length)).check("ntfs.boot.backup-equal", new ByteRange(place, length), () -> {
            Window first = site.window(0, length);
            Window copy = site.image().window(place, length);
            int sector = site.image().sectorSize();
            for (int i = 0; i < length; i += Math.min(sector, length)) {
                int n = Math.min(sector, length - i);
                if (first.isRead(i, n) && copy.isRead(i, n) && !Arrays.equals(first.raw(i, n), copy.raw(i, n))) {
                    int at = i + Arrays.mismatch(first.raw(i, n), copy.raw(i, n));
                    return Outcome.failed(Show.hex(copy.bytes(at, 1)), Show.hex(first.bytes(at, 1)))
                            .at(new ByteRange(place + at, 1)).with("offset", at).because(oem);
                }
            }
            SectorRanges missing = first.missing(0, length).union(copy.missing(0, length));
            return missing.isEmpty() ? Outcome.passed() : Outcome.unread(missing);
        });
    }
}
