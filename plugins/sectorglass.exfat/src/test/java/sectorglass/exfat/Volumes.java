package sectorglass.exfat;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HexFormat;
import java.util.List;
import java.util.Locale;
import java.util.Map;

import sectorglass.disk.Claim;
import sectorglass.disk.Level;
import sectorglass.disk.VolumeSite;
import sectorglass.image.SectorImage;
import sectorglass.testkit.Tool;
import sectorglass.testvolumes.DiskFile;
import sectorglass.verify.Checks;
import sectorglass.verify.Finding;
import sectorglass.verify.Findings;
import sectorglass.verify.RuleBook;

/** An exFAT volume made by mkfs.exfat and filled by hand, since no tool copies files into one without mounting it. */
final class Volumes {

    static final RuleBook RULES = new RuleBook(List.of(new ExfatRules()), Locale.ENGLISH);
    /** Directory slots: image byte, then the 32 bytes. fsck.exfat 1.2.0 says of the result: clean, directories 2, files 5. */
    private static final String SLOTS = """
            23060 85023a11200000005c645d505c645d505c645d50969684848400000000000000
            23080 c003000946300000150000000000000000000000060000001500000000000000
            230A0 c100680065006c006c006f002e00740078007400000000000000000000000000
            230C0 850398b3200000005c645d505c645d505c645d50969684848400000000000000
            230E0 c003001418f90000282300000000000000000000070000002823000000000000
            23100 c100410020004c006f006e0067002000460069006c00650020004e0061006d00
            23120 c10065002e00620069006e000000000000000000000000000000000000000000
            23140 85029e93210000005c645d505c645d505c645d50969684848400000000000000
            23160 c0010008eeba00002823000000000000000000000a0000002823000000000000
            23180 c10066007200610067002e00620069006e000000000000000000000000000000
            231A0 8502042e200000005c645d505c645d505c645d50969684848400000000000000
            231C0 c001000971560000000000000000000000000000000000000000000000000000
            231E0 c10065006d007000740079002e00640061007400000000000000000000000000
            23200 85023e22100000005c645d505c645d505c645d50969684848400000000000000
            23220 c00300032e3800000010000000000000000000000d0000000010000000000000
            23240 c100530075006200000000000000000000000000000000000000000000000000
            23260 0502a2c0200000005c645d505c645d505c645d50969684848400000000000000
            23280 400300087e2b00001500000000000000000000000f0000001500000000000000
            232A0 410067006f006e0065002e007400780074000000000000000000000000000000
            2B000 8502e312200000005c645d505c645d505c645d50969600000000000000000000
            2B020 c003000c797e00000500000000000000000000000e0000000500000000000000
            2B040 c100e9007400e90020006e006f00740065002e00740078007400000000000000
            """;
    private static byte[] empty;

    private Volumes() {
    }

    /** The 4 MiB volume that mkfs.exfat makes: clusters of 4 KiB, heap at 0x20000, label EXVOL, serial 1234-ABCD. */
    static synchronized byte[] empty() {
        if (empty == null) {
            Tool.require("mkfs.exfat", "tune.exfat", "truncate");
            try {
                Path image = Files.createTempFile("exfat", ".img");
                Tool.run("truncate", "-s", "4M", image.toString()).ok();
                Tool.run("mkfs.exfat", "-L", "EXVOL", "-c", "4K", "-b", "64K", image.toString()).ok();
                Tool.run(Map.of(), null, 20, "tune.exfat", "-I", "0x1234ABCD", image.toString()).ok();
                empty = Files.readAllBytes(image);
                Files.delete(image);
            } catch (IOException e) {
                throw new UncheckedIOException(e);
            }
        }
        return empty.clone();
    }

