package sectorglass.fat;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
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

/** Volumes that mkfs.fat and mtools make, the same bytes on every run, and their verdicts. */
final class Volumes {

    private static final Map<String, String> CLEAN = Map.of("TZ", "UTC", "SOURCE_DATE_EPOCH", "1700000000", "MTOOLS_SKIP_CHECK", "0");
    static final RuleBook RULES = new RuleBook(List.of(new FatRules()), Locale.ENGLISH);
    private static Path folder;

    private Volumes() {
    }

    /** f12, f16, f32, f12k, f16k or f32k: a label, SUBDIR, four files, one deleted file. */
    static synchronized Path make(String name) {
        Tool.require("mkfs.fat", "mmd", "mcopy", "mdel");
        try {
            if (folder == null) {
                folder = Files.createTempDirectory("fat-volumes");
                files(folder);
            }
            Path image = folder.resolve(name + ".img");
            if (!Files.exists(image)) {
                build(name, image);
            }
            return image;
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static void files(Path into) throws IOException {
        byte[] longFile = new byte[5000];
        for (int i = 0; i < longFile.length; i++) {
            longFile[i] = (byte) (i * 7 + i / 256);
        }
        Files.writeString(into.resolve("hello.txt"), "Hello, sector world!\n");
        Files.write(into.resolve("long.bin"), longFile);
        Files.writeString(into.resolve("empty.dat"), "");
        Files.writeString(into.resolve("deep.txt"), "deep\n");
        for (String file : List.of("hello.txt", "long.bin", "empty.dat", "deep.txt")) {
            run("touch", "-d", "2020-02-29 12:34:57", into.resolve(file).toString());
        }
    }

    private static void build(String name, Path image) throws IOException {
        String[] made = switch (name) {
            case "f12" -> new String[] {"12", "512", "1440", "1"};
            case "f16" -> new String[] {"16", "512", "16384", "4"};
            case "f32" -> new String[] {"32", "512", "40960", "1"};
            case "f12k" -> new String[] {"12", "4096", "8192", "1"};
            case "f16k" -> new String[] {"16", "4096", "65536", "2"};
            case "f32k" -> new String[] {"32", "4096", "270336", "1"};
            default -> throw new IllegalArgumentException(name);
        };
        String file = image.toString();
        run("truncate", "-s", made[2] + "K", file);
        run("mkfs.fat", "-F", made[0], "-S", made[1], "-i", "1234ABCD", "-n", "TESTVOL", "--invariant", "-s", made[3], file);
        run("mmd", "-i", file, "::/SUBDIR");
        copy(file, "hello.txt", "::/HELLO.TXT");
        copy(file, "long.bin", "::/A Long File Name.bin");
        copy(file, "empty.dat", "::/EMPTY.DAT");
        copy(file, "deep.txt", "::/SUBDIR/deeper note.txt");
        copy(file, "hello.txt", "::/GONE.TXT");
        run("mdel", "-i", file, "::/GONE.TXT");
    }

    private static void copy(String image, String from, String to) {
        run("mcopy", "-m", "-i", image, folder.resolve(from).toString(), to);
    }

    private static void run(String... command) {
        Tool.run(CLEAN, null, 30, command).ok();
    }

    /** Sector size of a volume of that name. */
    static int sectorSize(String name) {
        return name.endsWith("k") ? 4096 : 512;
    }

    /** The volume with its sectors, to be damaged. */
    static DiskFile open(String name) {
        return DiskFile.open(make(name), sectorSize(name));
    }

    /** The volume that fills the image. */
    static FatVolume volume(SectorImage image) {
        VolumeSite site = new VolumeSite(image, image.all(), null);
        Claim claim = new FatVolumeProvider().recognise(site).orElseThrow(() -> new AssertionError("not recognised"));
        return (FatVolume) new FatVolumeProvider().open(claim);
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
            text.append(f.check()).append(' ').append(f.severity() == null ? f.verdict().word() + " " + f.missing() + " " + f.reason() : f.severity().word())
                    .append(" @").append(f.where().start()).append('+').append(f.where().length())
                    .append(' ').append(f.stored()).append(" | ").append(f.computed()).append('\n');
        }
        return text.toString();
    }
}
