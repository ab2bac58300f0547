package sectorglass.recovery.outcome;

import java.util.HashMap;
import java.util.Locale;
import java.util.Map;

/**
 * What a file is to the person who owns it, told by the ending of its name. What the content is, a file test tells. The endings are common
 * practice, no source.
 */
public enum FileKind {
    /** Pictures that any viewer shows. */
    PICTURE("jpg jpeg jpe jfif png gif bmp tif tiff webp heic heif avif psd svg ico"),
    /** Pictures as a camera's sensor gave them. */
    CAMERA_RAW("cr2 cr3 nef nrw arw srf sr2 dng orf rw2 raf pef raw 3fr iiq"),
    /** Moving pictures. */
    VIDEO("mp4 m4v mov avi mkv webm mts m2ts ts mpg mpeg vob wmv 3gp flv mxf"),
    /** Sound. */
    SOUND("wav mp3 m4a aac flac ogg oga opus wma aif aiff mid"),
    /** Letters, tables, slides. */
    DOCUMENT("pdf doc docx docm dot dotx odt rtf xls xlsx xlsm ods ppt pptx pptm odp pages numbers key epub txt md tex csv xml json html htm"),
    /** Mail and address books. */
    MAIL("pst ost eml msg mbox mbx dbx vcf ics"),
    /** Archives and copies of whole disks. */
    ARCHIVE("zip 7z rar tar gz tgz bz2 xz zst lz4 iso dmg bak"),
    /** Databases. */
    DATABASE("sqlite sqlite3 db db3 mdb accdb dbf sql myd ibd"),
    /** Programs and their parts. */
    PROGRAM("exe dll sys com msi cab ocx drv so dylib jar class bat cmd sh ps1 py js lnk ini inf dat log tmp"),
    /** Anything else. */
    OTHER("");

    private static final Map<String, FileKind> BY_ENDING = new HashMap<>();

    static {
        for (FileKind kind : values()) {
            for (String ending : kind.endings.split(" ")) {
                BY_ENDING.put(ending, kind);
            }
        }
        BY_ENDING.remove("");
    }

    private final String endings;

    FileKind(String endings) {
        this.endings = endings;
    }

    /** The kind of a file with this name. */
    public static FileKind of(String name) {
        return BY_ENDING.getOrDefault(ending(name), OTHER);
    }

    /** What stands behind the last full stop of a name, lower case; empty where there is none or more than 12 characters. */
    public static String ending(String name) {
        int dot = name.lastIndexOf('.');
        return dot < 1 || name.length() - dot > 13 ? "" : name.substring(dot + 1).toLowerCase(Locale.ROOT);
    }

    /** The word in JSON and on the command line. */
    public String word() {
        return name().toLowerCase(Locale.ROOT).replace('_', ' ');
    }

    /** The kind with this word, or null. */
    public static FileKind ofWord(String word) {
        String name = word.strip().toUpperCase(Locale.ROOT).replace(' ', '_').replace('-', '_');
        for (FileKind kind : values()) {
            if (kind.name().equals(name) || (kind.name() + "S").equals(name)) {
                return kind;
            }
        }
        return null;
    }
}