    /** The volume with hello.txt, A Long File Name.bin, frag.bin, empty.dat, Sub/été note.txt and the deleted gone.txt. */
    static byte[] filled() {
        byte[] image = empty();
        SLOTS.lines().forEach(line -> put(image, Integer.parseInt(line.substring(0, 5), 16), HexFormat.of().parseHex(line.substring(6))));
        byte[] hello = "Hello, sector world!\n".getBytes(StandardCharsets.US_ASCII);
        byte[] data = new byte[9000];
        for (int i = 0; i < data.length; i++) {
            data[i] = (byte) (i * 7 + i / 256);
        }
        put(image, cluster(6), hello);
        put(image, cluster(7), data);
        put(image, cluster(10), java.util.Arrays.copyOfRange(data, 0, 4096));
        put(image, cluster(12), java.util.Arrays.copyOfRange(data, 4096, 8192));
        put(image, cluster(11), java.util.Arrays.copyOfRange(data, 8192, 9000));
        put(image, cluster(14), "deep\n".getBytes(StandardCharsets.US_ASCII));
        put(image, cluster(15), hello);
        put(image, 0x20000, new byte[] {(byte) 0xFF, 0x1F});
        fat(image, 10, 12);
        fat(image, 12, 11);
        fat(image, 11, 0xFFFFFFFF);
        image[112] = 1;
        return image;
    }

    /** Byte of a cluster. */
    static int cluster(int cluster) {
        return 0x20000 + (cluster - 2) * 4096;
    }

    /** Byte of a FAT entry. */
    static int fatByte(int cluster) {
        return 128 * 512 + cluster * 4;
    }

    static void fat(byte[] image, int cluster, int value) {
        put(image, fatByte(cluster), new byte[] {(byte) value, (byte) (value >> 8), (byte) (value >> 16), (byte) (value >> 24)});
    }

    static void put(byte[] image, int at, byte[] bytes) {
        System.arraycopy(bytes, 0, image, at, bytes.length);
    }

    /** Writes the checksum of a set that begins at a byte. */
    static void fixSet(byte[] image, int at) {
        int sum = 0;
        for (int i = 0; i < (image[at + 1] + 1) * 32; i++) {
            if (i != 2 && i != 3) {
                sum = SetSum.step(sum, image[at + i] & 0xFF);
            }
        }
        put(image, at + 2, new byte[] {(byte) sum, (byte) (sum >> 8)});
    }

    /** Writes the checksum of a boot region. */
    static void fixRegion(byte[] image, int firstSector) {
        int sum = 0;
        for (int i = 0; i < 11 * 512; i++) {
            if (i != 106 && i != 107 && i != 112) {
                sum = BootRegion.step(sum, image[firstSector * 512 + i] & 0xFF);
            }
        }
        for (int i = 0; i < 128; i++) {
            put(image, (firstSector + 11) * 512 + i * 4, new byte[] {(byte) sum, (byte) (sum >> 8), (byte) (sum >> 16), (byte) (sum >> 24)});
        }
    }

    /** Puts the same bytes into both boot regions and makes both checksums right. */
    static void both(byte[] image, int at, int... values) {
        for (int region = 0; region <= 12; region += 12) {
            for (int i = 0; i < values.length; i++) {
                image[region * 512 + at + i] = (byte) values[i];
            }
            fixRegion(image, region);
        }
    }

    /** The volume with its sectors, to be damaged. */
    static DiskFile open() {
        return DiskFile.of(filled(), 512);
    }

    static ExfatVolume volume(SectorImage image) {
        VolumeSite site = new VolumeSite(image, image.all(), null);
        Claim claim = new ExfatVolumeProvider().recognise(site).orElseThrow(() -> new AssertionError("not recognised"));
        return (ExfatVolume) new ExfatVolumeProvider().open(claim);
    }

    /** Verdicts as the product shows them. */
    static Findings findings(Checks checks, SectorImage image) {
        return Findings.of(checks, RULES, image.sectorSize());
    }

    static Findings check(SectorImage image, Level level) {
        Checks checks = new Checks();
        volume(image).check(level, checks);
        return Findings.of(checks, RULES, image.sectorSize());
    }

    /** The findings that are listed, one line each: rule, verdict, byte, stored, computed. */
    static String listed(Findings findings) {
        StringBuilder text = new StringBuilder();
        for (Finding f : findings.listed()) {
            text.append(f.check()).append(' ')
                    .append(f.severity() == null ? f.verdict().word() + " " + f.missing() + " " + f.reason() : f.severity().word())
                    .append(" @").append(f.where().start()).append('+').append(f.where().length())
                    .append(' ').append(f.stored()).append(" | ").append(f.computed()).append('\n');
        }
        return text.toString();
    }
}
