package sectorglass.volumes;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Size;

import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;
import sectorglass.testvolumes.DiskFile;
import sectorglass.testvolumes.Judged;

/** One flipped bit is one finding; unread sectors are none. */
class FlippedBitTest {

    @ParameterizedTest
    @CsvSource({"xfs, 100, xfs.sb.crc", "xfs, 536, xfs.ag.crc", "xfs, 1040, xfs.ag.crc", "xfs, 83886180, xfs.sb.crc",
        "xfs, 65552, xfs.inode.crc", "xfs, 0, xfs.sb.magic", "btrfs, 65700, btrfs.sb.csum", "btrfs, 67109000, btrfs.sb.csum",
        "f2fs, 1100, f2fs.sb.crc", "f2fs, 5200, f2fs.sb.crc", "swap, 1031, swap.size", "luks1, 208, luks1.slots",
        "luks2, 300, luks2.csum", "luks2, 5000, luks2.csum", "luks2, 16684, luks2.csum", "md-1.2, 4200, md.checksum",
        "md-1.0, 4186200, md.checksum", "md-0.90, 4128800, md.checksum", "iso9660, 32848, iso.both-endian", "udf, 131078, udf.tag.checksum",
        "udf, 131092, udf.tag.crc"})
    void oneCauseOneFinding(String made, long at, String rule) {
        try (DiskFile image = DiskFile.of(MadeVolumes.file(made))) {
            DiskFile flipped = image.flip(at, 0x40);
            Judged judged = Judged.full(flipped);
            assertEquals(List.of(rule), judged.failed(), judged.text());
        }
    }

    @Test
    void aDamagedFirstHeaderLeavesTheSecond() {
        try (DiskFile image = DiskFile.of(MadeVolumes.file("luks2"))) {
            Judged judged = Judged.full(image.flip(0, 0xFF));
            assertEquals("luks2", judged.volume().info().kind());
            assertTrue(judged.passed("luks2.csum"));
            assertEquals(MadeVolumes.UUID, judged.volume().info().uuid());
        }
        try (DiskFile image = DiskFile.of(MadeVolumes.file("btrfs"))) {
            Judged judged = Judged.full(image.unread(SectorRanges.of(128, 8)));
            assertTrue(judged.passed("btrfs.sb.csum"));
            assertEquals("TESTVOL", judged.volume().info().label());
        }
    }

    @Property(tries = 40)
    void unreadSectorsAreNoDamage(@ForAll @Size(min = 1, max = 8) List<@IntRange(max = 300) Integer> lost) {
        SectorRanges gone = SectorRanges.of(lost.stream().map(lba -> new SectorRange(lba, 1)).toList());
        for (String made : List.of("xfs", "f2fs", "swap", "luks1", "luks2", "md-1.1", "md-1.2", "iso9660", "btrfs")) {
            try (DiskFile image = DiskFile.of(MadeVolumes.file(made))) {
                DiskFile partly = image.unread(gone);
                if (Judged.open(partly).isPresent()) {
                    Judged judged = Judged.full(partly);
                    assertEquals(List.of(), judged.failed(), () -> made + "\n" + judged.text());
                    judged.findings().all().forEach(f -> assertTrue(f.missing().minus(gone).isEmpty(), () -> made + " " + f));
                }
            }
        }
    }

    @Property(tries = 60)
    void hostileBytesNeverThrow(@ForAll @Size(min = 1, max = 40) List<@IntRange(max = 40000) Integer> places, @ForAll byte value) {
        for (String made : List.of("xfs", "swap", "luks1", "luks2", "md-1.2", "iso9660", "udf", "f2fs", "btrfs")) {
            try (DiskFile image = DiskFile.of(MadeVolumes.file(made))) {
                DiskFile damaged = image;
                for (int place : places) {
                    damaged = damaged.set(made.equals("btrfs") ? 65536 + place % 4096 : made.equals("udf") ? 131072 + place : place, value);
                }
                DiskFile all = damaged;
                Judged.open(all).ifPresent(volume -> {
                    Judged judged = Judged.full(all);
                    assertFalse(judged.findings().all().isEmpty() && judged.volume().structures().isEmpty());
                    volume.structureAt(1024);
                });
            }
        }
    }
}
