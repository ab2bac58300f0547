package sectorglass.image;

import java.util.Locale;

/**
 * A pattern that may mark sectors which were not read: offered, since only a person can know; what is zero or text may be true content.
 *
 * @param kind what the pattern is
 * @param words the pattern for people, safe to show
 * @param count number of sectors looked at that have it
 * @param looked number of sectors looked at
 * @param example LBA of the first of them
 * @param shape what is compared
 */
public record Filler(Kind kind, String words, int count, int looked, long example, SectorShape shape) {
    /** Bytes read at a time. */
    private static final int CHUNK = 1 << 20;

    /** What a pattern may be. */
    public enum Kind {
        /** One byte. */
        BYTE,
        /** A text or other sequence, repeated. */
        TEXT,
        /** A pattern that holds the number of its sector, or the number of its first byte. */
        STAMPED
    }

    /** Share of the sectors looked at, 0 to 1. */
    public double share() {
        return (double) count / looked;
    }

    /** Whether a sector holds nothing but this pattern. */
    public boolean fills(byte[] bytes, int offset, int length, long lba) {
        if (kind == Kind.BYTE) {
            for (int i = 0; i < length; i++) {
                if ((bytes[offset + i] & 0xFF) != shape.pattern().charAt(0)) {
                    return false;
                }
            }
            return true;
        }
        return shape.equals(kind == Kind.TEXT ? SectorShape.repeated(bytes, offset, length) : SectorShape.of(bytes, offset, length, lba));
    }

    /**
     * The sectors of an image that hold it, all read ones looked at. What comes out, with state {@link ReadState#UNREAD}, is a source for
     * {@link ReadStateSources}, once a person has accepted it.
     */
    public SectorRanges ranges(SectorImage image, Progress progress) {
        SectorRanges.Builder builder = new SectorRanges.Builder();
        int size = image.sectorSize();
        int step = CHUNK / size;
        byte[] bytes = new byte[CHUNK];
        for (long lba = 0; lba < image.sectors(); lba += step) {
            progress.checkCancelled();
            progress.at(words, lba, image.sectors());
            int count = (int) Math.min(step, image.sectors() - lba);
            SectorStates states = image.read(lba * size, bytes, 0, count * size);
            for (int i = 0; i < count; i++) {
                if (states.at(lba + i) == ReadState.READ && fills(bytes, i * size, size, lba + i)) {
                    builder.add(lba + i, 1);
                }
            }
        }
        return builder.build();
    }

    static String words(SectorShape shape, Texts texts) {
        return switch (shape.kind()) {
            case BYTE -> texts.of("filler.byte", "0x" + String.format(Locale.ROOT, "%02X", (int) shape.pattern().charAt(0)));
            case TEXT -> texts.of("filler.text", shape.pattern());
            case STAMPED -> texts.of("filler.stamped",
                    shape.pattern().replace(SectorShape.NUMBER, '#').replace(SectorShape.RUN, '…'));
        };
    }
}
