package sectorglass.ntfs;

/** Attribute type codes. Sources: Linux kernel fs/ntfs3/ntfs.h (enum ATTR_TYPE); NTFS-3G layout.h. */
final class AttributeType {
    static final int STANDARD_INFORMATION = 0x10;
    static final int ATTRIBUTE_LIST = 0x20;
    static final int FILE_NAME = 0x30;
    static final int OBJECT_ID = 0x40;
    static final int SECURITY_DESCRIPTOR = 0x50;
    static final int VOLUME_NAME = 0x60;
    static final int VOLUME_INFORMATION = 0x70;
    static final int DATA = 0x80;
    static final int INDEX_ROOT = 0x90;
    static final int INDEX_ALLOCATION = 0xA0;
    static final int BITMAP = 0xB0;
    static final int REPARSE_POINT = 0xC0;
    static final int EA_INFORMATION = 0xD0;
    static final int EA = 0xE0;
    static final int LOGGED_UTILITY_STREAM = 0x100;
    static final int END = 0xFFFFFFFF;

    private AttributeType() {
    }

    /** The name in $AttrDef, or the code in hex. */
    static String name(int code) {
        return switch (code) {
            case STANDARD_INFORMATION -> "$STANDARD_INFORMATION";
            case ATTRIBUTE_LIST -> "$ATTRIBUTE_LIST";
            case FILE_NAME -> "$FILE_NAME";
            case OBJECT_ID -> "$OBJECT_ID";
            case SECURITY_DESCRIPTOR -> "$SECURITY_DESCRIPTOR";
            case VOLUME_NAME -> "$VOLUME_NAME";
            case VOLUME_INFORMATION -> "$VOLUME_INFORMATION";
            case DATA -> "$DATA";
            case INDEX_ROOT -> "$INDEX_ROOT";
            case INDEX_ALLOCATION -> "$INDEX_ALLOCATION";
            case BITMAP -> "$BITMAP";
            case REPARSE_POINT -> "$REPARSE_POINT";
            case EA_INFORMATION -> "$EA_INFORMATION";
            case EA -> "$EA";
            case LOGGED_UTILITY_STREAM -> "$LOGGED_UTILITY_STREAM";
            default -> "0x" + Integer.toHexString(code).toUpperCase(java.util.Locale.ROOT);
        };
    }
}
