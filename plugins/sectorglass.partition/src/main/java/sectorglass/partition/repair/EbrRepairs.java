package sectorglass.partition.repair;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

import sectorglass.disk.Evidence;
import sectorglass.disk.Repair;
import sectorglass.disk.RepairTexts;
import sectorglass.disk.SectorEdit;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorRange;
import sectorglass.partition.PartitionRules;
import sectorglass.partition.mbr.EbrChain;
import sectorglass.partition.mbr.SectorZero;
import sectorglass.partition.mbr.Slot;

/** A chain of EBRs that breaks off is linked again: by the span that leads to the lost EBR, the volume in it, and the EBRs behind it. */
public final class EbrRepairs {
    private static final int LINK = 0x05;

    private final Evidence evidence;
    private final SectorImage image;
    private final RepairTexts texts;

    /** For one disk. */
    public EbrRepairs(Evidence evidence) {
        this.evidence = evidence;
        this.image = evidence.image();
        this.texts = new RepairTexts(PartitionRules.class, evidence.locale());
    }

    /** One repair for each chain that breaks off. */
    public List<Repair> propose() {
        SectorZero zero = SectorZero.of(image);
        List<Repair> all = new ArrayList<>();
        if (zero.isTable()) {
            zero.table().ordinary().stream().filter(Slot::container).forEach(slot -> {
                signatures(slot, all);
                relink(slot).ifPresent(all::add);
            });
        }
        return all;
    }

    /** EBRs that make sense but for their signature: the chain is followed here, by no system else. */
    private void signatures(Slot container, List<Repair> all) {
        for (EbrChain.Ebr ebr : EbrChain.walk(image, container).links()) {
            if (ebr.table() != null && !ebr.table().signed() && !ebr.data().isEmpty()) {
                SectorEdit edit = SlotBytes.sector(image, ebr.lba());
                SlotBytes.sign(edit, texts.of("why.signature"));
                all.add(new Repair("mbr.ebr-signature", texts.of("mbr.ebr-signature.title", ebr.lba()), texts.of("mbr.ebr-signature.reason"),
                        85, false, edit.changes(""), List.of(), List.of()));
            }
        }
    }

    private Optional<Repair> relink(Slot container) {
        EbrChain chain = EbrChain.walk(image, container);
        EbrChain.Ebr last = chain.links().get(chain.links().size() - 1);
        SectorRange range = chain.range();
        if (last.lba() <= 0 || last.lba() >= image.sectors()) {
            return Optional.empty();
        }
        boolean lost = last.table() == null || !last.table().signed() && last.data().isEmpty();
        boolean astray = !lost && last.link() != null && !goodTarget(chain, last);
        boolean outside = !lost && last.data().stream().anyMatch(slot -> !range.contains(slot.range(last.lba())));
        List<LostChain.Link> behind = LostChain.within(image, range, evidence.found()).stream()
                .filter(link -> link.lba() > last.lba() && chain.links().stream().noneMatch(known -> known.lba() == link.lba())).toList();
        if (!lost && !astray && !outside) {
            return Optional.empty();
        }
        return remake(chain, last, lost, behind);
    }

    /** Whether the link leads to an EBR within the container that comes later. */
    private boolean goodTarget(EbrChain chain, EbrChain.Ebr ebr) {
        long target = chain.target(ebr);
        return target > ebr.lba() && chain.range().contains(target);
    }

    private Optional<Repair> remake(EbrChain chain, EbrChain.Ebr last, boolean lost, List<LostChain.Link> behind) {
        SectorRange range = chain.range();
        LostChain.Link next = behind.isEmpty() ? null : behind.get(0);
        boolean first = last.lba() == range.first();
        long end = next != null ? next.lba() : range.end();
        if (!first) {
            end = Math.min(end, last.span().end());
        }
        Evidence.FoundVolume volume = volumeIn(last.lba(), end);
        Slot kept = !lost && !last.data().isEmpty() && range.contains(last.data().get(0).range(last.lba())) ? last.data().get(0) : null;
        if (volume == null && kept == null || next == null && lost && volume == null) {
            return Optional.empty();
        }
        SectorEdit edit = SlotBytes.sector(image, last.lba());
        List<String> against = new ArrayList<>();
        String chosen = texts.of("why.chosen");
        if (kept == null) {
            long start = FoundTable.range(volume).first() - last.lba();
            long count = first ? FoundTable.range(volume).count() : last.span().end() - FoundTable.range(volume).first();
            if (first) {
                against.add(texts.of("against.size", count));
            }
            if (count < FoundTable.range(volume).count()) {
                against.add(texts.of("against.volume-larger", FoundTable.range(volume).count()));
            }
            SlotBytes.put(edit, 1, 0, FoundTable.type(volume), last.lba(), start, count, first ? texts.of("why.volume",
                    volume.volume().info().kind(), FoundTable.range(volume).first(), FoundTable.range(volume).last())
                    : texts.of("why.span", last.span().first(), last.span().last()), chosen);
        }
        if (next == null) {
            SlotBytes.clear(edit, 2, texts.of("why.last-ebr"));
        } else {
            long count = next.data().first() + next.data().count();
            SlotBytes.put(edit, 2, 0, LINK, range.first(), next.lba() - range.first(), count, texts.of("why.next-ebr", next.lba()), chosen);
        }
        SlotBytes.clear(edit, 3, texts.of("why.ebr-empty"));
        SlotBytes.clear(edit, 4, texts.of("why.ebr-empty"));
        SlotBytes.sign(edit, texts.of("why.signature"));
        if (!last.missing().isEmpty()) {
            against.add(texts.of("against.unread", last.lba()));
        }
        List<Repair.Change> changes = edit.changes(texts.of("why.unread"));
        return changes.isEmpty() ? Optional.empty() : Optional.of(new Repair("mbr.ebr-chain", texts.of("mbr.ebr-chain.title", last.lba()),
                texts.of("mbr.ebr-chain.reason", last.lba(), behind.size()), first ? 70 : 80, false, changes, against, List.of()));
    }

    private Evidence.FoundVolume volumeIn(long ebr, long end) {
        return evidence.found().stream().filter(v -> FoundTable.range(v).first() > ebr && FoundTable.range(v).first() < end)
                .findFirst().orElse(null);
    }
}
