package sectorglass.partition.gpt;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

import org.osgi.service.component.annotations.Component;

import aQute.bnd.annotation.Resolution;
import aQute.bnd.annotation.spi.ServiceProvider;
import sectorglass.image.DumpForm;
import sectorglass.image.DumpFormClue;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorStates;
import sectorglass.image.UnreadException;

/**
 * What GPT headers tell of the bytes around them. The backup header stands in the last sector of its disk and names that sector (UEFI 2.10, section
 * 5.3.2: MyLBA, AlternateLBA): bytes behind it are foreign, and where it names a sector further on than it stands, the files begin in the middle.
 */
@Component(service = DumpFormClue.class)
@ServiceProvider(value = DumpFormClue.class, resolution = Resolution.OPTIONAL)
public final class GptDumpForms implements DumpFormClue {
    private static final byte[] SIGNATURE = "EFI PART".getBytes(StandardCharsets.US_ASCII);
    private static final int[] SIZES = {512, 1024, 2048, 4096};
    /** Bytes looked at before the end. */
    private static final int TAIL = 1 << 17;
    /** Headers looked at there; an image that repeats them tells nothing. */
    private static final int MOST_HEADERS = 64;
    private static final int LARGEST_TRAILER = 1 << 16;
    private static final long MOST_LBA = Long.MAX_VALUE >> 13;
    private static final int PROVEN = 90;
    private static final int LIKELY = 60;
    private static final int HINT = 30;

    @Override
    public List<DumpForm.Clue> look(SectorImage stored) {
        List<DumpForm.Clue> clues = new ArrayList<>();
        for (int size : SIZES) {
            GptHeader primary = header(stored, size, size);
            if (primary != null && primary.myLba() == 1) {
                trailer(stored, primary.alternateLba(), size, "the primary GPT header at byte " + size, clues);
                return clues;
            }
        }
        int length = (int) Math.min(TAIL, stored.bytes());
        byte[] tail = new byte[length];
        long from = stored.bytes() - length;
        SectorStates states = stored.read(from, tail, 0, length);
        int headers = 0;
        for (int at = 0; at + GptHeader.MIN_SIZE <= length && headers < MOST_HEADERS; at++) {
            if (tail[at] == 'E' && Arrays.equals(tail, at, at + SIGNATURE.length, SIGNATURE, 0, SIGNATURE.length) && states.isRead(from + at, GptHeader.MIN_SIZE)) {
                backup(stored, from + at, clues);
                headers++;
            }
        }
        return clues;
    }

    /** A sound header, or null. */
    private static GptHeader header(SectorImage stored, long at, int size) {
        if (at < 0 || at > stored.bytes() - size) {
            return null;
        }
        GptHeader header = new GptHeader(0, stored.window(at, size));
        return header.sound() && header.myLba() > 0 && header.myLba() < MOST_LBA && header.alternateLba() > 0 && header.alternateLba() < MOST_LBA ? header : null;
    }

    private static void backup(SectorImage stored, long at, List<DumpForm.Clue> clues) {
        for (int size : SIZES) {
            GptHeader header = header(stored, at, size);
            if (header == null || header.alternateLba() != 1) {
                continue; // a primary header that lies displaced tells nothing of the end
            }
            long first = header.myLba() * size - at;
            if (first == 0) {
                trailer(stored, header.myLba(), size, "the backup GPT header at byte " + at, clues);
            } else if (first > 0 && entriesHold(stored, header, at, size)) {
                clues.add(new DumpForm.Clue(DumpForm.PLAIN.withFirstImageByte(first), LIKELY, "the backup GPT header at stored byte " + at + " names LBA "
                        + header.myLba() + " as its own place, its entries stand before it, and no primary header is there"));
            }
        }
    }

    /** Whether the array of entries stands as far before the header as the header says. */
    private static boolean entriesHold(SectorImage stored, GptHeader header, long at, int size) {
        GptEntries entries = header.entries();
        long back = entries.readable() && entries.lba() < header.myLba() ? (header.myLba() - entries.lba()) * size : -1;
        try {
            return back >= entries.bytes() && at - back >= 0 && entries.crc(stored, at - back) == header.storedEntriesCrc();
        } catch (UnreadException e) {
            return false;
        }
    }

    /**
     * Bytes behind the last sector of the disk.
     *
     * @param last LBA of it
     * @param who says so, in words
     */
    private static void trailer(SectorImage stored, long last, int size, String who, List<DumpForm.Clue> clues) {
        long trailer = stored.bytes() - (last + 1) * size;
        if (trailer <= 0 || trailer > LARGEST_TRAILER) {
            return;
        }
        GptHeader backup = header(stored, last * size, size);
        boolean there = backup != null && backup.myLba() == last;
        // a part of a sector hides nothing of the disk; whole sectors are taken for foreign only where the last one of the disk is there and what follows is no sector
        boolean proven = trailer < size || there && trailer % size != 0;
        if (proven || there) {
            clues.add(new DumpForm.Clue(DumpForm.PLAIN.withTrailer(trailer), proven ? PROVEN : HINT, who + " puts the last sector of the disk at LBA " + last
                    + (there ? ", where the backup header stands" : "") + "; " + trailer + " bytes follow"));
        }
    }
}
