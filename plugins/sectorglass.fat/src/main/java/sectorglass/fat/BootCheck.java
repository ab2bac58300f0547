package sectorglass.fat;

import java.util.function.Supplier;

import sectorglass.disk.VolumeSite;
import sectorglass.image.ByteRange;
import sectorglass.image.UnreadException;
import sectorglass.verify.Checks;
import sectorglass.verify.Mark;
import sectorglass.verify.Outcome;

/**
 * The rules of the boot sector's own fields. They are judged on the main sector: what its backup holds decides nothing about it.
 * What follows from a field that locates nothing is folded under that field.
 */
final class BootCheck {

    private final VolumeSite site;
    private final BootSector boot;
    private final Checks out;
    private final boolean whole;
    private final boolean form32;
    /** The first field that could not serve: everything later follows from it. */
    private Mark lead;
    private Mark fits;
    private Mark fills;
    private Mark table;

    BootCheck(VolumeSite site, Found found, Checks out) {
        this.site = site;
        this.boot = found.main();
        this.form32 = boot.window().isRead(0, BootSector.SIZE) ? boot.form32()
                : found.geometry() != null && found.geometry().kind() == FatKind.FAT32;
        this.out = out.in(boot.at(0, BootSector.SIZE));
        this.whole = !boot.window().isRead(0, BootSector.SIZE) || Recognition.resembles(boot) || Geometry.of(boot) != null;
    }

    /** The first broken or undecided rule that makes the layout unusable, or null. */
    Mark lead() {
        return lead;
    }

    /** Why the FAT may be thought too small or counts wrong: the verdict about the size of the volume. */
    Mark size() {
        return fits != null && fits.failed() ? fits : fills != null && fills.failed() ? fills : null;
    }

    /** Whether the FAT is too small although the volume fits its partition: nothing after it can be located. */
    boolean tableLies() {
        return table != null && table.failed() && (fits == null || !fits.failed());
    }

    /** Verdict of the rule about the size of the FAT; null where it did not apply. */
    Mark table() {
        return table;
    }

    void run() {
        locating("fat.boot-sector-size-legal", BootSector.BYTES_PER_SECTOR, 2, () -> Outcome.test(
                Geometry.legalSectorBytes(boot.bytesPerSector()), boot.bytesPerSector(), "512, 1024, 2048 or 4096"));
        locating("fat.cluster-size-power-of-two", BootSector.SECTORS_PER_CLUSTER, 1, () -> Outcome.test(
                Integer.bitCount(boot.sectorsPerCluster()) == 1, boot.sectorsPerCluster(), "1, 2, 4, 8, 16, 32, 64 or 128"));
        locating("fat.reserved-not-zero", BootSector.RESERVED, 2, () -> Outcome.test(boot.reserved() > 0, boot.reserved(), "at least 1"));
        locating("fat.copies-not-zero", BootSector.FATS, 1, () -> Outcome.test(boot.fats() > 0, boot.fats(), "at least 1, usually 2"));
        locating("fat.root-entries-fit-type", BootSector.ROOT_ENTRIES, 2, this::rootEntries);
        locating("fat.data-region-positive", boot.at(sizeField(), sizeLength()), this::dataRegion);
        field("fat.cluster-bytes-limit", BootSector.SECTORS_PER_CLUSTER, 1, () -> usable(() -> Outcome.test(
                boot.bytesPerSector() * boot.sectorsPerCluster() <= 32768, boot.bytesPerSector() * boot.sectorsPerCluster() + " bytes",
                "at most 32768 bytes")));
        field("fat.media-legal", BootSector.MEDIA, 1, () -> Outcome.test(Recognition.legalMedia(boot.media()),
                Text.hex(boot.media(), 2), "0xF0 or 0xF8 to 0xFF"));
        field("fat.total-sectors-consistent", BootSector.TOTAL16, 2, this::totals);
        fits = field("fat.volume-fits-partition", sizeField(), sizeLength(), () -> usable(this::fits));
        fills = field("fat.volume-fills-partition", sizeField(), sizeLength(), () -> usable(this::fills));
        table = field("fat.table-large-enough", boot.window().isRead(0, 64) && boot.fatSize16() == 0 ? BootSector.FAT_SIZE32
                : BootSector.FAT_SIZE16, 2, this::table0);
        field("fat.type-by-count", boot.window().isRead(0, 64) && boot.form32() ? BootSector.FAT_SIZE32 : BootSector.FAT_SIZE16, 2,
                this::typeByCount);
        field("fat.type-text-agrees", typeTextAt(), 8, this::typeText);
        field("fat.boot-signature", BootSector.SIGNATURE, 2, () -> Outcome.test(boot.signed(),
                Text.bytes(boot.window(), BootSector.SIGNATURE, 2), "55 AA"));
        field("fat.jump-form", BootSector.JUMP, 3, () -> Outcome.test(boot.jumps(), Text.bytes(boot.window(), BootSector.JUMP, 3),
                "EB xx 90 or E9 xx xx"));
        if (form32) {
            form32();
        }
    }

