package sectorglass.disk;

/**
 * The times of a file; each is null where the file system has none or it was not read.
 *
 * @param created the file was made
 * @param modified its content was changed
 * @param changed its metadata were changed
 * @param accessed it was read
 */
public record FileTimes(FileStamp created, FileStamp modified, FileStamp changed, FileStamp accessed) {

    /** No time is known. */
    public static final FileTimes NONE = new FileTimes(null, null, null, null);
}
