package sectorglass.fat;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTimeoutPreemptively;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.File;
import java.nio.ByteBuffer;
import java.nio.file.Path;
import java.time.Duration;
import java.time.ZoneId;
import java.util.Map;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.zip.CRC32;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

import de.waldheinz.fs.FileSystem;
import de.waldheinz.fs.FileSystemFactory;
import de.waldheinz.fs.FsDirectory;
import de.waldheinz.fs.FsDirectoryEntry;
import de.waldheinz.fs.util.FileDisk;

import sectorglass.disk.Content;
import sectorglass.disk.FileTree;
import sectorglass.disk.Files;
import sectorglass.disk.VolumeInfo;
import sectorglass.image.Progress;
import sectorglass.testkit.Corpus;
import sectorglass.testkit.Tool;
import sectorglass.testvolumes.DiskFile;

/** Other readers see the same: the library fat32-lib 0.6.5, mtools 4.0.32, dosfstools 4.2, blkid. */
class DifferentialTest {

    /** Path to "size crc time", as this product reads them. */
    private static Map<String, String> ours(Path image, int sectorSize) {
        Files files = Volumes.volume(DiskFile.open(image, sectorSize)).capability(Files.class).orElseThrow();
        FileTree tree = files.tree(Progress.NONE);
        Map<String, String> all = new TreeMap<>();
        tree.walk(tree.root(), (entry, depth) -> {
            if (!tree.deleted(entry) && !tree.folder(entry) && entry != tree.withoutFolder()) {
                Content content = files.content(entry, "");
                byte[] bytes = new byte[(int) content.bytes()];
                content.read(0, bytes, 0, bytes.length);
                String time = tree.modified(entry) == null ? "none" : String.valueOf(tree.modified(entry).instant(ZoneId.systemDefault()).toEpochMilli());
                all.put(tree.path(entry), bytes.length + " " + crc(bytes) + " " + time);
            }
            return true;
        });
        return all;
    }

    private static String crc(byte[] bytes) {
        CRC32 crc = new CRC32();
        crc.update(bytes);
        return Long.toHexString(crc.getValue());
    }

    private static Map<String, String> theirs(File image) throws Exception {
        Map<String, String> all = new TreeMap<>();
        FileDisk disk = new FileDisk(image, true);
        FileSystem system = FileSystemFactory.create(disk, true);
        theirs(system.getRoot(), "", all);
        disk.close();
        return all;
    }

    private static void theirs(FsDirectory directory, String path, Map<String, String> all) throws Exception {
        for (FsDirectoryEntry entry : directory) {
            String name = entry.getName();
            if (name.equals(".") || name.equals("..")) {
                continue;
            }
            if (entry.isDirectory()) {
                theirs(entry.getDirectory(), path + name + "/", all);
            } else {
                ByteBuffer bytes = ByteBuffer.allocate((int) entry.getFile().getLength());
                if (bytes.capacity() > 0) {
                    entry.getFile().read(0, bytes);
                }
                all.put(path + name, bytes.capacity() + " " + crc(bytes.array()) + " " + entry.getLastModified());
            }
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"f12", "f16", "f32", "f12k", "f16k", "f32k"})
    void aLibraryListsTheSameFilesContentsAndTimes(String name) {
        Path image = Volumes.make(name);
        Map<String, String> theirs = assertTimeoutPreemptively(Duration.ofSeconds(20), () -> theirs(image.toFile()));
        assertEquals(4, theirs.size());
        assertEquals(upper(theirs), upper(ours(image, Volumes.sectorSize(name))));
    }

    @ParameterizedTest
    @ValueSource(strings = {"tree-fat12", "tree-fat16"})
    void aLibraryListsTheSameTrees(String name, @org.junit.jupiter.api.io.TempDir Path folder) {
        Path image = Corpus.unpack(Corpus.folder("fat-volumes").resolve(name + ".img.xz"), folder);
        Map<String, String> theirs = assertTimeoutPreemptively(Duration.ofSeconds(20), () -> theirs(image.toFile()));
        assertTrue(theirs.size() > 2, theirs.toString());
        assertEquals(upper(theirs), upper(ours(image, 512)));
    }

    /** The library gives short names in other capitals. */
    private static Map<String, String> upper(Map<String, String> all) {
        Map<String, String> upper = new TreeMap<>();
        all.forEach((path, value) -> upper.put(path.toUpperCase(java.util.Locale.ROOT), value));
        return upper;
    }

