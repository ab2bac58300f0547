package sectorglass.partition.gpt;

import java.util.List;

import sectorglass.disk.Disk;
import sectorglass.image.ByteRange;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorRange;
import sectorglass.partition.mbr.Chs;
import sectorglass.partition.mbr.MbrTable;
import sectorglass.partition.mbr.SectorZero;
import sectorglass.partition.mbr.Slot;
import sectorglass.verify.Checks;
import sectorglass.verify.Outcome;
import sectorglass.verify.Phrase;

/** Rules about a GPT and the rest of the disk: its protective MBR, hybrid slots, another sector size. */
final class DiskChecks {
    private static final long FILLER = 0xFFFFFFFFL;
    private static final int TABLE = 446;

    private final GptDisk gpt;
    private final Disk disk;
    private final SectorImage image;
    private final Checks out;

    DiskChecks(GptDisk gpt, Disk disk, Checks all) {
        this.gpt = gpt;
        this.disk = disk;
        this.image = disk.image();
        this.out = all.in(new ByteRange(0, MbrTable.SECTOR_BYTES));
    }

    void run() {
        if (gpt.otherSize() >= 0) {
            long size = gpt.otherSize();
            out.in(new ByteRange(size, size)).report("gpt.sector-size", new ByteRange(size, 8),
                    Outcome.failed("sectors of " + image.sectorSize() + " bytes", "sectors of " + size + " bytes")
                            .with("size", size).with("used", image.sectorSize()));
        }
        if (gpt.any() && !gpt.leftover()) {
            protective();
        }
        if (gpt.zero().hybrid() && gpt.any()) {
            hybrid();
        }
        unknown();
    }

    private void protective() {
        SectorZero zero = gpt.zero();
        ByteRange table = new ByteRange(TABLE, 64);
        Slot slot = zero.protective();
        if (zero.kind() == SectorZero.Kind.UNREAD) {
            out.report("gpt.protective-mbr", table, Outcome.unread(zero.missing()));
            return;
        }
        if (slot == null) {
            out.report("gpt.protective-mbr", table, Outcome.failed("no slot of type EE", "a slot of type EE")
                    .with("problem", Phrase.of("problem.missing")));
            return;
        }
        out.report("gpt.protective-mbr", slot.where(4, 12), extent(slot));
        out.report("gpt.protective-fields", slot.where(0, 8), fields(slot));
    }

    private Outcome extent(Slot slot) {
        if (slot.first() != 1) {
            return Outcome.failed(slot.first(), 1).with("problem", Phrase.of("problem.start")).at(slot.where(8, 4));
        }
        long right = Math.min(FILLER, image.sectors() - 1);
        boolean fits = slot.count() == right || slot.count() == FILLER || gpt.zero().hybrid();
        Outcome outcome = Outcome.test(fits, slot.count(), right).with("problem", Phrase.of("problem.size")).at(slot.where(12, 4));
        return gpt.otherSize() >= 0 ? outcome.follows("gpt.sector-size", gpt.otherSize())
                : outcome.follows("gpt.header.alternate-lba", (long) image.sectorSize() + GptHeader.ALTERNATE_LBA);
    }

    private Outcome fields(Slot slot) {
        MbrTable table = gpt.zero().table();
        if (slot.active() != 0) {
            return Outcome.failed(slot.active() == 0x80 ? "active" : "flag " + slot.active(), "00")
                    .with("field", Phrase.of("field.active")).at(slot.where(0, 1));
        }
        if (slot.firstChs() != 0x000200) {
            return Outcome.failed(Chs.text(slot.firstChs()), "0/0/2").with("field", Phrase.of("field.first-chs")).at(slot.where(1, 3));
        }
        int right = Chs.pack(slot.first() + slot.count() - 1, 255, 63);
        if (slot.lastChs() != right && slot.lastChs() != Chs.UEFI_MARKER) {
            return Outcome.failed(Chs.text(slot.lastChs()), Chs.text(right) + " or 1023/255/63")
                    .with("field", Phrase.of("field.last-chs")).at(slot.where(5, 3));
        }
        boolean zero = table.diskSignature() == 0 && table.reserved() == 0;
        return zero || gpt.zero().hybrid() ? Outcome.passed() : Outcome.failed("bytes 440 to 445 not zero", "zeros")
                .with("field", Phrase.of("field.signature")).at(table.where(440, 6));
    }

    private void hybrid() {
        List<Slot> ordinary = gpt.zero().table().ordinary();
        out.report("gpt.hybrid", ordinary.get(0).where(), Outcome.failed(ordinary.size() + " ordinary slots beside EE", "none")
                .with("slots", ordinary.size()));
        GptHeader authority = gpt.authority(image);
        for (Slot slot : ordinary) {
            out.check("gpt.hybrid-entry", slot.where(8, 8), () -> mirrors(slot, authority));
        }
    }

    private Outcome mirrors(Slot slot, GptHeader authority) {
        String stored = "sectors " + slot.range().first() + " to " + slot.range().last();
        if (authority == null) {
            return Outcome.undecided("no copy of the GPT can be read").with("slot", slot.index());
        }
        List<SectorRange> ranges = gpt.ranges(image);
        if (!ranges.contains(slot.range()) && !authority.entries().missing(image).isEmpty()) {
            return Outcome.unread(authority.entries().missing(image)).with("slot", slot.index());
        }
        return Outcome.test(ranges.contains(slot.range()), stored, "a range that a GPT entry names").with("slot", slot.index())
                .follows("mbr.partition-range", slot.at() + 8);
    }

    /** Where nothing else is known of the disk, a header that was not read may still be there. */
    private void unknown() {
        SectorZero.Kind kind = gpt.zero().kind();
        boolean open = kind == SectorZero.Kind.UNREAD || kind == SectorZero.Kind.BLANK || kind == SectorZero.Kind.OTHER;
        boolean mapped = disk.volume() != null || disk.maps().stream().anyMatch(found -> !found.map().leftover());
        if (!open || mapped) {
            return;
        }
        for (long lba : new long[] {1, image.sectors() - 1}) {
            GptHeader header = lba < 1 ? null : GptHeader.read(image, lba);
            if (header != null && !header.read()) {
                out.in(header.where()).report("gpt.header.signature", header.where(0, 8), Outcome.unread(header.sector().missing(0, 8))
                        .with("copy", Phrase.of(lba == 1 ? "copy.primary" : "copy.backup")));
            }
        }
    }
}