    private void form32() {
        field("fat32.version-zero", BootSector.VERSION, 2, () -> Outcome.test(boot.version() == 0,
                (boot.version() >> 8) + ":" + (boot.version() & 0xFF), "0:0"));
        field("fat32.active-copy-legal", BootSector.EXT_FLAGS, 2, () -> !boot.oneActive() ? null : Outcome.test(
                boot.activeFat() < boot.fats(), "FAT " + boot.activeFat() + " active", "less than " + boot.fats()));
        field("fat32.info-sector-inside-reserved", BootSector.INFO_SECTOR, 2, () -> boot.infoSector() == 0 || boot.infoSector() == 0xFFFF
                ? null : Outcome.test(boot.infoSector() < boot.reserved() && boot.infoSector() != boot.backupSector(),
                boot.infoSector(), "1 to " + (boot.reserved() - 1) + ", not the backup's " + boot.backupSector()));
        field("fat32.backup-inside-reserved", BootSector.BACKUP_SECTOR, 2, () -> boot.backupSector() == 0 || boot.backupSector() == 0xFFFF
                ? null : Outcome.test(boot.backupSector() < boot.reserved(), boot.backupSector(), "1 to " + (boot.reserved() - 1)));
        field("fat32.reserved-zero", BootSector.RESERVED32, 12, () -> Outcome.test(Text.zero(boot.window(), BootSector.RESERVED32, 12),
                Text.bytes(boot.window(), BootSector.RESERVED32, 12), "12 zero bytes"));
    }

    private Outcome rootEntries() {
        if (boot.form32()) {
            return Outcome.test(boot.rootEntries() == 0, boot.rootEntries(), "0 on FAT32");
        }
        int bytes = boot.bytesPerSector();
        return Outcome.test(boot.rootEntries() > 0 && (!Geometry.legalSectorBytes(bytes) || boot.rootEntries() * 32 % bytes == 0),
                boot.rootEntries(), "more than 0, and whole sectors of " + bytes / 32 + " slots");
    }

    private Outcome dataRegion() {
        if (!Geometry.legalSectorBytes(boot.bytesPerSector())) {
            return undecided("the sector size is not legal");
        }
        long first = boot.reserved() + boot.fats() * boot.fatSize() + (boot.rootEntries() * 32L + boot.bytesPerSector() - 1)
                / boot.bytesPerSector();
        long needed = first + Math.max(1, boot.sectorsPerCluster());
        return Outcome.test(boot.totalSectors() >= needed && boot.fatSize() > 0, boot.totalSectors() + " sectors",
                "at least " + needed + " sectors, and a FAT").with("first", first);
    }

