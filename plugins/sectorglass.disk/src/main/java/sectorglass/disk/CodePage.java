package sectorglass.disk;

import java.nio.charset.Charset;
import java.nio.charset.IllegalCharsetNameException;
import java.nio.charset.StandardCharsets;

/**
 * The code page in which file systems read bytes of names that they do not describe themselves: 8.3 names and labels of FAT. One for the
 * whole process; taken when a name is read. Code page 850 until another is chosen, as the formatter and checker dosfstools take it.
 */
public final class CodePage {
    private static final String DEFAULT = "IBM850";
    private static volatile Charset chosen = Charset.isSupported(DEFAULT) ? Charset.forName(DEFAULT) : StandardCharsets.ISO_8859_1;

    private CodePage() {
    }

    /** The code page. */
    public static Charset current() {
        return chosen;
    }

    /**
     * Chooses another one, before a volume is opened.
     *
     * @param name a number such as 437 or 866, or the name of a character set
     * @return whether the platform knows it
     */
    public static boolean choose(String name) {
        for (String tried : name.matches("[0-9]{2,5}") ? new String[] {"IBM" + name, "x-IBM" + name, "windows-" + name, "x-windows-" + name}
                : new String[] {name}) {
            try {
                if (Charset.isSupported(tried)) {
                    chosen = Charset.forName(tried);
                    return true;
                }
            } catch (IllegalCharsetNameException e) {
                return false;
            }
        }
        return false;
    }
}
