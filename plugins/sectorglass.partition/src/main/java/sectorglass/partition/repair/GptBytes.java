package sectorglass.partition.repair;

import java.util.Arrays;

import sectorglass.disk.RepairTexts;
import sectorglass.disk.SectorEdit;
import sectorglass.partition.gpt.GptCopies;

/** Puts a header into a sector that is being re-made, each field with its reason. */
final class GptBytes {
    private static final int FIXED_END = 16;
    private static final int CRC_END = 20;
    private static final int MY = 24;
    private static final int ALTERNATE = 32;
    private static final int USABLE = 40;
    private static final int GUID = 56;
    private static final int ENTRIES = 72;
    private static final int COUNT = 80;
    private static final int END = 92;

    private GptBytes() {
    }

    /** @param source LBA of the copy the fields come from, or -1 where no copy is left */
    static void header(SectorEdit edit, GptCopies.Copy copy, long source, RepairTexts texts) {
        String same = source < 0 ? texts.of("why.fixed") : texts.of("why.copy", source);
        part(edit, copy, 0, FIXED_END, texts.of("why.fixed"));
        part(edit, copy, FIXED_END, CRC_END, texts.of("why.header-crc"));
        part(edit, copy, CRC_END, MY, texts.of("why.fixed"));
        part(edit, copy, MY, ALTERNATE, texts.of("why.my-lba", copy.lba()));
        part(edit, copy, ALTERNATE, USABLE, texts.of("why.alternate"));
        part(edit, copy, USABLE, GUID, source < 0 ? texts.of("why.usable") : same);
        part(edit, copy, GUID, ENTRIES, source < 0 ? texts.of("why.guid") : same);
        part(edit, copy, ENTRIES, COUNT, texts.of("why.entry-lba", copy.arrayLba()));
        part(edit, copy, COUNT, COUNT + 8, source < 0 ? texts.of("why.usual-entries") : same);
        part(edit, copy, COUNT + 8, END, texts.of("why.array-crc"));
        part(edit, copy, END, copy.header().length, texts.of("why.rest"));
    }

    private static void part(SectorEdit edit, GptCopies.Copy copy, int from, int to, String why) {
        edit.put(from, Arrays.copyOfRange(copy.header(), from, to), why);
    }
}
