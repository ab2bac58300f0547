package sectorglass.ext;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;

import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

import sectorglass.disk.Allocation;
import sectorglass.disk.Content;
import sectorglass.disk.FileTree;
import sectorglass.disk.Volume;
import sectorglass.image.Progress;
import sectorglass.image.SectorRanges;
import sectorglass.testkit.Tool;
import sectorglass.testvolumes.DiskFile;
import sectorglass.testvolumes.Judged;

/**
 * Volumes of many shapes that mke2fs fills from a folder, held against what stands in the folder, against dumpe2fs, debugfs and e2fsck.
 */
class LiveVolumesTest {
    @TempDir
    static Path folder;
    private static Path source;

    @BeforeAll
    static void files() throws IOException {
        Tool.require("mke2fs", "debugfs", "dumpe2fs", "e2fsck");
        source = folder.resolve("source");
        Random random = new Random(9);
        for (int i = 0; i < 60; i++) {
            Path at = source.resolve(i % 3 == 0 ? "." : i % 3 == 1 ? "letters" : "letters/older/still older").resolve("file " + i + (i % 4 == 0 ? " äöü.txt" : ".bin"));
            Files.createDirectories(at.getParent());
            byte[] bytes = new byte[i * i * 37];
            random.nextBytes(bytes);
            Files.write(at, bytes);
        }
        byte[] big = new byte[2_000_000];
        random.nextBytes(big);
        Files.write(source.resolve("letters/big.bin"), big);
        Files.createLink(source.resolve("the same"), source.resolve("letters/big.bin"));
        Files.createSymbolicLink(source.resolve("short link"), Path.of("letters/big.bin"));
        Files.createSymbolicLink(source.resolve("long link"), Path.of("letters/" + "very-".repeat(20) + "long"));
        Files.createDirectories(source.resolve("empty folder"));
        try (RandomAccessFile sparse = new RandomAccessFile(source.resolve("sparse.bin").toFile(), "rw")) {
            for (int i = 0; i < 20; i++) {
                sparse.seek(i * 150_000L);
                sparse.write(big, i * 5000, 5000);
            }
        }
        Path many = Files.createDirectories(source.resolve("many"));
        for (int i = 0; i < 700; i++) {
            Files.createFile(many.resolve("a file with a name of some length, number " + i));
        }
    }

    private static Path make(String options) throws IOException {
        Path image = Files.createTempFile(folder, "volume", ".img");
        List<String> command = new ArrayList<>(List.of("mke2fs", "-q", "-F", "-L", "LIVE", "-N", "2048"));
        command.addAll(List.of(options.split(" ")));
        command.addAll(List.of("-d", source.toString(), image.toString(), "32M"));
        Tool.run(Map.of(), null, 60, command.toArray(String[]::new)).ok();
        // hash trees of the large folder; the status says that something was changed
        Tool.run(Map.of(), null, 60, "e2fsck", "-fyD", image.toString());
        assertEquals(0, Tool.run(Map.of(), null, 60, "e2fsck", "-fn", image.toString()).status());
        return image;
    }

    @ParameterizedTest
    @ValueSource(strings = {"-t ext4 -b 1024", "-t ext4 -b 2048 -O inline_data", "-t ext4 -b 4096 -O ^extents,^64bit", "-t ext4 -b 1024 -O meta_bg,^resize_inode",
        "-t ext4 -b 4096 -O bigalloc -C 16384", "-t ext4 -b 65536", "-t ext2 -b 1024", "-t ext3 -b 2048 -I 128",
        "-t ext4 -b 1024 -O encrypt,casefold,ea_inode,project,orphan_file -I 512", "-t ext4 -b 1024 -O mmp,metadata_csum_seed -I 1024",
        "-t ext4 -b 4096 -O ^flex_bg,uninit_bg,^metadata_csum", "-t ext4 -b 1024 -O sparse_super2,^sparse_super,^resize_inode -g 2048",
        "-t ext4 -b 2048 -O large_dir,^dir_index,^has_journal,^sparse_super,^resize_inode"})
    void everythingIsAsItWasPutInAndAsTheToolsSay(String options) throws IOException {
        Path image = make(options);
        try (DiskFile disk = DiskFile.of(image)) {
            Judged judged = Forced.full(disk);
            assertEquals("", judged.text());
            Volume volume = judged.volume();
            contents(volume);
            places(volume, image);
            free(volume, image);
        }
        Files.delete(image);
    }

