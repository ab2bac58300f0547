package sectorglass.make.ntfs;

import java.io.IOException;

import sectorglass.make.DataFile;
import sectorglass.make.Folder;
import sectorglass.make.Medium;
import sectorglass.make.Node;

/** The file table: where records lie, and which number comes next. */
final class RecordSpace {
    private final Medium medium;
    private final long firstByte;
    private final int recordBytes;
    private long next = NtfsGeometry.FIRST_USER_RECORD;

    RecordSpace(Medium medium, long firstByte, int recordBytes) {
        this.medium = medium;
        this.firstByte = firstByte;
        this.recordBytes = recordBytes;
    }

    /** Records that a tree needs, the system's among them. */
    static long count(Folder root, int clusterBytes) {
        return NtfsGeometry.FIRST_USER_RECORD + inside(root, clusterBytes);
    }

    private static long inside(Folder folder, int clusterBytes) {
        long count = 0;
        for (Node child : folder.children()) {
            count += 1 + (child instanceof DataFile file ? Fragments.extensions(file, clusterBytes)
                    : inside((Folder) child, clusterBytes));
        }
        return count;
    }

    long take() {
        return next++;
    }

    long byteOf(long record) {
        return firstByte + record * recordBytes;
    }

    void write(long number, FileRecord record) throws IOException {
        medium.write(byteOf(number), record.bytes());
    }
}
