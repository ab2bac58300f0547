package sectorglass.partition.gpt;

import java.util.Locale;
import java.util.Map;
import java.util.function.Supplier;

import sectorglass.image.SectorImage;
import sectorglass.partition.BeyondEnd;
import sectorglass.verify.Checks;
import sectorglass.verify.Mark;
import sectorglass.verify.Outcome;
import sectorglass.verify.Phrase;
import sectorglass.verify.Severity;

/** Judges one copy of a GPT: its header, then its array. */
final class HeaderChecks {
    private static final int MIN_ARRAY_BYTES = 16384;

    private final GptDisk disk;
    private final GptHeader header;
    private final boolean leftover;
    private final boolean primary;
    private final SectorImage image;
    private final Checks out;

    HeaderChecks(GptDisk disk, GptHeader header, boolean leftover, SectorImage image, Checks all) {
        this.disk = disk;
        this.header = header;
        this.leftover = leftover;
        this.primary = header == disk.primary();
        this.image = image;
        this.out = all.in(header.where());
    }

    void run() {
        Mark signature = check("signature", 0, 8, this::signature);
        if (signature.failed()) {
            return;
        }
        if (leftover) {
            out.report("gpt.leftover", header.where(0, 8), Outcome.failed("a GPT header", null)
                    .with("reason", Phrase.of(disk.leftover() ? disk.zero().volume() != null ? "reason.volume" : "reason.mbr"
                            : "reason.other")));
        }
        Mark size = check("size", GptHeader.HEADER_SIZE, 4, () -> Outcome.test(header.sizeLegal(), header.headerSize(),
                GptHeader.MIN_SIZE + " to " + header.sector().length()).because(signature));
        Mark crc = check("crc32", GptHeader.CRC, 4, () -> size.failed()
                ? Outcome.undecided("HeaderSize is illegal").because(size) : crc().because(signature));
        Mark root = crc.passed() ? null : crc;
        check("revision", GptHeader.REVISION, 4, () -> Outcome.test(header.sector().u32le(GptHeader.REVISION) == 0x10000,
                hex(header.sector().u32le(GptHeader.REVISION)), "00010000").because(root));
        Mark mine = check("my-lba", GptHeader.MY_LBA, 8, () -> Outcome.test(header.myLba() == header.lba(),
                unsigned(header.myLba()), header.lba()).because(root));
        check("reserved", GptHeader.RESERVED, 4, () -> Outcome.test(header.sector().u32le(GptHeader.RESERVED) == 0,
                hex(header.sector().u32le(GptHeader.RESERVED)), "00000000").because(root));
        check("reserved", GptHeader.MIN_SIZE, header.sector().length() - GptHeader.MIN_SIZE, this::rest);
        Mark place = root == null && mine.failed() ? mine : root;
        Mark alternate = null;
        if (!leftover) {
            alternate = check("alternate-lba", GptHeader.ALTERNATE_LBA, 8, () -> alternate().because(place));
            usable(place != null ? place : alternate.failed() ? alternate : null);
        }
        new ArrayChecks(disk, header, leftover, image, out).run(root, place != null ? place : alternate);
        if (primary && !leftover) {
            new CopyChecks(disk, out).run();
        }
    }

    private Mark check(String rule, int at, int length, Supplier<Outcome> test) {
        return out.check("gpt.header." + rule, header.where(at, length), () -> test.get().with("copy", copy()).with("other", other()));
    }

    private Phrase copy() {
        return Phrase.of(primary ? "copy.primary" : header == disk.stray() ? "copy.stray" : "copy.backup");
    }

    private Phrase other() {
        GptHeader other = disk.other(header);
        return Phrase.of(other == null || other.read() && !other.found() ? "other.none" : !other.read() ? "other.unread"
                : other.good() ? "other.good" : "other.bad");
    }

    private Outcome signature() {
        header.sector().require(0, 8);
        Outcome outcome = Outcome.test(header.found(), text(), "45 46 49 20 50 41 52 54 (EFI PART)");
        if (disk.otherSize() >= 0) {
            return outcome.follows("gpt.sector-size", disk.otherSize());
        }
        boolean first = disk.primary() != null && header != disk.primary() && !disk.any();
        return first ? outcome.follows("gpt.header.signature", disk.primary().sector().start()) : outcome;
    }

    private String text() {
        StringBuilder hex = new StringBuilder();
        for (int i = 0; i < 8; i++) {
            hex.append(String.format(Locale.ROOT, i == 0 ? "%02X" : " %02X", header.sector().u8(i)));
        }
        return hex.toString();
    }

    private Outcome crc() {
        long computed = header.computedCrc();
        return Outcome.test(header.storedCrc() == computed, hex(header.storedCrc()), hex(computed));
    }

    /** Bytes after HeaderSize; those up to 92 belong to the fields. */
    private Outcome rest() {
        int from = header.sizeLegal() ? (int) header.headerSize() : GptHeader.MIN_SIZE;
        for (int at = from; at < header.sector().length(); at++) {
            if (header.sector().u8(at) != 0) {
                return Outcome.failed(String.format(Locale.ROOT, "%02X", header.sector().u8(at)), "00")
                        .at(header.where(at, 1));
            }
        }
        return Outcome.passed();
    }

    private Outcome alternate() {
        long stored = header.alternateLba();
        long right = primary ? image.sectors() - 1 : 1;
        String problem = !primary ? "backup" : Long.compareUnsigned(stored, right) > 0 ? "beyond-end"
                : disk.backup() != null && disk.backup().found() && disk.backup().lba() == stored ? "enlarged" : "wrong";
        return Outcome.test(stored == right, unsigned(stored), right).with("problem", problem.equals("beyond-end")
                ? new Phrase("problem.beyond-end", Map.of("causes", BeyondEnd.causes(stored + 1, image)))
                : Phrase.of("problem." + problem));
    }

    private void usable(Mark cause) {
        check("usable-range", GptHeader.FIRST_USABLE, 16, () -> usable().because(cause));
    }

    private Outcome usable() {
        long first = header.firstUsable();
        long last = header.lastUsable();
        long least = 2 + (MIN_ARRAY_BYTES + image.sectorSize() - 1) / image.sectorSize();
        String stored = unsigned(first) + " to " + unsigned(last);
        if (Long.compareUnsigned(first, last) > 0) {
            return Outcome.failed(stored, "first not after last").at(header.where(GptHeader.FIRST_USABLE, 8));
        }
        if (Long.compareUnsigned(last, image.sectors()) >= 0) {
            return Outcome.failed(stored, "last at most " + (image.sectors() - 1)).at(header.where(GptHeader.LAST_USABLE, 8));
        }
        if (Long.compareUnsigned(first, header.lba()) <= 0 && Long.compareUnsigned(header.lba(), last) <= 0) {
            return Outcome.failed(stored, "clear of the header at " + header.lba())
                    .at(header.where(primary ? GptHeader.FIRST_USABLE : GptHeader.LAST_USABLE, 8));
        }
        return Outcome.test(Long.compareUnsigned(first, least) >= 0, stored, "first at least " + least)
                .severity(Severity.COSMETIC).at(header.where(GptHeader.FIRST_USABLE, 8));
    }

    static String hex(long value) {
        return String.format(Locale.ROOT, "%08X", value);
    }

    static String unsigned(long value) {
        return Long.toUnsignedString(value);
    }
}
