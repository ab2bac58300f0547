package sectorglass.partition;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.RandomAccessFile;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

import sectorglass.disk.MapEntry;
import sectorglass.image.Images;
import sectorglass.image.OpenImage;
import sectorglass.image.OpenOptions;
import sectorglass.testkit.Tool;
import sectorglass.verify.Severity;

/** Disks that sfdisk, fdisk and parted make, read by them, by partx, by blkid and here: the same partitions. */
class ToolsTest {
    private static final String GPT = """
            label: gpt
            label-id: 01234567-89AB-CDEF-0123-456789ABCDEF
            unit: sectors
            first-lba: 34
            last-lba: 131038
            table-length: 128

            start=2048, size=32768, type=C12A7328-F81F-11D2-BA4B-00A0C93EC93B, uuid=11111111-2222-3333-4455-66778899AABB, name="EFI-A"
            start=34816, size=96223, type=0FC63DAF-8483-4772-8E79-3D69D8477DE4, uuid=DEADBEEF-CAFE-4BAD-8F00-0123456789AB, \
            name="Datenträger", attrs="LegacyBIOSBootable"
            """;
    private static final String DOS = """
            label: dos
            label-id: 0x1a2b3c4d
            unit: sectors
            start=2048, size=65536, type=83, bootable
            start=67584, size=65536, type=c
            start=133120, size=389120, type=5
            start=135168, size=40960, type=83
            start=178176, size=40960, type=82
            start=221184, size=61440, type=7
            """;

    @TempDir
    Path folder;
    private final List<OpenImage> open = new ArrayList<>();

    @AfterEach
    void close() {
        open.forEach(OpenImage::close);
    }

    private String file(String name, long bytes) throws Exception {
        Path path = folder.resolve(name);
        try (RandomAccessFile file = new RandomAccessFile(path.toFile(), "rw")) {
            file.setLength(bytes);
        }
        return path.toString();
    }

    private Look look(String file, int sectorSize) throws Exception {
        OpenImage image = Images.open(Path.of(file), OpenOptions.DEFAULT.withSectorSize(sectorSize));
        open.add(image);
        return Look.at(image);
    }

    private static void sfdisk(String file, String script) {
        Tool.run(Map.of(), script, 20, "sfdisk", "-q", file).ok();
    }

    /** What {@code sfdisk --json} lists, containers left out. */
    private static List<String> bySfdisk(String file) {
        List<String> found = new ArrayList<>();
        Matcher line = Pattern.compile("\"start\":\\s*(\\d+),\\s*\"size\":\\s*(\\d+),\\s*\"type\":\\s*\"([^\"]*)\"")
                .matcher(Tool.run("sfdisk", "--json", file).ok());
        while (line.find()) {
            String type = line.group(3).toLowerCase();
            if (!List.of("5", "f", "85").contains(type)) {
                found.add(line.group(1) + "+" + line.group(2) + " " + (type.length() < 2 ? "0" + type : type));
            }
        }
        return found;
    }

    /** What {@code partx} lists as first sector and number, containers left out; it counts in sectors of 512 bytes. */
    private static List<String> byPartx(String file, int sectorSize) {
        List<String> found = new ArrayList<>();
        for (String line : Tool.run("partx", "-S", String.valueOf(sectorSize), "-r", "-g", "-o", "START,SECTORS,TYPE", file).ok()
                .strip().lines().toList()) {
            String[] cells = line.split(" ");
            if (!List.of("0x5", "0xf", "0x85").contains(cells[2])) {
                found.add(Long.parseLong(cells[0]) * 512 / sectorSize + "+" + Long.parseLong(cells[1]) * 512 / sectorSize);
            }
        }
        return found;
    }

    private static List<String> byParted(String file, int sectorSize, String... without) {
        List<String> found = new ArrayList<>();
        String out = Tool.run(Map.of("PARTED_SECTOR_SIZE", String.valueOf(sectorSize)), "", 20, "parted", "-ms", file, "unit", "s", "print").ok();
        Matcher line = Pattern.compile("(?m)^(\\d+):(\\d+)s:\\d+s:(\\d+)s:").matcher(out);
        while (line.find()) {
            if (!List.of(without).contains(line.group(1))) {
                found.add(line.group(2) + "+" + line.group(3));
            }
        }
        return found;
    }

