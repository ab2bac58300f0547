package sectorglass.partition.gpt;

import sectorglass.verify.Checks;
import sectorglass.verify.Outcome;

/** Compares primary and backup: all fields but three and the checksum are equal (UEFI 2.10, section 5.3.2). */
final class CopyChecks {

    /** A field that both copies share. */
    private record Field(String name, int at, int length) { }

    private static final Field[] SHARED = {new Field("Revision", GptHeader.REVISION, 4), new Field("HeaderSize", GptHeader.HEADER_SIZE, 4),
        new Field("FirstUsableLBA", GptHeader.FIRST_USABLE, 8), new Field("LastUsableLBA", GptHeader.LAST_USABLE, 8),
        new Field("DiskGUID", GptHeader.DISK_GUID, 16), new Field("NumberOfPartitionEntries", GptHeader.ENTRY_COUNT, 4),
        new Field("SizeOfPartitionEntry", GptHeader.ENTRY_SIZE, 4), new Field("PartitionEntryArrayCRC32", GptHeader.ENTRIES_CRC, 4)};

    private final GptDisk disk;
    private final Checks out;

    CopyChecks(GptDisk disk, Checks out) {
        this.disk = disk;
        this.out = out;
    }

    void run() {
        GptHeader first = disk.primary();
        GptHeader second = disk.backup();
        if (second == null || second.read() && !second.found()) {
            return;
        }
        out.check("gpt.copies-equal", second.where(0, GptHeader.MIN_SIZE), () -> {
            first.sector().require(0, GptHeader.MIN_SIZE);
            second.sector().require(0, GptHeader.MIN_SIZE);
            for (Field field : SHARED) {
                byte[] here = first.sector().bytes(field.at(), field.length());
                byte[] there = second.sector().bytes(field.at(), field.length());
                if (!java.util.Arrays.equals(here, there)) {
                    return cause(Outcome.failed(text(there), text(here)).with("field", field.name())
                            .at(second.where(field.at(), field.length())), first, second);
                }
            }
            return Outcome.passed();
        });
    }

    private Outcome cause(Outcome outcome, GptHeader first, GptHeader second) {
        if (GptMaps.foreign(disk, second)) {
            return outcome.follows("gpt.leftover", second.sector().start());
        }
        for (GptHeader header : new GptHeader[] {second, first}) {
            if (!header.sizeLegal()) {
                return outcome.follows("gpt.header.size", header.sector().start() + GptHeader.HEADER_SIZE);
            }
            if (!header.sound()) {
                return outcome.follows("gpt.header.crc32", header.sector().start() + GptHeader.CRC);
            }
            if (!header.good()) {
                return outcome.follows("gpt.header.my-lba", header.sector().start() + GptHeader.MY_LBA);
            }
        }
        return outcome;
    }

    private static String text(byte[] bytes) {
        StringBuilder hex = new StringBuilder();
        for (byte b : bytes) {
            hex.append(hex.length() == 0 ? "" : " ").append(String.format(java.util.Locale.ROOT, "%02X", b & 0xFF));
        }
        return hex.toString();
    }
}
