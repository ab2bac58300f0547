package sectorglass.partition.mbr;

import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;

import sectorglass.image.SectorImage;
import sectorglass.verify.Checks;
import sectorglass.verify.Mark;
import sectorglass.verify.Outcome;

/** Judges the table in LBA 0. */
final class MbrChecks {
    private final SectorZero zero;
    private final MbrTable table;
    private final SectorImage image;

    MbrChecks(SectorZero zero, SectorImage image) {
        this.zero = zero;
        this.table = zero.table();
        this.image = image;
    }

    void run(Checks all) {
        Checks out = all.in(table.where());
        SlotChecks slots = new SlotChecks(image, out);
        out.report("mbr.signature", table.where(MbrTable.SIGNATURE, 2), Outcome.test(table.signed(),
                String.format(Locale.ROOT, "%02X %02X", table.signature() >> 8, table.signature() & 0xFF), "55 AA"));
        table.slots().forEach(slot -> slots.activeByte(slot, null));
        activeCount(out);
        containerCount(out);
        boolean ambiguous = zero.kind() == SectorZero.Kind.AMBIGUOUS;
        if (ambiguous) {
            out.report("mbr.ambiguous", table.where(), Outcome.failed("MBR and boot sector of a volume", null)
                    .with("volume", zero.volume()));
        }
        Set<Chs.Geometry> geometries = Chs.geometries(table.ordinary());
        Map<Integer, Mark> ranges = new HashMap<>();
        for (Slot slot : table.ordinary()) {
            if (ambiguous && SectorZero.wholeImage(slot, image)) {
                continue;
            }
            Mark range = out.report("mbr.partition-range", slot.where(8, 8), slots.range(slot, slot.range()));
            ranges.put(slot.index(), range);
            overlap(slot, ranges, out);
            slots.chs(slot, 0, geometries, range);
            if (!slot.container()) {
                slots.alignment(slot, slot.range(), range);
            }
        }
        table.slots().stream().filter(slot -> !slot.used() && !slot.protective()).forEach(slots::unused);
        if (table.protective() == null && !ambiguous) {
            identity(out);
        }
    }

    private void activeCount(Checks out) {
        List<Slot> active = table.slots().stream().filter(slot -> slot.active() == 0x80).toList();
        if (active.size() > 1) {
            out.report("mbr.active-count", active.get(1).where(0, 1), Outcome.failed(active.size() + " active slots", "at most 1")
                    .with("slot", active.get(1).index()));
        } else {
            out.report("mbr.active-count", table.where(MbrTable.SLOTS, 64), Outcome.passed());
        }
    }

    private void containerCount(Checks out) {
        List<Slot> containers = table.slots().stream().filter(Slot::container).toList();
        if (containers.size() > 1) {
            out.report("mbr.container-count", containers.get(1).where(4, 1), Outcome.failed(containers.size() + " containers",
                    "at most 1").with("slot", containers.get(1).index()));
        } else {
            out.report("mbr.container-count", table.where(MbrTable.SLOTS, 64), Outcome.passed());
        }
    }

    private void overlap(Slot slot, Map<Integer, Mark> ranges, Checks out) {
        Slot other = table.ordinary().stream().filter(o -> o.index() < slot.index() && o.range().overlaps(slot.range())).findFirst()
                .orElse(null);
        Outcome outcome = other == null ? Outcome.passed() : Outcome.failed(SlotChecks.text(slot.range()),
                "clear of " + SlotChecks.text(other.range())).with("other", "slot " + other.index());
        Mark own = ranges.get(slot.index());
        Mark cause = own.failed() || other == null ? own : ranges.get(other.index());
        out.report("mbr.partition-overlap", slot.where(8, 8), outcome.with("slot", slot.index()).because(cause));
    }

    private void identity(Checks out) {
        out.report("mbr.disk-signature", table.where(MbrTable.DISK_SIGNATURE, 4),
                Outcome.test(table.diskSignature() != 0, "00000000", "any other number"));
        out.report("mbr.reserved", table.where(MbrTable.RESERVED, 2),
                Outcome.test(table.reserved() == 0 || table.reserved() == 0x5A5A,
                        String.format(Locale.ROOT, "%04X", table.reserved()), "0000, or 5A5A for copy-protected"));
    }
}
