package sectorglass.partition.mbr;

import java.util.Locale;
import java.util.Set;

import sectorglass.image.SectorImage;
import sectorglass.image.SectorRange;
import sectorglass.partition.BeyondEnd;
import sectorglass.verify.Checks;
import sectorglass.verify.Mark;
import sectorglass.verify.Outcome;
import sectorglass.verify.Phrase;
import sectorglass.verify.Severity;

/** The rules that hold for a slot of an MBR and of an EBR alike. */
final class SlotChecks {
    private final SectorImage image;
    private final Checks out;

    SlotChecks(SectorImage image, Checks out) {
        this.image = image;
        this.out = out;
    }

    /** 00 or 80. */
    void activeByte(Slot slot, Severity severity) {
        out.report("mbr.active-byte", slot.where(0, 1), Outcome.test(slot.activeLegal(), hex(slot.active()), "00 or 80")
                .with("slot", slot.index()).severity(severity));
    }

    /** Starts after sector 0 and ends inside the image. */
    Outcome range(Slot slot, SectorRange range) {
        if (slot.first() < 1) {
            return Outcome.failed("start " + slot.first(), "start 1 or more").with("slot", slot.index())
                    .with("problem", Phrase.of("problem.start")).with("causes", Phrase.of("cause.wrong-table"));
        }
        return Outcome.test(range.end() <= image.sectors(), "last sector " + range.last(), "at most " + (image.sectors() - 1))
                .with("slot", slot.index()).with("problem", Phrase.of("problem.end"))
                .with("causes", BeyondEnd.causes(range.end(), image));
    }

    /** CHS fields mean the same sectors as the LBA fields, or hold a marker. */
    void chs(Slot slot, long base, Set<Chs.Geometry> geometries, Mark range) {
        long first = base + slot.first();
        long last = first + slot.count() - 1;
        String right = Chs.text(Chs.pack(first, 255, 63)) + " to " + Chs.text(Chs.pack(last, 255, 63));
        out.report("mbr.chs", slot.where(1, 7), Outcome.test(Chs.agrees(slot, base, geometries),
                Chs.text(slot.firstChs()) + " to " + Chs.text(slot.lastChs()), right).with("slot", slot.index()).because(range));
    }

    /** Starts on a boundary of 4096 bytes. */
    void alignment(Slot slot, SectorRange range, Mark cause) {
        long rest = range.first() * image.sectorSize() % 4096;
        out.report("mbr.alignment", slot.where(8, 4), Outcome.test(rest == 0, "start " + range.first(), "a multiple of "
                + Math.max(1, 4096 / image.sectorSize())).with("slot", slot.index()).because(cause));
    }

    /** A slot that is not used holds zeros. */
    void unused(Slot slot) {
        String stored = String.format(Locale.ROOT, "type %02x, start %d, size %d", slot.type(), slot.first(), slot.count());
        out.report("mbr.unused-slot", slot.where(), Outcome.test(slot.zero(), stored, "all zero").with("slot", slot.index()));
    }

    static String hex(int value) {
        return String.format(Locale.ROOT, "%02X", value);
    }

    static String text(SectorRange range) {
        return "sectors " + range.first() + " to " + range.last();
    }
}