    /** Every file and folder is there under its name, with its bytes; nothing else but what mke2fs makes itself. */
    private static void contents(Volume volume) throws IOException {
        sectorglass.disk.Files files = volume.capability(sectorglass.disk.Files.class).orElseThrow();
        FileTree tree = files.tree(Progress.NONE);
        assertTrue(tree.unreadMetadata().isEmpty());
        TreeSet<String> wanted = new TreeSet<>(List.of("lost+found"));
        try (Stream<Path> all = Files.walk(source)) {
            for (Path path : all.filter(p -> !p.equals(source)).toList()) {
                String name = source.relativize(path).toString();
                wanted.add(name);
                int id = tree.find(name).orElseThrow(() -> new AssertionError(name));
                assertEquals(Files.isDirectory(path, LinkOption.NOFOLLOW_LINKS), tree.folder(id), name);
                if (!tree.folder(id)) {
                    byte[] expected = Files.isSymbolicLink(path) ? Files.readSymbolicLink(path).toString().getBytes(StandardCharsets.UTF_8)
                            : Files.readAllBytes(path);
                    Content content = files.content(id, "");
                    byte[] bytes = new byte[(int) content.bytes()];
                    assertEquals(List.of(), content.read(0, bytes, 0, bytes.length), name);
                    assertArrayEquals(expected, bytes, name);
                    assertEquals(expected.length, tree.bytes(id), name);
                    assertEquals(Files.getLastModifiedTime(path, LinkOption.NOFOLLOW_LINKS).toInstant().getEpochSecond(),
                            tree.entry(id).times().modified().instant(java.time.ZoneOffset.UTC).getEpochSecond(), name);
                }
            }
        }
        TreeSet<String> found = new TreeSet<>();
        tree.walk(tree.root(), (id, depth) -> {
            if (id != tree.root() && !tree.deleted(id)) {
                found.add(tree.path(id));
            }
            return true;
        });
        assertEquals(wanted, found);
    }

    /** The blocks of files are those that debugfs names, and so are their inodes. */
    private static void places(Volume volume, Path image) throws IOException {
        Layout layout = ((ExtVolume) volume).layout();
        Groups groups = ((ExtVolume) volume).groups();
        FileTree tree = volume.capability(sectorglass.disk.Files.class).orElseThrow().tree(Progress.NONE);
        List<String> names = List.of("letters/big.bin", "sparse.bin", "many", "letters/older/still older/file 59.bin", "lost+found");
        StringBuilder script = new StringBuilder();
        names.forEach(name -> script.append("blocks \"").append(name).append("\"\nstat \"").append(name).append("\"\n"));
        Path commands = Files.writeString(folder.resolve("commands.txt"), script);
        String[] parts = Tool.run(Map.of(), null, 20, "debugfs", "-f", commands.toString(), image.toString()).ok().split("debugfs: (?=blocks|stat)");
        for (int i = 0; i < names.size(); i++) {
            long number = tree.number(tree.find(names.get(i)).orElseThrow());
            Matcher stat = Pattern.compile("Inode: (\\d+).*?Links: (\\d+)\\s+Blockcount: (\\d+)", Pattern.DOTALL).matcher(parts[2 * i + 2]);
            assertTrue(stat.find(), parts[2 * i + 2]);
            assertEquals(Long.parseLong(stat.group(1)), number, names.get(i));
            Inode inode = new Inode(number, layout.site.window(groups.inode(number), layout.sb.inodeSize()));
            assertEquals(Long.parseLong(stat.group(2)), inode.links(), names.get(i));
            assertEquals(Long.parseLong(stat.group(3)), inode.sectors(layout.sb), names.get(i));
            TreeSet<Long> expected = new TreeSet<>();
            Pattern.compile("\\d+").matcher(parts[2 * i + 1].substring(parts[2 * i + 1].indexOf('\n'))).results().forEach(r -> expected.add(Long.valueOf(r.group())));
            TreeSet<Long> found = new TreeSet<>();
            BlockMap map = Maps.of(layout, inode);
            map.runs.forEach(run -> {
                for (long b = run.physical(); b < run.physical() + run.count(); b++) {
                    found.add(b);
                }
            });
            found.addAll(map.nodes);
            assertFalse(expected.isEmpty(), parts[2 * i + 1]);
            assertEquals(expected, found, names.get(i));
        }
    }

