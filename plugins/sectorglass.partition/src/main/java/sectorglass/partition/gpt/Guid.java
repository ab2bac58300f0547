package sectorglass.partition.gpt;

import java.util.Locale;

import sectorglass.image.Window;

/** GUIDs as GPT stores them: the first three groups little endian (UEFI 2.10, appendix A). */
public final class Guid {
    /** The GUID of zeros: a slot that is not used. */
    public static final String ZERO = "00000000-0000-0000-0000-000000000000";

    private Guid() {
    }

    /** Lower-case text of the 16 bytes. */
    public static String text(Window window, int at) {
        long tail = window.u64be(at + 8);
        return String.format(Locale.ROOT, "%08x-%04x-%04x-%04x-%012x", window.u32le(at), window.u16le(at + 4), window.u16le(at + 6),
                tail >>> 48, tail & 0xFFFFFFFFFFFFL);
    }

    /** The 16 bytes of a GUID given as text. */
    public static byte[] bytes(String text) {
        String hex = text.replace("-", "");
        int[] order = {3, 2, 1, 0, 5, 4, 7, 6, 8, 9, 10, 11, 12, 13, 14, 15};
        byte[] bytes = new byte[16];
        for (int i = 0; i < 16; i++) {
            bytes[i] = (byte) Integer.parseInt(hex.substring(2 * order[i], 2 * order[i] + 2), 16);
        }
        return bytes;
    }
}
