package sectorglass.partition.repair;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;

import sectorglass.disk.Evidence;
import sectorglass.disk.Repair;
import sectorglass.disk.RepairTexts;
import sectorglass.disk.SectorEdit;
import sectorglass.image.SectorImage;
import sectorglass.partition.PartitionRules;
import sectorglass.partition.gpt.GptCopies;
import sectorglass.partition.gpt.GptDisk;
import sectorglass.partition.gpt.GptHeader;
import sectorglass.partition.gpt.GptSums;
import sectorglass.partition.mbr.SectorZero;
import sectorglass.partition.mbr.Slot;

/** The copies of a GPT from each other, their checksums, and the protective MBR. */
public final class GptRepairs {
    private static final long FILLER = 0xFFFFFFFFL;

    private final SectorImage image;
    private final RepairTexts texts;
    private final GptDisk disk;
    private final Evidence evidence;

    /** Looks for the copies. */
    public GptRepairs(Evidence evidence) {
        this.evidence = evidence;
        this.image = evidence.image();
        this.texts = new RepairTexts(PartitionRules.class, evidence.locale());
        this.disk = GptDisk.of(image);
    }

    /** What can be proposed. */
    public List<Repair> propose() {
        List<Repair> all = new ArrayList<>();
        if (disk.leftover() || disk.otherSize() >= 0) {
            return all;
        }
        GptCopies copies = GptCopies.of(disk, image);
        if (copies != null) {
            boolean own = copies.source().lba() == 1;
            copy(copies, true, own ? "gpt.primary-entries" : "gpt.primary").ifPresent(all::add);
            copy(copies, false, own ? "gpt.backup" : "gpt.backup-entries").ifPresent(all::add);
        } else {
            new GptLost(evidence, disk, texts).propose().ifPresent(all::add);
            sums().ifPresent(all::add);
        }
        protective(copies).ifPresent(all::add);
        return all;
    }

    private Optional<Repair> copy(GptCopies copies, boolean primary, String id) {
        GptCopies.Copy copy = primary ? copies.primary() : copies.backup();
        if (copy.lba() < 1 || copy.lba() >= image.sectors() || copy.arrayLba() < 2
                || copy.arrayLba() + copies.arraySectors() > image.sectors()) {
            return Optional.empty();
        }
        GptHeader there = primary ? disk.primary() : disk.backup();
        boolean foreign = !primary && there != null && there.lba() == copy.lba() && GptSums.foreign(disk, there);
        if (foreign || !copies.fits(copy)) {
            return Optional.empty();
        }
        SectorEdit header = new SectorEdit(image, copy.lba() * image.sectorSize(), image.sectorSize());
        GptBytes.header(header, copy, copies.source().lba(), texts);
        long bytes = copies.arraySectors() * image.sectorSize();
        SectorEdit array = new SectorEdit(image, copy.arrayLba() * image.sectorSize(), (int) bytes);
        array.put(0, copies.array(), texts.of("why.entries", copies.arrayLba()));
        List<Repair.Change> changes = join(header.changes(texts.of("why.unread")), array.changes(texts.of("why.unread")));
        if (changes.isEmpty()) {
            return Optional.empty();
        }
        List<String> against = new ArrayList<>();
        if (!primary && copy.lba() != image.sectors() - 1) {
            against.add(texts.of("against.backup-not-last", copy.lba(), image.sectors() - 1));
        }
        return Optional.of(new Repair(id, texts.of(id + ".title"), texts.of(id + ".reason", copies.source().lba(), copies.arrayLba()), 95,
                false, changes, against, List.of()));
    }

    private static List<Repair.Change> join(List<Repair.Change> one, List<Repair.Change> two) {
        List<Repair.Change> all = new ArrayList<>(one);
        all.addAll(two);
        all.sort(java.util.Comparator.comparingLong(Repair.Change::firstByte));
        return all;
    }

    /** Checksums of a header that bears the signature: offered only, since the fields may be what is wrong. */
    private Optional<Repair> sums() {
        for (GptHeader header : new GptHeader[] {disk.primary(), disk.backup()}) {
            if (header == null || !header.found()) {
                continue;
            }
            List<Repair.Change> changes = GptSums.of(header, image, texts.of("why.array-crc"), texts.of("why.header-crc"));
            if (!changes.isEmpty()) {
                return Optional.of(new Repair("gpt.checksums", texts.of("gpt.checksums.title", header.lba()),
                        texts.of("gpt.checksums.reason"), 30, true, changes, List.of(texts.of("against.checksums")), List.of()));
            }
        }
        return Optional.empty();
    }

    private Optional<Repair> protective(GptCopies copies) {
        SectorZero zero = disk.zero();
        GptHeader sound = copies == null ? soundHeader() : copies.source();
        if (sound == null || zero.hybrid() || zero.onlyOrdinary() || zero.volume() != null) {
            return Optional.empty();
        }
        SectorEdit edit = SlotBytes.sector(image, 0);
        boolean stands = zero.protective() != null && zero.protective().first() == 1;
        long last = sound.lba() == 1 ? sound.alternateLba() : sound.lba();
        int index = stands ? zero.protective().index() : 1;
        int at = SlotBytes.SLOTS + (index - 1) * Slot.SIZE;
        String why = texts.of("why.protective");
        for (int slot = 1; slot <= 4; slot++) {
            if (slot != index) {
                SlotBytes.clear(edit, slot, texts.of("why.protective-others"));
            }
        }
        edit.put(at, why, 0, 0x00, 0x02, 0x00, Slot.PROTECTIVE);
        if (!stands) {
            edit.put(at + 5, texts.of("why.ending-chs"), 0xFF, 0xFF, 0xFF);
        }
        edit.le(at + 8, 4, 1, texts.of("why.gpt-header"));
        boolean filler = stands && zero.protective().count() == FILLER;
        if (!filler) {
            edit.le(at + 12, 4, Math.min(FILLER, last), texts.of("why.protective-size", last));
        }
        SlotBytes.sign(edit, texts.of("why.signature"));
        edit.zero(440, 6, texts.of("why.protective-signature"));
        edit.keep(0, 440, "boot code", texts.of("kept.boot-code-uefi"));
        List<Repair.Change> changes = edit.changes(texts.of("why.unread"));
        boolean onlyShape = stands && zero.table().signed() && changes.stream().allMatch(c -> c.firstByte() >= at + 5 && c.firstByte() < at + 8);
        if (changes.isEmpty() || onlyShape) {
            return Optional.empty();
        }
        List<String> against = edit.read() ? List.of() : List.of(texts.of("against.unread", 0));
        return Optional.of(new Repair("mbr.protective", texts.of("mbr.protective.title"), texts.of("mbr.protective.reason", sound.lba()),
                90, false, changes, against, edit.kept()));
    }

    private GptHeader soundHeader() {
        for (GptHeader header : new GptHeader[] {disk.primary(), disk.backup()}) {
            if (header != null && header.good()) {
                return header;
            }
        }
        return null;
    }

    static boolean blank(byte[] bytes) {
        return Arrays.equals(bytes, new byte[bytes.length]);
    }
}
