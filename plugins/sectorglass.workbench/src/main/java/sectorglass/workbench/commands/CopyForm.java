package sectorglass.workbench.commands;

import java.nio.charset.StandardCharsets;
import java.util.Base64;
import java.util.Locale;

import sectorglass.image.SafeText;
import sectorglass.image.Window;
import sectorglass.workbench.look.Numbers;

/** Forms in which selected bytes are copied. */
enum CopyForm {
    /** Hex pairs; bytes that were not read are {@code ??}. */
    HEX,
    /** Base64; only where every byte was read. */
    BASE64,
    /** Text, one character per byte as ISO 8859-1, control characters spelled out; only where every byte was read. */
    TEXT,
    /** The list of a spec's {@code contents}; only where every byte was read. */
    CONTENTS,
    /** A line with LBA, byte in sector, image byte, length, hex; separated by tabs. */
    ROW;

    /** Bytes that may be copied at once. */
    static final int MOST = 4 << 20;

    /** Whether bytes that were not read can be shown in this form. */
    boolean takesUnread() {
        return this == HEX || this == ROW;
    }

    /** The form that a command's word stands for. */
    static CopyForm of(String word) {
        return valueOf(word.toUpperCase(Locale.ROOT));
    }

    /**
     * Writes the bytes.
     *
     * @throws sectorglass.image.UnreadException where a byte was not read and the form cannot show that
     */
    String write(Window window) {
        return switch (this) {
            case HEX -> hex(window, " ", "");
            case BASE64 -> Base64.getEncoder().encodeToString(window.bytes(0, window.length()));
            case TEXT -> SafeText.of(window.text(0, window.length(), StandardCharsets.ISO_8859_1));
            case CONTENTS -> {
                window.require(0, window.length());
                yield "contents: [" + hex(window, ", ", "0x") + "]";
            }
            case ROW -> window.start() / window.sectorSize() + "\t" + window.start() % window.sectorSize() + "\t" + window.start() + "\t"
                    + window.length() + "\t" + hex(window, " ", "");
        };
    }

    private static String hex(Window window, String between, String before) {
        StringBuilder text = new StringBuilder(window.length() * 3);
        for (int i = 0; i < window.length(); i++) {
            text.append(i == 0 ? "" : between);
            text.append(window.isRead(i, 1) ? before + Numbers.hex(window.u8(i), 2) : "??");
        }
        return text.toString();
    }
}