    /** minfo prints the boot sector in words. */
    @ParameterizedTest
    @CsvSource({"f12,2880,9", "f16,32768,32", "f32,81920,630"})
    void minfoGivesTheSameNumbers(String name, long sectors, long fatSectors) {
        String text = Tool.run("minfo", "-i", Volumes.make(name).toString(), "::").ok();
        Geometry geometry = Volumes.volume(Volumes.open(name)).found().geometry();
        assertTrue(text.contains("sector size: " + geometry.sectorBytes() + " bytes"), text);
        assertTrue(text.contains("cluster size: " + geometry.clusterSectors() + " sectors"), text);
        assertTrue(text.contains("reserved (boot) sectors: " + geometry.firstFat()), text);
        assertTrue(text.contains("fats: " + geometry.fats()), text);
        assertTrue(text.contains("serial number: 1234ABCD"), text);
        assertTrue(text.contains("sectors per fat: " + fatSectors) || text.contains("Big fatlen=" + fatSectors), text);
        assertEquals(sectors, geometry.totalSectors());
        assertEquals(fatSectors, geometry.fatSectors());
    }

    /** fsck.fat -n -v prints every derived number. */
    @ParameterizedTest
    @ValueSource(strings = {"f12", "f16", "f32", "f12k", "f16k", "f32k"})
    void fsckGivesTheSameNumbers(String name) {
        String text = Tool.run("fsck.fat", "-n", "-v", Volumes.make(name).toString()).ok();
        FatVolume volume = Volumes.volume(Volumes.open(name));
        Geometry geometry = volume.found().geometry();
        assertTrue(text.contains("First FAT starts at byte " + geometry.fatByte(0) + " "), text);
        assertTrue(text.contains(geometry.kind().bits() + " bit entries"), text);
        assertTrue(text.contains("Data area starts at byte " + geometry.clusterByte(2) + " "), text);
        assertTrue(text.contains(geometry.clusters() + " data clusters"), text);
        Matcher used = Pattern.compile("files, (\\d+)/(\\d+) clusters").matcher(text);
        assertTrue(used.find(), text);
        assertEquals(volume.info().usedBytes() / geometry.clusterBytes(), Long.parseLong(used.group(1)));
    }

    /** Thresholds of the type: mkfs.fat on files of exactly so many sectors; fsck.fat says the width. */
    @ParameterizedTest
    @CsvSource({"12,4141,4084,fat12", "16,66069,65524,fat16", "32,66580,65524,fat32", "32,66581,65525,fat32"})
    void theTypeFollowsTheCount(int bits, long sectors, long clusters, String kind, @org.junit.jupiter.api.io.TempDir Path folder) {
        Path image = folder.resolve("t.img");
        Tool.run("truncate", "-s", String.valueOf(sectors * 512), image.toString()).ok();
        Tool.run("mkfs.fat", "-a", "-s", "1", "-F", String.valueOf(bits), image.toString()).ok();
        FatVolume volume = Volumes.volume(DiskFile.open(image, 512));
        assertEquals(clusters, volume.found().geometry().clusters());
        assertEquals(kind, volume.info().kind());
        boolean contradiction = Volumes.check(DiskFile.open(image, 512), sectorglass.disk.Level.QUICK).listed().stream()
                .anyMatch(f -> f.check().equals("fat.type-by-count"));
        assertEquals(bits == 32 && clusters < 65525, contradiction);
    }

    @ParameterizedTest
    @ValueSource(strings = {"f12", "f16", "f32", "f32k"})
    void blkidGivesTheSameNames(String name) {
        String text = Tool.run("blkid", "-p", Volumes.make(name).toString()).ok();
        VolumeInfo info = Volumes.volume(Volumes.open(name)).info();
        assertTrue(text.contains("LABEL=\"" + info.label() + "\"") && text.contains("UUID=\"" + info.serial() + "\""), text);
        assertTrue(text.contains("VERSION=\"" + info.kind().toUpperCase(java.util.Locale.ROOT) + "\""), text);
    }

    @Test
    void mdirListsTheSameFiles() {
        String text = Tool.run("mdir", "-a", "-/", "-b", "-i", Volumes.make("f32").toString(), "::").ok();
        for (String path : ours(Volumes.make("f32"), 512).keySet()) {
            assertTrue(text.contains("::/" + path), path + " is not in\n" + text);
        }
    }
}
