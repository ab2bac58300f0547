package sectorglass.ntfs;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

import sectorglass.disk.FileState;

/**
 * What reparse points and attributes say of where a file's content is. Sources: Microsoft MS-FSCC 2.1.2.1 (tags), 2.6 (file attributes);
 * Linux kernel fs/ntfs3/ntfs.h.
 */
final class FileKinds {
    static final int MOUNT_POINT = 0xA0000003;
    static final int SYMBOLIC_LINK = 0xA000000C;
    private static final int SINGLE_INSTANCE = 0x80000007;
    private static final int DEDUPLICATED = 0x80000013;
    private static final int COMPRESSED_BY_FILTER = 0x80000017;
    private static final int CLOUD = 0x9000001A;
    private static final int CLOUD_MASK = 0xFFFF0FFF;
    private static final String FILTER_STREAM = "WofCompressedData";

    private FileKinds() {
    }

    /** State of the main stream that holds whatever was read, or null; adds sentences about it. */
    static FileState special(FileRecord file, List<String> remarks) {
        FileStream data = file.stream(AttributeType.DATA, "").orElse(null);
        Integer tag = tag(file);
        FileState state = null;
        if (tag != null) {
            state = byTag(file, tag, remarks);
        }
        if (state == null && data != null && !data.resident && file.stream(AttributeType.DATA, FILTER_STREAM).isPresent()) {
            remarks.add("The content is compressed by a filter in the stream " + FILTER_STREAM + "; the main stream holds no data of its own.");
            state = FileState.ELSEWHERE;
        }
        if (state == null && data != null && data.encrypted()) {
            remarks.add("The content is encrypted; what was read is ciphertext.");
            state = FileState.ENCRYPTED;
        }
        return state;
    }

    /** The reparse tag, or null where there is none or it was not read. */
    static Integer tag(FileRecord file) {
        FileStream reparse = file.stream(AttributeType.REPARSE_POINT, "").orElse(null);
        if (reparse == null || !reparse.valueWhole() || reparse.value.length < 8) {
            return null;
        }
        return number(reparse.value, 0, 4);
    }

    private static FileState byTag(FileRecord file, int tag, List<String> remarks) {
        if ((tag & CLOUD_MASK) == CLOUD) {
            remarks.add("A cloud placeholder: the content is with the cloud service, not on this volume.");
            return FileState.ELSEWHERE;
        }
        return switch (tag) {
            case SINGLE_INSTANCE, DEDUPLICATED -> {
                remarks.add("The content is kept once for several files, elsewhere on the volume, and must be put together by the system that did so.");
                yield FileState.ELSEWHERE;
            }
            case COMPRESSED_BY_FILTER -> {
                remarks.add("The content is compressed by a filter in the stream " + FILTER_STREAM + "; the main stream holds no data of its own.");
                yield FileState.ELSEWHERE;
            }
            case SYMBOLIC_LINK, MOUNT_POINT -> {
                String target = target(file, tag);
                remarks.add((tag == SYMBOLIC_LINK ? "A symbolic link" : "A mount point") + (target == null ? "." : " to " + target + "."));
                yield null;
            }
            default -> {
                remarks.add("A reparse point with tag " + String.format(Locale.ROOT, "%08X", tag) + ": a filter of the system owns the content.");
                yield null;
            }
        };
    }

    private static String target(FileRecord file, int tag) {
        byte[] value = file.stream(AttributeType.REPARSE_POINT, "").orElseThrow().value;
        int buffer = tag == SYMBOLIC_LINK ? 20 : 16;
        if (value.length < buffer) {
            return null;
        }
        int offset = buffer + number(value, 8, 2);
        int length = number(value, 10, 2);
        if (length <= 0 || offset > value.length - length) {
            return null;
        }
        return sectorglass.image.SafeText.of(new String(value, offset, length, java.nio.charset.StandardCharsets.UTF_16LE));
    }

    static int number(byte[] bytes, int at, int count) {
        int value = 0;
        for (int i = count - 1; i >= 0; i--) {
            value = value << 8 | bytes[at + i] & 0xFF;
        }
        return value;
    }

    private static final Object[][] BITS = {{1, "read-only"}, {2, "hidden"}, {4, "system"}, {0x20, "archive"}, {0x40, "device"},
        {0x100, "temporary"}, {0x200, "sparse"}, {0x400, "reparse point"}, {0x800, "compressed"}, {0x1000, "offline"},
        {0x2000, "not indexed"}, {0x4000, "encrypted"}};

    static List<String> attributes(int bits) {
        List<String> words = new ArrayList<>();
        for (Object[] bit : BITS) {
            if ((bits & (int) bit[0]) != 0) {
                words.add((String) bit[1]);
            }
        }
        return words;
    }
}
