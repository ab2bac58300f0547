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
import sectorglass.partition.gpt.GptDisk;
import sectorglass.partition.mbr.SectorZero;
import sectorglass.partition.mbr.Slot;

/** The table in LBA 0 from volumes found, its signature, and slots that point beside their volume. */
public final class MbrRepairs {
    /** The last sector number that a slot can name. */
    private static final long MOST = 0xFFFFFFFFL;
    /** First sector that CHS cannot tell: 1024 cylinders of 255 heads and 63 sectors. */
    private static final long CHS_END = 1024L * 255 * 63;
    private static final int SLOTS = 4;

    private final Evidence evidence;
    private final SectorImage image;
    private final RepairTexts texts;
    private final SectorZero zero;

    /** Looks at LBA 0. */
    public MbrRepairs(Evidence evidence) {
        this.evidence = evidence;
        this.image = evidence.image();
        this.texts = new RepairTexts(PartitionRules.class, evidence.locale());
        this.zero = SectorZero.of(image);
    }

    /** What can be proposed. */
    public List<Repair> propose() {
        List<Repair> all = new ArrayList<>();
        if (zero.isTable()) {
            signature().ifPresent(all::add);
            slot().ifPresent(all::add);
        } else if (zero.kind() != SectorZero.Kind.VOLUME && evidence.disk().volume() == null && !gpt()) {
            fromVolumes().ifPresent(all::add);
        }
        return all;
    }

    private boolean gpt() {
        GptDisk gpt = GptDisk.of(image);
        return gpt.any() && !gpt.leftover() || gpt.otherSize() >= 0;
    }

    private Optional<Repair> signature() {
        if (zero.table().signed() || zero.kind() != SectorZero.Kind.MBR) {
            return Optional.empty();
        }
        SectorEdit edit = SlotBytes.sector(image, 0);
        SlotBytes.sign(edit, texts.of("why.signature"));
        return Optional.of(new Repair("mbr.signature", texts.of("mbr.signature.title"), texts.of("mbr.signature.reason"), 80, false,
                edit.changes(""), List.of(), List.of()));
    }

    /** A slot in which no volume was found, while a volume that no slot names stands elsewhere: one of each only. */
    private Optional<Repair> slot() {
        if (zero.hybrid() || zero.protective() != null || zero.kind() != SectorZero.Kind.MBR) {
            return Optional.empty();
        }
        List<Slot> empty = zero.table().ordinary().stream().filter(slot -> !slot.container() && !holdsVolume(slot.range())).toList();
        List<Evidence.FoundVolume> lost = FoundTable.of(evidence).volumes().stream().filter(this::unnamed).toList();
        if (empty.size() != 1 || lost.size() != 1) {
            return Optional.empty();
        }
        Slot slot = empty.get(0);
        Evidence.FoundVolume volume = lost.get(0);
        SectorRange range = FoundTable.range(volume);
        if (range.end() > MOST || zero.table().ordinary().stream().anyMatch(o -> o != slot && o.range().overlaps(range))) {
            return Optional.empty();
        }
        SectorEdit edit = SlotBytes.sector(image, 0);
        String why = why(volume);
        boolean sameStart = slot.first() == range.first();
        boolean sameCount = slot.count() == range.count();
        int type = slot.type();
        SlotBytes.put(edit, slot.index(), slot.activeLegal() ? slot.active() : 0, type, 0, range.first(), range.count(), why, texts.of("why.chs"));
        List<String> against = new ArrayList<>();
        if (!volume.placed()) {
            against.add(texts.of("against.not-placed", range.first()));
        }
        against.add(texts.of("against.size", range.count()));
        return Optional.of(new Repair("mbr.slot", texts.of("mbr.slot.title", slot.index()), texts.of("mbr.slot.reason", slot.index(),
                volume.volume().info().kind(), range.first(), range.last()), sameStart || sameCount ? 70 : 50, false,
                edit.changes(""), against, List.of()));
    }

    private boolean holdsVolume(SectorRange range) {
        return evidence.disk().partitions().stream().anyMatch(p -> p.range().equals(range) && p.volume() != null);
    }

    private boolean unnamed(Evidence.FoundVolume found) {
        SectorRange range = FoundTable.range(found);
        return evidence.disk().partitions().stream().noneMatch(p -> p.volume() != null && p.range().overlaps(range));
    }

    private String why(Evidence.FoundVolume found) {
        SectorRange range = FoundTable.range(found);
        return texts.of("why.volume", found.volume().info().kind(), range.first(), range.last());
    }

    private Optional<Repair> fromVolumes() {
        List<Evidence.FoundVolume> volumes = FoundTable.of(evidence).volumes();
        if (volumes.isEmpty()) {
            return Optional.empty();
        }
        LostChain chain = LostChain.of(image, volumes).orElse(null);
        SectorRange container = chain == null ? null : chain.range();
        List<Evidence.FoundVolume> primaries = volumes.stream()
                .filter(v -> container == null || !container.overlaps(FoundTable.range(v))).toList();
        int needed = primaries.size() + (container == null ? 0 : 1);
        boolean fits = needed <= SLOTS && volumes.stream().allMatch(v -> FoundTable.range(v).end() <= MOST);
        return fits ? Optional.of(table(volumes, primaries, container)) : Optional.empty();
    }

    private Repair table(List<Evidence.FoundVolume> all, List<Evidence.FoundVolume> primaries, SectorRange container) {
        SectorEdit edit = SlotBytes.sector(image, 0);
        String chosen = texts.of("why.chosen");
        int index = 1;
        boolean placed = false;
        List<String> against = new ArrayList<>();
        for (Evidence.FoundVolume volume : primaries) {
            SectorRange range = FoundTable.range(volume);
            if (container != null && !placed && container.first() < range.first()) {
                index = container(edit, index, container);
                placed = true;
            }
            SlotBytes.put(edit, index++, 0, FoundTable.type(volume), 0, range.first(), range.count(), why(volume), chosen);
            if (!volume.placed()) {
                against.add(texts.of("against.not-placed", range.first()));
            }
        }
        if (container != null && !placed) {
            index = container(edit, index, container);
        }
        while (index <= SLOTS) {
            SlotBytes.clear(edit, index++, texts.of("why.no-volume"));
        }
        SlotBytes.sign(edit, texts.of("why.signature"));
        against.add(texts.of("against.sizes"));
        against.add(texts.of("against.gpt-unknown"));
        edit.keep(0, 440, "boot code", texts.of("kept.boot-code"));
        edit.keep(440, 4, "disk signature", texts.of("kept.signature"));
        edit.keep(444, 2, "reserved", texts.of("kept.reserved"));
        if (!edit.read()) {
            against.add(texts.of("against.unread", 0));
        }
        boolean proven = all.stream().allMatch(Evidence.FoundVolume::placed);
        int confidence = proven ? 75 : all.stream().anyMatch(Evidence.FoundVolume::placed) ? 65 : 50;
        return new Repair("mbr.from-volumes", texts.of("mbr.from-volumes.title"), texts.of("mbr.from-volumes.reason", all.size(),
                container == null ? 0 : 1), confidence, false, edit.changes(texts.of("why.unread")), against, edit.kept());
    }

    private int container(SectorEdit edit, int index, SectorRange container) {
        int type = container.end() > CHS_END ? 0x0F : 0x05;
        SlotBytes.put(edit, index, 0, type, 0, container.first(), container.count(), texts.of("why.container", container.first(),
                container.last()), texts.of("why.chosen"));
        return index + 1;
    }
}
