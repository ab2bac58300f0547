package sectorglass.make;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;

import sectorglass.testkit.Tool;

/** The checkers of the operating system as one question: is this volume sound? */
final class Soundness {

    private Soundness() {
    }

    static void assertSound(VolumeKind kind, Path image) {
        Tool.Result check = check(kind, image);
        assertEquals(0, check.status(), check.out());
        for (String sign : new String[] {"differ", "rror", "rong", "rphan", "orrupt", "irty", "arning"}) {
            assertTrue(!check.out().contains(sign), check.out());
        }
    }

    static Tool.Result check(VolumeKind kind, Path image) {
        return switch (kind) {
            case FAT12, FAT16, FAT32 -> Tool.run("fsck.fat", "-n", "-v", image.toString());
            case EXFAT -> Tool.run("fsck.exfat", "-n", image.toString());
            case EXT4 -> Tool.run("e2fsck", "-f", "-n", image.toString());
            case NTFS -> Tool.run("ntfsresize", "-i", "-f", image.toString());
        };
    }

    /** Cuts a volume out of a disk, for checkers that know no offset. */
    static Path cut(Path disk, MadeVolume volume, Path into) throws IOException {
        try (FileChannel from = FileChannel.open(disk);
                FileChannel to = FileChannel.open(into, StandardOpenOption.CREATE, StandardOpenOption.WRITE,
                        StandardOpenOption.TRUNCATE_EXISTING)) {
            for (long done = 0; done < volume.bytes();) {
                done += from.transferTo(volume.firstByte() + done, volume.bytes() - done, to);
            }
        }
        return into;
    }
}
