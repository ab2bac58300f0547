package sectorglass.apple;

import java.util.List;

import sectorglass.disk.Content;
import sectorglass.disk.Extent;
import sectorglass.disk.FileState;
import sectorglass.image.ByteRange;
import sectorglass.image.SectorImage;

/**
 * What the attribute of a compressed file says: its header, and the content where it is short. Source: apfs_compress_hdr and compress.c of
 * linux-apfs.
 *
 * @param type how the content is kept: odd types in the attribute, even ones in the resource fork
 * @param bytes length of the content
 * @param inline what follows the header
 */
record Decmpfs(int type, long bytes, byte[] inline) {
    static final String NAME = "com.apple.decmpfs";
    static final String RESOURCE = "com.apple.ResourceFork";
    /** Flag of a file whose content is compressed (UF_COMPRESSED). */
    static final int FLAG = 0x20;
    static final int HEADER = 16;
    private static final int ZLIB_INLINE = 3;
    private static final int ZLIB_RESOURCE = 4;
    private static final int PLAIN_INLINE = 9;
    private static final int PLAIN_RESOURCE = 10;

    /**
     * The attribute's bytes; null where they are no such header. It starts with "fpmc" (decmpfs.h, xnu, from memory); apfsck (apfsprogs)
     * takes only four zeros for right on APFS, so both are accepted.
     */
    static Decmpfs of(byte[] b) {
        if (b.length < HEADER || number(b, 0, 4) != 0 && (b[0] != 'f' || b[1] != 'p' || b[2] != 'm' || b[3] != 'c')) {
            return null;
        }
        long type = number(b, 4, 4);
        long bytes = number(b, 8, 8);
        return type > 255 || bytes < 0 ? null : new Decmpfs((int) type, bytes, java.util.Arrays.copyOfRange(b, HEADER, b.length));
    }

    /** A little-endian number. */
    static long number(byte[] b, int at, int length) {
        long value = 0;
        for (int i = length - 1; i >= 0; i--) {
            value = value << 8 | b[at + i] & 0xFF;
        }
        return value;
    }

    /** Whether the content lies in the resource fork. */
    boolean inResource() {
        return (type & 1) == 0;
    }

    /** Whether it can be decompressed here. */
    boolean known() {
        return type == ZLIB_INLINE || type == ZLIB_RESOURCE || type == PLAIN_INLINE || type == PLAIN_RESOURCE;
    }

    /** How it is compressed, in words. */
    String method() {
        return switch (type) {
            case ZLIB_INLINE, ZLIB_RESOURCE -> "zlib";
            case 7, 8 -> "LZVN";
            case PLAIN_INLINE, PLAIN_RESOURCE -> "no compression";
            case 11, 12 -> "LZFSE";
            case 13, 14 -> "LZBITMAP";
            default -> "type " + type;
        };
    }

    /** What to tell of the file, or null. */
    String remark() {
        return known() ? null : "Compressed by the file system (" + method() + "), which is not decompressed here: the "
                + (inResource() ? "resource fork" : "attribute " + NAME) + " holds its bytes.";
    }

    /**
     * The content.
     *
     * @param resource the resource fork, or null
     * @param inlineByte image byte of {@link #inline}
     */
    Content content(SectorImage image, Content resource, long inlineByte) {
        if (known() && inResource() && resource != null && resource.bytes() >= 0) {
            return new DecmpfsContent(resource, bytes, type == ZLIB_RESOURCE);
        }
        byte[] whole = known() && !inResource() && bytes <= DecmpfsContent.BLOCK ? DecmpfsContent.block(inline, inline.length, (int) bytes, type == ZLIB_INLINE) : null;
        return new Inline(bytes, whole, Math.max(1, inline.length), inlineByte, !known());
    }

    /** Content that stands in the attribute; or one that cannot be had. */
    private record Inline(long bytes, byte[] whole, int stored, long imageByte, boolean foreign) implements Content {

        @Override
        public List<Extent> extents() {
            return bytes == 0 ? List.of() : List.of(imageByte < 0 ? Extent.unknown(0, bytes)
                    : new Extent(Extent.Kind.COMPRESSED, 0, bytes, imageByte, stored));
        }

        @Override
        public List<ByteRange> read(long offset, byte[] into, int at, int length) {
            int good = whole == null ? 0 : (int) Math.max(0, Math.min(length, whole.length - offset));
            java.util.Arrays.fill(into, at, at + length, (byte) 0);
            if (good > 0) {
                System.arraycopy(whole, (int) offset, into, at, good);
            }
            return good == length ? List.of() : List.of(new ByteRange(offset + good, length - good));
        }

        @Override
        public List<ByteRange> missing() {
            long good = whole == null ? 0 : whole.length;
            return good >= bytes ? List.of() : List.of(new ByteRange(good, bytes - good));
        }

        @Override
        public FileState state() {
            return foreign ? FileState.UNKNOWN : Content.super.state();
        }
    }
}
