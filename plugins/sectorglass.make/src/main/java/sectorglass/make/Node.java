package sectorglass.make;

/** A file or a folder to be made. */
public sealed interface Node permits Folder, DataFile {

    /** Name without a path, 1 to 255 UTF-16 units. */
    String name();

    /** Times to be stored. */
    Times times();

    /** Attribute bits as FAT, exFAT and NTFS share them: 1 read-only, 2 hidden, 4 system, 20 (hex) archive. */
    int attributes();
}
