package sectorglass.apple;

import java.nio.charset.StandardCharsets;
import java.util.HashMap;
import java.util.Map;

import sectorglass.image.Progress;
import sectorglass.image.Window;

/**
 * Attributes of HFS+ that say how a file's content is compressed. Source: Apple TN1150, "Attributes File", by way of hfs_format.h (xnu).
 */
final class HfsAttributes {
    private static final int MOST = 1 << 24;

    private final HfsTree tree;
    /** Node and place of the attribute's data, by file. */
    private final Map<Long, Long> places = new HashMap<>();

    HfsAttributes(HfsLayout layout, Progress progress) {
        tree = layout.tree(HfsTree.Kind.ATTRIBUTES);
        if (tree != null) {
            byte[] wanted = Decmpfs.NAME.getBytes(StandardCharsets.UTF_16BE);
            tree.scan((number, w, offsets) -> {
                for (int i = 0; i + 1 < offsets.length && places.size() < MOST; i++) {
                    int key = offsets[i];
                    if (HfsKeys.legal(HfsTree.Kind.ATTRIBUTES, w, key, offsets[i + 1]) && w.u16be(key + 12) * 2 == wanted.length
                            && java.util.Arrays.equals(w.raw(key + 14, wanted.length), wanted)) {
                        places.put(w.u32be(key + 4), number << 16 | i);
                    }
                }
            }, progress);
        }
    }

    /**
     * An attribute.
     *
     * @param header what it says
     * @param imageByte image byte of what follows the header
     */
    record Found(Decmpfs header, long imageByte) { }

    /** How a file is compressed; null where no attribute was read that says so. */
    Found compression(long file) {
        Long place = places.get(file);
        if (place == null) {
            return null;
        }
        Window w = tree.node(place >>> 16);
        int[] offsets = HfsTree.records(w);
        int i = (int) (place & 0xFFFF);
        int data = HfsKeys.data(w, offsets[i]);
        if (data + 16 > offsets[i + 1] || w.u32be(data) != 0x10 || w.u32be(data + 12) > offsets[i + 1] - data - 16) {
            return null;
        }
        int length = (int) w.u32be(data + 12);
        Decmpfs header = Decmpfs.of(w.bytes(data + 16, length));
        return header == null ? null : new Found(header, w.address(data + 16 + Math.min(length, Decmpfs.HEADER)));
    }
}