    /** Free blocks are exactly those that dumpe2fs lists; counts and places of every group agree with its words. */
    private static void free(Volume volume, Path image) {
        String text = Tool.run("dumpe2fs", image.toString()).ok();
        Layout layout = ((ExtVolume) volume).layout();
        Groups groups = ((ExtVolume) volume).groups();
        Allocation allocation = volume.capability(Allocation.class).orElseThrow();
        SectorRanges.Builder free = new SectorRanges.Builder();
        TreeMap<Long, Long> runs = new TreeMap<>();
        Matcher lists = Pattern.compile("^  Free blocks: (.+)$", Pattern.MULTILINE).matcher(text);
        while (lists.find()) {
            for (String run : lists.group(1).split(", ")) {
                String[] ends = run.split("-");
                runs.put(Long.valueOf(ends[0]), Long.valueOf(ends[ends.length - 1]));
            }
        }
        // of clusters, the first block is named
        int per = layout.blockSize / 512;
        int ratio = layout.sb.clusterRatio();
        runs.forEach((first, last) -> free.add(first * per, (last - first + ratio) * per));
        assertEquals(free.build(), allocation.free());
        Matcher group = Pattern.compile("^Group (\\d+): .*?Block bitmap at (\\d+).*?Inode bitmap at (\\d+).*?Inode table at (\\d+).*?(\\d+) free (?:blocks|clusters), (\\d+)"
                + " free inodes, (\\d+) directories", Pattern.MULTILINE | Pattern.DOTALL).matcher(text);
        int seen = 0;
        while (group.find()) {
            Group found = groups.get(Long.parseLong(group.group(1)));
            assertEquals(List.of(group.group(2), group.group(3), group.group(4), group.group(5), group.group(6), group.group(7)),
                    Stream.of(found.blockBitmap(), found.inodeBitmap(), found.inodeTable(), found.freeBlocks(), found.freeInodes(), found.directories())
                            .map(String::valueOf).toList());
            seen++;
        }
        assertEquals(layout.groups, seen);
    }

    /** What debugfs calls deleted is listed as deleted, with number and size. */
    @ParameterizedTest
    @ValueSource(strings = {"-t ext4 -b 1024", "-t ext2 -b 1024", "-t ext3 -b 4096"})
    void deletedInodesAreThoseOfDebugfs(String options) throws IOException {
        Path image = make(options);
        StringBuilder script = new StringBuilder();
        for (String name : List.of("letters/file 31.bin", "letters/file 46.bin", "file 57.bin", "letters/older/still older/file 59.bin", "the same")) {
            script.append("rm \"").append(name).append("\"\n");
        }
        Path commands = Files.writeString(folder.resolve("removals.txt"), script);
        Tool.run(Map.of(), null, 20, "debugfs", "-w", "-f", commands.toString(), image.toString()).ok();
        TreeSet<String> expected = new TreeSet<>();
        for (String line : Tool.run("debugfs", "-R", "lsdel", image.toString()).ok().split("\n")) {
            Matcher row = Pattern.compile("^\\s*(\\d+)\\s+\\d+\\s+\\d+\\s+(\\d+)\\s").matcher(line);
            if (row.find()) {
                expected.add(row.group(1) + " " + row.group(2));
            }
        }
        assertTrue(expected.size() >= 4, expected.toString());
        try (DiskFile disk = DiskFile.of(image)) {
            sectorglass.disk.Files files = Forced.open(disk).capability(sectorglass.disk.Files.class).orElseThrow();
            FileTree tree = files.tree(Progress.NONE);
            TreeSet<String> found = new TreeSet<>();
            tree.walk(tree.root(), (id, depth) -> {
                if (tree.deleted(id) && !tree.folder(id)) {
                    found.add(tree.number(id) + " " + tree.bytes(id));
                }
                return true;
            });
            assertEquals(expected, found);
            // name and bytes are still there
            int id = tree.find("letters/file 46.bin").orElseThrow();
            assertTrue(tree.deleted(id));
            Content content = files.content(id, "");
            byte[] bytes = new byte[(int) content.bytes()];
            assertEquals(List.of(), content.read(0, bytes, 0, bytes.length));
            assertArrayEquals(Files.readAllBytes(source.resolve("letters/file 46.bin")), bytes);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        Files.delete(image);
    }
}