    private static List<String> ranges(Look look) {
        return look.partitions().stream().map(p -> p.substring(0, p.indexOf(' '))).toList();
    }

    @Test
    void gpt() throws Exception {
        String file = file("gpt.img", 64 * Samples.MIB);
        sfdisk(file, GPT);
        Memory built = Samples.gpt(512);
        byte[] made = Files.readAllBytes(Path.of(file));
        for (int at : new int[] {0, made.length - 20 * 1024}) {
            assertArrayEquals(built.get(at, 20 * 1024), java.util.Arrays.copyOfRange(made, at, at + 20 * 1024));
        }
        assertEquals("ad2ca8204da707fa46cca90390ef7db8715cc50236c9f9dc7a91ae15cd7ac282",
                HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(made)));
        Look look = look(file, 0);
        assertEquals(512, look.disk().image().sectorSize());
        assertEquals(bySfdisk(file), look.partitions());
        assertEquals(byPartx(file, 512), ranges(look));
        assertEquals(byParted(file, 512), ranges(look));
        String blkid = Tool.run("blkid", "-p", file).ok();
        assertTrue(blkid.contains("PTTYPE=\"gpt\"") && blkid.contains("PTUUID=\"" + look.disk().maps().get(1).map().id() + "\""), blkid);
        assertEquals(List.of(), look.failed());
    }

    @Test
    void primaryAndLogical() throws Exception {
        String file = file("dos.img", 256 * Samples.MIB);
        sfdisk(file, DOS);
        Look look = look(file, 0);
        assertEquals(bySfdisk(file), look.partitions());
        assertEquals(byPartx(file, 512), ranges(look));
        assertEquals(byParted(file, 512, "3"), ranges(look));
        String uuids = Tool.run("partx", "-r", "-g", "-o", "UUID", file).ok();
        look.disk().partitions().forEach(p -> assertTrue(uuids.contains(p.entry().uuid()), uuids));
        assertTrue(Tool.run("blkid", "-p", file).ok().contains("PTTYPE=\"dos\""));
        assertEquals(List.of(), look.failed());
    }

    @Test
    void partedsOwnLogicalPartitions() throws Exception {
        String file = file("parted.img", 128 * Samples.MIB);
        Tool.run("parted", "-s", file, "mklabel", "msdos", "mkpart", "primary", "1MiB", "20MiB", "mkpart", "extended", "20MiB", "100%",
                "mkpart", "logical", "21MiB", "50MiB", "mkpart", "logical", "51MiB", "80MiB").ok();
        Look look = look(file, 0);
        assertEquals(byParted(file, 512, "2"), ranges(look));
        assertEquals(List.of(), look.serious());
    }

    @Test
    void sectorsOf4096() throws Exception {
        String gpt = file("gpt4k.img", 64 * Samples.MIB);
        Tool.run(Map.of("PARTED_SECTOR_SIZE", "4096"), "", 20, "parted", "-s", gpt, "mklabel", "gpt", "mkpart", "a", "1MiB", "33MiB", "mkpart",
                "b", "33MiB", "100%").ok();
        Look look = look(gpt, 0);
        assertEquals(4096, look.disk().image().sectorSize());
        assertEquals(byParted(gpt, 4096), ranges(look));
        assertEquals(byPartx(gpt, 4096), ranges(look));
        assertEquals(List.of(), look.serious());

        String dos = file("dos4k.img", 64 * Samples.MIB);
        Tool.run(Map.of(), "o\nn\np\n1\n256\n4095\nn\np\n2\n4096\n\nt\n2\nc\nw\n", 20, "fdisk", "-b", "4096", dos);
        assertEquals(byPartx(dos, 4096), ranges(look(dos, 4096)));
        assertEquals(List.of("256+3840 83", "4096+12288 0c"), look(dos, 4096).partitions());
    }

    @Test
    void hybrid() throws Exception {
        String file = file("hybrid.img", 64 * Samples.MIB);
        sfdisk(file, GPT);
        Tool.run(Map.of(), "", 20, "sh", "-c", "printf '\\200\\000\\002\\000\\014\\377\\377\\377\\000\\010\\000\\000\\000\\200\\000\\000' | dd of="
                + file + " bs=1 seek=462 conv=notrunc status=none").ok();
        Look look = look(file, 0);
        assertEquals(byPartx(file, 512), ranges(look));
        assertTrue(Tool.run("blkid", "-p", file).ok().contains("PTTYPE=\"gpt\""));
        assertTrue(look.failed().contains("gpt.hybrid@462"));
        assertEquals(List.of(), look.serious());
    }

    @Test
    void grownDiskWithMovedBackup() throws Exception {
        String file = file("grown.img", 64 * Samples.MIB);
        sfdisk(file, GPT);
        file("grown.img", 80 * Samples.MIB);
        assertEquals(List.of("gpt.header.alternate-lba@544"), look(file, 0).serious());
        Tool.run("sfdisk", "--relocate", "gpt-bak-std", file).ok();
        Look moved = look(file, 0);
        assertEquals(bySfdisk(file), moved.partitions());
        assertEquals("163839", String.valueOf(moved.disk().maps().get(2).map().lba()));
        assertEquals(List.of(), moved.serious());
    }

    @Test
    void otherLabels() throws Exception {
        String mac = file("mac.img", 32 * Samples.MIB);
        Tool.run("parted", "-s", mac, "mklabel", "mac", "mkpart", "primary", "4MiB", "20MiB").ok();
        Look apple = look(mac, 0);
        assertEquals(byParted(mac, 512), ranges(apple));
        assertEquals(List.of(), apple.serious());
        for (String label : List.of("sun", "sgi")) {
            String file = file(label + ".img", 64 * Samples.MIB);
            sfdisk(file, "label: " + label + "\n");
            Look look = look(file, 0);
            assertEquals(label, look.disk().maps().get(0).map().kind());
            assertEquals(List.of(), look.serious());
            TreeSet<String> here = new TreeSet<>();
            look.disk().maps().get(0).map().entries().stream().map(MapEntry::range).forEach(r -> here.add(r.first() + "+" + r.count()));
            TreeSet<String> there = new TreeSet<>();
            bySfdisk(file).forEach(p -> there.add(p.substring(0, p.indexOf(' '))));
            assertEquals(there, here, label);
        }
    }

    @Test
    void bsdInASlice() throws Exception {
        String file = file("bsd.img", 64 * Samples.MIB);
        sfdisk(file, "label: dos\nstart=2048, size=100000, type=a5\n");
        Tool.run(Map.of(), "b\ny\nn\na\n2048\n40000\nt\na\n7\nw\n", 20, "fdisk", file);
        Look look = look(file, 0);
        assertEquals("bsd", look.disk().maps().get(1).map().kind());
        assertEquals(List.of(), look.of("bsd.label.xor").stream().filter(f -> f.severity() == Severity.AT_RISK).toList());
        List<String> here = new ArrayList<>(ranges(look));
        List<String> there = byPartx(file, 512);
        assertEquals(2, there.size());
        there.forEach(p -> assertTrue(here.contains(p), p + " in " + here));
    }

    @Test
    void volumesWithoutATable() throws Exception {
        for (String bits : List.of("12", "16", "32")) {
            String fat = file("fat" + bits + ".img", bits.equals("12") ? 4 << 20 : 64L << 20);
            Tool.run("mkfs.fat", "-F" + bits, "-i", "12345678", fat).ok();
            assertEquals(List.of(), look(fat, 0).disk().maps(), bits);
            String both = file("both" + bits + ".img", bits.equals("12") ? 4 << 20 : 64L << 20);
            Tool.run("mkfs.fat", "-F" + bits, "--mbr=y", "-i", "12345678", both).ok();
            Look look = look(both, 0);
            assertTrue(look.disk().maps().get(0).map().remark().startsWith("ambiguous"), bits);
            assertEquals(List.of("mbr.ambiguous@0"), look.failed(), bits);
            assertEquals(List.of(), look.partitions(), bits);
        }
        String ntfs = file("ntfs.img", 16 << 20);
        Tool.run("mkfs.ntfs", "-F", "-Q", "-q", ntfs).ok();
        assertEquals(List.of(), look(ntfs, 0).disk().maps());
    }
}
