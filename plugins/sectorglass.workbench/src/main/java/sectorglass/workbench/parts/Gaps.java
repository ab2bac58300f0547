package sectorglass.workbench.parts;

import java.util.List;

import sectorglass.decode.FieldWalk;
import sectorglass.image.ByteRange;
import sectorglass.image.Window;
import sectorglass.workbench.look.Numbers;
import sectorglass.workbench.look.Texts;
import sectorglass.workbench.model.Explained;

/**
 * The bytes of a structure that no field explains.
 *
 * @param ranges where they are, by address; of very many the first ones
 * @param count how many ranges there are
 * @param bytes how many bytes they hold
 */
record Gaps(List<Gap> ranges, int count, long bytes) {
    private static final int MOST = 1000;
    private static final int PREVIEW = 8;

    /**
     * A stretch that no field explains.
     *
     * @param range its image bytes
     * @param offset of its first byte in the structure
     * @param preview its first bytes as hex; "zeros" where all are zero
     */
    record Gap(ByteRange range, long offset, String preview) { }

    static Gaps of(Explained explained) {
        Window window = explained.window();
        List<ByteRange> all = FieldWalk.unexplained(explained.root(), window).stream().filter(range -> range.length() > 0).toList();
        long bytes = all.stream().mapToLong(ByteRange::length).sum();
        return new Gaps(all.stream().limit(MOST).map(range -> gap(window, range)).toList(), all.size(), bytes);
    }

    private static Gap gap(Window window, ByteRange range) {
        int from = (int) (range.start() - window.start());
        int length = (int) Math.min(range.length(), window.length() - from);
        if (window.isRead(from, length) && window.filled(from, length, 0)) {
            return new Gap(range, from, Texts.of("fields.gap.zeros"));
        }
        StringBuilder text = new StringBuilder();
        for (int i = 0; i < Math.min(PREVIEW, length); i++) {
            text.append(i == 0 ? "" : " ").append(window.isRead(from + i, 1) ? Numbers.hex(window.u8(from + i), 2) : "??");
        }
        return new Gap(range, from, length > PREVIEW ? text + " \u2026" : text.toString());
    }
}
