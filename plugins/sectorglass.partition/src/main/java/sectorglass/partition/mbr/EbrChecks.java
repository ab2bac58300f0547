package sectorglass.partition.mbr;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;

import sectorglass.image.ByteRange;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorRange;
import sectorglass.verify.Checks;
import sectorglass.verify.Mark;
import sectorglass.verify.Outcome;
import sectorglass.verify.Phrase;
import sectorglass.verify.Severity;

/** Judges a chain of EBRs. */
final class EbrChecks {
    private final EbrChain chain;
    private final SectorImage image;
    private final Set<Long> visited = new HashSet<>();
    private final List<SectorRange> named = new ArrayList<>();

    EbrChecks(EbrChain chain, SectorImage image) {
        this.chain = chain;
        this.image = image;
    }

    void run(Checks all) {
        for (EbrChain.Ebr ebr : chain.links()) {
            ByteRange where = new ByteRange(ebr.lba() * image.sectorSize(), MbrTable.LENGTH);
            Checks out = all.in(where);
            visited.add(ebr.lba());
            Mark chained = out.report("mbr.ebr-chain", where, link(ebr).with("ebr", ebr.lba())
                    .follows("mbr.partition-range", chain.container().at() + 8));
            if (ebr.table() != null) {
                slots(ebr, chained, out);
            }
        }
    }

    private Outcome link(EbrChain.Ebr ebr) {
        if (ebr.table() == null) {
            return Outcome.unread(ebr.missing());
        }
        if (!ebr.table().signed()) {
            return failed("no-signature", String.format(Locale.ROOT, "%02X %02X", ebr.table().signature() >> 8,
                    ebr.table().signature() & 0xFF), "55 AA").at(ebr.table().where(MbrTable.SIGNATURE, 2));
        }
        for (Slot slot : ebr.data()) {
            Outcome outcome = data(slot, ebr);
            if (outcome != null) {
                return outcome;
            }
        }
        return ebr.link() == null ? Outcome.passed() : next(ebr.link(), ebr);
    }

    private Outcome data(Slot slot, EbrChain.Ebr ebr) {
        SectorRange range = slot.range(ebr.lba());
        boolean inSpan = slot.first() >= 1 && slot.first() < ebr.span().count() && slot.count() <= ebr.span().count();
        if (chain.range().contains(range) && inSpan) {
            return null;
        }
        boolean absolute = ebr.span().contains(slot.range());
        String problem = absolute ? "data-absolute" : chain.range().contains(range) ? "data-span" : "data-outside";
        SectorRange room = chain.range().contains(range) ? ebr.span() : chain.range();
        return failed(problem, SlotChecks.text(range), "within " + text(room)).at(slot.where(8, 4))
                .with("right", slot.first() - ebr.lba());
    }

    private Outcome next(Slot link, EbrChain.Ebr ebr) {
        long target = chain.target(ebr);
        String stored = "EBR at " + target;
        if (!chain.range().contains(target)) {
            boolean relative = chain.range().contains(ebr.lba() + link.first());
            return failed(relative ? "link-relative" : "link-outside", stored, "within " + text(chain.range()))
                    .at(link.where(8, 4)).with("right", ebr.lba() + link.first());
        }
        if (visited.contains(target)) {
            return failed("link-repeat", stored, "an EBR not met before").at(link.where(8, 4));
        }
        if (target < ebr.lba()) {
            return failed("link-back", stored, "after " + ebr.lba()).at(link.where(8, 4));
        }
        if (target + link.count() > chain.range().end()) {
            return failed("link-span", "to sector " + (target + link.count() - 1), "at most " + chain.range().last())
                    .at(link.where(12, 4));
        }
        boolean last = chain.links().get(chain.links().size() - 1) == ebr;
        return last ? failed("too-long", chain.links().size() + " links", "an end").at(link.where(8, 4)) : Outcome.passed();
    }

    private static Outcome failed(String problem, String stored, String computed) {
        return Outcome.failed(stored, computed).with("problem", Phrase.of("problem." + problem));
    }

    private static String text(SectorRange range) {
        return range.count() == 0 ? "no sector" : SlotChecks.text(range);
    }

    private void slots(EbrChain.Ebr ebr, Mark chained, Checks out) {
        SlotChecks slots = new SlotChecks(image, out);
        if (!ebr.data().isEmpty() || ebr.link() != null || ebr.table().signed()) {
            ebr.table().slots().forEach(slot -> slots.activeByte(slot, Severity.AT_RISK));
            ebr.table().slots().stream().filter(slot -> !slot.used()).forEach(slots::unused);
            out.report("mbr.ebr-reserved", ebr.table().where(MbrTable.DISK_SIGNATURE, 6), Outcome.test(
                    ebr.table().diskSignature() == 0 && ebr.table().reserved() == 0,
                    String.format(Locale.ROOT, "%08X %04X", ebr.table().diskSignature(), ebr.table().reserved()), "all zero"));
        }
        Set<Chs.Geometry> geometries = Chs.geometries(ebr.data());
        for (Slot slot : ebr.data()) {
            SectorRange range = slot.range(ebr.lba());
            Mark inside = out.report("mbr.partition-range", slot.where(8, 8), slots.range(slot, range)
                    .because(chained).follows("mbr.partition-range", chain.container().at() + 8));
            Mark cause = inside.failed() ? inside : chained;
            overlap(slot, range, cause, out);
            slots.chs(slot, ebr.lba(), geometries, cause);
            slots.alignment(slot, range, cause);
            named.add(range);
        }
    }

    private void overlap(Slot slot, SectorRange range, Mark cause, Checks out) {
        SectorRange other = named.stream().filter(range::overlaps).findFirst()
                .orElseGet(() -> chain.links().stream().map(e -> new SectorRange(e.lba(), 1)).filter(range::overlaps).findFirst()
                        .orElse(null));
        Outcome outcome = other == null ? Outcome.passed()
                : Outcome.failed(SlotChecks.text(range), "clear of " + SlotChecks.text(other)).with("other", "LBA " + other.first());
        out.report("mbr.partition-overlap", slot.where(8, 8), outcome.with("slot", slot.index()).because(cause));
    }
}