    private Outcome totals() {
        int small = boot.total16();
        long large = boot.total32();
        if (boot.form32() && small != 0) {
            return Outcome.failed(small, "0 on FAT32");
        }
        return Outcome.test((small == 0) != (large == 0) || small == large && small != 0, small + " and " + large, "one of the two");
    }

    private Outcome fits() {
        long room = site.bytes() / boot.bytesPerSector();
        return Outcome.test(boot.totalSectors() <= room, boot.totalSectors() + " sectors", "at most " + room + " sectors");
    }

    /** A difference of less than one part in a hundred comes from alignment and whole clusters. */
    private Outcome fills() {
        long room = site.bytes() / boot.bytesPerSector();
        long left = room - boot.totalSectors();
        return Outcome.test(left <= Math.max(room / 100, 2L * boot.sectorsPerCluster()), boot.totalSectors() + " sectors",
                "about " + room + " sectors").with("left", left);
    }

    private Outcome table0() {
        Geometry geometry = Geometry.of(boot);
        if (geometry == null) {
            return undecided("the layout is not known");
        }
        return Outcome.test(geometry.tableBytes() <= geometry.fatBytes(), geometry.fatSectors() + " sectors, " + geometry.fatBytes()
                + " bytes", geometry.tableBytes() + " bytes for " + geometry.clusters() + " clusters").because(size());
    }

    private Outcome typeByCount() {
        Geometry geometry = Geometry.of(boot);
        if (geometry == null) {
            return undecided("the layout is not known");
        }
        FatKind byCount = FatKind.byCount(geometry.clusters());
        return Outcome.test((byCount == FatKind.FAT32) == boot.form32(), boot.form32() ? "FAT32 layout" : "FAT12 or FAT16 layout",
                byCount + " by " + geometry.clusters() + " clusters").because(size());
    }

    private Outcome typeText() {
        Geometry geometry = Geometry.of(boot);
        if (geometry == null || boot.window().u8(boot.bootSigAt()) != 0x29) {
            return null;
        }
        String text = boot.typeText();
        boolean agrees = text.startsWith(geometry.kind().name()) || text.equals("FAT     ") && geometry.kind() != FatKind.FAT32;
        return Outcome.test(agrees, Text.quoted(text), Text.quoted(geometry.kind().name() + "   "));
    }

    private Outcome usable(Supplier<Outcome> test) {
        return Geometry.legalSectorBytes(boot.bytesPerSector()) ? test.get() : undecided("the sector size is not legal");
    }

    private int sizeField() {
        return boot.window().isRead(0, 64) && boot.total16() != 0 ? BootSector.TOTAL16 : BootSector.TOTAL32;
    }

    private int sizeLength() {
        return sizeField() == BootSector.TOTAL16 ? 2 : 4;
    }

    private int typeTextAt() {
        return boot.window().isRead(0, 64) ? boot.typeTextAt() : 54;
    }

    private void locating(String rule, int at, int length, Supplier<Outcome> test) {
        locating(rule, boot.at(at, length), test);
    }

    private void locating(String rule, ByteRange where, Supplier<Outcome> test) {
        Mark mark = report(rule, where, test);
        if (mark != null && !mark.passed() && lead == null) {
            lead = mark;
        }
    }

    private Mark field(String rule, int at, int length, Supplier<Outcome> test) {
        return report(rule, boot.at(at, length), test);
    }

    /** Unread and undecided verdicts, and those of a sector that is no boot sector at all, follow from the first. */
    private Mark report(String rule, ByteRange where, Supplier<Outcome> test) {
        return out.check(rule, where, () -> {
            Outcome outcome;
            try {
                outcome = test.get();
            } catch (UnreadException e) {
                return Outcome.unread(e.missing()).because(lead);
            }
            return outcome != null && lead != null && !whole ? outcome.because(lead) : outcome;
        });
    }

    private Outcome undecided(String reason) {
        return Outcome.undecided(reason).because(lead);
    }
}
