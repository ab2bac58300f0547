package sectorglass.partition.repair;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;

import sectorglass.disk.Evidence;
import sectorglass.disk.Repair;
import sectorglass.disk.RepairTexts;
import sectorglass.disk.SectorEdit;
import sectorglass.image.ByteRange;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorRange;
import sectorglass.partition.gpt.GptCopies;
import sectorglass.partition.gpt.GptDisk;
import sectorglass.partition.gpt.GptDraft;
import sectorglass.partition.gpt.GptHeader;

/**
 * A GPT of which no header serves: from entries that still stand, else from volumes found. Only where something tells that the disk had
 * one: the protective slot, entries, or a header's signature.
 */
final class GptLost {
    private static final int GUID_AT = 56;

    private final Evidence evidence;
    private final GptDisk disk;
    private final RepairTexts texts;
    private final SectorImage image;
    private final List<String> against = new ArrayList<>();
    private final List<Repair.Kept> kept = new ArrayList<>();

    GptLost(Evidence evidence, GptDisk disk, RepairTexts texts) {
        this.evidence = evidence;
        this.disk = disk;
        this.texts = texts;
        this.image = evidence.image();
    }

    Optional<Repair> propose() {
        GptDraft draft = new GptDraft(image);
        if (image.sectors() < 2 * draft.firstUsable() || evidence.disk().volume() != null || disk.zero().volume() != null) {
            return Optional.empty();
        }
        long lost = image.sectors() - 1 - draft.arraySectors();
        byte[] entries = draft.entriesAt(2);
        long from = 2;
        if (entries == null) {
            entries = draft.entriesAt(lost);
            from = lost;
        }
        boolean evident = disk.zero().protective() != null || disk.any();
        if (entries == null && !evident) {
            return Optional.empty();
        }
        String id;
        String reason;
        int confidence;
        if (entries != null) {
            draft.take(entries);
            id = "gpt.from-entries";
            reason = texts.of("gpt.from-entries.reason", from);
            confidence = 70;
        } else {
            int count = volumes(draft);
            if (count == 0) {
                return Optional.empty();
            }
            id = "gpt.from-volumes";
            reason = texts.of("gpt.from-volumes.reason", count);
            confidence = 50;
        }
        guid(draft);
        usable(draft);
        List<Repair.Change> changes = new ArrayList<>();
        String why = entries != null ? texts.of("why.entries", from) : texts.of("why.entries-volumes");
        copy(draft, true, why, changes);
        copy(draft, false, why, changes);
        changes.sort(Comparator.comparingLong(Repair.Change::firstByte));
        return Optional.of(new Repair(id, texts.of(id + ".title"), reason, confidence, false, changes, against, kept));
    }

    private int volumes(GptDraft draft) {
        int count = 0;
        for (Evidence.FoundVolume found : FoundTable.of(evidence).volumes()) {
            SectorRange range = FoundTable.range(found);
            if (draft.holds(range)) {
                draft.add(FoundTable.guid(found), range);
                unknown(2, count);
                unknown(image.sectors() - 1 - draft.arraySectors(), count);
                count++;
                if (!found.placed()) {
                    against.add(texts.of("against.not-placed", range.first()));
                }
            }
        }
        against.add(texts.of("against.sizes"));
        return count;
    }

    private void unknown(long arrayLba, int index) {
        long at = arrayLba * image.sectorSize() + index * 128L;
        kept.add(new Repair.Kept(new ByteRange(at + 16, 16), "UniquePartitionGUID", texts.of("kept.partition-guid", index + 1)));
        kept.add(new Repair.Kept(new ByteRange(at + 48, 80), "Attributes, PartitionName", texts.of("kept.partition-name", index + 1)));
    }

    /** A GUID still stands where a header bears its signature, though its checksum fails. */
    private void guid(GptDraft draft) {
        for (GptHeader header : new GptHeader[] {disk.primary(), disk.backup()}) {
            if (header != null && header.found() && !GptRepairs.blank(header.sector().bytes(GUID_AT, 16))) {
                draft.guid(header.sector().bytes(GUID_AT, 16));
                against.add(texts.of("against.guid-unproven", header.lba()));
                return;
            }
        }
        for (long lba : new long[] {1, image.sectors() - 1}) {
            kept.add(new Repair.Kept(new ByteRange(lba * image.sectorSize() + GUID_AT, 16), "DiskGUID", texts.of("kept.disk-guid")));
        }
    }

    /** So do the usable sectors, where they are legal and hold every entry. */
    private void usable(GptDraft draft) {
        for (GptHeader header : new GptHeader[] {disk.primary(), disk.backup()}) {
            if (header != null && header.found() && draft.usable(header.firstUsable(), header.lastUsable())) {
                against.add(texts.of("against.usable-unproven", header.lba()));
                return;
            }
        }
    }

    private void copy(GptDraft draft, boolean primary, String why, List<Repair.Change> changes) {
        GptCopies.Copy copy = draft.copy(primary);
        SectorEdit header = new SectorEdit(image, copy.lba() * image.sectorSize(), image.sectorSize());
        GptBytes.header(header, copy, -1, texts);
        changes.addAll(header.changes(texts.of("why.unread")));
        SectorEdit array = new SectorEdit(image, copy.arrayLba() * image.sectorSize(), (int) draft.arraySectors() * image.sectorSize());
        array.put(0, draft.array(), why);
        changes.addAll(array.changes(texts.of("why.unread")));
    }
}
